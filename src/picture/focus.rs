//! Whether anything in a picture is sharp.
//!
//! Compares how much neighbours differ with how much pixels four apart do, as means of squares, where there is anything to
//! see. A step between dark and light spread by a normal curve of s pixels gives, with
//! E(d) = 2s/√π (exp(−d²/4s²) − 1) + d erf(d/2s), E(1)/E(4) = 0.141 for s = 0.5, 0.111 for 0.75, 0.094 for 1, 0.072 for 2 and 0.0625 for
//! a slope without end. (The integral of the squared difference of two normal distribution functions.)

use image::{GrayImage, imageops};

/// The longest side at which it is asked, pixels: noise of the camera is averaged away by then.
const LONGEST: u32 = 800;
/// Side of a block, pixels.
const BLOCK: u32 = 32;
/// From which ratio on a block is sharp: steps spread by at most 0.75 of 800 pixels, four pixels of a phone's 4,000.
const SHARP: f64 = 0.11;
/// Mean squared difference below which a block shows nothing: steps of 12 of 256.
const SEEN: f64 = 144.0;
/// The part of the blocks that must be sharp.
const PART: usize = 50;

/// Whether at least one in 50 of the blocks that show something is sharp.
pub(super) fn is_sharp(whole: &GrayImage) -> bool {
    let long = whole.width().max(whole.height());
    let (width, height) = match long > LONGEST {
        true => (
            whole.width() * LONGEST / long,
            whole.height() * LONGEST / long,
        ),
        false => whole.dimensions(),
    };
    if width.min(height) < BLOCK {
        return true;
    }
    let grey = imageops::thumbnail(whole, width, height);
    let (mut shown, mut sharp) = (0, 0);
    for top in (0..=height - BLOCK).step_by(BLOCK as usize) {
        for left in (0..=width - BLOCK).step_by(BLOCK as usize) {
            let (near, far) = (differ(&grey, (left, top), 1), differ(&grey, (left, top), 4));
            shown += usize::from(far >= SEEN);
            sharp += usize::from(far >= SEEN && near >= SHARP * far);
        }
    }
    sharp > 0 && sharp * PART >= shown
}

/// The mean squared difference between pixels of a block so far apart, to the right and down.
fn differ(grey: &GrayImage, (left, top): (u32, u32), apart: u32) -> f64 {
    let at = |x: u32, y: u32| i64::from(grey.get_pixel(x, y).0[0]);
    let side = BLOCK - apart;
    let squares = (0..side).flat_map(|dy| (0..side).map(move |dx| (left + dx, top + dy)));
    let sum: i64 = squares
        .map(|(x, y)| {
            let here = at(x, y);
            (at(x + apart, y) - here).pow(2) + (at(x, y + apart) - here).pow(2)
        })
        .sum();
    sum as f64 / f64::from(2 * side * side)
}
