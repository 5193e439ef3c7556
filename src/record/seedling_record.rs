//! All that may be said of one seedling.

use super::{
    Cultivar, Fate, Few, Flowering, FreeText, Identification, Kept, Muddle, Photo, Potting, Ramet,
    Return, Treatment,
};
use serde::{Deserialize, Serialize};

/// A plant with a number.
#[derive(Deserialize, Serialize, Debug, Default)]
#[serde(deny_unknown_fields)]
pub struct Seedling<'t> {
    /// Number within the cross.
    pub number: &'t str,
    /// The sowing it comes from.
    pub sowing: Option<&'t str>,
    /// Its pod, when no sowing was recorded.
    pub pod: Option<&'t str>,
    /// The community pot it was taken from.
    pub community_pot: Option<&'t str>,
    /// The pods it may come from, when a tray was muddled: `P1`, or `X21-03.P1` for a pod of another cross.
    #[serde(default)]
    pub one_of: Few<&'t str>,
    /// When it came up.
    pub germinated: Option<&'t str>,
    /// When it got its number.
    pub numbered: Option<&'t str>,
    /// Where it stands.
    pub place: Option<FreeText<'t>>,
    /// A nickname; never a cultivar epithet.
    pub nickname: Option<FreeText<'t>>,
    /// A cultivar epithet given to this very plant.
    pub cultivar: Option<Box<Cultivar<'t>>>,
    /// Dated opinions that differ from the record.
    #[serde(default)]
    pub identified: Few<Identification<'t>>,
    /// Its rooted pieces; none recorded means one plant.
    #[serde(default)]
    pub ramets: Few<Ramet<'t>>,
    /// Its spikes.
    #[serde(default)]
    pub flowerings: Few<Flowering<'t>>,
    /// Its pots.
    #[serde(default)]
    pub pots: Few<Potting<'t>>,
    /// Treatments of this plant alone.
    #[serde(default)]
    pub treatments: Few<Treatment<'t>>,
    /// Pictures of it.
    #[serde(default)]
    pub photos: Few<Photo<'t>>,
    /// Mix-ups with other plants.
    #[serde(default)]
    pub muddled: Few<Muddle<'t>>,
    /// A decision to keep.
    pub kept: Option<Box<Kept<'t>>>,
    /// What became of it.
    pub fate: Option<Box<Fate<'t>>>,
    /// How it left before, and when it came back.
    #[serde(default)]
    pub came_back: Few<Return<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}
