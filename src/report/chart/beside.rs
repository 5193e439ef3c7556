//! Crosses, plants and plans side by side, as a picture shows them.

use super::shared::DotRow;
use crate::report::pedigree::{DrawnEither, DrawnShare};
use crate::wording::Name;
use serde::Serialize;

/// The spread of crosses side by side.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct VariationChart {
    /// What is shown.
    pub title: Name,
    /// The trait with its unit.
    pub heading: String,
    /// One row for each cross.
    pub rows: Vec<DotRow>,
    /// Cautions and what was left out.
    pub notes: Vec<String>,
}

/// What several plants descend from.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ParentageChart {
    /// What is shown.
    pub title: Name,
    /// Species in order of first appearance in the registry.
    pub species: Vec<Name>,
    /// One row for each plant.
    pub rows: Vec<SharesRow>,
    /// Cautions.
    pub notes: Vec<String>,
}

/// What one plant descends from.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SharesRow {
    /// Its name or code.
    pub label: Name,
    /// Part of each species.
    #[serde(rename = "parentage")]
    pub shares: Vec<DrawnShare>,
    /// Parts that are of one of several species.
    pub either: Vec<DrawnEither>,
    /// Part that is not known, 0 to 1.
    pub unknown_share: f64,
}

/// One pair in plans side by side.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct PlansRow {
    /// Seed parent.
    pub seed: String,
    /// Pollen parent.
    pub pollen: String,
    /// Whether flowers and pollen of some of its pods only perhaps meet.
    pub may_not_meet: bool,
    /// Pods in each plan; 0 where it does not make the pair.
    pub pods: Vec<u32>,
}

/// The pollinations of a plan and of the best other plan.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct PlansChart {
    /// What is shown.
    pub title: Name,
    /// What each plan is called, and facts of it in few words.
    pub plans: Vec<(String, Vec<String>)>,
    /// Pairs in the order of the plan.
    pub rows: Vec<PlansRow>,
    /// Cautions.
    pub notes: Vec<String>,
}
