//! What a recording has recorded, as plain values: `report` words it.

/// What was recorded.
#[derive(Clone, PartialEq, Debug)]
pub struct Recorded {
    /// What happened.
    pub what: What,
    /// Codes that were recorded on, the one a grower would look for first.
    pub about: Vec<String>,
    /// Codes to write on tags, envelopes and pots.
    pub tags: Vec<Tag>,
}

/// A code that is new, and what it is to be written on.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Tag {
    /// The code.
    pub code: String,
    /// What it is written on: `tag`, `envelope`, `pot`.
    pub on: &'static str,
}

/// What happened at the bench.
#[derive(Clone, PartialEq, Debug)]
pub enum What {
    /// A plant came.
    Arrived {
        /// Its code.
        code: String,
        /// The name it came under.
        name: String,
    },
    /// Flowers were dusted.
    Pollinated {
        /// The zone's code with that of its cross.
        zone: String,
        /// The seed parent, or the piece that flowers.
        seed: String,
        /// The pollen parent or parents, in words.
        pollen: String,
        /// The envelope.
        envelope: Option<String>,
        /// Flowers treated.
        flowers: Option<u32>,
        /// The date as written.
        on: String,
        /// Whether the zone had been dusted before.
        again: bool,
    },
    /// Plants died, were culled, sold, given away or lost.
    Gone {
        /// What became of them: `died`, `culled`, `sold`, `given`, `lost`.
        fate: &'static str,
        /// Their codes.
        plants: Vec<String>,
        /// The date as written.
        on: String,
    },
    /// Plants were read.
    Measured {
        /// Those that got a row.
        plants: Vec<String>,
        /// Cells that hold a reading.
        readings: usize,
        /// Those found dead.
        dead: Vec<String>,
        /// The date as written.
        on: String,
    },
    /// A change was taken back.
    Undone {
        /// Its number.
        change: u32,
        /// The command that had made it.
        asked: String,
    },
    /// Plants were marked to keep.
    Kept {
        /// Their codes.
        plants: Vec<String>,
        /// Those that had the mark already.
        before: usize,
    },
}
