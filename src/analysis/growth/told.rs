//! Why there is no answer on growth; how it is said stands in `report`.

use crate::analysis::carries::carries;
use crate::ancestry::TooDeep;

/// Why there is no answer.
#[derive(Clone, PartialEq, Debug)]
pub enum GrowthError {
    /// An age that is not above zero.
    AgeNotAboveZero(f64),
    /// A name that no declared trait has.
    UnknownTrait {
        /// As typed.
        name: String,
        /// Codes of the declared ones.
        declared: Vec<String>,
    },
    /// No trait is named, and none is the leaf span: codes of the declared ones.
    NoSpan(Vec<String>),
    /// A trait of steps or kinds: its code.
    NotMeasured(String),
    /// A code that names nothing that grows: as typed.
    NothingGrows(String),
    /// A line too long for exact shares.
    TooDeep(TooDeep),
    /// A code named twice: the code.
    NamedTwice(String),
    /// Two groups with a plant in common.
    SharedPlant {
        /// Their codes.
        of: (String, String),
        /// A plant of both.
        plant: String,
    },
    /// Two groups with a sowing in common.
    SharedSowing {
        /// Their codes.
        of: (String, String),
        /// The code of the sowing on its page.
        sowing: String,
    },
    /// No plant has a size at the age.
    NoSizeAt {
        /// Code of the group.
        id: String,
        /// The age, months.
        at: f64,
        /// Whether the days of a plant leave open if it has one.
        is_vague: bool,
        /// The ages, months, that the first and the last reading may have; `None` when no age is known.
        read: Option<[(f64, f64); 2]>,
    },
}

carries!(GrowthError: TooDeep => TooDeep);
