//! What each limit of the season costs, in words.

use crate::analysis::plan::answer::LimitRow;
use crate::analysis::plan::bench::Bench;
use crate::analysis::plan::ground::Ground;
use crate::analysis::plan::work::{Stage, Work};
use crate::planning::price::{Limit, prices};
use crate::planning::season::Plan;

/// Networks for each limit's price.
const PRICE_STEPS: u64 = 20_000;

impl Ground<'_, '_, '_> {
    /// The limits the plan runs into, dearest first, those not reached last.
    pub fn limits(&self, bench: &Bench, best: &Plan, work: &mut Work) -> Vec<LimitRow> {
        work.stage.set(Stage::Limits);
        let prices = prices(&bench.season, best, PRICE_STEPS, &mut work.budget);
        let mut rows: Vec<LimitRow> = prices
            .priced
            .into_iter()
            .map(|price| LimitRow {
                limit: self.limit_words(bench, price.limit),
                gain: Some(price.gain),
                at_most: Some(price.most),
                proved: price.proved,
            })
            .collect();
        // Stable: limits that cost the same stay in the order in which the plan meets them.
        let gain = |row: &LimitRow| row.gain.unwrap_or(0.0);
        rows.sort_by(|a, b| gain(b).total_cmp(&gain(a)));
        rows.extend(prices.unreached.into_iter().map(|limit| LimitRow {
            limit: self.limit_words(bench, limit),
            gain: None,
            at_most: None,
            proved: false,
        }));
        rows
    }

    fn limit_words(&self, bench: &Bench, limit: Limit) -> String {
        let code = |plant| self.registry.code(plant);
        let pair = |at: usize| {
            let pairing = &bench.season.pairings[at];
            format!(
                "{} × {}",
                code(bench.seeds[pairing.seed]),
                code(bench.pollen[pairing.lot].plant)
            )
        };
        let species = |line: u32| self.descent.species[line as usize].clone();
        match limit {
            Limit::Pots => "pots: room for one more pod".to_owned(),
            Limit::MostPods => "pods in all: one more".to_owned(),
            Limit::FewestPods => "fewest pods: none needed".to_owned(),
            Limit::SeedParent(at) => format!("pods on {}: one more", code(bench.seeds[at])),
            Limit::Donor(at) => format!("pods from {}: one more", code(bench.donors[at])),
            Limit::Lot(at) => match &bench.pollen[at].lot {
                Some(lot) => format!("pods from envelope {lot}: one more"),
                None => format!(
                    "pods from {} as it sheds: one more",
                    code(bench.pollen[at].plant)
                ),
            },
            Limit::Inbreeding => "cap on inbreeding: none".to_owned(),
            Limit::MeanKinship => "cap on kinship with what is kept: none".to_owned(),
            Limit::Must(at) => {
                let demand = &bench.season.demands[at];
                let plants = [bench.seeds[demand.seed], bench.donors[demand.donor]].map(code);
                format!("{} must be made: need not", plants.join(" × "))
            }
            Limit::Forbidden(at) => format!("{} must not be made: may", pair(at)),
            Limit::LineThroughSeed(line) => {
                format!("line of {} through a seed parent: need not", species(line))
            }
            Limit::LineThroughPollen(line) => format!(
                "line of {} through a pollen parent: need not",
                species(line)
            ),
        }
    }
}
