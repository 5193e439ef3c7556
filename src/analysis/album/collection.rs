//! Who stands where, and what a grower looks for.

use crate::analysis::ready::{SpikeState, state};
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::flowers::spikes;
use crate::observation::places::places;
use crate::observation::presence::{Presence, presence};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::standing::last_read;
use crate::record::When;
use crate::registry::{CrossRow, PlantKind};
use std::collections::{BTreeSet, HashSet};

/// A whole collection.
pub struct Collection<'r> {
    /// Plants on record that no cross of the registry raised.
    pub founders: Vec<PlantRow>,
    /// How many plants are on record.
    pub plants: usize,
    /// How many of them are here.
    pub here: usize,
    /// Places where plants stand, in the order of the alphabet.
    pub places: Vec<&'r str>,
    /// Plants with open flowers on record.
    open: HashSet<PlantRow>,
}

/// One plant.
pub struct CollectionPlant<'r> {
    /// Whether it is here.
    pub is_here: bool,
    /// The sex seen.
    pub sex: SexSeen,
    /// Whether flowers are open on record.
    pub flowering: bool,
    /// Where it and its pieces stand; none for a plant that is not here.
    pub places: Vec<&'r str>,
    /// When it was last read; `None` when never.
    pub last_read: Option<When>,
}

impl<'r> Collection<'r> {
    /// The collection today.
    pub fn of(context: &Context<'r, '_>) -> Collection<'r> {
        let registry = context.registry;
        let seen = |plant: &PlantRow| registry.kind(*plant) != PlantKind::Unseen;
        let all: Vec<PlantRow> = registry.plants().filter(seen).collect();
        let here: Vec<PlantRow> = all
            .iter()
            .copied()
            .filter(|of| is_here(context, *of))
            .collect();
        let stands = here.iter();
        let stands = stands.flat_map(|plant| places(registry, *plant, context.today));
        let names: BTreeSet<&str> = stands.map(str::trim).collect();
        let founders = all.iter().copied();
        Collection {
            founders: founders
                .filter(|plant| registry.cross_of(*plant).is_none())
                .collect(),
            plants: all.len(),
            here: here.len(),
            places: names.into_iter().collect(),
            open: open(context),
        }
    }

    /// One plant of it.
    pub fn plant(&self, context: &Context<'r, '_>, plant: PlantRow) -> CollectionPlant<'r> {
        let registry = context.registry;
        let is_here = is_here(context, plant);
        let stands = match is_here {
            true => places(registry, plant, context.today),
            false => Vec::new(),
        };
        let mut stands: Vec<&str> = stands.into_iter().map(str::trim).collect();
        stands.dedup();
        CollectionPlant {
            is_here,
            sex: sex_seen(registry, plant),
            flowering: self.open.contains(&plant),
            places: stands,
            last_read: last_read(registry, plant),
        }
    }
}

/// One seedling of a cross.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SeedlingHere {
    /// The plant.
    pub plant: PlantRow,
    /// Whether it is here.
    pub is_here: bool,
    /// The sex seen.
    pub sex: SexSeen,
}

/// The seedlings of a cross, those that are here first, then by number.
pub fn here_first(context: &Context, cross: CrossRow) -> Vec<SeedlingHere> {
    let seedlings = context.registry[cross].seedlings.iter();
    let seedlings = seedlings.map(|&plant| SeedlingHere {
        plant,
        is_here: is_here(context, plant),
        sex: sex_seen(context.registry, plant),
    });
    let mut seedlings: Vec<SeedlingHere> = seedlings.collect();
    // Stable: by number among those here, and among the others.
    seedlings.sort_by_key(|of| !of.is_here);
    seedlings
}

fn is_here(context: &Context, plant: PlantRow) -> bool {
    presence(context.registry, plant, context.today) == Presence::Here
}

/// Plants with open flowers on record.
fn open(context: &Context) -> HashSet<PlantRow> {
    let today = context.today;
    let spikes = spikes(context.registry, today).into_iter();
    let open = spikes.filter(|spike| {
        let begun = spike.opened && spike.window.opens.earliest <= today.0;
        begun && state(spike, today) != SpikeState::MayBeOver
    });
    open.map(|spike| spike.plant).collect()
}
