//! One tag: its words and its QR code in their places, and what found no room.

use super::fill::{AT_ARMS_LENGTH, Filled, details, fill};
use super::qr::Qr;
use super::size::TagSize;
use crate::analysis::tags::{Tag, TagName};
use crate::render::scene::{Colour, POINTS, Path, Scene, Setting, set};
use std::fmt;

/// White at the ends and along the sides, millimetres.
const MARGIN: (f64, f64) = (1.2, 0.6);
const BLACK: Colour = Colour(0, 0, 0);
const WHITE: Colour = Colour(255, 255, 255);
/// Between the quiet zone and the words: letters such as j reach left of their place.
const BESIDE: f64 = 0.8;
/// The most of the part to write on that a QR code may take.
const MOST_FOR_QR: f64 = 0.45;

/// Something a tag may say.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Item {
    /// The parents by code.
    Parents,
    /// The name.
    Name,
    /// The full name, where a shorter version stands in its place.
    FullName,
    /// Sowing month, count, sex or the registry's short name.
    Detail,
    /// The QR code.
    Qr,
    /// Letters of the code that are read at arm's length.
    ArmsLength,
}

/// A tag in its places.
#[derive(Clone, Debug, PartialEq)]
pub struct Composed {
    /// The plant's code.
    pub id: String,
    /// The size it was made for.
    pub size: TagSize,
    filled: Filled,
    qr: Option<Qr>,
    /// What found no room.
    pub left_out: Vec<Item>,
}

/// A code that does not fit on a tag.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TagTooSmall {
    /// The code.
    pub id: String,
    /// The size of the tag in words.
    pub size: String,
}

impl fmt::Display for TagTooSmall {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            out,
            "the code {} does not fit on a tag of {}: no tag was written\nask for a larger one with --size, or for a shorter empty end with --tip",
            self.id, self.size
        )
    }
}

impl Item {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Item::Parents => "the parents",
            Item::Name => "the name",
            Item::FullName => "the full name (a shorter version is on the tag)",
            Item::Detail => "sowing month, count, sex or mark",
            Item::Qr => "the QR code",
            Item::ArmsLength => "a code large enough for arm's length",
        }
    }
}

/// Sets a tag. The QR code comes last: it is left out where it would cost a word or the size of the code.
///
/// # Errors
/// If the code does not fit in letters of 7 points.
pub fn compose(tag: &Tag, size: TagSize) -> Result<Composed, TagTooSmall> {
    let room = (
        size.length - size.tip - 2.0 * MARGIN.0,
        size.width - 2.0 * MARGIN.1,
    );
    let bare = fill(tag, room).ok_or_else(|| TagTooSmall {
        id: tag.id.clone(),
        size: size.words(),
    })?;
    let square = size.width.min((size.length - size.tip) * MOST_FOR_QR);
    let qr = Qr::fitting(&tag.id, square).and_then(|qr| {
        // The quiet zone is white to the edge, so it takes the place of the margin.
        let beside = fill(
            tag,
            (
                size.length - size.tip - MARGIN.0 - qr.side() - BESIDE,
                room.1,
            ),
        )?;
        costs_nothing(&bare, &beside).then_some((beside, qr))
    });
    let (filled, qr) = match qr {
        Some((beside, qr)) => (beside, Some(qr)),
        None => (bare, None),
    };
    let left_out = left_out(tag, &filled, qr.is_some());
    Ok(Composed {
        id: tag.id.clone(),
        size,
        filled,
        qr,
        left_out,
    })
}

/// Whether everything a tag says without a QR code it says beside it too; a name may be shorter.
fn costs_nothing(bare: &Filled, beside: &Filled) -> bool {
    beside.parents == bare.parents
        && beside.name.is_some() == bare.name.is_some()
        && beside.details == bare.details
        && (beside.code >= AT_ARMS_LENGTH || beside.code >= bare.code)
}

fn left_out(tag: &Tag, filled: &Filled, has_qr: bool) -> Vec<Item> {
    let left = [
        (Item::Parents, tag.parents.is_some() && !filled.parents),
        (Item::Name, filled.name.is_none()),
        (
            Item::FullName,
            filled.name.is_some_and(|version| is_shorter(tag, version)),
        ),
        (Item::Detail, filled.details < details(tag).len()),
        (Item::Qr, !has_qr),
        (Item::ArmsLength, filled.code < AT_ARMS_LENGTH),
    ];
    let left = left.into_iter().filter(|(_, is_left)| *is_left);
    left.map(|(item, _)| item).collect()
}

/// Whether a version of the name is not the full one: a label may be so long that no version with it is written at all.
fn is_shorter(tag: &Tag, version: usize) -> bool {
    let leaves_out = |name: &TagName| !name.left_out.is_empty();
    version > 0 || tag.names.get(version).is_some_and(leaves_out)
}

impl Composed {
    /// Which version of the name stands on it, 0 for the longest; `None` where none has room.
    pub fn name(&self) -> Option<usize> {
        self.filled.name
    }

    /// The module of its QR code, millimetres; `None` where it has none.
    pub fn module(&self) -> Option<f64> {
        self.qr.as_ref().map(Qr::module)
    }

    /// Draws it with its upper left corner at a place of the page, millimetres.
    pub(super) fn draw(&self, scene: &mut Scene, corner: (f64, f64)) {
        let white = [corner.0, corner.1, self.size.length, self.size.width].map(|mm| mm * POINTS);
        scene.open(self.id.clone());
        scene.fill(Path::rect(white[0], white[1], white[2], white[3]), WHITE);
        let mut left = corner.0 + MARGIN.0;
        if let Some(qr) = &self.qr {
            let above = (self.size.width - qr.side()) / 2.0;
            scene.fill(qr.path((corner.0, corner.1 + above)), BLACK);
            left = corner.0 + qr.side() + BESIDE;
        }
        for line in &self.filled.lines {
            let place = (
                (left + line.at.0) * POINTS,
                (corner.1 + MARGIN.1 + line.at.1) * POINTS,
            );
            let setting = Setting {
                size: line.size,
                colour: BLACK,
            };
            set(scene, &line.words, place, setting);
        }
        scene.close();
    }
}
