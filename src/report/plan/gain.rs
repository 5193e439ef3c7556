//! Gain against kinship: the frontier and its picture.

use super::answer::PlanReport;
use super::bench::Bench;
use super::ground::Ground;
use super::work::{Stage, Work};
use crate::planning::frontier::{FrontierAsked, Point, Relations, frontier};
use crate::planning::season::Plan;
use crate::report::chart::{FrontierChart, FrontierPlan};
use crate::report::pedigree::NameRun;

/// Plans listed one by one for an exact frontier.
const LISTED: usize = 20_000;
/// Weights on kinship tried where plans are too many to list.
const WEIGHTS: [f64; 9] = [0.0, 0.5, 1.0, 2.0, 5.0, 10.0, 25.0, 60.0, 150.0];

/// Plans with as many pods that no other beats in both.
pub(super) struct Gain {
    pub plans: Vec<FrontierPlan>,
    /// Whether all plans were looked at.
    pub exact: bool,
    pub gap: Option<f64>,
    /// Weights the budget did not reach.
    pub unreached: usize,
}

impl Gain {
    pub fn none() -> Gain {
        Gain {
            plans: Vec::new(),
            exact: true,
            gap: Some(0.0),
            unreached: 0,
        }
    }
}

impl Ground<'_, '_, '_> {
    /// The frontier of plans with as many pods, the best one marked.
    pub fn frontier(&self, bench: &Bench, best: &Plan, work: &mut Work) -> Gain {
        work.stage.set(Stage::Frontier);
        let parents: Vec<_> = bench.seeds.iter().chain(&bench.donors).copied().collect();
        let table = self.kinship.table(&parents);
        let kinship: Vec<f64> = (0..parents.len())
            .flat_map(|row| table.row(row).iter().copied())
            .collect();
        let relations = Relations { kinship: &kinship };
        let asked = FrontierAsked {
            pods: best.total,
            weights: &WEIGHTS,
            listed: LISTED,
        };
        let found = frontier(&bench.season, &relations, asked, &mut work.budget);
        let chosen = relations.point(&bench.season, best.clone());
        Gain {
            plans: drawn(&found.points, &chosen),
            exact: found.exact,
            gap: (found.unreached.len() < WEIGHTS.len()).then_some(found.gap),
            unreached: found.unreached.len(),
        }
    }
}

/// Points as they are drawn, by kinship, with the plan among them.
fn drawn(points: &[Point], chosen: &Point) -> Vec<FrontierPlan> {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-9 * (1.0 + b.abs());
    let is_chosen =
        |point: &Point| near(point.coancestry, chosen.coancestry) && near(point.gain, chosen.gain);
    let known = points.iter().any(is_chosen);
    let all = points.iter().chain((!known).then_some(chosen));
    let mut plans: Vec<FrontierPlan> = all
        .map(|point| FrontierPlan {
            kinship: point.coancestry,
            gain: point.gain,
            label: if is_chosen(point) { "the plan" } else { "" }.to_owned(),
            chosen: is_chosen(point),
        })
        .collect();
    plans.sort_by(|a, b| {
        a.kinship
            .total_cmp(&b.kinship)
            .then(a.gain.total_cmp(&b.gain))
    });
    plans
}

impl PlanReport {
    /// What the frontier rests on, a sentence each.
    fn frontier_notes(&self) -> Vec<String> {
        if self.frontier_exact {
            return vec!["Every plan with as many pods was looked at.".to_owned()];
        }
        let gap = self.frontier_gap.map(|gap| {
            format!("Plans found by weighing kinship; none could be better by more than {gap:.3} under its weight.")
        });
        let cut = (self.frontier_unreached > 0).then(|| {
            let (cut, all) = (self.frontier_unreached, WEIGHTS.len());
            format!("The work was stopped before {cut} of {all} weights on kinship were looked at.")
        });
        gap.into_iter().chain(cut).collect()
    }
}

/// The picture of gain against kinship.
pub fn frontier_chart(report: &PlanReport) -> FrontierChart {
    let words = |text: &str| NameRun {
        text: text.to_owned(),
        italic: false,
    };
    let mut notes = report.frontier_notes();
    notes.push(
        "Kinship is at least so much: founders count as unrelated unless a batch is recorded."
            .to_owned(),
    );
    FrontierChart {
        title: vec![words(&format!(
            "Gain against kinship, {} pods",
            report.pods
        ))],
        across: "kinship among the parents, by their share of the seedlings".to_owned(),
        up: "mean worth of a pod".to_owned(),
        plans: report.frontier.clone(),
        notes,
    }
}
