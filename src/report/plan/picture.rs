//! The picture of a plan: its pollinations beside those of the best other plan.

use super::worth::{LEAST, figure};
use crate::analysis::plan::{Caution, OtherPlan, PlanReport, pairs_of};
use crate::report::chart::{PlansChart, PlansRow};
use crate::report::kinship::decimal;
use crate::wording::{counted, upright};

impl PlanReport {
    /// The best other plan: one as good, else the next best.
    fn alternative(&self) -> Option<&OtherPlan> {
        self.as_good.first().or(self.runners_up.first())
    }

    /// Worth, pots and inbreeding of the plan in few words, a line each.
    fn facts_of_plan(&self) -> Vec<String> {
        let worth = self.worth.map(|worth| self.worth_words(worth));
        let pods = counted(self.pods as usize, "pod", "pods");
        // A column of the picture is narrow: the figure stands on a line of its own where a word comes before it.
        let inbreeding = format!("inbreeding {}", self.mean_inbreeding_words());
        let inbreeding = match inbreeding.split_once(", ") {
            Some((word, figure)) => vec![format!("{word},"), figure.to_owned()],
            None => vec![inbreeding],
        };
        let facts = [Some(pods), worth].into_iter().flatten();
        facts.chain(inbreeding).collect()
    }

    fn facts_of_other(&self, other: &OtherPlan, pods: u32) -> Vec<String> {
        let worth = match other.less {
            little if little < LEAST => "worth the same".to_owned(),
            less => format!("worth {} less", figure(less)),
        };
        let pods = counted(pods as usize, "pod", "pods");
        let inbreeding = format!("inbreeding at least {}", decimal(other.mean_inbreeding));
        vec![pods, worth, inbreeding]
    }

    pub(super) fn title_of_picture(&self, pairs: usize) -> String {
        let many = match (self.ties, self.ties_counted) {
            (0 | 1, _) => String::new(),
            (n, true) => format!(", one of {n} equally good plans"),
            (n, false) => format!(", one of at least {n} equally good plans"),
        };
        format!(
            "Pollinate {} for {} in {}{many}",
            counted(pairs, "pair", "pairs"),
            counted(self.pods as usize, "pod", "pods"),
            counted(self.pots as usize, "pot", "pots")
        )
    }

    /// Plants of the plan whose sex was only guessed, as a note; `None` without any.
    pub(super) fn guessed_words(&self) -> Option<String> {
        let guessed = self.cautions.iter().find_map(|caution| match caution {
            Caution::SexGuessed(plants) => Some(plants.join(", ")),
            _ => None,
        });
        guessed.map(|plants| {
            format!("Sex only guessed: {plants}. Look at open flowers before you dust.")
        })
    }

    fn notes_of_picture(&self, other: Option<&OtherPlan>, may_not_meet: bool) -> Vec<String> {
        let differs = match other {
            Some(_) => "A capsule is a pod; pairs that differ between the two plans are dark.",
            None => "A capsule is a pod. There is no other plan to set beside it.",
        };
        let proof = match (self.proved, self.runners_up_proved) {
            (true, true) => None,
            (true, false) => Some(
                "The plan is proved the best; a better alternative than the one shown may exist.",
            ),
            (false, _) => Some("Stopped early: a better plan may exist."),
        };
        let guessed = self.guessed_words();
        let hollow = may_not_meet
            .then_some("Hollow: flowers and pollen only perhaps meet. Keep back pollen.");
        let minimum = "Inbreeding is the mean of the seedlings, and a minimum if the recorded parents are right: founders are assumed unrelated unless a batch is recorded. This is arithmetic on the records; it does not promise that pods will set.";
        let notes = [
            Some(differs),
            hollow,
            guessed.as_deref(),
            proof,
            Some(minimum),
        ]
        .into_iter()
        .flatten();
        notes.map(str::to_owned).collect()
    }
}

/// The plan and the best other plan side by side.
pub fn plans_chart(report: &PlanReport) -> PlansChart {
    let other = report.alternative();
    let pairs = match other {
        Some(other) => other.beside(&report.plan),
        None => pairs_of(&report.plan),
    };
    let rows = pairs.iter().map(|of| PlansRow {
        seed: of.pair[0].clone(),
        pollen: of.pair[1].clone(),
        may_not_meet: of.may_not_meet,
        pods: match other {
            Some(_) => vec![of.plan, of.other],
            None => vec![of.plan],
        },
    });
    let mut plans = vec![("the plan".to_owned(), report.facts_of_plan())];
    plans.extend(other.map(|other| {
        let heading = match report.as_good.is_empty() {
            true => "next best",
            false => "as good",
        };
        let pods = pairs.iter().map(|of| of.other).sum();
        (heading.to_owned(), report.facts_of_other(other, pods))
    }));
    let planned = pairs.iter().filter(|of| of.plan > 0).count();
    PlansChart {
        title: upright(report.title_of_picture(planned)),
        plans,
        rows: rows.collect(),
        notes: report.notes_of_picture(other, pairs.iter().any(|of| of.may_not_meet)),
    }
}
