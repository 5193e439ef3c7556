//! Which plants a pedigree shows: the ancestors or descendants of what was asked for, within the generations wished.

use super::drawing::{Asked, Work};
use crate::context::Context;
use crate::lineage::{Family, Lineage, PlantRow};
use crate::naming::recorded::Names;
use crate::registry::{OriginRow, Registry, Target};
use crate::report::pedigree::PedigreeDrawing;
use std::collections::{BTreeMap, BTreeSet};

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct PedigreeWishes {
    /// Crosses upward, or downward with `down`.
    pub generations: u32,
    /// Descendants instead of ancestors.
    pub down: bool,
    /// The evidence of every plant drawn, for those who read the drawing as data.
    pub evidence: bool,
}

/// Draws up the pedigree of whatever a code names.
///
/// # Errors
/// In words, when the code names nothing with a pedigree.
pub fn pedigree_of(
    context: &Context,
    id: &str,
    wishes: PedigreeWishes,
) -> Result<PedigreeDrawing, String> {
    let (registry, lineage, names) = (context.registry, context.lineage(), context.names());
    let asked = asked(registry, id)
        .ok_or_else(|| format!("`{id}` has no pedigree: name a plant, a pod or a cross"))?;
    let origin = asked.cross().and_then(|_| asked.unit().origin(registry));
    let family = family(lineage, asked.plant(), origin, wishes);
    let work = Work {
        context,
        registry,
        lineage,
        names,
        family: &family,
        down: wishes.down,
        with_evidence: wishes.evidence,
        muddled: muddled(registry, names),
        raised: raised(registry, &family),
    };
    Ok(work.draw(id, asked))
}

/// The plants of a family by their origins.
fn raised(registry: &Registry, family: &Family) -> BTreeMap<OriginRow, Vec<PlantRow>> {
    let mut raised: BTreeMap<OriginRow, Vec<PlantRow>> = BTreeMap::new();
    for &plant in &family.plants {
        if let Some(origin) = registry.origin_of(plant) {
            raised.entry(origin).or_default().push(plant);
        }
    }
    raised
}

/// Plants of origins no cross leads to.
fn muddled(registry: &Registry, names: &Names) -> BTreeMap<OriginRow, Vec<PlantRow>> {
    let mut muddled: BTreeMap<OriginRow, Vec<PlantRow>> = BTreeMap::new();
    for plant in registry.plants() {
        let origin = registry.origin_of(plant);
        if let Some(origin) = origin.filter(|&origin| names.cross_of_origin(origin).is_none()) {
            muddled.entry(origin).or_default().push(plant);
        }
    }
    muddled
}

fn asked(registry: &Registry, id: &str) -> Option<Asked> {
    Some(match registry.target(id)? {
        Target::Plant(plant) | Target::Ramet(plant, _) => Asked::Plant(plant),
        Target::Cross(cross) => Asked::Cross(cross),
        Target::Pod(pod) => Asked::Pod(pod),
        Target::Sowing(sowing) => Asked::Sowing(sowing),
        Target::CommunityPot(pot) => Asked::Pot(pot),
        _ => return None,
    })
}

fn family(
    lineage: &Lineage,
    focus: Option<PlantRow>,
    origin: Option<OriginRow>,
    wishes: PedigreeWishes,
) -> Family {
    if wishes.down {
        let start = match (focus, origin) {
            (Some(plant), _) => vec![plant],
            (None, Some(origin)) => lineage.parents_from(origin),
            (None, None) => Vec::new(),
        };
        let mut family = lineage.descendants(&start, wishes.generations);
        family.origins.extend(origin);
        let mates: BTreeSet<PlantRow> = family
            .origins
            .iter()
            .flat_map(|&origin| lineage.pedigree[origin].parents())
            .collect();
        let cut = mates
            .iter()
            .filter(|plant| lineage.pedigree.origin_row(**plant).is_some());
        let reached = |plant: &&PlantRow| {
            lineage
                .pedigree
                .origin_row(**plant)
                .is_some_and(|o| family.origins.contains(&o))
        };
        family.cut = cut.filter(|plant| !reached(plant)).copied().collect();
        family.plants.extend(mates);
        return family;
    }
    match (focus, origin) {
        (Some(plant), _) => lineage.ancestors(&[plant], wishes.generations),
        (None, Some(origin)) => {
            let parents = lineage.pedigree[origin].parents();
            let mut family = lineage.ancestors(&parents, wishes.generations.saturating_sub(1));
            family.origins.insert(origin);
            family
        }
        (None, None) => Family::default(),
    }
}
