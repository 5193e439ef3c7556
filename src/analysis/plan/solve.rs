//! The plan worked out: the optimum and its proof, other plans, prices of limits, the frontier.

use crate::analysis::plan::answer::PlanReport;
use crate::analysis::plan::candidates::SeasonCandidates;
use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::error::PlanError;
use crate::analysis::plan::gain::Gain;
use crate::analysis::plan::goals::Goals;
use crate::analysis::plan::merits::PredictedMerit;
use crate::analysis::plan::work::{Stage, Work};
use crate::context::Context;
use crate::planning::budget::Budget;
use crate::planning::intensity::chance_of_both_sexes;
use crate::planning::search::{Asked, Found, Progress};
use std::cell::Cell;

/// How the plan is wanted.
#[derive(Clone, Copy, Debug)]
pub struct PlanOptions {
    /// How far the season reaches, days.
    pub days_ahead: u32,
    /// Plan as if every plant flowered whose sex was seen or guessed.
    pub any_time: bool,
    /// Other plans to tell.
    pub runners_up: usize,
    /// Most networks to solve in all.
    pub steps: u64,
}

/// Plans looked at, to find runners-up that differ in plants and not only in envelopes.
pub(crate) const LOOKED_AT: usize = 60;

/// Works out the season's plan; `watch` is called with the progress and stops the work by giving `false`.
///
/// # Errors
/// An unknown trait or species, a pollination that must be made and cannot, figures that cannot be had.
pub fn plan(
    context: &Context,
    (goals, options): (Goals, PlanOptions),
    watch: &mut dyn FnMut(Stage, Progress) -> bool,
) -> Result<PlanReport, PlanError> {
    PredictedMerit::with(context, &goals, |merit| {
        let kinship = context.kinship()?;
        let context = PlanContext {
            context,
            registry: context.registry,
            kinship: &kinship,
            merit,
            goals: &goals,
        };
        context.planned(options, watch)
    })
}

impl PlanContext<'_, '_, '_> {
    fn planned(
        &self,
        options: PlanOptions,
        watch: &mut dyn FnMut(Stage, Progress) -> bool,
    ) -> Result<PlanReport, PlanError> {
        let candidates = self.candidates(options.days_ahead, options.any_time)?;
        let stage = Cell::new(Stage::BestPlan);
        let mut watch = |progress| watch(stage.get(), progress);
        let mut work = Work {
            stage: &stage,
            budget: Budget::new(options.steps, &mut watch),
        };
        let asked = Asked {
            plans: LOOKED_AT,
            ties: LOOKED_AT,
            steps: options.steps,
        };
        let found = work.budget.search(&candidates.season, asked);
        self.report((&candidates, &found), options, &mut work)
    }

    fn report(
        &self,
        (candidates, found): (&SeasonCandidates, &Found),
        options: PlanOptions,
        work: &mut Work,
    ) -> Result<PlanReport, PlanError> {
        let plans = self.least_kin_first(candidates, found.plans.clone());
        let best = plans.first().map(|plan| candidates.freshest(plan));
        let best = best.as_ref();
        let mut others = self.others(candidates, &plans, options.runners_up);
        let unsexed = self.unsexed(&candidates.kept);
        let limits = best.map(|plan| self.limits(candidates, plan, work));
        let gain = best
            .filter(|plan| plan.total > 0)
            .map_or_else(Gain::none, |plan| self.frontier(candidates, plan, work));
        if let Some(best) = best {
            self.also_as_good(candidates, (best, &gain.as_good), &mut others.as_good);
        }
        let rows = best.map(|plan| self.rows(candidates, plan));
        let give_or_take = match best {
            Some(plan) => self.give_or_take(candidates, plan)?,
            None => None,
        };
        let idle = best.filter(|plan| plan.total == 0);
        let mut report = PlanReport {
            idle: idle.map(|_| self.idle(candidates, options.any_time)),
            plan: rows.unwrap_or_default(),
            pods: best.map_or(0, |plan| plan.total),
            pots: best.map_or(0, |plan| plan.pots),
            worth: best.map(|plan| plan.value),
            worth_give_or_take: give_or_take,
            bound: found.bound.is_finite().then_some(found.bound),
            proved: found.proved,
            ties: others.ties,
            ties_counted: found.all_proved && found.ties < LOOKED_AT,
            steps: found.steps,
            mean_inbreeding: best.map_or(0.0, |plan| plan.mean_inbreeding),
            mean_kinship: best.map_or(0.0, |plan| plan.mean_kinship),
            kept: candidates.kept.len(),
            as_good: others.as_good,
            runners_up: others.next_best,
            runners_up_proved: found.all_proved,
            limits: limits.unwrap_or_default(),
            frontier: gain.plans,
            frontier_exact: gain.exact && candidates.every_pair,
            frontier_among: (!candidates.every_pair).then_some(candidates.season.pairings.len()),
            frontier_gap: gain.gap.map(|gap| gap.0),
            frontier_kinship_gap: gain.gap.map(|gap| gap.1),
            frontier_unreached: gain.unreached,
            later: self.later(&candidates.kept)?,
            unsexed_both: chance_of_both_sexes(unsexed.len() as u32),
            unsexed: unsexed.len(),
            cautions: Vec::new(),
            goals: self.goals.clone(),
        };
        report.cautions = self.cautions(candidates, (&report, best));
        Ok(report)
    }
}
