//! What several charts hold: values with their intervals, readings, and rows of them.

use crate::analysis::siblings::Measure;
use crate::report::pedigree::Sex;
use crate::wording::Name;
use serde::Serialize;

/// A middle value and the interval around it, in the unit of the axis.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct ChartInterval {
    /// Lower end.
    pub low: f64,
    /// Median, mean or estimate.
    pub middle: f64,
    /// Upper end.
    pub high: f64,
}

/// One reading of one plant.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ChartDot {
    /// The value, in the unit of the axis.
    pub value: f64,
    /// Name of the plant where it is to be pointed out.
    pub label: Option<String>,
    /// Whether the reading is doubtful, such as one without a unit; drawn hollow.
    pub doubtful: bool,
    /// Number of the plant, written on the dot; empty for a plain dot.
    pub number: String,
}

impl ChartInterval {
    /// The mean of a measure with its limits, where there are some.
    pub fn of_mean(measure: &Measure) -> Option<ChartInterval> {
        let (low, high) = measure.mean_between?;
        let middle = measure.mean;
        Some(ChartInterval { low, middle, high })
    }
}

/// Readings in which nothing stands out.
pub fn plain_dots(values: &[f64]) -> Vec<ChartDot> {
    let dot = |&value: &f64| ChartDot {
        value,
        ..ChartDot::default()
    };
    values.iter().map(dot).collect()
}

/// The readings of one group of plants.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct DotRow {
    /// What the group is called; counts belong here too.
    pub label: Name,
    /// Its readings.
    pub dots: Vec<ChartDot>,
    /// Its middle and interval.
    pub interval: Option<ChartInterval>,
    /// Where ancestry expects the middle 95 % of siblings to lie.
    pub expected: Option<(f64, f64)>,
    /// What is said at the end of the row.
    pub remark: String,
}

/// A parent's value on the axis of its offspring.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ParentReading {
    /// The value.
    pub value: f64,
    /// The parent's code or name.
    pub label: String,
    /// Which side it is.
    pub sex: Option<Sex>,
}
