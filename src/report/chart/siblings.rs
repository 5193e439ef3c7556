//! How siblings differ, as a picture shows it.

use super::shared::{DotRow, ParentReading};
use crate::wording::Name;
use serde::Serialize;

/// Siblings as dots, trait by trait.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SiblingsChart {
    /// The answer; empty where there is none.
    pub verdict: String,
    /// What is shown.
    pub title: Name,
    /// What belongs to the answer, a line each.
    pub under: Vec<String>,
    /// One strip for each trait.
    pub strips: Vec<TraitStrip>,
    /// Cautions and what was left out.
    pub notes: Vec<String>,
}

/// One trait of siblings.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct TraitStrip {
    /// The trait with its unit, such as "leaf span, cm".
    pub heading: String,
    /// How many steps the scale has, 1 the least; `None` for a measure, whose axis follows what was read.
    pub steps: Option<usize>,
    /// The steps of a scale in words, the least first; empty for a measure.
    pub anchors: Vec<String>,
    /// The counts against a stated ratio, where one was stated for this trait.
    pub ratio: Option<RatioStrip>,
    /// Siblings, one row for each pod or sowing.
    pub rows: Vec<DotRow>,
    /// The parents' own values, where they were read.
    pub parents: Vec<ParentReading>,
    /// In place of rows and parents where the trait has kinds without order: one group for each pod or sowing.
    pub kinds: Vec<KindGroup>,
}

/// Counts against a stated ratio.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct RatioStrip {
    /// What is set side by side.
    pub verdict: String,
    /// One for each part of the ratio.
    pub parts: Vec<RatioPart>,
}

/// One part of a ratio.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct RatioPart {
    /// The kinds it counts.
    pub label: String,
    /// Plants counted.
    pub n: u64,
    /// Plants expected.
    pub expected: f64,
}

/// How many plants of one group show each kind.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct KindGroup {
    /// What the group is called; its count belongs here too.
    pub label: String,
    /// The kinds that a sibling or a parent shows, in declared order.
    pub bars: Vec<KindBar>,
}

/// The plants that show one kind.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct KindBar {
    /// The kind.
    pub kind: String,
    /// Plants.
    pub n: u64,
    /// What is said at the end of the bar after the count: share, limits, a parent of that kind.
    pub remark: String,
}
