//! What the bench adds to plants and pots besides their own story: treatments, photos, mix-ups.

use super::FreeText;
use serde::{Deserialize, Serialize};

/// Something put on plants against a pest or a disease; never how much of it.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Treatment<'t> {
    /// When.
    pub on: &'t str,
    /// The place whose plants were treated; needed in `registry.ron`.
    pub place: Option<FreeText<'t>>,
    /// The product and its registration number.
    pub product: FreeText<'t>,
    /// Against what.
    pub against: Option<FreeText<'t>>,
    /// Whether it is not known that the plant stood there when the place was treated.
    #[serde(default)]
    pub perhaps: bool,
    /// By whom: "me" or a role.
    pub by: Option<FreeText<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// A picture of a plant.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Photo<'t> {
    /// The file, relative to the registry's folder.
    pub file: FreeText<'t>,
    /// When it was taken.
    pub on: Option<&'t str>,
    /// The lamp or daylight it was taken in, which changes how colours look.
    pub light: Option<FreeText<'t>>,
    /// What it shows.
    pub note: Option<FreeText<'t>>,
}

/// A mix-up: from a day on it is not known which of several plants or pots this is.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Muddle<'t> {
    /// When it was noticed.
    pub on: &'t str,
    /// Codes of the others.
    pub with: Vec<&'t str>,
    /// How it happened.
    pub why: Option<FreeText<'t>>,
    /// When it became known again which is which.
    pub settled: Option<&'t str>,
    /// The pods that its record named before as those it may come from; they stand there again once this is settled.
    #[serde(default)]
    pub one_of_before: Vec<&'t str>,
}

/// A place where plants stand.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct PlantPlace<'t> {
    /// Its name, as other records write it.
    #[serde(borrow)]
    pub name: FreeText<'t>,
    /// Its climate, in words.
    pub climate: Option<FreeText<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// Whose record this is, where it is not the grower's own: taken in from a lineage that was handed over.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct ToldBy<'t> {
    /// The short name of the other grower's registry.
    pub registry: &'t str,
    /// Its code there.
    pub code: &'t str,
    /// When it was taken in.
    pub on: Option<&'t str>,
}

/// The same plant in another registry.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Foreign<'t> {
    /// The short name of that registry.
    pub registry: &'t str,
    /// Its code there.
    pub code: &'t str,
}
