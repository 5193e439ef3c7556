//! Whom to select, as a picture shows it.

use super::shared::ChartInterval;
use crate::wording::Name;
use serde::Serialize;

/// Siblings as rows, traits as columns of marks: whom to select.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SelectGrid {
    /// The answer.
    pub title: Name,
    /// At which age and when the traits were read, a line each.
    pub under: Vec<String>,
    /// One for each trait.
    pub columns: Vec<GridColumn>,
    /// Whether rows have an index.
    pub has_index: bool,
    /// Each cross, pod or sowing by itself.
    pub crosses: Vec<GridCross>,
    /// What the marks mean, cautions and what was left out.
    pub notes: Vec<String>,
}

/// A trait as a column of marks.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GridColumn {
    /// The trait with its unit.
    pub heading: String,
    /// How it counts, such as "weight 2".
    pub counts: String,
    /// How many steps a scale has, 1 the least; `None` for a measure.
    pub steps: Option<usize>,
}

/// The siblings of one cross.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GridCross {
    /// Its code.
    pub id: String,
    /// Those to keep first, those gone last.
    pub groups: Vec<GridGroup>,
    /// First and last of rows that have the same index, counted over all groups.
    pub equal: Vec<(usize, usize)>,
    /// First and last of rows that are not clearly apart at the line between kept and not kept.
    pub unsure: Vec<(usize, usize)>,
}

/// Siblings for whom the same is proposed.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GridGroup {
    /// What is proposed, and for how many.
    pub heading: String,
    /// Whether they are to be kept.
    pub is_kept: bool,
    /// Whether they are no longer here; drawn pale.
    pub is_gone: bool,
    /// Best first.
    pub rows: Vec<GridRow>,
}

/// One sibling.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GridRow {
    /// Its number on the page of the cross.
    pub number: String,
    /// Its reading of each trait; `None` where there is none.
    pub cells: Vec<Option<GridCell>>,
    /// Its index with the 95 % limits.
    pub index: Option<ChartInterval>,
    /// The index in words, or what became of the plant.
    pub remark: String,
}

/// One reading in the grid.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GridCell {
    /// In the unit of the column.
    pub value: f64,
    /// The same in words, without the unit.
    pub words: String,
}

/// Two traits against each other: is there a plant that has both?
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ScatterChart {
    /// The answer.
    pub title: Name,
    /// When the traits were read, a line each.
    pub under: Vec<String>,
    /// The first trait.
    pub across: ScatterAxis,
    /// The second trait.
    pub up: ScatterAxis,
    /// One for each place, however many plants stand there.
    pub dots: Vec<ScatterDot>,
    /// Corners of the line of those that no sibling beats in both, from the least across.
    pub front: Vec<(f64, f64)>,
    /// What the marks mean, cautions and what was left out.
    pub notes: Vec<String>,
}

/// A trait as an axis.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ScatterAxis {
    /// The trait with its unit, and which end is better.
    pub heading: String,
    /// How many steps a scale has; `None` for a measure.
    pub steps: Option<usize>,
}

/// The plants with the same two readings.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ScatterDot {
    /// Across and up, in the units of the axes.
    pub at: (f64, f64),
    /// Numbers of the plants.
    pub numbers: Vec<String>,
    /// Whether one of them is to be kept; drawn full.
    pub is_kept: bool,
    /// Whether they stand on the front.
    pub is_on_front: bool,
}
