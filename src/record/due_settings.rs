//! What `registry.ron` may say of a grower's own calendar: how long things take here, when seedlings move into larger
//! pots, and the shelves there are.

use super::FreeText;
use serde::{Deserialize, Serialize};

/// How long things take, least and most days; what is left out goes by the grower's records or common practice.
#[derive(Deserialize, Serialize, Clone, Debug, Default, PartialEq)]
#[serde(deny_unknown_fields, default)]
pub struct Intervals {
    /// From pollination to harvest.
    pub pods_ripen: Option<(u32, u32)>,
    /// From one dusting of a zone to the next.
    pub dust_again: Option<(u32, u32)>,
    /// From the last dusting until swollen ovaries can be counted.
    pub count_set: Option<(u32, u32)>,
    /// From harvest until seed should be sown.
    pub sow: Option<(u32, u32)>,
    /// From sowing to the first count of seedlings.
    pub germination: Option<(u32, u32)>,
    /// From one count of seedlings to the next.
    pub count_again: Option<(u32, u32)>,
    /// From sowing to pricking out.
    pub prick_out: Option<(u32, u32)>,
    /// From cutting to roots.
    pub rooting: Option<(u32, u32)>,
    /// Ages from sowing at which siblings are read, months.
    pub sittings_at_months: Vec<f64>,
}

/// The pot a seedling moves into from an age on.
#[derive(Deserialize, Serialize, Clone, Copy, Debug, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct PotStep {
    /// Age from sowing, months.
    pub from_months: f64,
    /// Outside width of the pot as it stands on the shelf, cm.
    pub pot_cm: f64,
}

/// One shelf there is.
#[derive(Deserialize, Serialize, Clone, Debug)]
#[serde(deny_unknown_fields)]
pub struct ShelfSpace<'t> {
    /// What it is called; private.
    #[serde(borrow)]
    pub place: Option<FreeText<'t>>,
    /// Usable width, cm.
    pub width_cm: f64,
    /// Usable depth, cm.
    pub depth_cm: f64,
}
