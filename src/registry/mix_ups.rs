//! Mix-ups of seedlings as each of their plants has them, whichever record they stand on.
//!
//! A mix-up is in doubt on both sides. Where the record of one plant names another and that one's record is silent, the other
//! has the mix-up all the same.

use super::mix_up::MixUp;
use super::row_types::PlantRow;
use super::target::Target;
use super::whole::Registry;
use std::collections::{BTreeMap, BTreeSet};

impl<'t> Registry<'t> {
    /// The mix-ups of a plant, settled or not: those of its own record in its order, then those that only others have.
    pub fn mix_ups(&self, plant: PlantRow) -> &[MixUp<'t>] {
        self.mix_ups.get(&plant).map_or(&[], Vec::as_slice)
    }

    /// Those of them that are not settled.
    pub fn open_mix_ups(&self, plant: PlantRow) -> impl Iterator<Item = &MixUp<'t>> {
        let all = self.mix_ups(plant).iter();
        all.filter(|muddle| muddle.settled.is_none())
    }
}

/// The mix-ups of every plant that has any.
pub(super) fn mix_ups<'t>(registry: &Registry<'t>) -> BTreeMap<PlantRow, Vec<MixUp<'t>>> {
    let own = on_own_records(registry);
    let mut all = own.clone();
    for (&plant, muddled) in &own {
        for muddle in muddled {
            for other in others(registry, plant, muddle) {
                let known = own.get(&other).map_or(&[][..], Vec::as_slice);
                if !known
                    .iter()
                    .any(|of| is_same(registry, (plant, muddle), of))
                {
                    add(
                        all.entry(other).or_default(),
                        seen_from(registry, other, (plant, muddle)),
                    );
                }
            }
        }
    }
    all
}

fn on_own_records<'t>(registry: &Registry<'t>) -> BTreeMap<PlantRow, Vec<MixUp<'t>>> {
    let pages = registry.crosses.iter();
    let pages = pages.filter(|page| page.details.iter().any(|of| !of.muddled.is_empty()));
    let plants = pages.flat_map(|page| page.seedlings.iter());
    let muddled = plants.filter_map(|&plant| {
        let own = registry.seedling(plant)?.muddled.iter().map(MixUp::of);
        let own: Vec<MixUp> = own.collect();
        (!own.is_empty()).then_some((plant, own))
    });
    muddled.collect()
}

/// The plant that a code names, also by one of its pieces.
fn named(registry: &Registry, code: &str) -> Option<PlantRow> {
    registry.target(code).and_then(Target::plant)
}

/// The seedlings that a mix-up of a plant names.
fn others(registry: &Registry, plant: PlantRow, muddle: &MixUp) -> BTreeSet<PlantRow> {
    let named = muddle.with.iter().filter_map(|code| named(registry, code));
    let known = named.filter(|&of| of != plant && registry.cross_of(of).is_some());
    known.collect()
}

/// Whether a mix-up on another record may be this one of a plant: it names the plant, and may be of the same day.
fn is_same(registry: &Registry, (plant, muddle): (PlantRow, &MixUp), other: &MixUp) -> bool {
    let names_it = other
        .with
        .iter()
        .any(|code| named(registry, code) == Some(plant));
    let [on, of_other] = [muddle.on, other.on].map(|on| registry.when(on));
    names_it && !on.surely_before(of_other) && !of_other.surely_before(on)
}

/// A mix-up of a plant as one of the others has it.
fn seen_from<'t>(
    registry: &Registry,
    other: PlantRow,
    (plant, muddle): (PlantRow, &MixUp<'t>),
) -> MixUp<'t> {
    let further = muddle
        .with
        .iter()
        .filter(|code| named(registry, code) != Some(other));
    let with = [registry.code(plant)].into_iter().chain(further.cloned());
    let mut with: Vec<String> = with.collect();
    with.sort_unstable();
    MixUp {
        with,
        is_own: false,
        ..muddle.clone()
    }
}

/// Adds a mix-up, unless it was added from another of its plants.
fn add<'t>(known: &mut Vec<MixUp<'t>>, muddle: MixUp<'t>) {
    let same = |of: &&mut MixUp| !of.is_own && (of.on, of.settled) == (muddle.on, muddle.settled);
    match known.iter_mut().find(same) {
        Some(of) => {
            of.with.extend(muddle.with);
            of.with.sort_unstable();
            of.with.dedup();
        }
        None => known.push(muddle),
    }
}
