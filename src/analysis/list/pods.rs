//! Pods in rows.

use crate::lineage::PlantRow;
use crate::observation::provenance::stages;
use crate::record::When;
use crate::registry::{CrossRow, PodRow, Registry};

/// Pods by cross.
#[derive(Clone, Debug, PartialEq)]
pub struct PodList {
    /// Rows by cross, those of one cross in the order of its page.
    pub pods: Vec<PodLine>,
    /// Numbered seedlings surely from one of them.
    pub numbered: usize,
    /// Numbered seedlings of their crosses that are surely from none of them.
    pub unsure: usize,
}

/// One pod.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PodLine {
    /// The pod.
    pub pod: PodRow,
    /// Flowers treated in the zone that set it.
    pub flowers: Option<u32>,
    /// When its zone was pollinated; unknown where no day is on record.
    pub pollinated: When,
    /// When it was harvested; unknown where no day is on record.
    pub harvested: When,
    /// Numbered seedlings surely from it.
    pub numbered: usize,
}

/// Lists pods, of one cross if one is given.
pub fn pods(registry: &Registry, cross: Option<CrossRow>) -> PodList {
    let wanted = cross.map_or_else(|| registry.cross_rows().collect(), |cross| vec![cross]);
    let wanted = wanted
        .into_iter()
        .filter(|cross| registry.pods(*cross).next().is_some());
    let wanted: Vec<CrossRow> = wanted.collect();
    let rows = wanted.iter().flat_map(|cross| registry.pods(*cross));
    let pods: Vec<PodLine> = rows.map(|(pod, _)| pod_line(registry, pod)).collect();
    let seedlings = wanted.iter().map(|cross| registry[*cross].seedlings.len());
    let numbered: usize = pods.iter().map(|pod| pod.numbered).sum();
    PodList {
        unsure: seedlings.sum::<usize>() - numbered,
        numbered,
        pods,
    }
}

/// One pod in a row.
pub fn pod_line(registry: &Registry, pod: PodRow) -> PodLine {
    let cross = &registry[pod.cross];
    let record = &registry[pod];
    let road = stages(registry, pod.cross, None, Some(pod));
    let mut zones = cross.page.pollinations.iter();
    let zone = zones.find(|zone| Some(zone.zone) == record.zone);
    let of = |plant: &&PlantRow| registry.road(**plant).1 == Some(pod);
    PodLine {
        pod,
        flowers: zone.and_then(|zone| zone.flowers),
        pollinated: road.pollinated,
        harvested: road.harvested,
        numbered: cross.seedlings.iter().filter(of).count(),
    }
}
