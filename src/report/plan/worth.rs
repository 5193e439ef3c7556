//! A worth in figures, by one rule in sentences, tables and pictures: two decimals, since it is counted in genetic standard
//! deviations, of which no merit is known to a thousandth.

use crate::report::cell::Cell;

/// Decimals of a worth in a column.
pub(super) const DECIMALS: u8 = 2;

/// A worth or difference below this shows as nothing.
pub(super) const LEAST: f64 = 0.005;

/// A worth in a sentence, without zeros at its end: `21`, `4.5`.
pub fn figure(worth: f64) -> String {
    let shown = format!("{worth:.*}", usize::from(DECIMALS));
    match shown.trim_end_matches('0').trim_end_matches('.') {
        "-0" => "0".to_owned(),
        shown => shown.to_owned(),
    }
}

/// A worth that is not exceeded: rounded up, so that the figure shown is not exceeded either.
pub(super) fn at_most(worth: f64) -> String {
    figure((worth * 100.0 - 1e-6).ceil() / 100.0)
}

/// A difference in a column; what shows as nothing is still a difference.
pub(super) fn difference(less: f64) -> Cell {
    match less < LEAST {
        true => "under 0.01".into(),
        false => Cell::Number(less, DECIMALS),
    }
}
