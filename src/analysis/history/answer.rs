//! The history of a plant as an answer.

use crate::record::{Day, Fate, Made, Sex, When};

/// What happened to one plant.
#[derive(Debug)]
pub struct History<'r, 't> {
    /// Its code.
    pub id: String,
    /// The day that counts as today.
    pub today: Day,
    /// Dated events by their first possible day, an open one by its last; then those without a date.
    pub events: Vec<Event<'r, 't>>,
    /// Events dated after today, which are not among them.
    pub later: usize,
}

/// One event.
#[derive(Debug)]
pub struct Event<'r, 't> {
    /// When, as a range of days.
    pub when: When,
    /// What happened.
    pub what: What<'r, 't>,
    /// Whether it happened to it, or else another event of the kind did: it may be of several pods or sowings.
    pub is_one_of_several: bool,
}

/// What happened.
#[derive(Clone, Debug)]
pub enum What<'r, 't> {
    /// Flowers of its pod were dusted.
    Pollinated,
    /// Its pod was harvested.
    Harvested,
    /// Its seed was sown.
    Sown,
    /// It came up.
    CameUp,
    /// It got a number of its own.
    Numbered,
    /// It came into the collection.
    Received,
    /// It came into a pot so wide, as typed.
    Potted(&'r str, Option<&'r str>),
    /// It was read, at an age in months from sowing where that is known.
    Read(Vec<ReadHere<'r>>, Option<(f64, f64)>),
    /// A spike came to a stage.
    Spike(SpikeStage, Option<Sex>),
    /// A piece was taken.
    Piece(Piece<'r>),
    /// It was treated: with what, and against what.
    Treated(&'r str, Option<&'r str>),
    /// The place it stands at was treated; whether it stood there then is not on record.
    PlaceTreated(&'r str, Option<&'r str>),
    /// It was marked to keep.
    Kept,
    /// It was mixed up with others; their codes.
    MixedUp(&'r [String]),
    /// It, or a piece by its letter, came to an end.
    Ended(&'r Fate<'t>, Option<&'t str>),
    /// It, or a piece by its letter, was here again.
    CameBack(Option<&'t str>),
}

/// One reading.
#[derive(Clone, Debug)]
pub struct ReadHere<'r> {
    /// The trait.
    pub of: String,
    /// As typed.
    pub value: &'r str,
    /// The unit of its column where the cell has none.
    pub unit: Option<crate::record::LengthUnit>,
}

/// How far a spike was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpikeStage {
    /// It was seen.
    Seen,
    /// Its first flower opened.
    Opened,
    /// Its last flower was over.
    Over,
}

/// A piece of the plant.
#[derive(Clone, Copy, Debug)]
pub struct Piece<'r> {
    /// Its letter.
    pub code: &'r str,
    /// How it was made.
    pub made: Option<Made>,
    /// Whether it had rooted then, or was cut.
    pub rooted: bool,
}
