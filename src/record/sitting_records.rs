//! Readings as they are written down: one day, one place, one method, many plants.

use super::{FreeText, Rows};
use serde::{Deserialize, Serialize};

/// Readings taken on one day, in one place, by one method, of many plants.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Sitting<'t> {
    /// When.
    pub on: &'t str,
    /// Where the plants stood.
    pub place: Option<FreeText<'t>>,
    /// How it was read.
    pub method: Option<FreeText<'t>>,
    /// Who read; "me" or a role.
    pub by: Option<FreeText<'t>>,
    /// Which pitchers were read.
    pub pitcher: Option<PitcherType>,
    /// The lamp.
    pub light: Option<FreeText<'t>>,
    /// What the columns after the plant are: a trait's code, with a unit where one is meant ("span cm"), or `pest`,
    /// `pitcher`, `note`.
    pub columns: Vec<&'t str>,
    /// One row per plant: its number, then a cell for each column; `""` is not read.
    pub rows: Rows<'t>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// Kinds of pitcher.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
#[serde(rename_all = "snake_case")]
pub enum PitcherType {
    /// Of a young plant.
    Juvenile,
    /// Adult, near the ground.
    Lower,
    /// Between.
    Intermediate,
    /// Adult, climbing.
    Upper,
}
