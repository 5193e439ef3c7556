//! The check tables of `tests/numbers/data` and what a comparison with them needs.

use podbook::statistics::Interval;
use podbook::statistics::random::SplitMix64;
use serde_json::Value;

/// A table by file name.
macro_rules! table {
    ($name:literal) => {
        serde_json::from_str::<serde_json::Value>(include_str!(concat!("../data/", $name))).unwrap()
    };
}
pub(crate) use table;

/// Fails unless the two agree to `relative`, or both are within `relative` of zero.
#[track_caller]
pub fn close(found: f64, expected: f64, relative: f64) {
    let scale = expected.abs().max(found.abs());
    let near = (found - expected).abs() <= relative * scale || scale <= relative;
    assert!(near, "found {found:e}, expected {expected:e}");
}

/// As [`close`], for both limits against a list of two.
#[track_caller]
pub fn close_interval(found: Interval, expected: &Value, relative: f64) {
    let limits = numbers(expected);
    close(found.low, limits[0], relative);
    close(found.high, limits[1], relative);
}

#[track_caller]
pub fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("no number: {value}"))
}

#[track_caller]
pub fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

#[track_caller]
pub fn counts(value: &Value) -> Vec<u64> {
    value
        .as_array()
        .unwrap()
        .iter()
        .map(|v| v.as_u64().unwrap())
        .collect()
}

/// One column of Fisher's iris measurements (1936) for one species.
pub fn iris(species: &str, column: &str) -> Vec<f64> {
    let mut lines = include_str!("../data/iris.csv").lines();
    let at = lines
        .next()
        .unwrap()
        .split(',')
        .position(|name| name == column)
        .unwrap();
    let of_species = lines.filter(|line| line.starts_with(species));
    of_species
        .map(|line| line.split(',').nth(at).unwrap().parse().unwrap())
        .collect()
}

pub const IRIS: [&str; 3] = ["setosa", "versicolor", "virginica"];

/// Normal draws, which only the simulations of these tests need.
pub trait Draws {
    /// A standard normal draw (Box & Muller 1958, the cosine half).
    fn normal(&mut self) -> f64;
}

impl Draws for SplitMix64 {
    fn normal(&mut self) -> f64 {
        let radius = libm::sqrt(-2.0 * libm::log(1.0 - self.uniform()));
        radius * libm::cos(std::f64::consts::TAU * self.uniform())
    }
}
