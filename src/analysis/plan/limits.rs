//! What each limit of the season costs.

use crate::analysis::plan::candidates::SeasonCandidates;
use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::work::{Stage, Work};
use crate::planning::price::{Limit, prices};
use crate::planning::season::Plan;
use serde::Serialize;

/// Networks for each limit's price.
const PRICE_STEPS: u64 = 20_000;

/// A limit of the season by the codes of its plants and envelopes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NamedLimit {
    /// Pots.
    Pots,
    /// Pods in all.
    MostPods,
    /// Pods needed.
    FewestPods,
    /// Pods on a seed parent.
    SeedParent(String),
    /// Pods from a pollen parent.
    Donor(String),
    /// Pods from an envelope.
    Envelope(String),
    /// Pods from a pollen parent as it sheds.
    AsShed(String),
    /// The cap on inbreeding.
    Inbreeding,
    /// The cap on kinship with what is kept.
    MeanKinship,
    /// A seed and a pollen parent that must be crossed.
    Must([String; 2]),
    /// A seed and a pollen parent that must not be.
    Forbidden([String; 2]),
    /// A species' line through a seed parent.
    LineThroughSeed(String),
    /// A species' line through a pollen parent.
    LineThroughPollen(String),
}

/// A limit and its price.
#[derive(Serialize)]
pub struct LimitRow {
    /// The limit; it is shown with how it is eased.
    pub limit: NamedLimit,
    /// What easing it gains; `null` when the work was stopped before.
    pub gain: Option<f64>,
    /// What it could gain at most; the same when proved.
    pub at_most: Option<f64>,
    /// Whether that is proved.
    pub proved: bool,
}

impl PlanContext<'_, '_, '_> {
    /// The limits the plan runs into, dearest first, those not reached last.
    pub fn limits(
        &self,
        candidates: &SeasonCandidates,
        best: &Plan,
        work: &mut Work,
    ) -> Vec<LimitRow> {
        work.stage.set(Stage::Limits);
        let prices = prices(&candidates.season, best, PRICE_STEPS, &mut work.budget);
        let mut rows: Vec<LimitRow> = prices
            .priced
            .into_iter()
            .map(|price| LimitRow {
                limit: self.named(candidates, price.limit),
                gain: Some(price.gain),
                at_most: Some(price.most),
                proved: price.proved,
            })
            .collect();
        // Stable: limits that cost the same stay in the order in which the plan meets them.
        let gain = |row: &LimitRow| row.gain.unwrap_or(0.0);
        rows.sort_by(|a, b| gain(b).total_cmp(&gain(a)));
        rows.extend(prices.unreached.into_iter().map(|limit| LimitRow {
            limit: self.named(candidates, limit),
            gain: None,
            at_most: None,
            proved: false,
        }));
        rows
    }

    fn named(&self, candidates: &SeasonCandidates, limit: Limit) -> NamedLimit {
        let code = |plant| self.registry.code(plant);
        let species = |line: u32| self.context.descent().species[line as usize].clone();
        match limit {
            Limit::Pots => NamedLimit::Pots,
            Limit::MostPods => NamedLimit::MostPods,
            Limit::FewestPods => NamedLimit::FewestPods,
            Limit::SeedParent(at) => NamedLimit::SeedParent(code(candidates.seeds[at])),
            Limit::Donor(at) => NamedLimit::Donor(code(candidates.donors[at])),
            Limit::Lot(at) => match &candidates.pollen[at].lot {
                Some(lot) => NamedLimit::Envelope(lot.clone()),
                None => NamedLimit::AsShed(code(candidates.pollen[at].plant)),
            },
            Limit::Inbreeding => NamedLimit::Inbreeding,
            Limit::MeanKinship => NamedLimit::MeanKinship,
            Limit::Must(at) => {
                let demand = &candidates.season.demands[at];
                let plants = [
                    candidates.seeds[demand.seed],
                    candidates.donors[demand.donor],
                ];
                NamedLimit::Must(plants.map(code))
            }
            Limit::Forbidden(at) => NamedLimit::Forbidden(candidates.parents(at).map(code)),
            Limit::LineThroughSeed(line) => NamedLimit::LineThroughSeed(species(line)),
            Limit::LineThroughPollen(line) => NamedLimit::LineThroughPollen(species(line)),
        }
    }
}
