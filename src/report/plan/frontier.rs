//! The picture of gain against kinship.

use crate::analysis::plan::{FrontierPlan, PlanReport, WEIGHTS};
use crate::report::chart::{FrontierChart, FrontierPoint};
use crate::wording::upright;

impl PlanReport {
    /// What the frontier is based on, a sentence each.
    fn frontier_notes(&self) -> Vec<String> {
        if self.frontier_exact {
            return vec!["Every plan with as many pods was looked at.".to_owned()];
        }
        let gap = self.frontier_gap.map(|gap| {
            let kinship = self.frontier_kinship_gap.unwrap_or(0.0);
            let among = self.among_pairings();
            format!("Plans found by weighing kinship{among}: at the same kinship none is worth over {gap:.3} more, at the same worth none has over {kinship:.4} less kinship.")
        });
        let cut = (self.frontier_unreached > 0).then(|| {
            let (cut, all) = (self.frontier_unreached, WEIGHTS.len());
            format!("The work was stopped before {cut} of {all} weights on kinship were looked at.")
        });
        gap.into_iter().chain(cut).collect()
    }
}

fn point(plan: &FrontierPlan) -> FrontierPoint {
    FrontierPoint {
        kinship: plan.kinship,
        gain: plan.gain,
        label: plan.label.to_string(),
        chosen: plan.chosen,
    }
}

/// The picture of gain against kinship.
pub fn frontier_chart(report: &PlanReport) -> FrontierChart {
    let mut notes = report.frontier_notes();
    notes.push(
        "Kinship is a minimum: founders are assumed unrelated unless a batch is recorded."
            .to_owned(),
    );
    FrontierChart {
        title: upright(format!("Gain against kinship, {} pods", report.pods)),
        across: "kinship among the parents, by their share of the seedlings".to_owned(),
        up: "mean worth of a pod".to_owned(),
        plans: report.frontier.iter().map(point).collect(),
        notes,
    }
}
