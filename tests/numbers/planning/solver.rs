//! A general integer solver behind a small door, as a second opinion on seasons too large to count through.

use microlp::{ComparisonOp, OptimizationDirection, Problem};
use podbook::planning::season::Season;

/// Finds the best value of a season by any means.
pub trait Solver {
    /// `None` if no plan is allowed.
    fn best(&self, season: &Season) -> Option<f64>;
}

/// Simplex with branch and bound, general purpose.
pub struct General;

impl Solver for General {
    fn best(&self, season: &Season) -> Option<f64> {
        let mut problem = Problem::new(OptimizationDirection::Maximize);
        let mut pods = Vec::new();
        for (at, pairing) in season
            .pairings
            .iter()
            .enumerate()
            .filter(|(_, p)| season.open(p))
        {
            let most = pairing.most.min(season.seed_parents[pairing.seed].pods);
            let range = (0, most as i32);
            pods.push((at, problem.add_integer_var(pairing.value, range)));
        }
        let mut limit = |weight: &dyn Fn(usize) -> f64, op: ComparisonOp, right: f64| {
            let terms: Vec<_> = pods
                .iter()
                .map(|&(at, var)| (var, weight(at)))
                .filter(|t| t.1 != 0.0)
                .collect();
            problem.add_constraint(terms, op, right);
        };
        let one = |yes: bool| f64::from(u8::from(yes));
        let pairing = |at: usize| &season.pairings[at];
        let donor = |at: usize| season.lots[pairing(at).lot].donor;
        for (s, parent) in season.seed_parents.iter().enumerate() {
            limit(
                &|at| one(pairing(at).seed == s),
                ComparisonOp::Le,
                f64::from(parent.pods),
            );
        }
        for (l, lot) in season.lots.iter().enumerate() {
            limit(
                &|at| one(pairing(at).lot == l),
                ComparisonOp::Le,
                f64::from(lot.uses),
            );
        }
        for (d, parent) in season.donors.iter().enumerate() {
            limit(
                &|at| one(donor(at) == d),
                ComparisonOp::Le,
                f64::from(parent.uses),
            );
        }
        for demand in &season.demands {
            limit(
                &|at| one((pairing(at).seed, donor(at)) == (demand.seed, demand.donor)),
                ComparisonOp::Ge,
                f64::from(demand.least),
            );
        }
        let limits = &season.limits;
        if let Some(pots) = limits.pots {
            limit(
                &|at| f64::from(pairing(at).pots),
                ComparisonOp::Le,
                pots as f64,
            );
        }
        if let Some(most) = limits.most_pods {
            limit(&|_| 1.0, ComparisonOp::Le, f64::from(most));
        }
        if limits.fewest_pods > 0 {
            limit(&|_| 1.0, ComparisonOp::Ge, f64::from(limits.fewest_pods));
        }
        if let Some(cap) = limits.mean_kinship {
            limit(&|at| pairing(at).kinship - cap, ComparisonOp::Le, 1e-12);
        }
        for &line in &limits.lines_through_seed {
            let on = |at: usize| season.seed_parents[pairing(at).seed].line == Some(line);
            limit(&|at| one(on(at)), ComparisonOp::Ge, 1.0);
        }
        for &line in &limits.lines_through_pollen {
            let on = |at: usize| season.donors[donor(at)].line == Some(line);
            limit(&|at| one(on(at)), ComparisonOp::Ge, 1.0);
        }
        problem.solve().ok().map(|solution| solution.objective())
    }
}
