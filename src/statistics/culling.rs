//! Which plants reach every level the grower sets?
//!
//! Independent levels, for traits a plant must have ("no deformed pitchers"); at arbitrary levels they lose more of the
//! gain than an index does. A plant that was not read on a trait is neither kept nor culled by it.

/// A level on one trait.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Level {
    /// The reading must be this or more.
    AtLeast(f64),
    /// The reading must be this or less.
    AtMost(f64),
}

impl Level {
    /// True if the reading reaches the level; a reading that is not a number does not.
    pub fn reached_by(self, reading: f64) -> bool {
        match self {
            Self::AtLeast(least) => reading >= least - SLACK * least.abs(),
            Self::AtMost(most) => reading <= most + SLACK * most.abs(),
        }
    }
}

/// Part of a level by which a reading may miss it: an inch that went through centimetres loses its last bits.
const SLACK: f64 = 1e-9;

/// What the levels say about one plant; places are those of the traits.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Verdict {
    /// All levels reached.
    Passes,
    /// Levels missed; a missing reading elsewhere cannot save the plant.
    Fails(Vec<usize>),
    /// No level missed, but these traits were not read.
    Unread(Vec<usize>),
}

/// Judges one plant's readings by as many levels; a trait without a level has `None`.
pub fn judge(readings: &[Option<f64>], levels: &[Option<Level>]) -> Verdict {
    let (mut missed, mut unread) = (Vec::new(), Vec::new());
    for (place, level) in levels.iter().enumerate() {
        let Some(level) = level else { continue };
        match readings.get(place).copied().flatten() {
            Some(reading) if level.reached_by(reading) => {}
            Some(_) => missed.push(place),
            None => unread.push(place),
        }
    }
    if !missed.is_empty() {
        Verdict::Fails(missed)
    } else if !unread.is_empty() {
        Verdict::Unread(unread)
    } else {
        Verdict::Passes
    }
}
