//! Who is the better parent, as a picture shows it.

use super::shared::ChartInterval;
use crate::wording::Name;
use serde::Serialize;

/// Plants in order of merit, each with its error.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct MeritChart {
    /// The answer.
    pub title: Name,
    /// Plants and readings.
    pub under: Vec<String>,
    /// What the axis counts, from 0, the mean.
    pub heading: String,
    /// What stands at the right of each row.
    pub figure: String,
    /// Plants, the best first.
    pub rows: Vec<MeritChartRow>,
    /// What the marks mean, cautions and what was left out.
    pub notes: Vec<String>,
}

/// One plant.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct MeritChartRow {
    /// Its place from the top; plants with the same figures share one.
    pub place: usize,
    /// Its code.
    pub plant: String,
    /// Whether it may well be the best of all.
    pub may_be_best: bool,
    /// Its merit and the ends of the error.
    pub interval: ChartInterval,
    /// Whether too little is known for an upper end.
    pub is_open: bool,
    /// How its merit is known.
    pub known: MeritKnown,
    /// The chance of being better than the first; empty for the first.
    pub figure: String,
}

/// How a merit is known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum MeritKnown {
    /// By readings of the plant itself.
    #[default]
    Itself,
    /// By its offspring.
    Offspring,
    /// No better than by the mean of its pod or species.
    Mean,
}
