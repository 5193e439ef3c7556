//! What the order of parents rests on, and how much of a formula is written.

use crate::naming::formula::{Cross, Direction, Formula, Part, Relation};

/// How much of a formula is written.
#[derive(Clone, Copy, Debug)]
pub(super) struct Manner {
    pub genus_once: bool,
    pub tags: bool,
    pub codes: bool,
    pub basis: Basis,
}

impl Manner {
    pub const FULL: Self = Self {
        genus_once: false,
        tags: true,
        codes: false,
        basis: Basis::Words,
    };
}

/// How the basis of the order is stated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Basis {
    Words,
    Short,
    LeftOut,
}

/// Which directions occur in a formula; crosses within one part have none.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Directions {
    pub known: bool,
    pub assumed: bool,
    pub unknown: bool,
}

impl Directions {
    pub fn of(formula: &Formula) -> Self {
        let mut found = Self::default();
        for (_, part) in formula.parts() {
            if let Part::Cross(Cross {
                direction,
                relation: Relation::Plain,
                ..
            }) = part
            {
                match direction {
                    Direction::Known => found.known = true,
                    Direction::Assumed => found.assumed = true,
                    Direction::Unknown => found.unknown = true,
                }
            }
        }
        found
    }
}

/// What the order rests on, in words; `None` when nothing was crossed or it is left out. `open` says that the last cross
/// itself has no known direction.
pub(super) fn basis(found: Directions, manner: Basis, open: bool, female: &str) -> Option<String> {
    let first = match (manner, found.known, found.assumed) {
        (Basis::LeftOut, ..) | (_, false, false) => None,
        (Basis::Short, _, true) => Some(format!("{female} assumed first")),
        (Basis::Short, true, false) => Some(format!("{female} first")),
        (Basis::Words, _, true) => Some("seed parent assumed first".to_owned()),
        (Basis::Words, true, false) => Some("seed parent first".to_owned()),
    };
    match (open, first) {
        (true, Some(first)) => Some(format!("direction unknown; {first} in brackets")),
        (true, None) => Some("direction unknown".to_owned()),
        (false, first) => first,
    }
}
