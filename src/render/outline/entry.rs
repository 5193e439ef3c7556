//! What a pedigree says, entry by entry.

/// One thing told, and how far it is set in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Generations from the start.
    pub depth: usize,
    /// What the entry says.
    pub said: Said,
}

/// What an entry tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Said {
    /// A plant.
    Plant {
        /// Its row.
        row: usize,
        /// How it is related to the plant above: `♀`, `♂ perhaps`, `perhaps`.
        sign: String,
        /// The chance that it is that parent, in brackets; empty where it is certain or not stated.
        chance: String,
        /// Whether all of it stands above already.
        again: bool,
        /// Whether it is less sure than a tag that it is this plant.
        doubtful: bool,
    },
    /// A parent that is not known, with its sign.
    Unknown(String),
    /// A cross of the plant above, in words.
    Cross(String),
    /// A remark on the plant above.
    Remark(String),
}

/// A pedigree told, as far as there is room.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outline {
    /// The entries, in order.
    pub entries: Vec<Entry>,
    /// How many plants are not.
    pub hidden: usize,
}
