//! What is asked of the mixed model: relatives, readings, columns, variances.

use std::fmt;

/// How plants are related: the inverse of A as a sum of contributions, sources before what draws from them.
#[derive(Clone, Debug, Default)]
pub struct Relatives {
    /// For each row its earlier rows with the part expected from each.
    pub sources: Vec<Vec<(u32, f64)>>,
    /// For each row the variance of its own, in units of A, above 0.
    pub mendelian_variance: Vec<f64>,
}

/// One reading.
#[derive(Clone, Debug)]
pub struct Reading {
    /// Row of the plant.
    pub plant: u32,
    /// What was read.
    pub value: f64,
    /// Columns that apply to this reading, with their values, each once.
    pub columns: Vec<(u32, f64)>,
}

/// The readings and the columns.
#[derive(Clone, Debug, Default)]
pub struct Design {
    /// Readings in any order.
    pub readings: Vec<Reading>,
    /// For each column the name of its group of equal variance, or `None` for a fixed effect.
    pub group_of: Vec<Option<usize>>,
    /// Columns that apply to every reading of some plants alike (the mean, a pod, shares of species), each once and none
    /// of them in the readings' own: stated once for siblings, so that they are added up per pod.
    pub families: Vec<Vec<(u32, f64)>>,
    /// For each row the place of its columns in `families`; rows beyond the end have none.
    pub family_of: Vec<Option<u32>>,
}

impl Design {
    /// The columns all readings of a plant share.
    pub(super) fn family(&self, plant: u32) -> &[(u32, f64)] {
        let family = self.family_of.get(plant as usize).copied().flatten();
        family.map_or(&[], |family| &self.families[family as usize])
    }
}

/// Variances, in squared units of the readings.
#[derive(Clone, PartialEq, Debug)]
pub struct Variances {
    /// σ²_a, above 0.
    pub additive: f64,
    /// σ²_p, at least 0.
    pub permanent: f64,
    /// σ²_e, above 0.
    pub residual: f64,
    /// Variance of each group of columns, at least 0; 0 means that there is no such effect.
    pub groups: Vec<f64>,
}

/// Why the equations cannot be solved.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Unsolvable {
    /// Nothing was read.
    NoReadings,
    /// A variance is not above 0.
    Variance,
    /// The equations are not positive definite.
    NotDefinite,
    /// More parents and columns than can be solved together.
    TooWide,
}

impl fmt::Display for Unsolvable {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Unsolvable::NoReadings => "nothing comparable was read",
            Unsolvable::Variance => "heritability and the other parts must leave something above 0 for each and for the error of a reading",
            Unsolvable::NotDefinite => "the readings cannot tell the effects apart",
            Unsolvable::TooWide => "more than 40,000 parents and sittings: so many cannot be solved together",
        })
    }
}

impl std::error::Error for Unsolvable {}
