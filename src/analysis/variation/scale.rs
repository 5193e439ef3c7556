//! On which scale a trait's spread is compared, and what is said of it.

use crate::record::Reads;
use crate::registry::Registry;
use crate::statistics::spread_scale::SpreadScale;

/// Lengths vary in proportion to their size; counts and numbers may be zero.
pub fn scale_of(registry: &Registry, index: u16) -> SpreadScale {
    match registry.settings.traits[usize::from(index)].reads {
        Reads::Length(_) => SpreadScale::Proportion,
        Reads::Count => SpreadScale::Root,
        _ => SpreadScale::Plain,
    }
}

/// What the scale does to the comparison, where it is not the usual one.
pub fn scale_words(scale: SpreadScale, name: &str) -> Option<String> {
    match scale {
        SpreadScale::Proportion => None,
        SpreadScale::Root => Some(format!(
            "{name} is a count: spread is compared on √(count + 3/8), where zeros count and a larger mean alone does not make \
             a larger spread"
        )),
        SpreadScale::Plain => Some(format!(
            "{name} is a plain number: standard deviations are compared as they stand, so a cross with larger values may vary \
             more for that alone"
        )),
    }
}

/// The scale as JSON names it.
pub fn scale_code(scale: SpreadScale) -> &'static str {
    match scale {
        SpreadScale::Proportion => "proportion",
        SpreadScale::Root => "root",
        SpreadScale::Plain => "plain",
    }
}
