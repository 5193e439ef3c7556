//! Pods in rows.

use crate::observation::provenance::stages;
use crate::record::When;
use crate::registry::{Cross, Registry};
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
pub fn pods(registry: &Registry, cross: Option<u32>) -> PodList {
    let wanted = |(at, _): &(usize, &Cross)| cross.is_none_or(|cross| cross as usize == *at);
    let known = |when: When| (when != When::UNKNOWN).then(|| days(when));
    let mut rows = Vec::new();
    for (_, cross) in registry.crosses.iter().enumerate().filter(wanted) {
        let page = &cross.page;
        for (at, pod) in page.pods.iter().enumerate() {
            let road = stages(registry, page, None, Some(at));
            let zone = page.pollinations.iter().find(|p| Some(p.zone) == pod.zone);
            rows.push(PodLine {
                id: format!("{}.{}", page.code, pod.code),
                zone: pod.zone.map(str::to_owned),
                flowers: zone.and_then(|zone| zone.flowers),
                capsules: pod.capsules,
                pollinated: known(road.pollinated),
                harvested: known(road.harvested),
                seeds: pod.seeds,
                numbered: cross
                    .seedlings
                    .iter()
                    .filter(|&&plant| registry.road(plant).1 == Some(at))
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
