//! The QR code of a pot tag in a picture.
//!
//! A code fills anything from a tenth of a picture to all of it, and is often a little out of focus: it is looked for in
//! the picture at several sizes, the one that reads most of them first (tried on 200 pictures of 12 million pixels).

use super::corners::looks_like_a_code;
use super::focus::is_sharp;
use super::pixels::Picture;
use image::{GrayImage, imageops};
use rxing::common::HybridBinarizer;
use rxing::qrcode::QRCodeReader;
use rxing::{BinaryBitmap, DecodeHints, Exceptions, Luma8LuminanceSource, RXingResult, Reader};
use std::collections::BTreeSet;

/// By how much the picture is scaled down, in the order in which it is tried.
const SCALES: [u32; 4] = [3, 2, 1, 4];
/// Pixels a side in which tags are looked for: phones that take more of them see a tag no sharper.
const MOST: u32 = 5_000;
/// Below this many pixels a side no code can be seen.
const LEAST: u32 = 21;

/// Which tags a picture shows.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum TagSeen {
    /// None.
    None,
    /// None that could be seen: nothing in the picture is sharp.
    OutOfFocus,
    /// One that cannot be read.
    Unreadable,
    /// Something that looks like one, too blurred to be sure.
    Perhaps,
    /// One, with what its code says.
    Read(String),
    /// Several that say different things, in the order of what they say.
    Several(Vec<String>),
}

/// What reading a grey picture came to.
enum Found {
    Nothing,
    Unreadable,
    Read(Box<RXingResult>),
}

impl Picture {
    /// The tags in it.
    pub fn tag(&self) -> TagSeen {
        let whole = small_enough(self.grey());
        let mut unreadable = false;
        for scale in SCALES {
            let (width, height) = (whole.width() / scale, whole.height() / scale);
            if width.min(height) < LEAST {
                continue;
            }
            let grey = match scale {
                1 => whole.clone(),
                _ => imageops::thumbnail(&whole, width, height),
            };
            match read(&grey) {
                Found::Read(first) => return with_others(grey, &first),
                Found::Unreadable => unreadable = true,
                Found::Nothing => {}
            }
        }
        if let Some(several) = in_parts(&whole) {
            return several;
        }
        if unreadable {
            TagSeen::Unreadable
        } else if !is_sharp(&whole) {
            TagSeen::OutOfFocus
        } else if looks_like_a_code(&whole) {
            TagSeen::Perhaps
        } else {
            TagSeen::None
        }
    }
}

/// The picture itself, or a smaller one of it: looking takes longer than opening.
fn small_enough(whole: GrayImage) -> GrayImage {
    let longest = whole.width().max(whole.height());
    if longest <= MOST {
        return whole;
    }
    let small = |side: u32| (u64::from(side) * u64::from(MOST) / u64::from(longest)).max(1) as u32;
    imageops::thumbnail(&whole, small(whole.width()), small(whole.height()))
}

fn read(grey: &GrayImage) -> Found {
    let source = Luma8LuminanceSource::new(grey.as_raw().clone(), grey.width(), grey.height());
    let Ok(source) = source else {
        return Found::Nothing;
    };
    let mut bitmap = BinaryBitmap::new(HybridBinarizer::new(source));
    let hints = DecodeHints {
        TryHarder: Some(true),
        ..DecodeHints::default()
    };
    match QRCodeReader.decode_with_hints(&mut bitmap, &hints) {
        Ok(result) => Found::Read(Box::new(result)),
        // Its corners were found and what stands between them was not understood.
        Err(Exceptions::ChecksumException(_) | Exceptions::FormatException(_)) => Found::Unreadable,
        Err(_) => Found::Nothing,
    }
}

/// Tags that hide one another from the reader, which takes the corners of all codes for those of one: what is read in
/// overlapping parts of the picture. Of which plant the picture is, is not known then, also where only one is read.
fn in_parts(whole: &GrayImage) -> Option<TagSeen> {
    let (width, height) = whole.dimensions();
    let (wide, high) = (width * 3 / 5, height * 3 / 5);
    let parts = [
        (0, 0, wide, height),
        (width - wide, 0, wide, height),
        (0, 0, width, high),
        (0, height - high, width, high),
    ];
    let mut said = BTreeSet::new();
    for (left, top, wide, high) in parts {
        let part = imageops::crop_imm(whole, left, top, wide, high).to_image();
        for scale in [2, 1] {
            if (wide / scale).min(high / scale) < LEAST {
                continue;
            }
            let grey = imageops::thumbnail(&part, wide / scale, high / scale);
            if let Found::Read(one) = read(&grey) {
                said.insert(one.getText().trim().to_owned());
                break;
            }
        }
    }
    match said.len() {
        0 => None,
        1 => Some(TagSeen::Unreadable),
        _ => Some(TagSeen::Several(said.into_iter().collect())),
    }
}

/// The code that was read and any other that is read once the first is covered.
fn with_others(mut grey: GrayImage, first: &RXingResult) -> TagSeen {
    let mut said = BTreeSet::from([first.getText().trim().to_owned()]);
    cover(&mut grey, first);
    if let Found::Read(other) = read(&grey) {
        said.insert(other.getText().trim().to_owned());
    }
    let mut said: Vec<String> = said.into_iter().collect();
    match said.len() {
        1 => TagSeen::Read(said.remove(0)),
        _ => TagSeen::Several(said),
    }
}

/// Paints over a code: the square around the middles of its corners, with as much again as a corner needs.
fn cover(grey: &mut GrayImage, code: &RXingResult) {
    let points = code.getPoints();
    let side = |of: fn(&rxing::Point) -> f32| {
        let (least, most) = points
            .iter()
            .fold((f32::MAX, f32::MIN), |(least, most), at| {
                (least.min(of(at)), most.max(of(at)))
            });
        let around = (most - least) * 0.3 + 8.0;
        (
            (least - around).max(0.0) as u32,
            (most + around).max(0.0) as u32,
        )
    };
    let ((left, right), (top, bottom)) = (side(|at| at.x), side(|at| at.y));
    for y in top..bottom.min(grey.height()) {
        for x in left..right.min(grey.width()) {
            grey.put_pixel(x, y, image::Luma([128]));
        }
    }
}
