//! Traits as they were read last, beside what siblings of the same age showed.

use super::answer::TraitSeen;
use crate::lineage::PlantRow;
use crate::observation::scope::Scope;
use crate::observation::series::{Comparable, readings_of_traits};
use crate::observation::trait_unit::TraitUnit;
use crate::observation::traits::span_trait;
use crate::record::PitcherType;
use crate::registry::Registry;
use crate::wording::{counted, days};

/// The last comparable reading of every declared trait, in the order of declaration.
pub fn traits(registry: &Registry, plant: PlantRow) -> Vec<TraitSeen> {
    let wanted = vec![true; registry.settings.traits.len()];
    let own = readings_of_traits(registry, &[plant], wanted.clone());
    let siblings = siblings_of(registry, plant);
    let all = readings_of_traits(registry, &siblings, wanted);
    let lists = registry.trait_rows().zip(own.into_iter().zip(all));
    lists
        .filter_map(|(index, (own, all))| {
            let last = own.by_day().last()?;
            let unit = TraitUnit::shown_in(registry, index);
            let like = |of: &Comparable| {
                of.plant != plant
                    && of.sitting == last.sitting
                    && of.age == last.age
                    && of.pitcher == last.pitcher
            };
            let alike: Vec<f64> = all.by_day().filter(like).map(|of| of.value).collect();
            Some(TraitSeen {
                code: unit.code.clone(),
                name: unit.name.clone(),
                value: value_words(&unit, last.value),
                when: circumstances(registry, &last, &unit),
                siblings: range(&unit, &alike),
            })
        })
        .collect()
}

/// The code of the trait that is the size of a plant.
pub fn size_code<'t>(registry: &Registry<'t>) -> Option<&'t str> {
    span_trait(registry).map(|index| registry[index].code)
}

/// The other seedlings that are surely of its cross.
fn siblings_of(registry: &Registry, plant: PlantRow) -> Vec<PlantRow> {
    let is_muddled = !registry.pods_it_may_be_of(plant).is_empty();
    let Some(cross) = registry.cross_of(plant).filter(|_| !is_muddled) else {
        return Vec::new();
    };
    let scope = Scope {
        cross,
        pod: None,
        sowing: None,
    };
    scope.seedlings(registry).0
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
fn range(unit: &TraitUnit, values: &[f64]) -> Option<String> {
    let (first, rest) = values.split_first()?;
    let n = counted(values.len(), "sibling", "siblings");
    if unit.kinds.is_some() && !unit.is_scale {
        let kinds = unit.kinds.as_ref()?.iter().enumerate();
        let counts = kinds.filter_map(|(at, kind)| {
            let of = values.iter().filter(|value| **value as usize == at).count();
            (of > 0).then(|| format!("{of} {kind}"))
        });
        return Some(format!("{n}: {}", counts.collect::<Vec<_>>().join(", ")));
    }
    let (least, most) = rest.iter().fold((*first, *first), |(least, most), value| {
        (least.min(*value), most.max(*value))
    });
    let words = |value: f64| unit.words(unit.shown(value));
    Some(match words(least) == words(most) {
        true => format!("{n}: {}", words(least)),
        false => format!("{n}: {} to {}", words(least), words(most)),
    })
}
