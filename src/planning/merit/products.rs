//! A sparse symmetric matrix as it is handed to be factored.

use super::joined::Sparse;

/// Products of unknowns that are to be factored.
pub struct Products {
    /// For each unknown its products with itself and those before it, each pair once.
    pub rows: Vec<Sparse>,
    /// Unknowns that are eliminated last, in this order: of some that say the same the first is kept.
    pub last: Vec<u32>,
    /// Sets of unknowns whose entries of the inverse will be asked for.
    pub together: Vec<Vec<u32>>,
}
