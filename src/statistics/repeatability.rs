//! How well is a trait read, by the grower's own readings of the same plants soon after one another?
//!
//! A two-way table of plants by readings: what the plants differ by, what one reading differs from the next for all of
//! them (growth in between, another light), and the rest, which is the error of a reading. The repeatability is the share
//! of the spread among plants that a second reading would show again, `ICC(3,1)` of Shrout & Fleiss (1979, from memory);
//! limits of the error by chi-square, of the repeatability by F. Tables are pooled, each with its own means; `k`, the readings
//! per plant, is then their mean over the degrees of freedom among plants.

use super::describe::mean;
use super::distribution::{chi_square_upper_quantile, f_quantile};
use super::error::{StatisticsError, require};
use super::interval::{Confidence, Interval};

/// Degrees of freedom of the error from which on it is used in place of an assumed one (ours): with ten its true value
/// lies between 0.7 and 1.75 times the estimate.
pub const ENOUGH: f64 = 10.0;

/// Part of the sum of all squares up to which what is left is rounding: readings have three figures or four.
const ROUNDING: f64 = 1e-24;

/// How well a trait is read.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Repeatability {
    /// Degrees of freedom of the error.
    pub df: f64,
    /// Standard deviation of one reading of one plant, in the unit of the readings.
    pub error_sd: f64,
    /// Its limits.
    pub error_between: Interval,
    /// The share of the spread among plants that is not error, below 1; it may come out below 0.
    pub repeatability: f64,
    /// Its limits.
    pub repeatability_between: Interval,
}

/// The error of a reading from tables of plants by readings, each table of plants read on the same days.
///
/// # Errors
/// A table with rows of different length or of one reading, fewer than three plants above the number of tables, a value not
/// finite, or plants that all change by the same from reading to reading, or not at all.
pub fn repeatability(
    tables: &[Vec<Vec<f64>>],
    confidence: Confidence,
) -> Result<Repeatability, StatisticsError> {
    let values: Vec<f64> = tables.iter().flatten().flatten().copied().collect();
    require(&values, 6)?;
    let (mut among, mut error, mut df, mut df_error) = (0.0, 0.0, 0.0, 0.0);
    for table in tables.iter().filter(|table| table.len() > 1) {
        let times = readings_per_plant(table)?;
        let (of_plants, of_error) = squares(table);
        (among, error) = (among + of_plants, error + of_error);
        let of_table = table.len() as f64 - 1.0;
        (df, df_error) = (df + of_table, df_error + of_table * (times as f64 - 1.0));
    }
    if df < 2.0 {
        return Err(StatisticsError::TooFew {
            found: tables.iter().map(Vec::len).sum(),
            needed: 3,
        });
    }
    if error <= ROUNDING * values.iter().map(|value| value * value).sum::<f64>() {
        return Err(StatisticsError::NoSpread);
    }
    let (among, mean_error) = (among / df, error / df_error);
    let k = 1.0 + df_error / df;
    let tail = confidence.tail();
    let share = |f: f64| (f - 1.0) / (f + k - 1.0);
    let f = among / mean_error;
    let limit = |upper: f64| libm::sqrt(error / chi_square_upper_quantile(upper, df_error));
    Ok(Repeatability {
        df: df_error,
        error_sd: libm::sqrt(mean_error),
        error_between: Interval {
            low: limit(tail),
            high: limit(1.0 - tail),
        },
        repeatability: share(f),
        repeatability_between: Interval {
            low: share(f / f_quantile(1.0 - tail, df, df_error)),
            high: share(f * f_quantile(1.0 - tail, df_error, df)),
        },
    })
}

/// The readings of each plant of a table, two or more.
fn readings_per_plant(table: &[Vec<f64>]) -> Result<usize, StatisticsError> {
    let times = table[0].len();
    match table.iter().find(|row| row.len() != times) {
        Some(row) => Err(StatisticsError::Unpaired {
            left: times,
            right: row.len(),
        }),
        None if times < 2 => Err(StatisticsError::TooFew {
            found: times,
            needed: 2,
        }),
        None => Ok(times),
    }
}

/// Sums of squares among the plants of one table, and what is left after plants and readings.
fn squares(table: &[Vec<f64>]) -> (f64, f64) {
    let times = table[0].len();
    let all: Vec<f64> = table.iter().flatten().copied().collect();
    let grand = mean(&all);
    let of_plant: Vec<f64> = table.iter().map(|row| mean(row)).collect();
    let of_time = |at: usize| table.iter().map(|row| row[at]).sum::<f64>() / table.len() as f64;
    let of_time: Vec<f64> = (0..times).map(of_time).collect();
    let among = of_plant
        .iter()
        .map(|plant| (plant - grand) * (plant - grand));
    let rest = table.iter().zip(&of_plant).flat_map(|(row, plant)| {
        let of_time = &of_time;
        row.iter().zip(of_time).map(move |(value, time)| {
            let rest = value - plant - time + grand;
            rest * rest
        })
    });
    (times as f64 * among.sum::<f64>(), rest.sum())
}
