//! `goals.ron`: what the next pollinations are for, and within what limits they are planned.
//!
//! Every field may be left out; what stands for a missing one is decided, and printed, by the report that plans.

use super::FreeText;
use super::fault_words::fault_words;
use super::typed::typed;
use serde::{Deserialize, Serialize};

/// The whole file.
#[derive(Deserialize, Serialize, Debug, Default)]
#[serde(deny_unknown_fields)]
pub struct GoalsPage<'t> {
    /// What a good seedling has.
    #[serde(borrow, default)]
    pub traits: Vec<TraitWeight<'t>>,
    /// Pots for the seedlings of this season.
    pub pots: Option<u32>,
    /// Seedlings raised from each pod, one pot each.
    pub seedlings_per_pod: Option<u32>,
    /// Most pods on one flowering female in the plan.
    pub pods_per_spike: Option<u32>,
    /// Pods the pollen of one envelope, or of one male in flower, suffices for.
    pub uses_per_pollen: Option<u32>,
    /// Pods one pollen parent may make over all its pollen.
    pub uses_per_male: Option<u32>,
    /// Highest inbreeding of any seedlings, 0 to 1.
    pub most_inbreeding: Option<f64>,
    /// Highest mean kinship of the seedlings with the plants kept, 0 to 1.
    pub most_kinship: Option<f64>,
    /// What inbreeding of 1 would cost a pod, in genetic standard deviations.
    pub weight_on_inbreeding: Option<f64>,
    /// Heritability, 0 to 1.
    pub heritability: Option<f64>,
    /// How much two species differ (S), in units of the variance within one (V).
    pub species_differ: Option<f64>,
    /// Pollinations that must be made.
    #[serde(default)]
    pub must: Vec<WantedPair<'t>>,
    /// Pollinations that must not be made.
    #[serde(default)]
    pub never: Vec<WantedPair<'t>>,
    /// Species whose line is to go on: at least one pod through a seed parent and one through a pollen parent of it.
    #[serde(default)]
    pub keep_lines: Vec<&'t str>,
    /// How long pollen lasts, as this grower believes.
    #[serde(default)]
    pub pollen_lasts: PollenLife,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// A trait and how much it counts.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct TraitWeight<'t> {
    /// Code or name of the trait.
    #[serde(rename = "of")]
    pub code: &'t str,
    /// Weight per genetic standard deviation; below 0 when less is better.
    #[serde(default = "one")]
    pub weight: f64,
}

fn one() -> f64 {
    1.0
}

/// A pollination wanted or ruled out.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct WantedPair<'t> {
    /// Code of the seed parent.
    pub seed: &'t str,
    /// Code of the pollen parent.
    pub pollen: &'t str,
}

/// Days after which stored pollen is not planned with; left out, it is planned with at any age.
#[derive(Deserialize, Serialize, Clone, Copy, Debug, Default)]
#[serde(deny_unknown_fields)]
pub struct PollenLife {
    /// After the last flower, not stored.
    pub fresh: Option<u32>,
    /// At room temperature.
    pub room: Option<u32>,
    /// In the fridge.
    pub fridge: Option<u32>,
    /// In the freezer.
    pub freezer: Option<u32>,
}

/// The largest a number of the goals may be, by the name of its field; the smallest is 0.
pub fn goals_most(field: &str) -> f64 {
    match field {
        "heritability" => 0.95,
        "most_inbreeding" | "most_kinship" => 1.0,
        "species_differ" => 1_000.0,
        _ => 1e6,
    }
}

/// A fault in the goals, with its place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct GoalsFault {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
    /// What was found and what was needed.
    pub words: String,
}

/// Reads the goals from a file's text.
///
/// # Errors
/// [`GoalsFault`] for text that is no RON, an unknown field, or a value of another type.
pub fn read_goals(text: &str) -> Result<GoalsPage<'_>, GoalsFault> {
    typed(text).map_err(|error| GoalsFault {
        line: error.span.start.line,
        column: error.span.start.col,
        words: fault_words(&error.code),
    })
}
