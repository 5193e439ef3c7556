//! Which day is missing where a plant was read but its age then is not known.

use crate::record::When;
use std::fmt::{Display, Formatter, Result};

/// What has no day on record.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Undated {
    /// The sowing.
    Sowing,
    /// The reading.
    Reading,
    /// Of some plants or readings the one, of others the other.
    Either,
}

impl Undated {
    /// What is missing for readings of these days that have no age: a dated reading has one, unless its sowing has no day.
    pub fn of(days: impl Iterator<Item = When>) -> Undated {
        let (dated, undated): (Vec<When>, Vec<When>) = days.partition(|day| day.is_bounded());
        match (dated.is_empty(), undated.is_empty()) {
            (_, true) => Undated::Sowing,
            (true, false) => Undated::Reading,
            (false, false) => Undated::Either,
        }
    }
}

impl Display for Undated {
    fn fmt(&self, out: &mut Formatter) -> Result {
        out.write_str(match self {
            Undated::Sowing => "sowing",
            Undated::Reading => "reading",
            Undated::Either => "sowing or reading",
        })
    }
}
