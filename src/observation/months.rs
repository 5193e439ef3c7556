//! Months from one date to another.

use crate::record::When;

/// Mean length of a month in days (365.25 / 12), for ages.
pub const MONTH: f64 = 30.4375;

/// Months from one date to another, least and greatest; `None` when an end is open.
pub fn months(from: When, to: When) -> Option<(f64, f64)> {
    from.days_until(to)
        .map(|(least, most)| (f64::from(least) / MONTH, f64::from(most) / MONTH))
}
