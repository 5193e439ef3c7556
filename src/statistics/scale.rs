//! On which scale are sizes interpolated and compared?

use super::error::{StatisticsError, logs, require};

/// The scale of a measure.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Scale {
    /// The logarithm: lengths, which grow in proportion and are above zero.
    Log,
    /// As they stand: counts and plain numbers, of which zero is one.
    Plain,
}

impl Scale {
    /// The values on the scale.
    ///
    /// # Errors
    /// Fewer than `needed`, one not finite, or on the logarithm one not above zero.
    pub fn values(self, sizes: &[f64], needed: usize) -> Result<Vec<f64>, StatisticsError> {
        match self {
            Scale::Log => logs(sizes, needed),
            Scale::Plain => require(sizes, needed).map(|()| sizes.to_vec()),
        }
    }

    /// A size from its value on the scale.
    pub fn size(self, value: f64) -> f64 {
        match self {
            Scale::Log => libm::exp(value),
            Scale::Plain => value,
        }
    }

    /// The size half way between two on the scale.
    pub fn middle(self, low: f64, high: f64) -> f64 {
        match self {
            _ if low == high => low,
            Scale::Log => libm::sqrt(low * high),
            Scale::Plain => (low + high) / 2.0,
        }
    }
}
