//! Why something is proposed for a plant, and what a reader of the proposal must know; how it is said stands in `report`.

use crate::observation::parent_of::ParentOf;
use crate::observation::series::LeftOut;
use crate::observation::trait_unit::TraitUnit;
use crate::statistics::culling::Level;
use std::sync::Arc;

/// Why something is proposed for a plant.
#[derive(Clone, Debug)]
pub enum Reason {
    /// Its cross has no more plants than the rules keep whole: plants of the cross.
    SmallCross(usize),
    /// The grower marked it before, perhaps with words: what was written then.
    Marked(Option<String>),
    /// Levels it misses, at least one.
    Misses(Vec<Missed>),
    /// Levels that cannot be judged, for want of these readings.
    LevelsUnread(Vec<Gap>),
    /// It has no index, for want of these readings.
    NoIndex(Vec<Gap>),
    /// It stands where it stands among its siblings, and the quota lets it in or not.
    Standing {
        /// Where it stands.
        standing: Standing,
        /// What the quota says.
        quota: Quota,
        /// Weighed traits not read at its age.
        unread: usize,
    },
    /// It reaches every level, and nothing ranks those that do for the places there are.
    Unranked {
        /// Plants that reach every level and compete for them, this one counted.
        n: usize,
        /// What does not take them all.
        places: Places,
    },
    /// Kept for a chance of both sexes.
    ForBothSexes {
        /// The chance without it, 0 to 1.
        chance: f64,
        /// The chance wanted, 0 to 1.
        wanted: f64,
    },
    /// The shelf is full; else it would be kept for the reason inside.
    NoRoom(Box<Reason>),
}

impl Reason {
    /// Whether the plant must be kept even where the shelf is full.
    pub fn spares_from_shelf(&self) -> bool {
        matches!(
            self,
            Reason::SmallCross(_) | Reason::Marked(_) | Reason::ForBothSexes { .. }
        )
    }
}

/// Where a plant stands.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Standing {
    /// By its index.
    Place {
        /// Place, 1 first.
        place: usize,
        /// Plants that share it, this one counted.
        tied: usize,
        /// Plants that have an index.
        of: usize,
        /// The sowings it is judged with, where those of the cross were read at different ages.
        within: Option<Cohort>,
    },
    /// Nothing is weighed, and it reaches every level.
    EveryLevel,
}

/// Places that are too few for all that reach every level.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Places {
    /// So many to keep of the cross.
    Quota(usize),
    /// The shelves.
    Shelves,
}

/// What a quota says of a plant.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Quota {
    /// No quota is stated.
    NotStated,
    /// There is a place left of so many.
    Open(usize),
    /// All so many places are taken.
    Full(usize, Behind),
}

/// How a plant stands to the last one kept, by index, or to the last one that a mark keeps; with that one's code.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Behind {
    /// Its whole interval lies above that of one that is kept because it was marked before.
    BetterThanMarked(String),
    /// Its index is the same.
    Equal(String),
    /// Their intervals overlap.
    NotSurely(String),
    /// Behind it, as far as is known.
    Behind,
}

/// A level that a reading misses.
#[derive(Clone, Debug)]
pub struct Missed {
    /// The trait.
    pub unit: Arc<TraitUnit>,
    /// The level.
    pub level: Level,
    /// What was read, in the unit shown.
    pub read: f64,
    /// Whether the two lie within the error of one reading.
    pub unsure: bool,
}

/// A trait without a reading at the age judged.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Gap {
    /// Its name.
    pub name: String,
    /// What was read instead, as `observation` words it; `None` when it was never read.
    pub instead: Option<String>,
}

/// How a plant stands to the levels.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Levels {
    /// No level is stated.
    NotStated,
    /// All reached.
    Reached,
    /// Names of the traits whose level it misses.
    Missed(Vec<String>),
    /// What was not read, so that nothing is known.
    Unread(Vec<Gap>),
}

/// A level of the rules.
#[derive(Clone, Debug)]
pub struct Needed {
    /// The trait.
    pub unit: Arc<TraitUnit>,
    /// Its level.
    pub level: Level,
}

/// Sowings read at one age.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Cohort {
    /// Their codes; `None` for plants of no known sowing.
    pub sowings: Vec<Option<String>>,
    /// The age or the days, as `observation` words it; `None` when nothing was read.
    pub read: Option<String>,
}

/// When a trait was read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadAt {
    /// The sowings it holds for, as in [`Cohort`]; empty when it holds for all.
    pub sowings: Vec<Option<String>>,
    /// Name of the trait.
    pub of: String,
    /// The age and days, as `observation` words them.
    pub at: String,
}

/// What a reader of the proposal must know.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Caution {
    /// Of a reading or its error, as `observation` words it.
    Reading(String),
    /// Seedlings not sexed count as female or male with equal chance.
    UnsexedEven,
    /// Plants kept whose pot is not known, so that their room is not counted: how many.
    PotUnknown(usize),
    /// What must be kept does not fit the shelves.
    ShelfTooSmall,
    /// Plants that would go and may still bear pods: each with the codes of what was dusted on it.
    InPod(Vec<(String, Vec<String>)>),
    /// Plants that would go and are parents of which one piece is on record here.
    LastPiece(Vec<(String, ParentOf)>),
    /// Seedlings that may be of another sowing, pod or cross, which are in no figure.
    MixedUp {
        /// Code of the cross.
        id: String,
        /// How many.
        n: usize,
    },
    /// Readings left out.
    LeftOut {
        /// Code of the cross.
        id: String,
        /// At the ages judged.
        here: LeftOut,
        /// At other ages.
        elsewhere: LeftOut,
    },
    /// Sowings of different ages are judged each within itself.
    AgesApart {
        /// Code of the cross.
        id: String,
        /// Those judged together.
        cohorts: Vec<Cohort>,
    },
}
