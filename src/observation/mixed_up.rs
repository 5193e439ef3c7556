//! Seedlings that were mixed up and are not known apart yet: what was read of one may belong to another.
//!
//! Seedlings of several pods are in doubt about their parents as well, which their `one_of` says to every answer. Those of
//! one pod keep their parents, so the readings are all that is in doubt.

use crate::lineage::PlantRow;
use crate::observation::provenance::{sowings_it_may_be_of, stages};
use crate::observation::series::{Comparable, readings_of_traits};
use crate::observation::who_it_may_be::{further, is_mixed_up, pot_mixed_up};
use crate::record::When;
use crate::registry::{MixUp, MixedUp, Registry, SowingRow};
use crate::wording::{at_date, days, first_of, joined, joined_if_any, listed};
use std::collections::{BTreeMap, BTreeSet};

/// Mix-ups named one by one; of more only the number is given.
const NAMED: usize = 3;

/// What a buyer has to know of records older than a mix-up, or of a sowing that is not known for it; `None` where there is
/// nothing, or all is known apart.
pub fn mixed_up(registry: &Registry, plant: PlantRow) -> Option<String> {
    let words = in_doubt(registry, [plant]);
    let words = words.iter().map(|(_, muddle)| {
        let further = further(registry, plant, muddle).into_iter();
        let further: Vec<String> = further.map(|of| registry.code(of)).collect();
        let own = match muddle.with[..] {
            [_] => "either",
            _ => "any of them",
        };
        let whose = match &further[..] {
            [] => own.to_owned(),
            further => format!("{own}, or of {}", further.join(" or ")),
        };
        format!(
            "with {}, noticed {}: what was recorded before may be of {whose}",
            listed(&muddle.with),
            noticed(registry, muddle)
        )
    });
    let words: Vec<String> = words.collect();
    match words.is_empty() {
        false => Some(words.join("; ")),
        true => of_any_sowing(registry, plant),
    }
}

/// `with X20-01-2, noticed on 2022-12-01: it may be of either sowing`, also of the pots that it may have come out of; `None`
/// where its sowing is not in doubt.
fn of_any_sowing(registry: &Registry, plant: PlantRow) -> Option<String> {
    let which = match sowings_it_may_be_of(registry, plant).len() {
        0 | 1 => return None,
        2 => "either sowing".to_owned(),
        n => format!("any of {n} sowings"),
    };
    let with = |muddle: &MixUp| {
        format!(
            "with {}, noticed {}",
            listed(&muddle.with),
            noticed(registry, muddle)
        )
    };
    let own = registry.open_mix_ups(plant).map(with);
    let pot = pot_mixed_up(registry, plant).into_iter();
    let of_pot = pot.flat_map(|(pot, muddles)| {
        let pot = MixedUp::Pot(pot).code(registry);
        let of_pot = move |muddle| format!("in its pot {pot}, {}", with(muddle));
        muddles.into_iter().map(of_pot)
    });
    let words = joined_if_any(own.chain(of_pot), "; ")?;
    Some(format!("{words}: it may be of {which}"))
}

/// `mixed up with X20-01-2 since 2024-06-01`; `None` where it is not, or is settled.
pub fn mixed_up_since(registry: &Registry, plant: PlantRow) -> Option<String> {
    let words = registry.open_mix_ups(plant).map(|muddle| {
        let since = match registry.when(muddle.on) {
            When::UNKNOWN => ", on a day not recorded".to_owned(),
            when => format!(" since {}", days(when)),
        };
        format!("mixed up with {}{since}", listed(&muddle.with))
    });
    let words: Vec<String> = words.collect();
    (!words.is_empty()).then(|| words.join(", and "))
}

/// The sex of a plant whose flowers were seen before it was mixed up: `female or male: mixed up with X20-01-2 since
/// 2024-06-01`.
pub fn mixed_up_sex(registry: &Registry, plant: PlantRow) -> String {
    let since = mixed_up_since(registry, plant).unwrap_or_else(|| "mixed up".to_owned());
    format!("female or male: {since}")
}

/// What mix-ups make of some plants: [`readings_in_doubt`], and who may be of several sowings, whenever they were mixed up.
pub fn mix_ups(registry: &Registry, plants: impl IntoIterator<Item = PlantRow>) -> Vec<String> {
    let mixed_up = plants.into_iter().filter(|&of| is_mixed_up(registry, of));
    let plants: BTreeSet<PlantRow> = mixed_up.collect();
    let mut sentences = readings_in_doubt(registry, plants.iter().copied());
    sentences.extend(of_any_sowings(registry, plants));
    sentences
}

/// A sentence for each mix-up among some plants that came after something was recorded of them; of many the first few and
/// how many more.
pub fn readings_in_doubt(
    registry: &Registry,
    plants: impl IntoIterator<Item = PlantRow>,
) -> Vec<String> {
    let found = shared(registry, in_doubt(registry, plants));
    first_few(&found, |of| {
        let counts = match of.is_of_several {
            true => {
                "may be of another; which pod each came from is not known, so figures by age leave out all their readings"
            }
            false => "counts for the code it was recorded under, and may be of another",
        };
        format!("{}: what was recorded of them before {counts}", of.words())
    })
}

