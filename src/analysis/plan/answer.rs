//! The plan as an answer: what to pollinate, how sure that is the best, and what it costs.

use crate::analysis::kinship::Outcome;
use crate::analysis::plan::caution::Caution;
use crate::analysis::plan::gain::FrontierPlan;
use crate::analysis::plan::give_or_take::GiveOrTake;
use crate::analysis::plan::goals::Goals;
use crate::analysis::plan::idle::Idle;
use crate::analysis::plan::later::Later;
use crate::analysis::plan::limits::LimitRow;
use crate::analysis::plan::others::OtherPlan;
use crate::observation::pollen::PollenAge;
use crate::observation::sex::SexSeen;
use crate::planning::windows::Meeting;
use serde::Serialize;

/// A season's plan.
#[derive(Serialize)]
pub struct PlanReport {
    /// The goals it was made with, defaults included.
    pub goals: Goals,
    /// Why there is nothing to pollinate; `null` when there is, or no plan keeps every limit.
    pub idle: Option<Idle>,
    /// Pollinations to make.
    pub plan: Vec<PlannedRow>,
    /// Pods in all.
    pub pods: u32,
    /// Pots their seedlings take.
    pub pots: u64,
    /// Worth of all pods together.
    pub worth: Option<f64>,
    /// How far that may be off; `null` where each pod counts 1.
    pub worth_give_or_take: Option<GiveOrTake>,
    /// No plan is worth more than this.
    pub bound: Option<f64>,
    /// Whether the plan is proved to be the best.
    pub proved: bool,
    /// Plans worth the same, this one included; at least so many when `ties_counted` is false.
    pub ties: usize,
    /// Whether ties were counted in full.
    pub ties_counted: bool,
    /// Networks solved for the plan and those beside it.
    pub steps: u64,
    /// Mean inbreeding of the seedlings, at least; expected, where parents further back are one of several.
    pub mean_inbreeding: f64,
    /// Mean kinship of the seedlings with what is kept, at least.
    pub mean_kinship: f64,
    /// Plants kept.
    pub kept: usize,
    /// Plans worth the same.
    pub as_good: Vec<OtherPlan>,
    /// The next best plans.
    pub runners_up: Vec<OtherPlan>,
    /// Whether those are proved to be all as good and the next best.
    pub runners_up_proved: bool,
    /// What each limit costs.
    pub limits: Vec<LimitRow>,
    /// Gain against kinship at the same number of pods.
    pub frontier: Vec<FrontierPlan>,
    /// Whether every plan on the frontier is listed.
    pub frontier_exact: bool,
    /// Pairings the frontier was sought among, where there were more than the best plans could use; `null` for all.
    pub frontier_among: Option<usize>,
    /// The most any plan of the same kinship could beat one of the frontier by, in mean worth of a pod; `null` if no
    /// weight was reached.
    pub frontier_gap: Option<f64>,
    /// The most any plan of the same mean worth could lie below one of the frontier in kinship; `null` likewise.
    pub frontier_kinship_gap: Option<f64>,
    /// Weights on kinship the work did not reach before it was stopped.
    pub frontier_unreached: usize,
    /// What could be made once plants have flowered that have not yet.
    pub later: Later,
    /// Kept plants here that have not shown their sex.
    pub unsexed: usize,
    /// Chance that these hold both sexes, at one to one.
    pub unsexed_both: f64,
    /// Cautions.
    pub cautions: Vec<Caution>,
}

/// One pollination of the plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlannedRow {
    /// Seed parent.
    pub seed: String,
    /// What is recorded of its sex.
    pub seed_sex: SexSeen,
    /// Where its flowers stand; empty where that is not recorded.
    pub seed_places: Vec<String>,
    /// Pollen parent.
    pub pollen: String,
    /// What is recorded of its sex.
    pub pollen_sex: SexSeen,
    /// Envelope; `null` for pollen as it is shed.
    pub lot: Option<String>,
    /// Where the envelope lies; `null` where that is not recorded or there is none.
    pub lot_place: Option<&'static str>,
    /// Where the flowers of the pollen parent stand, for pollen as it is shed; empty for an envelope.
    pub pollen_places: Vec<String>,
    /// Age of the envelope's pollen today.
    pub age_days: Option<PollenAge>,
    /// Pods.
    pub pods: u32,
    /// Pots.
    pub pots: u32,
    /// Mean merit of the parents, in genetic standard deviations.
    pub mean: f64,
    /// Worth of a pod.
    pub worth: f64,
    /// Expected inbreeding, at least.
    pub inbreeding: f64,
    /// What it may be, ascending, where parents further back are one of several; empty when that makes no difference.
    pub inbreeding_may_be: Vec<Outcome>,
    /// Whether what it may be was worked out; the ways may be too many.
    pub ways_known: bool,
    /// Chance that it exceeds the cap; 0 without a cap.
    pub over_the_cap: f64,
    /// When flowers and pollen meet.
    pub meet: Meeting,
    /// What to think of before this pollen is used; `null` for nothing.
    pub pollen_remark: Option<String>,
    /// Crosses of the two on record, in either direction.
    pub made_before: Vec<String>,
    /// Crosses of which one of the two, or both, are only possibly the parents.
    pub perhaps_made_before: Vec<String>,
}

impl PlannedRow {
    /// Whether its flowers and pollen only perhaps meet.
    pub fn may_not_meet(&self) -> bool {
        matches!(self.meet, Meeting::Perhaps(..))
    }

    /// Whether the two were crossed before, or perhaps were.
    pub fn is_made_before(&self) -> bool {
        !self.made_before.is_empty() || !self.perhaps_made_before.is_empty()
    }
}
