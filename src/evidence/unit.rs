//! What has descent: a plant, a cross, or a part of one.

use crate::naming::recorded::TopOf;
use crate::record::CrossPage;
use crate::registry::{CrossRow, OriginRow, PlantRow, Registry, Target};

/// A unit that has descent; parts of a cross by their places on its page.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Unit {
    /// A plant and all its ramets.
    Plant(PlantRow),
    /// All seedlings of a cross, or one of them whose number is lost.
    Cross(CrossRow),
    /// A zone of a spike.
    Zone(CrossRow, usize),
    /// A pod.
    Pod(CrossRow, usize),
    /// A seed lot.
    SeedLot(CrossRow, usize),
    /// A sowing.
    Sowing(CrossRow, usize),
    /// A community pot.
    Pot(CrossRow, usize),
}

impl Unit {
    /// The unit a code names; none for pollen and species.
    pub fn of(target: Target) -> Option<Unit> {
        Some(match target {
            Target::Plant(plant) | Target::Ramet(plant, _) => Unit::Plant(plant),
            Target::Cross(cross) => Unit::Cross(cross),
            Target::Zone(cross, at) => Unit::Zone(cross, at as usize),
            Target::Pod(cross, at) => Unit::Pod(cross, at as usize),
            Target::SeedLot(cross, at) => Unit::SeedLot(cross, at as usize),
            Target::Sowing(cross, at) => Unit::Sowing(cross, at as usize),
            Target::CommunityPot(cross, at) => Unit::Pot(cross, at as usize),
            Target::Pollen(_) | Target::Species(_) => return None,
        })
    }

    /// What its formula is taken from.
    pub fn top(self) -> TopOf {
        match self {
            Unit::Plant(plant) => TopOf::Plant(plant),
            Unit::Pot(cross, pot) => TopOf::Pot(cross, pot as u32),
            Unit::Cross(cross)
            | Unit::Zone(cross, _)
            | Unit::Pod(cross, _)
            | Unit::SeedLot(cross, _)
            | Unit::Sowing(cross, _) => TopOf::Cross(cross),
        }
    }

    /// The cross it stands under; none for a founder.
    pub fn cross(self, registry: &Registry) -> Option<CrossRow> {
        match self {
            Unit::Plant(plant) => registry
                .cross_of(plant)
                .or_else(|| seedling_of(registry, plant)),
            Unit::Cross(cross)
            | Unit::Zone(cross, _)
            | Unit::Pod(cross, _)
            | Unit::SeedLot(cross, _)
            | Unit::Sowing(cross, _)
            | Unit::Pot(cross, _) => Some(cross),
        }
    }

    /// Its origin; none for a plant whose parents are not recorded.
    pub fn origin(self, registry: &Registry) -> Option<OriginRow> {
        match self {
            Unit::Plant(plant) => registry.origin_of(plant),
            Unit::Pot(cross, pot) => Some(registry.origin_of_pot(cross, pot)),
            _ => Some(registry[self.cross(registry)?].origin),
        }
    }

    /// The pods it may be of, as crosses and pods; none when that is not recorded.
    pub fn pods(self, registry: &Registry) -> Vec<(CrossRow, usize)> {
        let page = |cross: CrossRow| &registry[cross].page;
        let (cross, known) = match self {
            Unit::Plant(plant) => {
                let muddled = registry.pods_it_may_be_of(plant);
                let known = registry.cross_of(plant).zip(registry.road(plant).1);
                return match muddled.is_empty() {
                    true => known.into_iter().collect(),
                    false => muddled,
                };
            }
            Unit::Pot(cross, pot) => {
                let muddled = registry.pods_of_pot(cross, pot);
                if !muddled.is_empty() {
                    return muddled;
                }
                let sowing = page(cross).community_pots[pot].sowing;
                let at = page(cross)
                    .sowings
                    .iter()
                    .position(|s| Some(s.code) == sowing);
                (cross, at.and_then(|at| pod_of_sowing(page(cross), at)))
            }
            Unit::Sowing(cross, at) => (cross, pod_of_sowing(page(cross), at)),
            Unit::SeedLot(cross, at) => (cross, page(cross).seed_lots[at].pod),
            Unit::Pod(cross, at) => return vec![(cross, at)],
            Unit::Cross(_) | Unit::Zone(..) => return Vec::new(),
        };
        let pods = &page(cross).pods;
        let only = (pods.len() == 1).then_some(0);
        let at = known.and_then(|code| pods.iter().position(|pod| pod.code == code));
        at.or(only).map(|at| (cross, at)).into_iter().collect()
    }
}

/// The cross of a parent that is some seedling of it, its number lost.
fn seedling_of(registry: &Registry, plant: PlantRow) -> Option<CrossRow> {
    match registry.unseen(plant)?.known_by {
        crate::registry::KnownBy::SeedlingOf(cross) => Some(cross),
        _ => None,
    }
}

fn pod_of_sowing<'t>(page: &CrossPage<'t>, at: usize) -> Option<&'t str> {
    let sowing = &page.sowings[at];
    let lot = page
        .seed_lots
        .iter()
        .find(|lot| Some(lot.code) == sowing.lot);
    sowing.pod.or(lot.and_then(|lot| lot.pod))
}
