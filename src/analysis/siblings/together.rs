//! Do traits go together among siblings? Rank correlations of plants read in both, each trait at its own age.

use crate::analysis::siblings::summary::TraitSummary;
use crate::statistics::Confidence;
use crate::statistics::correlation::spearman;
use serde::Serialize;
use std::collections::BTreeMap;

/// Two traits set against each other.
#[derive(Clone, Debug, Serialize)]
pub struct Together {
    /// Name of the one.
    pub first: String,
    /// Name of the other.
    pub second: String,
    /// Plants read in both.
    pub n: usize,
    /// Spearman's rank correlation, −1 to 1.
    pub correlation: f64,
    /// Its 95 % limits (Bonett & Wright 2000); `null` at −1 and 1, where there are none.
    pub between: Option<(f64, f64)>,
    /// The ages of the two.
    pub ages: BothAges,
}

/// When two traits were read.
#[derive(Clone, PartialEq, Debug)]
pub struct BothAges(pub AgeRead, pub AgeRead);

/// When a trait was read.
#[derive(Clone, PartialEq, Debug)]
pub enum AgeRead {
    /// Least and greatest age from sowing, months.
    Months(f64, f64),
    /// The days, as `observation` words them, where no age is known.
    Days(String),
}

/// Every pair of measures and scales with enough plants read in both.
pub fn together(traits: &[TraitSummary]) -> Vec<Together> {
    let ordered: Vec<(&TraitSummary, BTreeMap<&str, f64>)> = traits
        .iter()
        .filter(|of| of.shown.is_measure() || of.shown.is_scale)
        .map(|of| {
            let values = of
                .values
                .iter()
                .map(|value| (value.plant.as_str(), value.value));
            (of, values.collect())
        })
        .collect();
    let mut pairs = Vec::new();
    for (at, one) in ordered.iter().enumerate() {
        pairs.extend(
            ordered[at + 1..]
                .iter()
                .filter_map(|other| pair(one, other)),
        );
    }
    pairs
}

type Values<'t> = (&'t TraitSummary, BTreeMap<&'t str, f64>);

fn pair((one, first): &Values, (other, second): &Values) -> Option<Together> {
    let both = first
        .iter()
        .filter_map(|(plant, value)| Some((*value, *second.get(plant)?)));
    let (x, y): (Vec<f64>, Vec<f64>) = both.unzip();
    let found = spearman(&x, &y, Confidence::P95).ok()?;
    let age = |of: &TraitSummary| match of.age_months {
        Some((least, most)) => AgeRead::Months(least, most),
        None => AgeRead::Days(of.at.clone()),
    };
    Some(Together {
        first: one.name.clone(),
        second: other.name.clone(),
        n: found.n,
        correlation: found.rho,
        between: found.interval.map(|of| (of.low, of.high)),
        ages: BothAges(age(one), age(other)),
    })
}

impl Together {
    /// Whether the limits leave out zero; so do −1 and 1, which have none.
    pub fn is_clear(&self) -> bool {
        (self.between).is_none_or(|(low, high)| low > 0.0 || high < 0.0)
    }
}
