//! What was read of one trait of siblings, at one age.

use crate::analysis::siblings::groups::{Group, PodApart, PodTest};
use crate::analysis::siblings::parents::{OtherParents, ParentValue};
use crate::observation::not_here::ByReason;
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
    /// Plants with a reading of the trait, but none that may be set beside these, by the reason.
    pub not_compared: ByReason,
    /// Those of the unread that have a reading all the same, by the reason why it is not among these.
    pub unread_not_compared: ByReason,
    /// All siblings together first, then pod by pod when there are several.
    pub groups: Vec<Group>,
    /// Pods that were read, but not so that they may be set beside the others.
    pub pods_apart: Vec<PodApart>,
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
    /// The parents' own readings: of the certain ones, then of those that may be one.
    pub parents: Vec<ParentValue>,
    /// Plants that may be a parent and are not among these.
    pub other_parents: Vec<OtherParents>,
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
