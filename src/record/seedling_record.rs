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
    #[serde(borrow, default)]
    pub sowing: Option<&'t str>,
    /// Its pod, when no sowing was recorded.
    #[serde(borrow, default)]
    pub pod: Option<&'t str>,
    /// The community pot it was taken from.
    #[serde(borrow, default)]
    pub community_pot: Option<&'t str>,
    /// The pods it may come from, when a tray was muddled: `P1`, or `X21-03.P1` for a pod of another cross.
    #[serde(borrow, default)]
    pub one_of: Few<&'t str>,
    /// When it came up.
    #[serde(borrow, default)]
    pub germinated: Option<&'t str>,
    /// When it got its number.
    #[serde(borrow, default)]
    pub numbered: Option<&'t str>,
    /// Where it stands.
    #[serde(borrow, default)]
    pub place: Option<FreeText<'t>>,
    /// A nickname; never a cultivar epithet.
    #[serde(borrow, default)]
    pub nickname: Option<FreeText<'t>>,
    /// A cultivar epithet given to this very plant.
    #[serde(borrow, default)]
    pub cultivar: Option<Box<Cultivar<'t>>>,
    /// Dated opinions that differ from the record.
    #[serde(borrow, default)]
    pub identified: Few<Identification<'t>>,
    /// Its rooted pieces; none recorded means one plant.
    #[serde(borrow, default)]
    pub ramets: Few<Ramet<'t>>,
    /// Its spikes.
    #[serde(borrow, default)]
    pub flowerings: Few<Flowering<'t>>,
    /// Its pots.
    #[serde(borrow, default)]
    pub pots: Few<Potting<'t>>,
    /// Treatments of this plant alone.
    #[serde(borrow, default)]
    pub treatments: Few<Treatment<'t>>,
    /// Pictures of it.
    #[serde(borrow, default)]
    pub photos: Few<Photo<'t>>,
    /// Mix-ups with other plants.
    #[serde(borrow, default)]
    pub muddled: Few<Muddle<'t>>,
    /// A decision to keep.
    #[serde(borrow, default)]
    pub kept: Option<Box<Kept<'t>>>,
    /// What became of it.
    #[serde(borrow, default)]
    pub fate: Option<Box<Fate<'t>>>,
    /// How it left before, and when it came back.
    #[serde(borrow, default)]
    pub came_back: Few<Return<'t>>,
    /// Remarks.
    #[serde(borrow, default)]
    pub note: Option<FreeText<'t>>,
}
