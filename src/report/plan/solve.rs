//! The plan worked out: the optimum and its proof, runners-up, prices of limits, the frontier.

use super::super::descent::Descent;
use super::super::founding::founding;
use super::answer::{PlanReport, PlannedRow, RunnerUp};
use super::bench::{Bench, FAR, Ground};
use super::goals::Goals;
use super::merits::{Merit, PredictedMerit};
use crate::kinship::Kinship;
use crate::lineage::Lineage;
use crate::naming::recorded::Names;
use crate::planning::intensity::chance_of_both_sexes;
use crate::planning::search::{Asked, Found, Progress, search};
use crate::planning::season::Plan;
use crate::planning::windows::Meeting;
use crate::record::Day;
use crate::registry::Registry;
use std::collections::BTreeMap;

/// How the plan is wanted.
#[derive(Clone, Copy, Debug)]
pub struct PlanWishes {
    /// Today.
    pub today: Day,
    /// How far the season reaches, days.
    pub days_ahead: u32,
    /// Plan as though every plant of known sex would flower.
    pub any_time: bool,
    /// Other plans to tell.
    pub runners_up: usize,
    /// Most networks to solve for the optimum.
    pub steps: u64,
}

/// Plans looked at, to find runners-up that differ in plants and not only in envelopes.
const LOOKED_AT: usize = 60;

/// Works out the season's plan; `watch` is told of progress and stops the search by giving `false`.
///
/// # Errors
/// In words: an unknown trait or species, a pollination that must be made and cannot, figures that cannot be had.
pub fn plan(
    registry: &Registry,
    lineage: &Lineage,
    names: &Names,
    (goals, wishes): (Goals, PlanWishes),
    watch: &mut dyn FnMut(Progress) -> bool,
) -> Result<PlanReport, String> {
    let descent = Descent::of(registry, lineage, names);
    let assumed = founding(registry, lineage, &descent);
    let kinship = Kinship::of(&lineage.pedigree, &assumed).map_err(|error| error.to_string())?;
    let merit = PredictedMerit::of(registry, lineage, names, (&goals, wishes.today))?;
    let ground = Ground {
        registry,
        lineage,
        descent: &descent,
        kinship: &kinship,
        merit: &merit,
        goals: &goals,
        today: wishes.today,
    };
    let bench = ground.bench(wishes.days_ahead, wishes.any_time)?;
    let asked = Asked {
        plans: LOOKED_AT,
        ties: LOOKED_AT,
        steps: wishes.steps,
    };
    let found = search(&bench.season, asked, watch);
    let mut report = ground.report(&bench, &found, wishes)?;
    report.cautions.extend(merit.rests_on());
    Ok(report)
}

