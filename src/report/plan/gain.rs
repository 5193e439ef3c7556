//! Gain against kinship: the frontier and its picture.

use super::answer::PlanReport;
use super::bench::{Bench, Ground};
use crate::planning::frontier::{Relations, frontier};
use crate::planning::season::Plan;
use crate::report::chart::{FrontierChart, FrontierPlan};
use crate::report::pedigree::NameRun;

/// Plans listed one by one for an exact frontier.
const LISTED: usize = 20_000;
/// Weights on kinship tried where plans are too many to list.
const WEIGHTS: [f64; 9] = [0.0, 0.5, 1.0, 2.0, 5.0, 10.0, 25.0, 60.0, 150.0];

impl Ground<'_, '_, '_> {
    /// Plans with as many pods that no other beats in both; whether all were looked at, and the gap if not.
    pub fn frontier(&self, bench: &Bench, best: &Plan) -> (Vec<FrontierPlan>, bool, f64) {
        let parents: Vec<_> = bench.seeds.iter().chain(&bench.donors).copied().collect();
        let table = self.kinship.table(&parents);
        let kinship: Vec<f64> = (0..parents.len())
            .flat_map(|row| table.row(row).iter().copied())
            .collect();
        let relations = Relations { kinship: &kinship };
        let found = frontier(&bench.season, &relations, best.total, &WEIGHTS, LISTED);
        let chosen = relations.point(&bench.season, best.clone());
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9 * (1.0 + b.abs());
        let drawn = |point: &crate::planning::frontier::Point| FrontierPlan {
            kinship: point.coancestry,
            gain: point.gain,
            label: String::new(),
            chosen: near(point.coancestry, chosen.coancestry) && near(point.gain, chosen.gain),
        };
        let mut plans: Vec<FrontierPlan> = found.points.iter().map(drawn).collect();
        if !plans.iter().any(|plan| plan.chosen) {
            plans.push(drawn(&chosen));
        }
        plans
            .iter_mut()
            .filter(|plan| plan.chosen)
            .for_each(|plan| plan.label = "the plan".to_owned());
        plans.sort_by(|a, b| {
            a.kinship
                .total_cmp(&b.kinship)
                .then(a.gain.total_cmp(&b.gain))
        });
        (plans, found.exact, found.gap)
    }
}

/// The picture of gain against kinship.
pub fn frontier_chart(report: &PlanReport) -> FrontierChart {
    let words = |text: &str| NameRun {
        text: text.to_owned(),
        italic: false,
    };
    let note = if report.frontier_exact {
        "every plan with as many pods was looked at".to_owned()
    } else {
        format!(
            "plans found by weighing kinship; none could be better by more than {:.3} under its weight",
            report.frontier_gap
        )
    };
    FrontierChart {
        title: vec![words(&format!(
            "Gain against kinship, {} pods",
            report.pods
        ))],
        across: "kinship among the parents, by their share of the seedlings".to_owned(),
        up: "mean worth of a pod".to_owned(),
        plans: report.frontier.clone(),
        notes: vec![
            note,
            "Kinship is at least so much: founders count as unrelated unless a batch is recorded."
                .to_owned(),
        ],
    }
}
