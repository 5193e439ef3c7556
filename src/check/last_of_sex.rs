//! Was the only candidate of one sex of a cross culled?
//!
//! A line goes on only with both sexes, so a cull that leaves a cross without one is reported, however good its reason.

use super::context::{CheckContext, fate_words};
use crate::diagnostic::{Code, Finding};
use crate::observation::{Presence, SexSeen, presence, sex_seen};
use crate::record::{Fate, Sex};
use crate::registry::{CrossRow, PlantRow};

/// The note for each sex of a cross of which nothing is left since the last plant of it was culled.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let seedlings = &context.cross(cross).seedlings;
    if !seedlings.iter().any(|&plant| is_culled(context, plant)) {
        return Vec::new();
    }
    let here: Vec<SexSeen> = seedlings
        .iter()
        .filter(|&&plant| presence(context.registry, plant, context.today) == Presence::Here)
        .map(|&plant| sex_seen(context.registry, plant))
        .collect();
    if here.is_empty() {
        // The whole cross was given up.
        return Vec::new();
    }
    let sexes = [Sex::Female, Sex::Male].into_iter();
    let lost = sexes.filter(|&sex| {
        !here
            .iter()
            .any(|seen| is_of(*seen, sex) || *seen == SexSeen::MixedUp)
    });
    lost.filter_map(|sex| note(context, cross, sex, &here))
        .collect()
}

fn is_culled(context: &CheckContext, plant: PlantRow) -> bool {
    matches!(context.registry.fate(plant), Some(Fate::Culled { .. }))
}

fn is_of(seen: SexSeen, wanted: Sex) -> bool {
    matches!(seen, SexSeen::Certain(sex) | SexSeen::Guess(sex, _) if sex == wanted)
}

fn note(context: &CheckContext, cross: CrossRow, sex: Sex, here: &[SexSeen]) -> Option<Finding> {
    let registry = context.registry;
    let seedlings = context.cross(cross).seedlings.iter().copied();
    let culled: Vec<PlantRow> = seedlings
        .filter(|&plant| is_culled(context, plant) && is_of(sex_seen(registry, plant), sex))
        .collect();
    let when = |plant: &PlantRow| {
        let fate = registry.fate(*plant);
        fate.map(|fate| registry.when(fate_words(fate).1))
    };
    let last = *culled.iter().max_by_key(|plant| (when(plant), **plant))?;
    let word = if sex == Sex::Female { "female" } else { "male" };
    let codes: Vec<String> = culled.iter().map(|&plant| registry.code(plant)).collect();
    let unsexed = here
        .iter()
        .filter(|seen| **seen == SexSeen::Unsexed)
        .count();
    let code = context.page(cross).code;
    let (_, on) = fate_words(registry.fate(last)?);
    let place = context.span(context.cross(cross).file, on);
    Some(
        Finding::note(
            Code("only-one-of-sex-culled"),
            format!(
                "no {word} of {code} is left since {} was culled",
                registry.code(last)
            ),
        )
        .at(place.or_else(|| registry.place(last)))
        .found(format!("{word} and culled: {}", codes.join(", ")))
        .needed(format!(
            "a {word} plant of {code}, if this cross is to be bred within itself"
        ))
        .help(match unsexed {
            0 => "no seedling here is left unsexed".to_owned(),
            1 => "1 seedling here is not sexed yet: it may be one".to_owned(),
            n => format!("{n} seedlings here are not sexed yet: one of them may be one"),
        }),
    )
}
