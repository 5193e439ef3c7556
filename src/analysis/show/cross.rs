//! A cross: how far it came, what stands of it here.

use super::history::{History, history};
use super::offspring::{Offspring, offspring};
use super::parents::{Parents, parents_of_cross};
use crate::analysis::list::{CrossLine, PodLine, cross_line, pod_line};
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::observation::provenance::stages;
use crate::observation::sexes::{Sexes, sexes};
use crate::record::When;
use crate::registry::{CrossRow, PodRow, SowingRow};

/// What came of a cross.
#[derive(Debug)]
pub struct CrossSeen {
    /// Seeds, seedlings, those here and those kept.
    pub counts: CrossLine,
    /// The parents of its seedlings; `None` where its page names none.
    pub parents: Option<Parents>,
    /// Sexes seen among its seedlings.
    pub sexes: Sexes,
    /// Seedlings that may be of another cross.
    pub muddled: Muddled,
    /// Its road, by the one sowing and the one pod where it has one of each.
    pub history: History,
    /// Its pods, in the order of the page.
    pub pods: Vec<PodLine>,
    /// Crosses that one of its seedlings is a parent of.
    pub offspring: Vec<Offspring>,
}

/// Seedlings that may be of another cross.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Muddled {
    /// How many they are.
    pub seedlings: usize,
    /// The other crosses.
    pub others: Vec<CrossRow>,
}

/// What came of a cross by today.
pub fn cross(context: &Context, at: CrossRow) -> CrossSeen {
    let registry = context.registry;
    let cross = &registry[at];
    let parents_of = cross.seedlings.iter();
    CrossSeen {
        counts: cross_line(context, at),
        parents: Some(parents_of_cross(context, at)),
        sexes: sexes(registry, cross, context.today),
        muddled: muddled(context, at),
        history: road(context, at),
        pods: registry
            .pods(at)
            .map(|(pod, _)| pod_line(registry, pod))
            .collect(),
        offspring: parents_of
            .flat_map(|&plant| offspring(context, plant))
            .collect(),
    }
}

fn road(context: &Context, at: CrossRow) -> History {
    let page = &context.registry[at].page;
    let sowing = (page.sowings.len() == 1).then_some(SowingRow { cross: at, at: 0 });
    let pod = (page.pods.len() == 1).then_some(PodRow { cross: at, at: 0 });
    let road = stages(context.registry, at, sowing, pod);
    history(road, None, When::on(context.today))
}

/// The numbered seedlings of a cross that may be of another one.
fn muddled(context: &Context, at: CrossRow) -> Muddled {
    let seedlings = &context.registry[at].seedlings;
    let crosses = |plant: &PlantRow| {
        let own = context.evidence().statement(Unit::Plant(*plant));
        own.map_or(Vec::new(), |own| own.crosses)
    };
    let several: Vec<Vec<CrossRow>> = seedlings
        .iter()
        .map(crosses)
        .filter(|of| of.len() > 1)
        .collect();
    let mut others: Vec<CrossRow> = several.iter().flatten().copied().collect();
    others.retain(|&of| of != at);
    others.sort_unstable();
    others.dedup();
    Muddled {
        seedlings: several.len(),
        others,
    }
}
