//! Do traits go together among siblings? Rank correlations of plants read in both, each trait at its own age.

use crate::report::sheet::{Cell, Table};
use crate::analysis::siblings::answer::TraitSummary;
use crate::wording::{age, listed};
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
    /// Its 95 % limits (Bonett & Wright 2000).
    pub between: (f64, f64),
    /// The ages of the two in words.
    pub ages: String,
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
    let words = |of: &TraitSummary| of.age_months.map_or_else(|| of.at.clone(), age);
    let ages = match (words(one), words(other)) {
        (a, b) if a == b => a,
        (a, b) => format!("{}; {b}", a.trim_end_matches(" months")),
    };
    Some(Together {
        first: one.name.clone(),
        second: other.name.clone(),
        n: found.n,
        correlation: found.rho,
        between: (found.interval.low, found.interval.high),
        ages,
    })
}

impl Together {
    /// Whether the limits leave out zero.
    fn is_clear(&self) -> bool {
        self.between.0 > 0.0 || self.between.1 < 0.0
    }
}

/// The pairs whose limits leave out zero, as a table.
pub fn together_table(pairs: &[Together]) -> Table {
    let mut table = Table::new(&["trait", "with", ">n", ">correlation (95 %)", "read at"]).titled(
        "Traits together: rank correlation of the plants read in both; below 0 one rises as the other falls",
    );
    for pair in pairs.iter().filter(|pair| pair.is_clear()) {
        let (low, high) = pair.between;
        table.row(vec![
            Cell::from(pair.first.as_str()),
            Cell::from(pair.second.as_str()),
            Cell::from(pair.n),
            Cell::from(format!(
                "{} ({} to {})",
                signed(pair.correlation),
                signed(low),
                signed(high)
            )),
            Cell::from(pair.ages.as_str()),
        ]);
    }
    table
}

/// How many pairs are left in which no relation is clear.
pub fn unclear_words(pairs: &[Together]) -> Option<String> {
    let unclear = pairs.iter().filter(|pair| !pair.is_clear());
    let told: Vec<String> = unclear
        .map(|pair| format!("{} with {}", pair.first, pair.second))
        .collect();
    match &told[..] {
        [] => None,
        [_, _, _, ..] => Some(format!(
            "no clear relation in {} other pairs of traits",
            told.len()
        )),
        few => Some(format!("no clear relation: {}", listed(few))),
    }
}

fn signed(number: f64) -> String {
    let text = format!("{number:+.2}");
    match text.as_str() {
        "-0.00" => "+0.00".to_owned(),
        _ => text.replace('-', "−"),
    }
}
