//! Traits as they were read last, in words.

use super::answer::TraitSeen;
use crate::analysis::card::{self, Siblings, Typed};
use crate::observation::asked_columns::unit_word;
use crate::observation::series::Comparable;
use crate::observation::trait_unit::TraitUnit;
use crate::record::{LengthUnit, PitcherType};
use crate::registry::Registry;
use crate::wording::{counted, days, from_to, joined, led_by};

/// One trait in words.
pub fn trait_seen(registry: &Registry, of: &card::TraitSeen) -> TraitSeen {
    let siblings = of.siblings.as_ref();
    TraitSeen {
        name: of.unit.name.clone(),
        value: value_words(of),
        when: circumstances(registry, &of.last, &of.unit),
        siblings: siblings.map(|siblings| siblings_words(&of.unit, siblings)),
    }
}

/// A length as typed, in inches or in the unit of the trait, then in the other unit; a step with its anchor, a kind by its
/// name, any other value as typed.
fn value_words(of: &card::TraitSeen) -> String {
    let (unit, value) = (&of.unit, of.last.value);
    let shown = unit.bare_words(unit.shown(value));
    let step = unit.kinds.as_ref().filter(|_| unit.is_scale);
    if let Some(anchors) = step {
        let at = (value as usize).checked_sub(1);
        return at.and_then(|at| anchors.get(at).cloned()).unwrap_or(shown);
    }
    let is_shown = |typed: &&Typed| match typed.unit {
        Some(LengthUnit::In) | None => true,
        Some(of) => unit_word(of) == unit.unit,
    };
    let typed = of
        .typed
        .as_ref()
        .filter(|_| unit.is_measure())
        .filter(is_shown);
    let in_inches = match typed.and_then(|typed| typed.unit) {
        Some(typed) => typed == LengthUnit::In,
        None => unit.unit == "in",
    };
    let text = typed.map_or(shown, |typed| typed.text.clone());
    match unit.unit {
        "" => text,
        _ if in_inches => format!("{text} ({value:.1} cm)"),
        _ => format!("{text} ({:.1} in)", value / 2.54),
    }
}

/// The day, the kind of pitcher and the method.
fn circumstances(registry: &Registry, last: &Comparable, unit: &TraitUnit) -> String {
    let pitcher = match last.pitcher.filter(|_| unit.of_pitcher) {
        Some(PitcherType::Juvenile) => Some("juvenile pitcher"),
        Some(PitcherType::Lower) => Some("lower pitcher"),
        Some(PitcherType::Intermediate) => Some("intermediate pitcher"),
        Some(PitcherType::Upper) => Some("upper pitcher"),
        None => unit.of_pitcher.then_some("kind of pitcher not recorded"),
    };
    let doubtful = last
        .doubtful
        .then_some("doubtful: the plant was still small");
    let method = registry[last.sitting].sitting.method.as_deref();
    let method = method.filter(|_| unit.is_measure());
    let parts = [doubtful, pitcher, method];
    days(last.when) + &parts.map(|part| led_by(", ", part)).concat()
}

/// The range of siblings read on the same day at the same age, with how many they were.
fn siblings_words(unit: &TraitUnit, of: &Siblings) -> String {
    let plants = |n: usize| counted(n, "sibling", "siblings");
    let words = |value: f64| unit.bare_words(unit.shown(value));
    match of {
        Siblings::Kinds { siblings, counts } => {
            let kind = |at: usize| unit.kinds.as_ref().and_then(|kinds| kinds.get(at));
            let counts = counts.iter();
            let counts = counts.filter_map(|(at, of)| Some(format!("{of} {}", kind(*at)?)));
            format!("{}: {}", plants(*siblings), joined(counts, ", "))
        }
        Siblings::Range {
            siblings,
            least,
            most,
        } => {
            let range = from_to(words(*least), words(*most), " to ");
            format!("{}: {range}", plants(*siblings))
        }
    }
}
