//! What was read of one trait of siblings, at one age.

use crate::analysis::siblings::groups::{Group, PodTest};
use crate::observation::series::LeftOut;
use crate::observation::trait_unit::TraitUnit;
use serde::Serialize;

/// One trait at one age.
#[derive(Clone, Debug, Serialize)]
pub struct TraitSummary {
    /// Code.
    pub code: String,
    /// Name.
    pub name: String,
    /// Unit shown; empty when there is none.
    pub unit: String,
    /// Least and greatest age from sowing of the readings, months.
    pub age_months: Option<(f64, f64)>,
    /// The age and days in words.
    pub at: String,
    /// Other ages at which it was read too.
    pub other_ages: usize,
    /// Readings at other ages.
    pub readings_elsewhere: usize,
    /// Plants of the tray not yet gone by then without a reading at this age.
    pub unread: usize,
    /// Plants with a reading of the trait, but none that may be set beside these: read at other ages only, or at one that
    /// is not known.
    pub plants_elsewhere: usize,
    /// Those of the unread that have a reading all the same, at other or unknown ages only.
    pub unread_elsewhere: usize,
    /// All siblings together first, then pod by pod when there are several.
    pub groups: Vec<Group>,
    /// Pods read at other ages only, so not set beside the others.
    pub pods_apart: Vec<String>,
    /// Readings far from their siblings', in words.
    pub far: Vec<String>,
    /// How many readings are doubtful on plants so small, in words; `null` where none is.
    pub doubtful: Option<String>,
    /// The pods compared.
    pub pods: Option<PodTest>,
    /// Readings at this age that may not be compared.
    pub left_out: LeftOut,
    /// Readings at other ages that could not be compared either.
    pub left_out_elsewhere: LeftOut,
    /// The parents' own readings, latest first seen.
    pub parents: Vec<ParentValue>,
    /// Each plant and its value, in the unit shown; a kind by its place from 0.
    pub values: Vec<PlantValue>,
    #[serde(skip)]
    pub(crate) shown: TraitUnit,
}

/// A plant's value.
#[derive(Clone, Debug, Serialize)]
pub struct PlantValue {
    /// Its code.
    pub plant: String,
    /// Its pod.
    pub pod: Option<String>,
    /// Its value.
    pub value: f64,
}

/// A parent's latest reading; its age and pot differ from the siblings'.
#[derive(Clone, Debug, Serialize)]
pub struct ParentValue {
    /// Its code.
    pub plant: String,
    /// Whether it bore the seed; `null` when the direction or the parent is not certain.
    pub bore_the_seed: Option<bool>,
    /// Its value in the unit shown.
    pub value: f64,
}
