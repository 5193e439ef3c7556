//! Which plants a code on the command line stands for when growth is asked for.
//!
//! A cross, pod, sowing or community pot stands for its numbered seedlings, a species for every plant on record that descends
//! from nothing else, a plant for itself. Plants that are only a count have no sizes and are not in any group.

use crate::analysis::growth::told::GrowthError;
use crate::ancestry::Part;
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::numeric::Fraction;
use crate::observation::batch::{Batch, batch};
use crate::observation::provenance::pod_of_sowing;
use crate::observation::scope::Scope;
use crate::registry::{CrossRow, OriginRow, PotRow, Registry, SowingRow, Target};
use serde::Serialize;
use std::collections::BTreeMap;

/// What a group is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum GroupKind {
    /// All seedlings of a cross.
    Cross,
    /// Seedlings of one pod.
    Pod,
    /// Seedlings of one sowing or community pot.
    Sowing,
    /// All plants of a species.
    Species,
    /// One plant.
    Plant,
}

/// A group of plants.
#[derive(Clone, Debug)]
pub struct Group {
    /// The code asked for.
    pub id: String,
    /// What it is.
    pub kind: GroupKind,
    /// Its plants in the order of the registry.
    pub plants: Vec<PlantRow>,
    /// Numbered seedlings on the page that may come from another sowing, pod or cross; they are not among the plants.
    pub may_be_elsewhere: usize,
    /// The sowings whose germination was counted.
    pub sowings: Vec<SowingRow>,
    /// Of a part of a cross: the cross, and the code of the part on its page.
    pub part: Option<(CrossRow, String)>,
}

impl Group {
    /// The group a code stands for.
    ///
    /// # Errors
    /// When the code names nothing that grows.
    pub fn of(context: &Context, id: &str) -> Result<Group, GrowthError> {
        let registry = context.registry;
        let id = id.trim();
        let mut may_be_elsewhere = 0;
        let mut sure = |cross, pod, sowing| {
            let scope = Scope { cross, pod, sowing };
            let (plants, others) = scope.seedlings(registry);
            may_be_elsewhere = others;
            plants
        };
        let (kind, plants, sowings) = match registry.target(id) {
            Some(Target::Plant(plant) | Target::Ramet(plant, _)) => {
                (GroupKind::Plant, vec![plant], Vec::new())
            }
            Some(Target::Cross(cross)) => (
                GroupKind::Cross,
                sure(cross, None, None),
                sowings(registry, cross, |_| true),
            ),
            Some(Target::Pod(pod)) => (
                GroupKind::Pod,
                sure(pod.cross, Some(pod), None),
                sowings(registry, pod.cross, |sowing| {
                    pod_of_sowing(registry, sowing) == Some(pod)
                }),
            ),
            Some(Target::Sowing(sowing)) => (
                GroupKind::Sowing,
                sure(sowing.cross, None, Some(sowing)),
                vec![sowing],
            ),
            Some(Target::CommunityPot(pot)) => {
                let (plants, others) = of_pot(registry, pot);
                may_be_elsewhere = others;
                (GroupKind::Sowing, plants, Vec::new())
            }
            Some(Target::Species(epithet)) => (
                GroupKind::Species,
                of_species(context, epithet)?,
                Vec::new(),
            ),
            _ => {
                return Err(GrowthError::NothingGrows(id.to_owned()));
            }
        };
        let part = match registry.target(id) {
            Some(Target::Pod(pod)) => Some((pod.cross, registry[pod].code)),
            Some(Target::Sowing(sowing)) => Some((sowing.cross, registry[sowing].code)),
            Some(Target::CommunityPot(pot)) => Some((pot.cross, registry[pot].code)),
            _ => None,
        };
        Ok(Group {
            id: id.to_owned(),
            part: part.map(|(cross, code)| (cross, code.to_owned())),
            may_be_elsewhere,
            kind,
            plants,
            sowings,
        })
    }

    /// The pods of a cross, each as a group; the group itself when it is no cross or has fewer than two pods.
    pub fn by_pod(self, context: &Context) -> Vec<Group> {
        let registry = context.registry;
        let Some(Target::Cross(cross)) = registry.target(&self.id) else {
            return vec![self];
        };
        let page = &registry[cross].page;
        if page.pods.len() < 2 {
            return vec![self];
        }
        let pods = page.pods.iter();
        pods.filter_map(|pod| Group::of(context, &format!("{}.{}", self.id, pod.code)).ok())
            .collect()
    }
}

/// What siblings share: cross, and pod or else sowing; a founder is alone.
pub(crate) type Family = (Option<CrossRow>, Option<Batch>, Option<PlantRow>);

/// The family of a plant.
pub(crate) fn family(registry: &Registry, plant: PlantRow) -> Family {
    match registry.cross_of(plant) {
        Some(cross) => (Some(cross), batch(registry, plant), None),
        None => (None, None, Some(plant)),
    }
}

/// The seedlings numbered out of a community pot, and how many of them may come from elsewhere than the rest of it.
fn of_pot(registry: &Registry, pot: PotRow) -> (Vec<PlantRow>, usize) {
    let origin = registry.origin_of_pot(pot);
    let all = registry[pot.cross].seedlings.iter().copied();
    let of_it = all.filter(|&plant| registry.road(plant).2 == Some(pot));
    let (sure, others): (Vec<PlantRow>, Vec<PlantRow>) =
        of_it.partition(|&plant| registry.origin_of(plant) == Some(origin));
    (sure, others.len())
}

fn sowings(
    registry: &Registry,
    cross: CrossRow,
    wanted: impl Fn(SowingRow) -> bool,
) -> Vec<SowingRow> {
    let all = registry.sowings(cross).map(|(row, _)| row);
    all.filter(|&row| wanted(row)).collect()
}

/// Plants whose expected share of the species is the whole; siblings share one answer.
fn of_species(context: &Context, epithet: &str) -> Result<Vec<PlantRow>, GrowthError> {
    let (registry, lineage, descent) = (context.registry, context.lineage(), context.descent());
    let species = descent.species.iter().zip(0..);
    let named: Vec<Part> = species
        .filter(|(name, _)| name.strip_prefix("N. ").unwrap_or(name) == epithet)
        .map(|(_, at)| Part::Species(at))
        .collect();
    let is_it = |shares: &[(Part, Fraction)]| matches!(shares, [(part, _)] if named.contains(part));
    let mut of_origin: BTreeMap<OriginRow, bool> = BTreeMap::new();
    let mut found = Vec::new();
    for plant in registry.plants() {
        let pure = match registry.origin_of(plant) {
            None => is_it(&descent.shares_of(lineage, plant)?),
            Some(origin) => match of_origin.get(&origin) {
                Some(&known) => known,
                None => {
                    let shares = descent.shares_of_origin(origin)?;
                    *of_origin.entry(origin).or_insert(is_it(&shares))
                }
            },
        };
        if pure && registry.kind(plant) != crate::registry::PlantKind::Unseen {
            found.push(plant);
        }
    }
    Ok(found)
}
