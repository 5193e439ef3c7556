//! Seedlings that were mixed up and are not known apart yet: what was read of one may belong to another.
//!
//! Seedlings of several pods are in doubt about their parents as well, which their `one_of` says to every answer. Those of
//! one pod keep their parents, so the readings are all that is in doubt.

use crate::lineage::PlantRow;
use crate::observation::series::{Comparable, readings_of_traits};
use crate::record::When;
use crate::registry::{MixUp, MixedUp, Registry, Target};
use crate::wording::{at_date, days, each_once, listed};
use std::collections::BTreeSet;

/// Mix-ups named one by one; of more only the number is given.
const NAMED: usize = 3;

/// Whether it is not known which of several plants this is: of another pod perhaps, or mixed up with a sibling.
pub fn is_mixed_up(registry: &Registry, plant: PlantRow) -> bool {
    registry.open_mix_ups(plant).next().is_some() || !registry.pods_it_may_be_of(plant).is_empty()
}

/// What a buyer has to know of records older than a mix-up; `None` where there are none, or all is known apart.
pub fn mixed_up(registry: &Registry, plant: PlantRow) -> Option<String> {
    let words = in_doubt(registry, [plant]);
    let words = words.iter().map(|(_, muddle)| {
        let further = mixed_up_before(registry, plant, muddle);
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
    (!words.is_empty()).then(|| words.join("; "))
}

/// What a plant that was mixed up may be, while that is not settled.
pub struct MayBe {
    /// The plants it may be besides itself, as far as they are on record.
    pub others: Vec<PlantRow>,
    /// Whether all of them are on record: a lineage that was handed over comes without them.
    pub all_on_record: bool,
    /// When its last mix-up was noticed.
    pub since: When,
    /// Whether it was mixed up once, and each of the others as well: with it, and on the same day. Not so where one of them
    /// is not on record.
    pub at_once: bool,
}

/// The plants that one may be, of all its mix-ups that are not settled; `None` where there are none.
pub fn may_be(registry: &Registry, plant: PlantRow) -> Option<MayBe> {
    let open: Vec<&MixUp> = registry.open_mix_ups(plant).collect();
    let since = open.iter().map(|muddle| registry.when(muddle.on));
    let since = since.max_by_key(|when| (when.last, when.first))?;
    let mut others = Vec::new();
    let mut all_on_record = open.iter().all(|of| is_on_record(registry, of));
    for muddle in &open {
        for (other, by_then) in step_by_step(registry, plant, muddle) {
            all_on_record &= earlier(registry, other, by_then).all(|of| is_on_record(registry, of));
            others.push(other);
        }
    }
    let others: Vec<PlantRow> = each_once(others);
    let code = registry.code(plant);
    let once = |&other: &PlantRow| {
        let of_other: Vec<&MixUp> = registry.open_mix_ups(other).collect();
        matches!(of_other[..], [of] if of.on == open[0].on && of.with.contains(&code))
    };
    let at_once = open.len() == 1 && all_on_record && others.iter().all(once);
    Some(MayBe {
        others,
        all_on_record,
        since,
        at_once,
    })
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

/// The plants that the others of a mix-up were mixed up with by then, step by step, and are not known apart from.
fn mixed_up_before(registry: &Registry, plant: PlantRow, muddle: &MixUp) -> Vec<String> {
    let known = step_by_step(registry, plant, muddle).into_iter();
    let further = known.skip(plants_of(registry, muddle).len());
    further.map(|(of, _)| registry.code(of)).collect()
}

fn plants_of(registry: &Registry, muddle: &MixUp) -> Vec<(PlantRow, When)> {
    let row = |code: &String| registry.target(code).and_then(Target::plant);
    let rows = muddle.with.iter().filter_map(row);
    rows.map(|row| (row, registry.when(muddle.on))).collect()
}

/// Whether every plant that a mix-up names is on record.
fn is_on_record(registry: &Registry, muddle: &MixUp) -> bool {
    plants_of(registry, muddle).len() == muddle.with.len()
}

/// The mix-ups of a plant that are not settled and may be no later than a day.
fn earlier<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    by_then: When,
) -> impl Iterator<Item = &'r MixUp<'t>> {
    let open = registry.open_mix_ups(plant);
    open.filter(move |of| !by_then.surely_before(registry.when(of.on)))
}

/// The others of a mix-up, and then those that they were mixed up with by then, each with the day of the mix-up by which it
/// came in: only earlier ones lead further.
fn step_by_step(registry: &Registry, plant: PlantRow, muddle: &MixUp) -> Vec<(PlantRow, When)> {
    let steps = registry.step_by_step((MixedUp::Plant(plant), muddle), |_, _| true);
    let plants = steps.into_iter().filter_map(|(_, named, on)| match named? {
        MixedUp::Plant(plant) => Some((plant, registry.when(on))),
        MixedUp::Pot(_) => None,
    });
    plants.collect()
}

/// A sentence for each mix-up among some plants that came after something was recorded of them; of many the first few and
/// how many more.
pub fn mix_ups(registry: &Registry, plants: impl IntoIterator<Item = PlantRow>) -> Vec<String> {
    let found = shared(registry, in_doubt(registry, plants));
    let sentence = |of: &SharedMixUp| {
        let counts = match of.is_of_several {
            true => {
                "may be of another; which pod each came from is not known, so figures by age leave out all their readings"
            }
            false => "counts for the code it was recorded under, and may be of another",
        };
        format!("{}: what was recorded of them before {counts}", of.words())
    };
    first_few(&found, sentence)
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
    each_once(all.into_iter().map(|(plant, muddle)| {
        let others = muddle.with.iter().cloned();
        let mut codes: Vec<String> = others.chain([registry.code(plant)]).collect();
        codes.sort_unstable();
        SharedMixUp {
            codes,
            noticed: noticed(registry, muddle),
            is_of_several: !registry.pods_it_may_be_of(plant).is_empty(),
        }
    }))
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

/// When something was recorded of each plant that another could have been taken for: readings and flowers.
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
    read.chain(flowered).collect()
}

fn noticed(registry: &Registry, muddle: &MixUp) -> String {
    match registry.when(muddle.on) {
        When::UNKNOWN => "on a day not recorded".to_owned(),
        when => at_date(&days(when)),
    }
}
