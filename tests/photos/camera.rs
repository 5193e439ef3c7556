//! A camera that draws what it sees: pot tags laid on leaves, turned, dim and out of focus, as JPEG with what a phone
//! writes beside it.

use crate::lot::Lot;
use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, GrayImage, Luma};
use podbook::analysis::tags::Tag;
use podbook::render::png;
use podbook::render::scene::POINTS;
use podbook::render::tags::{DOT, compose, singles};

/// How a tag is seen.
#[derive(Clone, Copy, Debug)]
pub struct View {
    /// Side of the code without its white border, in parts of the long side of the picture.
    pub size: f64,
    /// Degrees by which it is turned.
    pub turned: f64,
    /// How bright it is: 1 is full light.
    pub light: f64,
    /// Standard deviation of the blur, in modules of the code.
    pub blur: f64,
}

pub const CLEAR: View = View {
    size: 0.2,
    turned: 8.0,
    light: 1.0,
    blur: 0.0,
};

/// Modules of a short code to a side (version 1 of ISO/IEC 18004), and those of the white around it.
const MODULES: f64 = 21.0;
const QUIET: f64 = 4.0;

/// Leaves and soil: blotches of every size, from black to nearly white.
pub fn leaves((width, height): (u32, u32), seed: u64) -> GrayImage {
    let mut lot = Lot(seed);
    let mut sum = vec![0.0f32; (width * height) as usize];
    for cell in [160usize, 40, 11, 4] {
        let across = width as usize / cell + 2;
        let down = height as usize / cell + 2;
        let knots: Vec<f32> = (0..across * down)
            .map(|_| lot.below(1000) as f32 / 1000.0)
            .collect();
        for y in 0..height as usize {
            let (row, low) = (y / cell, (y % cell) as f32 / cell as f32);
            for x in 0..width as usize {
                let (column, right) = (x / cell, (x % cell) as f32 / cell as f32);
                let at = |dx: usize, dy: usize| knots[(row + dy) * across + column + dx];
                let top = at(0, 0) * (1.0 - right) + at(1, 0) * right;
                let bottom = at(0, 1) * (1.0 - right) + at(1, 1) * right;
                sum[y * width as usize + x] += top * (1.0 - low) + bottom * low;
            }
        }
    }
    GrayImage::from_fn(width, height, |x, y| {
        let value = sum[(y * width + x) as usize] / 4.0;
        Luma([((value - 0.25) * 2.0 * 230.0).clamp(0.0, 255.0) as u8])
    })
}

/// A tag as it is printed, at 300 dots to the inch, with dots to a module of its code.
fn printed(code: &str) -> (GrayImage, f64) {
    let tag = Tag {
        id: code.to_owned(),
        ..Tag::default()
    };
    let composed = compose(&tag, "25x76".parse().expect("a size")).expect("it fits");
    let module = (composed.module().expect("a code") / DOT).round();
    let page = singles(std::slice::from_ref(&composed)).remove(0);
    let bytes = png(&page, 1.0 / (DOT * POINTS)).expect("a PNG");
    let picture = image::load_from_memory(&bytes).expect("a PNG");
    (picture.to_luma8(), module)
}

/// Lays the tag of a plant onto a picture; its code is in the middle of it.
pub fn lay(on: &mut GrayImage, code: &str, view: View) {
    let (tag, module) = printed(code);
    let long = f64::from(on.width().max(on.height()));
    let scale = MODULES * module / (view.size * long);
    let (sin, cos) = (
        view.turned.to_radians().sin(),
        view.turned.to_radians().cos(),
    );
    let middle = (f64::from(on.width()) / 2.0, f64::from(on.height()) / 2.0);
    // The code stands at the left of its tag, in the middle of its height.
    let own = (
        (QUIET + MODULES / 2.0) * module,
        f64::from(tag.height()) / 2.0,
    );
    let seen = |x: f64, y: f64| {
        let (dx, dy) = ((x - middle.0) * scale, (y - middle.1) * scale);
        let (x, y) = (cos * dx + sin * dy + own.0, cos * dy - sin * dx + own.1);
        let inside =
            x >= 0.0 && y >= 0.0 && x < f64::from(tag.width()) && y < f64::from(tag.height());
        inside.then(|| f64::from(tag.get_pixel(x as u32, y as u32).0[0]))
    };
    let plain = on.clone();
    for (x, y, pixel) in on.enumerate_pixels_mut() {
        let under = f64::from(plain.get_pixel(x, y).0[0]);
        // Four looks at each pixel.
        let looks = [(0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75)];
        let sum: f64 = looks
            .iter()
            .map(|(dx, dy)| seen(f64::from(x) + dx, f64::from(y) + dy).unwrap_or(under))
            .sum();
        pixel.0 = [(sum / 4.0) as u8];
    }
    let of_pixels = view.blur * module / scale;
    if of_pixels > 0.05 {
        *on = image::imageops::blur(on, of_pixels as f32);
    }
    for pixel in on.pixels_mut() {
        pixel.0 = [(f64::from(pixel.0[0]) * view.light) as u8];
    }
}

