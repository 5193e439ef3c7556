//! Why a figure cannot be given.
//!
//! Small trays, plants that are all alike and readings nobody took are everyday cases, not errors: every function of
//! this floor that may lack an answer returns one of these instead of NaN. The wording is short so that a report can
//! put it where the figure would have stood.

use std::fmt;

/// The reason there is no figure.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum StatisticsError {
    /// Fewer values than the method needs.
    TooFew {
        /// Values present.
        found: usize,
        /// Values the method needs.
        needed: usize,
    },
    /// All values are equal, so there is no spread to divide by.
    NoSpread,
    /// A logarithm or a ratio was asked of a value that is zero or negative.
    NotPositive,
    /// A value is NaN or infinite.
    NotFinite,
    /// Two lists that belong together differ in length.
    Unpaired {
        /// Length of the first list.
        left: usize,
        /// Length of the second list.
        right: usize,
    },
    /// The age asked for lies (or may lie) before the first or after the last reading; sizes are never extrapolated.
    Outside {
        /// First age at which a size is known.
        first: f64,
        /// Last age at which a size is known.
        last: f64,
    },
    /// The ages of two readings overlap, so their order is not known.
    OrderUnknown,
    /// A stated value lies outside the range the method accepts.
    OutOfRange {
        /// The stated value.
        found: f64,
        /// Smallest accepted value.
        low: f64,
        /// Largest accepted value.
        high: f64,
    },
    /// More plants than the stated limit would be needed.
    OutOfReach {
        /// Largest number tried.
        limit: usize,
    },
    /// No stable optimum was found from any start.
    NotFitted,
}

impl fmt::Display for StatisticsError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFew { found, needed } => {
                write!(out, "too few: {found}, at least {needed} needed")
            }
            Self::NoSpread => write!(out, "no spread: all values are equal"),
            Self::NotPositive => write!(out, "a value is zero or negative"),
            Self::NotFinite => write!(out, "a value is not a number"),
            Self::Unpaired { left, right } => write!(out, "{left} values against {right}"),
            Self::Outside { first, last } => write!(out, "known only from age {first} to {last}"),
            Self::OrderUnknown => write!(out, "the ages of two readings overlap"),
            Self::OutOfRange { found, low, high } => {
                write!(out, "{found} is not between {low} and {high}")
            }
            Self::OutOfReach { limit } => write!(out, "more than {limit} would be needed"),
            Self::NotFitted => write!(out, "no stable fit"),
        }
    }
}

impl std::error::Error for StatisticsError {}

/// Passes if there are at least `needed` values and all are finite.
pub(crate) fn require(values: &[f64], needed: usize) -> Result<(), StatisticsError> {
    require_count(values.len(), needed)?;
    if values.iter().all(|v| v.is_finite()) {
        Ok(())
    } else {
        Err(StatisticsError::NotFinite)
    }
}

/// Passes if there are at least `needed`.
pub(crate) fn require_count(found: usize, needed: usize) -> Result<(), StatisticsError> {
    match found < needed {
        true => Err(StatisticsError::TooFew { found, needed }),
        false => Ok(()),
    }
}

/// The natural logarithms, or the reason there are none.
pub(crate) fn logs(values: &[f64], needed: usize) -> Result<Vec<f64>, StatisticsError> {
    require(values, needed)?;
    if values.iter().any(|&v| v <= 0.0) {
        return Err(StatisticsError::NotPositive);
    }
    Ok(values.iter().map(|&v| libm::log(v)).collect())
}

/// Passes if `found` is a number from `low` to `high`.
pub(crate) fn require_within(found: f64, low: f64, high: f64) -> Result<(), StatisticsError> {
    if found >= low && found <= high {
        Ok(())
    } else {
        Err(StatisticsError::OutOfRange { found, low, high })
    }
}
