//! Whether a picture holds what looks like the code of a tag that is too blurred and small to be read.
//!
//! The corners of a code, rings around dark squares, outlast blur longer than what stands between them. The picture is
//! sharpened far beyond what is pleasant, in several steps, and two such corners are looked for that can belong to one
//! code. Tried on the pictures of `tests/photos`: every tag that is otherwise passed over is seen, its corners alike to
//! 0.08, and no pair on leaves alone is so alike.

use image::{GrayImage, Luma, imageops};
use rxing::common::HybridBinarizer;
use rxing::qrcode::detector::{FinderPattern, FinderPatternFinder};
use rxing::{BinaryBitmap, DecodeHints, Luma8LuminanceSource, Point};

/// The longest side at which it is asked, pixels.
const LONGEST: u32 = 1600;
/// By how many pixels and how strongly the picture is sharpened: what one blur needs is too much for another.
const ONCE: (f32, f32) = (2.0, 2.0);
const MORE: (f32, f32) = (3.0, 3.0);
/// Rows that must show a corner.
const ROWS: usize = 2;
/// By how much the modules of two corners of one code differ, in parts.
const ALIKE: f32 = 0.1;
/// How far apart the corners of the smallest code are, in modules: 14 on a side, 20 from corner to corner (ISO/IEC
/// 18004). Blur makes modules look larger, so that also the next larger codes are less wide than they are.
const APART: std::ops::Range<f32> = 9.0..20.0;

/// Whether two corners of one code are in a picture.
pub(super) fn looks_like_a_code(whole: &GrayImage) -> bool {
    let long = whole.width().max(whole.height());
    let of_size = |side: u32| (side * LONGEST.min(long) / long).max(1);
    let (width, height) = (of_size(whole.width()), of_size(whole.height()));
    let grey = match long > LONGEST {
        true => imageops::thumbnail(whole, width, height),
        false => whole.clone(),
    };
    let once = sharpened(&grey, ONCE);
    has_a_pair(&once) || has_a_pair(&sharpened(&grey, MORE)) || has_a_pair(&sharpened(&once, MORE))
}

/// What differs from the surroundings differs more.
fn sharpened(grey: &GrayImage, (pixels, strength): (f32, f32)) -> GrayImage {
    let around = imageops::fast_blur(grey, pixels);
    GrayImage::from_fn(grey.width(), grey.height(), |x, y| {
        let (own, mean) = (grey.get_pixel(x, y).0[0], around.get_pixel(x, y).0[0]);
        let more = f32::from(own) + strength * (f32::from(own) - f32::from(mean));
        Luma([more.clamp(0.0, 255.0) as u8])
    })
}

/// Whether a pair is in it, or in it at half its size, where noise is averaged away.
fn has_a_pair(grey: &GrayImage) -> bool {
    let (width, height) = (grey.width() / 2, grey.height() / 2);
    let half = imageops::thumbnail(grey, width.max(1), height.max(1));
    is_a_pair_among(&corners(grey)) || is_a_pair_among(&corners(&half))
}

fn is_a_pair_among(corners: &[FinderPattern]) -> bool {
    let pairs = corners.iter().enumerate();
    pairs
        .flat_map(|(at, one)| corners[..at].iter().map(move |other| (one, other)))
        .any(|(one, other)| are_of_one_code(one, other))
}

/// The corners that several rows show.
fn corners(grey: &GrayImage) -> Vec<FinderPattern> {
    let pixels = grey.as_raw().clone();
    let Ok(source) = Luma8LuminanceSource::new(pixels, grey.width(), grey.height()) else {
        return Vec::new();
    };
    let bitmap = BinaryBitmap::new(HybridBinarizer::new(source));
    let mut finder = FinderPatternFinder::new(bitmap.get_black_matrix());
    let hints = DecodeHints {
        TryHarder: Some(true),
        ..DecodeHints::default()
    };
    // Fails unless there are three; those found so far are kept.
    let _ = finder.find(&hints);
    let found = finder.getPossibleCenters().iter();
    found.filter(|of| of.getCount() >= ROWS).copied().collect()
}

fn are_of_one_code(one: &FinderPattern, other: &FinderPattern) -> bool {
    let (of_one, of_other) = (one.getEstimatedModuleSize(), other.getEstimatedModuleSize());
    let module = (of_one + of_other) / 2.0;
    let (from, to) = (Point::from(one), Point::from(other));
    let apart = (from.x - to.x).hypot(from.y - to.y) / module;
    (of_one - of_other).abs() < ALIKE * module && APART.contains(&apart)
}
