//! On which scale a trait's spread is compared, and what a reader must know of it.

use crate::analysis::variation::told::Caution;
use crate::record::Reads;
use crate::registry::{Registry, TraitRow};
use crate::statistics::spread_scale::SpreadScale;

/// Lengths vary in proportion to their size; counts and numbers may be zero.
pub fn scale_of(registry: &Registry, index: TraitRow) -> SpreadScale {
    match registry[index].reads {
        Reads::Length(_) => SpreadScale::Proportion,
        Reads::Count => SpreadScale::Root,
        _ => SpreadScale::Plain,
    }
}

/// What the scale does to the comparison, where it is not the usual one.
pub fn scale_caution(scale: SpreadScale, name: &str) -> Option<Caution> {
    let name = name.to_owned();
    match scale {
        SpreadScale::Proportion => None,
        SpreadScale::Root => Some(Caution::CountOnRoot(name)),
        SpreadScale::Plain => Some(Caution::PlainNumber(name)),
    }
}
