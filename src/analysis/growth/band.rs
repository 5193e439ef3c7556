//! How far the plants of a group spread at each age: the middle half of them, for a picture with too many lines.

use crate::analysis::growth::grown::Grown;
use crate::statistics::describe::describe;
use std::collections::BTreeMap;

/// Plants of one age below which no quartiles are drawn.
const ENOUGH: usize = 4;

/// The middle half of the plants of one age.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SizeBand {
    /// Months from sowing.
    pub age: f64,
    /// Lower quartile of the sizes, in the unit shown (type 7, Hyndman & Fan 1996).
    pub low: f64,
    /// Upper quartile.
    pub high: f64,
}

/// The middle half at every age at which at least four plants were read, youngest first. Ages are taken together to a
/// thousandth of a month, as those of one sitting and sowing are.
pub fn middle_half(grown: &[Grown]) -> Vec<SizeBand> {
    let mut sizes: BTreeMap<i64, (f64, Vec<Option<f64>>)> = BTreeMap::new();
    for point in grown.iter().flat_map(|plant| &plant.points) {
        if let Some(age) = point.middle_age() {
            let key = libm::round(age * 1000.0) as i64;
            let of = sizes.entry(key).or_insert_with(|| (age, Vec::new()));
            of.1.push(Some(point.size));
        }
    }
    let read = sizes
        .into_values()
        .filter(|(_, sizes)| sizes.len() >= ENOUGH);
    read.filter_map(|(age, sizes)| {
        let (low, high) = describe(&sizes).ok()?.quartiles;
        Some(SizeBand { age, low, high })
    })
    .collect()
}