/// A sentence for those of some mixed-up plants that may be of the same several sowings of one pod.
fn of_any_sowings(registry: &Registry, plants: BTreeSet<PlantRow>) -> Vec<String> {
    let mut of_sowings: BTreeMap<(Vec<Option<SowingRow>>, bool), Vec<String>> = BTreeMap::new();
    let plants = plants.into_iter();
    for plant in plants.filter(|&of| registry.pods_it_may_be_of(of).is_empty()) {
        let mut sowings = sowings_it_may_be_of(registry, plant);
        sowings.sort_unstable();
        let is_own = registry.open_mix_ups(plant).next().is_some();
        let same = of_sowings.entry((sowings, is_own)).or_default();
        same.push(registry.code(plant));
    }
    of_sowings.retain(|(sowings, _), _| sowings.len() > 1);
    let sentence = |((sowings, is_own), codes): ((Vec<Option<SowingRow>>, bool), Vec<String>)| {
        let how = match (is_own, codes.len()) {
            (true, 1) => "was mixed up",
            (true, _) => "were mixed up",
            (false, 1) => "came out of a pot that was mixed up",
            (false, _) => "came out of pots that were mixed up",
        };
        let sowings = sowings.into_iter().map(|of| match of {
            Some(row) => format!("{}.{}", registry[row.cross].page.code, registry[row].code),
            None => "a sowing that is not on record".to_owned(),
        });
        format!(
            "{} {how}, and may be of {}",
            first_of(&codes, NAMED),
            joined(sowings, " or ")
        )
    };
    of_sowings.into_iter().map(sentence).collect()
}

/// A sentence for each mix-up of some plants that is not settled, for an answer that knows plants by their tags alone.
pub fn tags_in_doubt(
    registry: &Registry,
    plants: impl IntoIterator<Item = PlantRow>,
) -> Vec<String> {
    let found = shared(registry, unsettled(registry, plants));
    first_few(&found, |of| {
        let tags = match of.codes.len() {
            2 => "either tag may be on the other plant",
            _ => "the tag of each may be on another of them",
        };
        format!("{}: {tags}", of.words())
    })
}

/// A mix-up as all its plants have it.
#[derive(PartialEq)]
struct SharedMixUp {
    codes: Vec<String>,
    noticed: String,
    /// Whether the plants are of several pods.
    is_of_several: bool,
}

impl SharedMixUp {
    fn words(&self) -> String {
        format!(
            "{} were mixed up, noticed {}",
            listed(&self.codes),
            self.noticed
        )
    }
}

fn shared(registry: &Registry, all: Vec<(PlantRow, &MixUp)>) -> Vec<SharedMixUp> {
    let mut found: Vec<SharedMixUp> = Vec::new();
    for (plant, muddle) in all {
        let others = muddle.with.iter().cloned();
        let mut codes: Vec<String> = others.chain([registry.code(plant)]).collect();
        codes.sort_unstable();
        let mix_up = SharedMixUp {
            codes,
            noticed: noticed(registry, muddle),
            is_of_several: !registry.pods_it_may_be_of(plant).is_empty(),
        };
        if !found.contains(&mix_up) {
            found.push(mix_up);
        }
    }
    found
}

fn first_few(found: &[SharedMixUp], sentence: impl Fn(&SharedMixUp) -> String) -> Vec<String> {
    let more = found.len().saturating_sub(NAMED);
    let mut sentences: Vec<String> = found.iter().take(NAMED).map(sentence).collect();
    if more > 0 {
        sentences.push(format!(
            "{more} more mix-ups are not settled: what is on record of each plant says which"
        ));
    }
    sentences
}

/// Mix-ups of some plants that are not settled.
fn unsettled<'r>(
    registry: &'r Registry,
    plants: impl IntoIterator<Item = PlantRow>,
) -> Vec<(PlantRow, &'r MixUp<'r>)> {
    let of_each = plants.into_iter().flat_map(|plant| {
        registry
            .open_mix_ups(plant)
            .map(move |muddle| (plant, muddle))
    });
    of_each.collect()
}

/// Those of them that may be younger than something that was read of the plant.
fn in_doubt<'r>(
    registry: &'r Registry,
    plants: impl IntoIterator<Item = PlantRow>,
) -> Vec<(PlantRow, &'r MixUp<'r>)> {
    let mut open = unsettled(registry, plants);
    if !open.is_empty() {
        let plants: BTreeSet<PlantRow> = open.iter().map(|(plant, _)| *plant).collect();
        let recorded = recorded(registry, plants.into_iter().collect());
        open.retain(|(plant, muddle)| {
            let noticed = registry.when(muddle.on);
            let of_it = recorded.iter().filter(|(of, _)| of == plant);
            of_it
                .into_iter()
                .any(|(_, when)| !noticed.surely_before(*when))
        });
    }
    open
}

/// When something was recorded of each plant that another could have been taken for: readings, flowers, and crosses it was
/// used for.
fn recorded(registry: &Registry, plants: Vec<PlantRow>) -> Vec<(PlantRow, When)> {
    let wanted = vec![true; registry.settings.traits.len()];
    let read = readings_of_traits(registry, &plants, wanted).into_iter();
    let read = read.flat_map(|of| {
        let dated = |reading: Comparable| (reading.plant, reading.when);
        of.by_day().map(dated).collect::<Vec<_>>()
    });
    let flowered = plants.iter().flat_map(|&plant| {
        let flowerings = registry.flowerings(plant).iter();
        let dates = flowerings.flat_map(|of| [of.spike, of.opened, of.over]);
        dates
            .flatten()
            .map(move |date| (plant, registry.when(date)))
    });
    let used = registry.cross_rows().flat_map(|cross| {
        let origin = registry[cross].origin;
        let parents = registry[origin].parents().into_iter();
        let parents = parents.filter(|plant| plants.contains(plant));
        let on = stages(registry, cross, None, None).pollinated;
        parents.map(move |plant| (plant, on)).collect::<Vec<_>>()
    });
    read.chain(flowered).chain(used).collect()
}

fn noticed(registry: &Registry, muddle: &MixUp) -> String {
    match registry.when(muddle.on) {
        When::UNKNOWN => "on a day not recorded".to_owned(),
        when => at_date(&days(when)),
    }
}
