//! Which seedlings a code means: a whole cross, one of its pods or one of its sowings.
//!
//! What became of them is the question of `tray`.

use crate::lineage::PlantRow;
use crate::observation::provenance::{Road, pod_of_sowing, roads, sowings_it_may_be_of};
use crate::observation::who_it_may_be::is_mixed_up;
use crate::record::{CommunityPot, Sowing};
use crate::registry::{CrossRow, PodRow, PotRow, Registry, SowingRow, Target};
use std::collections::{BTreeMap, BTreeSet};

/// Which seedlings are meant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Scope {
    /// The cross.
    pub cross: CrossRow,
    /// One pod of it.
    pub pod: Option<PodRow>,
    /// One sowing of it.
    pub sowing: Option<SowingRow>,
}

impl Scope {
    /// What a code of a cross, pod or sowing names.
    ///
    /// # Errors
    /// In words, when it names something else.
    pub fn named(registry: &Registry, id: &str) -> Result<Scope, String> {
        let whole = |cross| Scope {
            cross,
            pod: None,
            sowing: None,
        };
        match registry.target(id) {
            Some(Target::Cross(cross)) => Ok(whole(cross)),
            Some(Target::Pod(pod)) => Ok(Scope {
                pod: Some(pod),
                ..whole(pod.cross)
            }),
            Some(Target::Sowing(sowing)) => Ok(Scope {
                sowing: Some(sowing),
                ..whole(sowing.cross)
            }),
            _ => Err(format!(
                "`{id}` is not a cross, a pod or a sowing\nname one such as X22-07, X22-07.P1 or X22-07.S1"
            )),
        }
    }

    /// Its code.
    pub fn code(&self, registry: &Registry) -> String {
        let page = &registry[self.cross].page;
        let part = self
            .pod
            .map(|pod| registry[pod].code)
            .or(self.sowing.map(|sowing| registry[sowing].code));
        match part {
            Some(part) => format!("{}.{part}", page.code),
            None => page.code.to_owned(),
        }
    }

    /// The numbered seedlings in it, and how many others of the page may belong to it because plants or trays
    /// were mixed up.
    pub fn seedlings(&self, registry: &Registry) -> (Vec<PlantRow>, usize) {
        let cross = &registry[self.cross];
        let (mut plants, mut muddled) = (Vec::new(), 0);
        for &plant in &cross.seedlings {
            let (sowing, pod, _) = registry.road(plant);
            // Of a sowing that is named only those that can be of no other.
            let of_any = self.sowing.is_some() && is_of_any_sowing(registry, plant);
            let certain = registry.origin_of(plant) == Some(cross.origin) && !of_any;
            let asked = self.pod.is_none_or(|wanted| pod == Some(wanted))
                && self.sowing.is_none_or(|wanted| sowing == Some(wanted));
            if asked && certain {
                plants.push(plant);
            } else if (!certain || (self.pod.is_some() && pod.is_none()))
                && self.may_hold(registry, plant)
            {
                muddled += 1;
            }
        }
        (plants, muddled)
    }

    /// Whether a seedling whose pod or sowing is not known for certain may be of it.
    fn may_hold(&self, registry: &Registry, plant: PlantRow) -> bool {
        let may_be = |of: Option<PodRow>, wanted: Option<PodRow>| {
            of.zip(wanted).is_none_or(|(of, wanted)| of == wanted)
        };
        let is_it = |road: &Road| {
            let of_sowing = self.sowing.is_none_or(|wanted| match road.sowing {
                Some(sowing) => sowing == wanted,
                None => may_be(road.pod, pod_of_sowing(registry, wanted)),
            });
            road.cross == Some(self.cross) && may_be(road.pod, self.pod) && of_sowing
        };
        roads(registry, plant).iter().any(is_it)
    }

    /// Whether two parts of one cross are the same or have a plant in common.
    fn shares(&self, registry: &Registry, other: Scope) -> bool {
        let whole = |of: &Scope| of.pod.is_none() && of.sowing.is_none();
        if *self == other || whole(self) || whole(&other) {
            return true;
        }
        let mine: BTreeSet<PlantRow> = self.seedlings(registry).0.into_iter().collect();
        let others = other.seedlings(registry).0;
        others.iter().any(|plant| mine.contains(plant))
    }

