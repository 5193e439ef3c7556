//! Pods in rows.

use crate::analysis::list;
use crate::observation::tally::seeds_are_a_guess;
use crate::record::When;
use crate::registry::{CrossRow, Registry};
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{about, counted, days};
use serde::Serialize;

/// A list of pods.
#[derive(Serialize)]
pub struct PodList {
    /// Rows by cross.
    pub pods: Vec<PodLine>,
    /// Numbered seedlings surely from one of them.
    #[serde(skip)]
    numbered: usize,
    /// Numbered seedlings of their crosses that are surely from none of them.
    numbered_of_unknown_pod: usize,
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
    /// Whether that number is a guess.
    pub seeds_estimated: bool,
    /// Numbered seedlings surely from it.
    pub numbered: usize,
}

/// Lists pods, of one cross if one is given.
pub fn pods(registry: &Registry, cross: Option<CrossRow>) -> PodList {
    let answer = list::pods(registry, cross);
    PodList {
        pods: answer.pods.iter().map(|of| line(registry, of)).collect(),
        numbered: answer.numbered,
        numbered_of_unknown_pod: answer.unsure,
    }
}

fn line(registry: &Registry, of: &list::PodLine) -> PodLine {
    let pod = &registry[of.pod];
    let known = |when: When| (when != When::UNKNOWN).then(|| days(when));
    PodLine {
        id: format!("{}.{}", registry[of.pod.cross].page.code, pod.code),
        zone: pod.zone.map(str::to_owned),
        flowers: of.flowers,
        capsules: pod.capsules,
        pollinated: known(of.pollinated),
        harvested: known(of.harvested),
        seeds: pod.seeds,
        seeds_estimated: seeds_are_a_guess(&registry[of.pod.cross].page, pod.code),
        numbered: of.numbered,
    }
}

impl Report for PodList {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(format!(
            "{} with {}",
            counted(self.pods.len(), "pod", "pods"),
            counted(self.numbered, "numbered seedling", "numbered seedlings"),
        ));
        sheet.table_if_any(
            Table::of(&self.pods)
                .text("pod", |pod| &pod.id)
                .text("zone", |pod| &pod.zone)
                .figure("flowers", |pod| pod.flowers)
                .figure("capsules", |pod| pod.capsules)
                .figure("seeds", |pod| {
                    pod.seeds.map(|of| about(of, pod.seeds_estimated))
                })
                .figure("numbered", |pod| pod.numbered)
                .text("pollinated", |pod| &pod.pollinated)
                .text("harvested", |pod| &pod.harvested),
        );
        let unsure = match self.numbered_of_unknown_pod {
            0 => None,
            1 => Some("1 more numbered seedling of these crosses: the pod is not known for certain, so no row counts it".to_owned()),
            n => Some(format!("{n} more numbered seedlings of these crosses: the pod is not known for certain, so no row counts them")),
        };
        sheet.cautions(Weight::LeftOut, unsure);
        sheet
    }
}