/// What a phone writes beside a picture.
#[derive(Clone, Copy, Debug)]
pub struct Beside<'a> {
    /// As in `2025:05:10 14:03:07`.
    pub taken: Option<&'a str>,
    /// How it lies, as Exif numbers it: 1 upright, 6 to be turned a quarter to the right.
    pub orientation: u8,
}

pub fn at(taken: &str) -> Beside<'_> {
    Beside {
        taken: Some(taken),
        orientation: 1,
    }
}

/// Words that stand for the place a picture was taken at.
pub const PLACE: &[u8] = b"SECRET GREENHOUSE 51.5N";

/// The picture as JPEG with Exif (2.3): how it lies, when it was taken, and a place.
pub fn jpeg(picture: &GrayImage, beside: Beside) -> Vec<u8> {
    let mut bytes = Vec::new();
    let colour = DynamicImage::ImageLuma8(picture.clone()).to_rgb8();
    JpegEncoder::new_with_quality(&mut bytes, 88)
        .encode_image(&colour)
        .expect("a JPEG");
    let exif = exif(beside);
    let length = u16::try_from(exif.len() + 2).expect("short");
    let mut out = bytes[..2].to_vec();
    out.extend([0xff, 0xe1]);
    out.extend(length.to_be_bytes());
    out.extend(exif);
    out.extend(&bytes[2..]);
    out
}

/// An entry of a directory: tag, kind (2 words, 3 short, 4 long), count, value or where it stands.
fn entry(tag: u16, kind: u16, count: usize, value: usize) -> Vec<u8> {
    let mut out = tag.to_le_bytes().to_vec();
    out.extend(kind.to_le_bytes());
    out.extend(u32::try_from(count).expect("short").to_le_bytes());
    out.extend(u32::try_from(value).expect("short").to_le_bytes());
    out
}

fn directory(entries: &[Vec<u8>]) -> Vec<u8> {
    let mut out = u16::try_from(entries.len())
        .expect("few")
        .to_le_bytes()
        .to_vec();
    entries.iter().for_each(|entry| out.extend(entry));
    out.extend([0; 4]);
    out
}

fn exif(beside: Beside) -> Vec<u8> {
    // Head 8, first directory 2 + 3 × 12 + 4, the one of the picture 2 + 12 + 4, the one of the place likewise.
    let (shot, place, words) = (50, 68, 86);
    let taken = beside.taken.unwrap_or_default();
    let first = directory(&[
        entry(0x0112, 3, 1, usize::from(beside.orientation)),
        entry(0x8769, 4, 1, shot),
        entry(0x8825, 4, 1, place),
    ]);
    let shot = match beside.taken {
        Some(_) => entry(0x9003, 2, taken.len() + 1, words),
        None => entry(0xa002, 4, 1, 1),
    };
    // 0x001b: the method by which the place was found, here as words.
    let found = entry(0x001b, 7, PLACE.len(), words + taken.len() + 1);
    let mut out = b"Exif\0\0II*\0\x08\0\0\0".to_vec();
    out.extend(first);
    out.extend(directory(&[shot]));
    out.extend(directory(&[found]));
    out.extend(taken.as_bytes());
    out.push(0);
    out.extend(PLACE);
    out
}
