//! What has descent: a plant, a cross, or a part of one.

use crate::naming::recorded::TopOf;
use crate::record::{CrossPage, Sowing};
use crate::registry::{
    CrossRow, LotRow, MixedUp, OriginRow, PlantRow, PodRow, PotRow, Registry, SowingRow, Target,
    ZoneRow,
};
use std::collections::BTreeMap;

/// A unit that has descent.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Unit {
    /// A plant and all its ramets.
    Plant(PlantRow),
    /// All seedlings of a cross, or one of them whose number is lost.
    Cross(CrossRow),
    /// A zone of a spike.
    Zone(ZoneRow),
    /// A pod.
    Pod(PodRow),
    /// A seed lot.
    SeedLot(LotRow),
    /// A sowing.
    Sowing(SowingRow),
    /// A community pot.
    Pot(PotRow),
}

impl From<MixedUp> for Unit {
    fn from(of: MixedUp) -> Unit {
        match of {
            MixedUp::Plant(plant) => Unit::Plant(plant),
            MixedUp::Pot(pot) => Unit::Pot(pot),
        }
    }
}

impl Unit {
    /// The unit a code names; none for pollen and species.
    pub fn of(target: Target) -> Option<Unit> {
        Some(match target {
            Target::Plant(plant) | Target::Ramet(plant, _) => Unit::Plant(plant),
            Target::Cross(cross) => Unit::Cross(cross),
            Target::Zone(zone) => Unit::Zone(zone),
            Target::Pod(pod) => Unit::Pod(pod),
            Target::SeedLot(lot) => Unit::SeedLot(lot),
            Target::Sowing(sowing) => Unit::Sowing(sowing),
            Target::CommunityPot(pot) => Unit::Pot(pot),
            Target::Pollen(_) | Target::Species(_) => return None,
        })
    }

    /// What its formula is taken from.
    pub fn top(self) -> TopOf {
        match self {
            Unit::Plant(plant) => TopOf::Plant(plant),
            Unit::Pot(pot) => TopOf::Pot(pot),
            Unit::Cross(cross)
            | Unit::Zone(ZoneRow { cross, .. })
            | Unit::Pod(PodRow { cross, .. })
            | Unit::SeedLot(LotRow { cross, .. })
            | Unit::Sowing(SowingRow { cross, .. }) => TopOf::Cross(cross),
        }
    }

    /// The cross it stands under; none for a founder.
    pub fn cross(self, registry: &Registry) -> Option<CrossRow> {
        match self {
            Unit::Plant(plant) => registry
                .cross_of(plant)
                .or_else(|| seedling_of(registry, plant)),
            Unit::Cross(cross)
            | Unit::Zone(ZoneRow { cross, .. })
            | Unit::Pod(PodRow { cross, .. })
            | Unit::SeedLot(LotRow { cross, .. })
            | Unit::Sowing(SowingRow { cross, .. })
            | Unit::Pot(PotRow { cross, .. }) => Some(cross),
        }
    }

    /// Its origin; none for a plant whose parents are not recorded.
    pub fn origin(self, registry: &Registry) -> Option<OriginRow> {
        match self {
            Unit::Plant(plant) => registry.origin_of(plant),
            Unit::Pot(pot) => Some(registry.origin_of_pot(pot)),
            _ => Some(registry[self.cross(registry)?].origin),
        }
    }

    /// Codes of plants or pots that are of other crosses, or may be, and that it may be, each with what it names, since it was mixed up with
    /// them and no record says of which pods it is.
    pub fn mixed_up_with<'r>(self, registry: &'r Registry) -> BTreeMap<&'r str, Option<MixedUp>> {
        match self {
            Unit::Plant(plant) => registry.may_be_of_another_cross(MixedUp::Plant(plant)),
            Unit::Pot(pot) => registry.may_be_of_another_cross(MixedUp::Pot(pot)),
            _ => BTreeMap::new(),
        }
    }

    /// The pods it may be of; none when that is not recorded.
    pub fn pods(self, registry: &Registry) -> Vec<PodRow> {
        let page = |cross: CrossRow| &registry[cross].page;
        let (cross, known) = match self {
            Unit::Plant(plant) => {
                let muddled = registry.pods_it_may_be_of(plant);
                let known = registry.road(plant).1;
                return match muddled.is_empty() {
                    true => known.into_iter().collect(),
                    false => muddled,
                };
            }
            Unit::Pot(pot) => {
                let muddled = registry.pods_of_pot(pot);
                if !muddled.is_empty() {
                    return muddled;
                }
                let sowing = registry[pot].sowing;
                let mut sowings = page(pot.cross).sowings.iter();
                let sowing = sowings.find(|of| Some(of.code) == sowing);
                let known = sowing.and_then(|of| pod_of_sowing(page(pot.cross), of));
                (pot.cross, known)
            }
            Unit::Sowing(sowing) => {
                let known = pod_of_sowing(page(sowing.cross), &registry[sowing]);
                (sowing.cross, known)
            }
            Unit::SeedLot(lot) => (lot.cross, registry[lot].pod),
            Unit::Pod(pod) => return vec![pod],
            Unit::Cross(_) | Unit::Zone(_) => return Vec::new(),
        };
        let pods = &page(cross).pods;
        let only = (pods.len() == 1).then_some(0);
        let at = known.and_then(|code| pods.iter().position(|pod| pod.code == code));
        let pod = at.or(only).map(|at| PodRow { cross, at });
        pod.into_iter().collect()
    }
}

/// The cross of a parent that is some seedling of it, its number lost.
fn seedling_of(registry: &Registry, plant: PlantRow) -> Option<CrossRow> {
    match registry.unseen(plant)?.known_by {
        crate::registry::KnownBy::SeedlingOf(cross) => Some(cross),
        _ => None,
    }
}

fn pod_of_sowing<'t>(page: &CrossPage<'t>, sowing: &Sowing<'t>) -> Option<&'t str> {
    let lot = page
        .seed_lots
        .iter()
        .find(|lot| Some(lot.code) == sowing.lot);
    sowing.pod.or(lot.and_then(|lot| lot.pod))
}
