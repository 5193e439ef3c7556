//! What the order of parents is based on, and how much of a formula is written.

use crate::naming::formula::{Direction, Formula, Part};

/// How much of a formula is written.
#[derive(Clone, Copy, Debug)]
pub(super) struct Manner {
    pub genus_once: bool,
    pub tags: bool,
    /// ♀ and ♂ on crosses of known direction, where they are asked for or tell them from assumed ones.
    pub sexes: bool,
    pub codes: bool,
    pub basis: Basis,
}

impl Manner {
    pub const FULL: Self = Self {
        genus_once: false,
        tags: true,
        sexes: true,
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

/// Which directions occur in a formula, and at how many places of its text a cross has an assumed one; crosses within one
/// part have none.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Directions {
    pub known: bool,
    pub assumed: usize,
    pub unknown: bool,
}

impl Directions {
    pub fn of(formula: &Formula) -> Self {
        let mut found = Self::default();
        let places = places(formula);
        for (id, part) in formula.parts() {
            if let Part::Cross(cross) = part
                && cross.is_written_out()
            {
                match cross.direction {
                    Direction::Known => found.known = true,
                    Direction::Assumed => {
                        found.assumed = found.assumed.saturating_add(places[id.index()]);
                    }
                    Direction::Unknown => found.unknown = true,
                }
            }
        }
        found
    }

    /// Some crosses are of known direction and some are not, so that marks have to tell them apart.
    pub fn mixed(self) -> bool {
        self.known && self.assumed > 0
    }
}

/// At how many places each part stands in the text: a parent of several crosses, or one of several, is written for each.
fn places(formula: &Formula) -> Vec<usize> {
    let mut places = vec![0_usize; formula.len()];
    places[formula.top().index()] = 1;
    let parts: Vec<_> = formula.parts().collect();
    for (id, part) in parts.into_iter().rev() {
        let made_of = match part {
            Part::Cross(cross) if !cross.is_written_out() => vec![cross.seed],
            part => part.made_of(),
        };
        for made in made_of {
            let more = places[id.index()];
            let at = &mut places[made.index()];
            *at = at.saturating_add(more);
        }
    }
    places
}

/// What the order is based on, in words; `None` when nothing was crossed or it is left out. `open` says that the last cross
/// itself has no known direction, `marked` that the crosses of known direction bear ♀ and ♂, so that only the others
/// are spoken of. Without marks all count as assumed: less than is known, never more.
pub(super) fn basis(
    found: Directions,
    manner: Basis,
    open: bool,
    marked: bool,
    female: &str,
) -> Option<String> {
    let first = match (manner, found.known, found.assumed) {
        (Basis::LeftOut, ..) | (_, false, 0) => None,
        (Basis::Short, true, 0) => Some(format!("{female} first")),
        (Basis::Short, ..) => Some(format!("{female} assumed first")),
        (Basis::Words, true, 0) => Some("seed parent first".to_owned()),
        (Basis::Words, ..) => Some("seed parent assumed first".to_owned()),
    };
    let of = match manner {
        _ if !marked || !found.mixed() => "",
        Basis::Short => "unmarked: ",
        _ if found.assumed == 1 => "unmarked cross: ",
        _ => "unmarked crosses: ",
    };
    match (open, first) {
        (true, Some(first)) => Some(format!("direction unknown; {of}{first} in brackets")),
        (true, None) => Some("direction unknown".to_owned()),
        (false, first) => first.map(|first| format!("{of}{first}")),
    }
}
