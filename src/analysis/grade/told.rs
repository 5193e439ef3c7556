//! Why siblings cannot be sorted, and what a reader must know; how it is said stands in `report`.

use crate::analysis::carries::carries;
use crate::analysis::siblings::UnknownTrait;
use crate::observation::series::LeftOut;
use crate::record::When;

/// Why siblings cannot be sorted.
#[derive(Clone, PartialEq, Debug)]
pub enum GradeError {
    /// A code that cannot be used, as `observation` words it.
    Scope(String),
    /// A trait that is not declared.
    Trait(UnknownTrait),
    /// A trait of kinds or steps: its name.
    NotAMeasure(String),
    /// A code without a sowing: as typed.
    NotSown(String),
    /// A code with several sowings.
    SownOften {
        /// As typed.
        id: String,
        /// Codes of the sowings.
        sowings: Vec<String>,
    },
    /// No reading can be used: name of the trait.
    NeverRead(String),
    /// No reading at the age asked for.
    NotReadAt {
        /// The age asked for, months.
        months: f64,
        /// Ages with readings, months, rising.
        read_at: Vec<f64>,
    },
}

carries!(GradeError: UnknownTrait => Trait);

/// What became of a plant that is not here any more.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Gone {
    /// Its fate, as `observation` words it: `died 2025-01-10 (rot)`.
    Fate(String),
    /// Nothing is on record.
    NotHere,
}

/// What a reader must know.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Caution {
    /// Plants whose growth is from a reading by another method.
    OtherMethodBefore {
        /// How many.
        n: usize,
    },
    /// Of a reading or its error, as `observation` words it.
    Reading(String),
    /// The thirds hold within one sowing at one age: code of the sowing.
    WithinOneAge(String),
    /// Fewer plants read than are classed: plants read.
    TooFew(usize),
    /// Plants that are gone count in the thirds: how many.
    GoneCounted(usize),
    /// Pests were seen on a plant that is here: its code.
    Pests(String),
    /// No potting of any plant before the reading is on record.
    NoPotting,
    /// Seedlings that may be of another sowing, pod or cross, which are not among those graded: how many.
    MixedUp(usize),
    /// Readings left out.
    LeftOut {
        /// At the age sorted at.
        here: LeftOut,
        /// At other ages.
        elsewhere: LeftOut,
    },
    /// The trait was read at other ages too: how many.
    OtherAges(usize),
    /// The day of the sitting is not exact.
    VagueDay(When),
    /// No ties are marked, since the distance is not stated.
    NoTies {
        /// Name of the trait.
        name: String,
        /// Its code.
        code: String,
    },
}
