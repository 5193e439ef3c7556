//! Versions short enough for a tag: an honest ladder of shortenings, and at its foot the plant's code.
//!
//! No rung drops a parent or grandparent, and none hides that a direction or a father is not known or a parent only claimed.
//! What a rung leaves out is told beside the text.

use crate::naming::formula::{Certainty, Formula, Leaf, Tag, Unknown, leaves};

use super::ascii::ascii;
use super::basis::{Basis, Directions, Manner};
use super::botanical::alphabetical;
use super::breeder::written;
use super::ink::{Style, Writing};
use super::purdy::purdy_for_tag;

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
    /// ♀ and ♂ left out; where some crosses are assumed, all are then called so.
    WithoutSexes,
    /// The basis of the order left out: the trade reads seed parent first.
    WithoutBasis,
    /// Declared codes for species, with the basis in short.
    CodesWithBasis,
    /// Declared codes for species, without the basis.
    Codes,
    /// Purdy notation.
    Purdy,
    /// Purdy notation of declared codes.
    PurdyCodes,
    /// Parents in alphabetical order, which claims no seed parent.
    Alphabetical,
    /// Only the code, with "see code" where there is room.
    SeeCode,
}

/// A text that fits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fitted {
    /// The text.
    pub text: String,
    /// How far it was shortened.
    pub rung: Rung,
    /// What the formula has and the text leaves out, in words.
    pub left_out: Vec<&'static str>,
}

const GENUS_ONCE: Manner = Manner {
    basis: Basis::Short,
    genus_once: true,
    ..Manner::FULL
};

const BARE: Manner = Manner {
    tags: false,
    sexes: false,
    ..GENUS_ONCE
};

