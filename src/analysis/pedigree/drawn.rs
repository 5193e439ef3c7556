//! What a plant of a pedigree is, what became of it, and who may be a parent of a cross.

use serde::Serialize;

/// What a drawn plant is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum DrawnKind {
    /// A species plant without recorded parents.
    Founder,
    /// A hybrid or selected clone.
    Clone,
    /// A numbered seedling.
    #[default]
    Seedling,
    /// Siblings drawn together.
    Siblings,
    /// Several plants of which one is meant.
    OneOf,
    /// A plant of which nothing is known.
    Unknown,
}

/// What became of a plant.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Fate {
    /// Alive and here.
    #[default]
    Here,
    /// Dead.
    Dead,
    /// Culled.
    Culled,
    /// Lost.
    Lost,
    /// Sold.
    Sold,
    /// Given away or swapped.
    LetGo,
    /// Every piece ended, and not all in the same way.
    Gone,
}

impl Fate {
    /// Whether nothing of it grows any more, as far as recorded.
    pub fn is_over(self) -> bool {
        match self {
            Self::Dead | Self::Culled | Self::Lost | Self::Gone => true,
            Self::Here | Self::Sold | Self::LetGo => false,
        }
    }
}

/// A parent of a cross, as surely as it is known. Rows are places in the list of plants drawn.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum DrawnParent {
    /// This plant.
    Known(usize),
    /// One of these plants, it is not known which.
    OneOf(Vec<usize>),
    /// Pollen of these plants was mixed.
    Mixed(Vec<usize>),
    /// Not known.
    #[default]
    Unknown,
}

impl DrawnParent {
    /// The rows of all plants that may be this parent.
    pub fn rows(&self) -> &[usize] {
        match self {
            Self::Known(row) => std::slice::from_ref(row),
            Self::OneOf(rows) | Self::Mixed(rows) => rows,
            Self::Unknown => &[],
        }
    }
}
