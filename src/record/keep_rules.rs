//! The rules by which a grower keeps, sells or lets go: a small RON file of its own, outside the registry.

use super::fault_words::fault_words;
use super::typed::typed;
use serde::Deserialize;

/// What counts, what is a must, and how much room there is.
#[derive(Deserialize, Clone, Debug, Default, PartialEq)]
#[serde(deny_unknown_fields, default)]
pub struct KeepRules {
    /// Traits and their weights for one standard deviation; below zero where less is better.
    pub weigh: Vec<Weight>,
    /// Levels a plant must reach.
    pub need: Vec<Need>,
    /// How many to keep of each cross, unless a quota says otherwise.
    pub keep: Option<usize>,
    /// How many to keep of one cross.
    pub quotas: Vec<Quota>,
    /// Crosses with no more plants than this are kept whole.
    pub small_cross: Option<usize>,
    /// The chance wanted that those kept of a cross hold both sexes, 0 to 1.
    pub both_sexes: Option<f64>,
    /// Room for what is kept.
    pub shelf: Option<Shelf>,
}

/// A trait and its weight.
#[derive(Deserialize, Clone, Debug, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct Weight {
    /// Code or name of the trait.
    pub of: String,
    /// Weight for one standard deviation.
    pub weight: f64,
}

/// A level a plant must reach, in the unit the trait is shown in.
#[derive(Deserialize, Clone, Debug, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct Need {
    /// Code or name of the trait.
    pub of: String,
    /// Not less than this.
    pub at_least: Option<f64>,
    /// Not more than this.
    pub at_most: Option<f64>,
}

/// How many to keep of one cross.
#[derive(Deserialize, Clone, Debug, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct Quota {
    /// Code of the cross.
    pub cross: String,
    /// How many.
    pub keep: usize,
}

/// Shelves and the pots that stand on them.
#[derive(Deserialize, Clone, Debug, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct Shelf {
    /// Usable width of one shelf, cm.
    pub width_cm: f64,
    /// Usable depth of one shelf, cm.
    pub depth_cm: f64,
    /// How many shelves.
    #[serde(default = "one")]
    pub shelves: f64,
    /// Pot size taken for plants without a pot on record, cm.
    pub pot_cm: Option<f64>,
}

fn one() -> f64 {
    1.0
}

impl KeepRules {
    /// Reads the text of a rules file.
    ///
    /// # Errors
    /// With line, column and what was found, when the text is not such a file.
    pub fn read(text: &str) -> Result<KeepRules, String> {
        typed(text).map_err(|error| {
            let place = error.span.start;
            format!("{}:{}: {}", place.line, place.col, fault_words(&error.code))
        })
    }
}