const MANNERS: [(Rung, Manner); 8] = [
    (Rung::Full, Manner::FULL),
    (
        Rung::ShortBasis,
        Manner {
            basis: Basis::Short,
            ..Manner::FULL
        },
    ),
    (Rung::GenusOnce, GENUS_ONCE),
    (
        Rung::WithoutTags,
        Manner {
            tags: false,
            ..GENUS_ONCE
        },
    ),
    (Rung::WithoutSexes, BARE),
    (
        Rung::WithoutBasis,
        Manner {
            basis: Basis::LeftOut,
            ..BARE
        },
    ),
    (
        Rung::CodesWithBasis,
        Manner {
            codes: true,
            ..BARE
        },
    ),
    (
        Rung::Codes,
        Manner {
            codes: true,
            basis: Basis::LeftOut,
            ..BARE
        },
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
    for (rung, manner) in MANNERS {
        if written(formula, &plain, manner).is_ok_and(|text| text.chars().count() <= most) {
            return Some(Fitted {
                text: written(formula, writing, manner).ok()?,
                rung,
                left_out: left_out(formula, writing, manner),
            });
        }
    }
    if let Some(fitted) = as_purdy(formula, writing, most) {
        return Some(styled(fitted, writing));
    }
    let in_order = in_alphabetical_order(formula, writing, most);
    in_order.or_else(|| see_code(most, code).map(|fitted| styled(fitted, writing)))
}

/// A text that no ink has written yet, in the style asked for.
fn styled(fitted: Fitted, writing: &Writing<'_>) -> Fitted {
    Fitted {
        text: writing.style.written(&fitted.text),
        ..fitted
    }
}

/// The last version that still names the parents; not where it would hide that a parent is only claimed.
fn in_alphabetical_order(formula: &Formula, writing: &Writing<'_>, most: usize) -> Option<Fitted> {
    let plain = Writing {
        style: Style::Text,
        ..*writing
    };
    let crossed = formula.generations() > 0;
    let length = alphabetical(formula, &plain).ok()?.chars().count();
    (crossed && !is_claimed(formula) && length <= most).then_some(())?;
    let mut left_out = vec![
        "the genus after the first parent",
        "which parent bore the seed",
    ];
    if has_tag(formula, |_| true) {
        left_out.push("labels and clone marks");
    }
    Some(Fitted {
        text: alphabetical(formula, writing).ok()?,
        rung: Rung::Alphabetical,
        left_out,
    })
}

fn as_purdy(formula: &Formula, writing: &Writing<'_>, most: usize) -> Option<Fitted> {
    let forms = [
        (Rung::Purdy, None),
        (Rung::PurdyCodes, Some(writing.vocabulary)),
    ];
    forms.into_iter().find_map(|(rung, codes)| {
        let text = purdy_for_tag(formula, codes)?;
        let as_printed = match writing.style {
            Style::Ascii => ascii(&text),
            _ => text.clone(),
        };
        (as_printed.chars().count() <= most).then_some(())?;
        let manner = Manner {
            basis: Basis::LeftOut,
            codes: codes.is_some(),
            ..BARE
        };
        Some(Fitted {
            text,
            rung,
            left_out: left_out_of_purdy(formula, writing, manner),
        })
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
        left_out: vec!["the formula: look it up under the code"],
    })
}

/// What a manner leaves out of this formula; nothing that the formula does not have.
fn left_out(formula: &Formula, writing: &Writing<'_>, manner: Manner) -> Vec<&'static str> {
    let has_code = |leaf: &Leaf| {
        let code = leaf
            .sure_species()
            .and_then(|name| writing.vocabulary.code_of(name));
        code.is_some() && leaf.sure_species() == Some(&leaf.name())
    };
    let found = Directions::of(formula);
    let crossed = found.known || found.assumed > 0;
    let coded = manner.codes && leaves(formula).any(has_code);
    let all_coded = coded && leaves(formula).all(has_code);
    let named = leaves(formula).filter(|leaf| !matches!(leaf, Leaf::Unknown(_)));
    let several = named.count() > 1;
    let told = [
        (all_coded, "the genus"),
        (
            manner.genus_once && several && !all_coded,
            "the genus after the first parent",
        ),
        (
            !manner.tags && has_tag(formula, |tag| !is_cultivar(tag) && !is_received(tag)),
            "labels and clone marks",
        ),
        (
            !manner.tags && has_tag(formula, is_cultivar),
            "cultivar epithets",
        ),
        (
            !manner.tags && has_tag(formula, is_received),
            "names as received",
        ),
        (
            !manner.sexes && (writing.sexes || found.mixed()) && crossed,
            "♀ and ♂",
        ),
        (
            manner.basis == Basis::LeftOut && crossed,
            "the basis of the order",
        ),
        (coded, "epithets that have a declared code"),
        (manner.codes && is_claimed(formula), CLAIMED_SHORT),
    ];
    told.into_iter()
        .filter(|(is_so, _)| *is_so)
        .map(|(_, words)| words)
        .collect()
}

/// How a claimed parent is marked where there is no room for the word.
const CLAIMED_SHORT: &str = "the word claimed, written ?";

/// Purdy notation has strokes for brackets, no genus, and no word for a claim.
fn left_out_of_purdy(
    formula: &Formula,
    writing: &Writing<'_>,
    manner: Manner,
) -> Vec<&'static str> {
    let genus =
        |words: &&str| *words != "the genus after the first parent" && *words != "the genus";
    let mut told = vec!["the genus"];
    told.extend(left_out(formula, writing, manner).into_iter().filter(genus));
    if is_claimed(formula) && !told.contains(&CLAIMED_SHORT) {
        told.push(CLAIMED_SHORT);
    }
    told
}

fn is_claimed(formula: &Formula) -> bool {
    let mut parts = formula.parts();
    parts.any(|(id, _)| formula.marks(id).certainty != Certainty::Stated)
}

fn has_tag(formula: &Formula, wanted: impl Fn(&Tag) -> bool) -> bool {
    let mut tags = formula.parts().flat_map(|(id, _)| &formula.marks(id).tags);
    tags.any(wanted)
}

fn is_cultivar(tag: &Tag) -> bool {
    matches!(tag, Tag::Cultivar(_))
}

fn is_received(tag: &Tag) -> bool {
    matches!(tag, Tag::Received(_))
}

/// Every version of a formula that [`fit`] knows, each shorter than the one before, in at most so many characters; empty
/// where none is that short. No version hides that pollination was open.
pub fn ladder(formula: &Formula, writing: &Writing<'_>, most: usize) -> Vec<Fitted> {
    let is_open = leaves(formula).any(|leaf| *leaf == Leaf::Unknown(Unknown::OpenPollinated));
    let mut versions = Vec::new();
    let mut room = most;
    while let Some(fitted) = fit(formula, writing, room, None) {
        let printed = fitted.text.chars().filter(|c| !"\u{2}\u{3}".contains(*c));
        // A version of no letters would be tried for ever.
        let Some(shorter) = printed.count().checked_sub(1) else {
            break;
        };
        if !is_open || fitted.text.contains(OPEN) {
            versions.push(fitted);
        }
        room = shorter.min(room.saturating_sub(1));
    }
    versions
}

/// The words for a father that was whatever came.
const OPEN: &str = "open pollinated";