    fn holds(&self, registry: &Registry, row: SowingRow, sowing: &Sowing) -> bool {
        let page = &registry[self.cross].page;
        let of_lot = || {
            let lot = page
                .seed_lots
                .iter()
                .find(|lot| Some(lot.code) == sowing.lot)?;
            lot.pod
        };
        let only = || (page.pods.len() == 1).then(|| page.pods[0].code);
        let pod = sowing.pod.or_else(of_lot).or_else(only);
        self.sowing.is_none_or(|wanted| wanted == row)
            && self
                .pod
                .is_none_or(|wanted| pod == Some(registry[wanted].code))
    }

    /// The sowings in it.
    pub fn sowings<'r, 't>(&self, registry: &'r Registry<'t>) -> Vec<(SowingRow, &'r Sowing<'t>)> {
        let all = registry.sowings(self.cross);
        all.filter(|(row, sowing)| self.holds(registry, *row, sowing))
            .collect()
    }

    /// The community pots in it.
    pub(crate) fn community_pots<'r, 't>(
        &self,
        registry: &'r Registry<'t>,
    ) -> Vec<(PotRow, &'r CommunityPot<'t>)> {
        let page = &registry[self.cross].page;
        let sowings: BTreeSet<&str> = self
            .sowings(registry)
            .iter()
            .map(|(_, sowing)| sowing.code)
            .collect();
        let whole = self.pod.is_none() && self.sowing.is_none();
        // As with seedlings: what names no sowing is of the page's only one, or else of its only pod.
        let only = page.sowings.first().filter(|_| page.sowings.len() == 1);
        let of_only_pod = self.sowing.is_none() && page.pods.len() == 1;
        let inside = |(_, pot): &(PotRow, &CommunityPot)| {
            let sowing = pot.sowing.or(only.map(|sowing| sowing.code));
            let inside = sowing.map_or(of_only_pod, |code| sowings.contains(code));
            whole || pot.one_of.is_empty() && inside
        };
        registry.community_pots(self.cross).filter(inside).collect()
    }
}

/// Whether a seedling may be of several sowings, also of one pod, or of several pods, of which its sowing is as open.
fn is_of_any_sowing(registry: &Registry, plant: PlantRow) -> bool {
    is_mixed_up(registry, plant)
        && (!registry.pods_it_may_be_of(plant).is_empty()
            || sowings_it_may_be_of(registry, plant).len() > 1)
}

/// Refuses codes that hold the same plants: figures that take each code by itself would count those twice.
///
/// # Errors
/// In words, naming both codes.
pub fn no_plant_twice(registry: &Registry, scopes: &[Scope]) -> Result<(), String> {
    let mut of_cross: BTreeMap<CrossRow, Vec<Scope>> = BTreeMap::new();
    for &scope in scopes {
        let earlier = of_cross.entry(scope.cross).or_default();
        if let Some(other) = earlier.iter().find(|other| other.shares(registry, scope)) {
            let (one, two) = (other.code(registry), scope.code(registry));
            let page = registry[scope.cross].page.code;
            return Err(match one == two {
                true => format!("{one} is named twice; name it once"),
                false => format!(
                    "{one} and {two} share plants, which would count twice\nname {page} alone, or pods or sowings of it that share none"
                ),
            });
        }
        earlier.push(scope);
    }
    Ok(())
}

/// The plant, with the other seedlings that are surely of its cross.
pub fn with_siblings(registry: &Registry, plant: PlantRow) -> Vec<PlantRow> {
    let is_muddled = !registry.pods_it_may_be_of(plant).is_empty();
    let Some(cross) = registry.cross_of(plant).filter(|_| !is_muddled) else {
        return vec![plant];
    };
    let scope = Scope {
        cross,
        pod: None,
        sowing: None,
    };
    let mut plants = scope.seedlings(registry).0;
    plants.push(plant);
    plants
}
