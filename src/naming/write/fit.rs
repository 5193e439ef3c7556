//! Versions short enough for a tag: an honest ladder of shortenings, and at its foot the plant's code and "see code".
//!
//! No rung drops a parent or grandparent, and none hides that a direction or a father is not known. What a rung leaves out
//! is told beside the text.

use crate::naming::formula::Formula;

use super::basis::{Basis, Directions, Manner};
use super::breeder::written;
use super::ink::{Style, Writing};
use super::purdy::purdy;

/// How far a formula was shortened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rung {
    /// Nothing left out.
    Full,
    /// The basis of the order in short: `(♀ first)`.
    ShortBasis,
    /// The genus written once, at the front.
    GenusOnce,
    /// Labels, places and clone marks left out.
    WithoutTags,
    /// The basis of the order left out: the trade reads seed parent first.
    WithoutBasis,
    /// Declared codes for species.
    Codes,
    /// Purdy notation.
    Purdy,
    /// Only the code, with "see code".
    SeeCode,
}

/// A text that fits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fitted {
    /// The text.
    pub text: String,
    /// How far it was shortened.
    pub rung: Rung,
    /// What was left out, in words.
    pub left_out: &'static [&'static str],
}

const MANNERS: [(Rung, Manner, &[&str]); 6] = [
    (Rung::Full, Manner::FULL, &[]),
    (
        Rung::ShortBasis,
        Manner {
            basis: Basis::Short,
            ..Manner::FULL
        },
        &[],
    ),
    (
        Rung::GenusOnce,
        Manner {
            basis: Basis::Short,
            genus_once: true,
            ..Manner::FULL
        },
        &["the genus after the first parent"],
    ),
    (
        Rung::WithoutTags,
        Manner {
            basis: Basis::Short,
            genus_once: true,
            tags: false,
            codes: false,
        },
        &["the genus after the first parent", "labels and clone marks"],
    ),
    (
        Rung::WithoutBasis,
        Manner {
            basis: Basis::LeftOut,
            genus_once: true,
            tags: false,
            codes: false,
        },
        &[
            "the genus after the first parent",
            "labels and clone marks",
            "the basis of the order",
        ],
    ),
    (
        Rung::Codes,
        Manner {
            basis: Basis::LeftOut,
            genus_once: true,
            tags: false,
            codes: true,
        },
        &[
            "the genus",
            "labels and clone marks",
            "the basis of the order",
            "epithets that have a declared code",
        ],
    ),
];

/// The longest version of a formula in at most so many characters; `None` when not even the code fits or none is given.
///
/// `code` is the plant's or cross's own code in the registry. Characters are counted as printed, before any escapes of the style.
pub fn fit(
    formula: &Formula,
    writing: &Writing<'_>,
    most: usize,
    code: Option<&str>,
) -> Option<Fitted> {
    let plain = Writing {
        style: if writing.style == Style::Ascii {
            Style::Ascii
        } else {
            Style::Text
        },
        ..*writing
    };
    let directions = Directions::of(formula);
    for (rung, manner, left_out) in MANNERS {
        if manner.basis == Basis::LeftOut && hides_direction(directions) {
            continue;
        }
        if written(formula, &plain, manner).is_ok_and(|text| text.chars().count() <= most) {
            return Some(Fitted {
                text: written(formula, writing, manner).ok()?,
                rung,
                left_out,
            });
        }
    }
    as_purdy(formula, directions, most).or_else(|| see_code(most, code))
}

/// Without its basis a formula must not look surer than it is: marked and unmarked crosses may not be told apart.
fn hides_direction(directions: Directions) -> bool {
    directions.assumed && directions.known
}

fn as_purdy(formula: &Formula, directions: Directions, most: usize) -> Option<Fitted> {
    let text = purdy(formula).filter(|text| !directions.assumed && text.chars().count() <= most)?;
    Some(Fitted {
        text,
        rung: Rung::Purdy,
        left_out: &["the genus", "labels and clone marks"],
    })
}

fn see_code(most: usize, code: Option<&str>) -> Option<Fitted> {
    let code = code.filter(|code| !code.is_empty())?;
    let text = [format!("{code} (see code)"), code.to_owned()]
        .into_iter()
        .find(|text| text.chars().count() <= most)?;
    Some(Fitted {
        text,
        rung: Rung::SeeCode,
        left_out: &["the formula: look it up under the code"],
    })
}
