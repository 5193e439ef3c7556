//! Who is related to whom, as a picture shows it.

use crate::wording::Name;
use serde::Serialize;

/// Kinship of every pair of some plants.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct KinshipChart {
    /// The answer.
    pub title: Name,
    /// What the figures are.
    pub under: Vec<String>,
    /// Codes of the plants, in the order asked for.
    pub plants: Vec<String>,
    /// For each plant its kinship with every plant before it and, last, with itself; empty where the plants are too many.
    pub rows: Vec<Vec<KinshipCell>>,
    /// What stands there in place of rows.
    pub words: Vec<String>,
    /// What the marks mean, and cautions.
    pub notes: Vec<String>,
}

/// The kinship of one pair.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct KinshipCell {
    /// At least, 0 to 1; `None` where it was not asked for.
    pub kinship: Option<f64>,
    /// Whether it is a mean over several possible parents.
    pub is_expected: bool,
}