impl Ground<'_, '_, '_> {
    fn report(
        &self,
        bench: &Bench,
        found: &Found,
        wishes: PlanWishes,
    ) -> Result<PlanReport, String> {
        let best = found.plans.first().map(|plan| bench.freshest(plan));
        let best = best.as_ref();
        let apart = distinct(bench, &found.plans);
        let tied = |plan: &&&Plan| best.is_some_and(|best| self.same_worth(bench, plan, best));
        let unsexed = self.unsexed(&bench.kept);
        let (frontier, frontier_exact, frontier_gap) = match best {
            Some(best) if best.total > 0 => self.frontier(bench, best),
            _ => (Vec::new(), true, 0.0),
        };
        Ok(PlanReport {
            plan: best
                .map(|plan| self.rows(bench, plan))
                .transpose()?
                .unwrap_or_default(),
            pods: best.map_or(0, |plan| plan.total),
            pots: best.map_or(0, |plan| plan.pots),
            worth: best.map(|plan| plan.value),
            bound: found.bound.is_finite().then_some(found.bound),
            proved: found.proved,
            ties: apart.iter().filter(tied).count(),
            ties_counted: found.all_proved && found.ties < LOOKED_AT,
            steps: found.steps,
            mean_inbreeding: best.map_or(0.0, |plan| plan.mean_inbreeding),
            mean_kinship: best.map_or(0.0, |plan| plan.mean_kinship),
            kept: bench.kept.len(),
            runners_up: self.runners_up(bench, &apart, wishes.runners_up),
            runners_up_proved: found.all_proved,
            limits: best
                .map(|plan| self.limits(bench, plan))
                .unwrap_or_default(),
            frontier,
            frontier_exact,
            frontier_gap,
            later: self.later(&bench.kept)?,
            unsexed_both: chance_of_both_sexes(unsexed.len() as u32),
            unsexed: unsexed.len(),
            cautions: self.cautions(bench, found),
            goals: self.goals.clone(),
        })
    }

    fn same_worth(&self, bench: &Bench, plan: &Plan, best: &Plan) -> bool {
        let open = bench
            .season
            .pairings
            .iter()
            .filter(|pairing| bench.season.open(pairing));
        let largest = open.map(|pairing| pairing.value.abs()).fold(0.0, f64::max);
        plan.value >= best.value - crate::planning::search::SAME_WORTH * largest
    }

    fn rows(&self, bench: &Bench, plan: &Plan) -> Result<Vec<PlannedRow>, String> {
        let worth = self.worth(&bench.seeds, &bench.donors)?;
        let row = |&(at, pods): &(usize, u32)| {
            let pairing = &bench.season.pairings[at];
            let (seed, pollen) = (bench.seeds[pairing.seed], &bench.pollen[pairing.lot]);
            PlannedRow {
                seed: self.registry.code(seed),
                pollen: self.registry.code(pollen.plant),
                lot: pollen.lot.clone(),
                age_days: pollen.age_days,
                pods,
                pots: pods * pairing.pots,
                mean: worth.mean(seed, pollen.plant),
                worth: pairing.value,
                inbreeding: pairing.inbreeding,
                meet: meet_words(bench.meets[at]),
            }
        };
        Ok(plan.pods.iter().map(row).collect())
    }

    fn runners_up(&self, bench: &Bench, apart: &[&Plan], most: usize) -> Vec<RunnerUp> {
        let Some((best, others)) = apart.split_first() else {
            return Vec::new();
        };
        let row = |plan: &&Plan| RunnerUp {
            less: best.value - plan.value,
            instead: self.instead(bench, best, plan),
            mean_inbreeding: plan.mean_inbreeding,
        };
        others.iter().take(most).map(row).collect()
    }

    /// What one plan has more and less than another.
    fn instead(&self, bench: &Bench, best: &Plan, other: &Plan) -> String {
        let (from, to) = (by_plants(bench, best), by_plants(bench, other));
        let mut pairs: Vec<&(usize, usize)> = from.keys().chain(to.keys()).collect();
        pairs.sort_unstable();
        pairs.dedup();
        let change = |pair: &&(usize, usize)| {
            let pods = |of: &BTreeMap<(usize, usize), u32>| i64::from(*of.get(*pair).unwrap_or(&0));
            let more = pods(&to) - pods(&from);
            let sign = if more > 0 { '+' } else { '−' };
            let words = format!(
                "{sign}{} {} × {}",
                more.abs(),
                self.registry.code(bench.seeds[pair.0]),
                self.registry.code(bench.donors[pair.1])
            );
            (more != 0).then_some(words)
        };
        pairs
            .iter()
            .filter_map(change)
            .collect::<Vec<_>>()
            .join(", ")
    }
}

/// Plans that differ in plants, the first of each kind, in order.
fn distinct<'p>(bench: &Bench, plans: &'p [Plan]) -> Vec<&'p Plan> {
    let mut seen = Vec::new();
    let mut kept = Vec::new();
    for plan in plans {
        let plants = by_plants(bench, plan);
        if !seen.contains(&plants) {
            seen.push(plants);
            kept.push(plan);
        }
    }
    kept
}

/// Pods by seed parent and donor.
fn by_plants(bench: &Bench, plan: &Plan) -> BTreeMap<(usize, usize), u32> {
    let mut pods = BTreeMap::new();
    for &(at, n) in &plan.pods {
        let pairing = &bench.season.pairings[at];
        *pods
            .entry((pairing.seed, bench.season.lots[pairing.lot].donor))
            .or_default() += n;
    }
    pods
}

fn meet_words(meets: Meeting) -> String {
    let days = |first: i32, last: i32| {
        let far = |day: i32| day.abs() > FAR;
        match (far(first), far(last)) {
            (true, true) => "whenever both flower".to_owned(),
            (true, false) => format!("until {}", Day(last)),
            (false, true) => format!("from {}", Day(first)),
            (false, false) => format!("{} to {}", Day(first), Day(last)),
        }
    };
    match meets {
        Meeting::Never => "never".to_owned(),
        Meeting::Perhaps(first, last) => format!("perhaps {}", days(first, last)),
        Meeting::Surely(first, last) => days(first, last),
    }
}
