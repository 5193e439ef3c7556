//! Pods in rows.

use crate::observation::provenance::stages;
use crate::record::When;
use crate::registry::{CrossRow, Registry};
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{counted, days};
use serde::Serialize;

/// A list of pods.
#[derive(Serialize)]
pub struct PodList {
    /// Rows by cross.
    pub pods: Vec<PodLine>,
}

/// One pod.
#[derive(Serialize)]
pub struct PodLine {
    /// Code, such as `X22-07.P1`.
    pub id: String,
    /// Zone that set it.
    pub zone: Option<String>,
    /// Flowers treated in that zone.
    pub flowers: Option<u32>,
    /// Capsules.
    pub capsules: Option<u32>,
    /// When it was pollinated.
    pub pollinated: Option<String>,
    /// When it was harvested.
    pub harvested: Option<String>,
    /// Seeds in it.
    pub seeds: Option<u32>,
    /// Numbered seedlings surely from it.
    pub numbered: usize,
}

/// Lists pods, of one cross if one is given.
pub fn pods(registry: &Registry, cross: Option<CrossRow>) -> PodList {
    let wanted = cross.map_or_else(|| registry.cross_rows().collect(), |cross| vec![cross]);
    let known = |when: When| (when != When::UNKNOWN).then(|| days(when));
    let mut rows = Vec::new();
    for cross in wanted {
        let page = &registry[cross].page;
        for (row, pod) in registry.pods(cross) {
            let road = stages(registry, cross, None, Some(row));
            let zone = page.pollinations.iter().find(|p| Some(p.zone) == pod.zone);
            rows.push(PodLine {
                id: format!("{}.{}", page.code, pod.code),
                zone: pod.zone.map(str::to_owned),
                flowers: zone.and_then(|zone| zone.flowers),
                capsules: pod.capsules,
                pollinated: known(road.pollinated),
                harvested: known(road.harvested),
                seeds: pod.seeds,
                numbered: registry[cross]
                    .seedlings
                    .iter()
                    .filter(|&&plant| registry.road(plant).1 == Some(row))
                    .count(),
            });
        }
    }
    PodList { pods: rows }
}

impl Report for PodList {
    fn sheet(&self) -> Sheet {
        let seedlings: usize = self.pods.iter().map(|pod| pod.numbered).sum();
        let mut sheet = Sheet::new(format!(
            "{} with {}",
            counted(self.pods.len(), "pod", "pods"),
            counted(seedlings, "numbered seedling", "numbered seedlings"),
        ));
        sheet.table_if_any(
            Table::of(&self.pods)
                .text("pod", |pod| &pod.id)
                .text("zone", |pod| &pod.zone)
                .figure("flowers", |pod| pod.flowers)
                .figure("capsules", |pod| pod.capsules)
                .figure("seeds", |pod| pod.seeds)
                .figure("numbered", |pod| pod.numbered)
                .text("pollinated", |pod| &pod.pollinated)
                .text("harvested", |pod| &pod.harvested),
        );
        sheet
    }
}
