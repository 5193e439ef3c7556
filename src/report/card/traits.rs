//! Traits as they were read last, in words.

use super::answer::TraitSeen;
use crate::analysis::card::{self, Siblings};
use crate::observation::series::Comparable;
use crate::observation::trait_unit::TraitUnit;
use crate::record::PitcherType;
use crate::registry::Registry;
use crate::wording::{counted, days};

/// One trait in words.
pub fn trait_seen(registry: &Registry, of: &card::TraitSeen) -> TraitSeen {
    let siblings = of.siblings.as_ref();
    TraitSeen {
        name: of.unit.name.clone(),
        value: value_words(&of.unit, of.last.value),
        when: circumstances(registry, &of.last, &of.unit),
        siblings: siblings.map(|siblings| siblings_words(&of.unit, siblings)),
    }
}

/// A length in both units, a step with its anchor, a kind by its name.
fn value_words(unit: &TraitUnit, value: f64) -> String {
    let shown = unit.words(unit.shown(value));
    let step = unit.kinds.as_ref().filter(|_| unit.is_scale);
    if let Some(anchors) = step {
        let at = (value as usize).checked_sub(1);
        return at.and_then(|at| anchors.get(at).cloned()).unwrap_or(shown);
    }
    match unit.unit {
        "cm" | "mm" => format!("{shown} ({:.1} in)", value / 2.54),
        "in" => format!("{shown} ({value:.1} cm)"),
        _ => shown,
    }
}

/// The day, the kind of pitcher and the method.
fn circumstances(registry: &Registry, last: &Comparable, unit: &TraitUnit) -> String {
    let pitcher = last
        .pitcher
        .filter(|_| unit.of_pitcher)
        .map(|kind| match kind {
            PitcherType::Juvenile => "juvenile pitcher",
            PitcherType::Lower => "lower pitcher",
            PitcherType::Intermediate => "intermediate pitcher",
            PitcherType::Upper => "upper pitcher",
        });
    let unknown = (unit.of_pitcher && pitcher.is_none()).then_some("kind of pitcher not recorded");
    let sitting = &registry[last.sitting].sitting;
    let mut parts = vec![days(last.when)];
    parts.extend(
        last.doubtful
            .then(|| "doubtful: the plant was still small".to_owned()),
    );
    parts.extend(pitcher.or(unknown).map(str::to_owned));
    parts.extend(
        sitting
            .method
            .as_deref()
            .filter(|_| unit.is_measure())
            .map(str::to_owned),
    );
    parts.join(", ")
}

/// The range of siblings read on the same day at the same age, with how many they were.
fn siblings_words(unit: &TraitUnit, of: &Siblings) -> String {
    let plants = |n: usize| counted(n, "sibling", "siblings");
    let words = |value: f64| unit.words(unit.shown(value));
    match of {
        Siblings::Kinds { siblings, counts } => {
            let kind = |at: usize| unit.kinds.as_ref().and_then(|kinds| kinds.get(at));
            let counts = counts.iter();
            let counts = counts.filter_map(|(at, of)| Some(format!("{of} {}", kind(*at)?)));
            let counts: Vec<String> = counts.collect();
            format!("{}: {}", plants(*siblings), counts.join(", "))
        }
        Siblings::Range {
            siblings,
            least,
            most,
        } => match words(*least) == words(*most) {
            true => format!("{}: {}", plants(*siblings), words(*least)),
            false => format!(
                "{}: {} to {}",
                plants(*siblings),
                words(*least),
                words(*most)
            ),
        },
    }
}
