//! Groups told apart without colour: each by the kind of its line and the shape of its marks, and by colour besides.

use super::frame::{DOT, FOCUS};
use super::sheet::Sheet;
use crate::render::scene::{Colour, INK, PAPER, Path, Step, Stroke};

/// Colour of a group, 0 first.
pub fn group_colour(rank: usize) -> Colour {
    [DOT.readable(), Colour(0x40, 0x4e, 0xae), FOCUS, INK][rank % 4]
}

/// The line of a group: solid, dashed, dotted.
pub fn line_of(rank: usize, colour: Colour, width: f64) -> Stroke {
    match rank % 3 {
        0 => Stroke::solid(colour, width),
        1 => Stroke::dashed(colour, width, &[5.0, 3.0]),
        _ => Stroke::dashed(colour, width, &[1.2, 2.4]),
    }
}

/// The mark of a group, so large: a dot, a square, a triangle, a diamond; hollow where its reading is doubtful.
pub fn mark(
    sheet: &mut Sheet,
    (x, y): (f64, f64),
    (rank, radius): (usize, f64),
    colour: Colour,
    doubtful: bool,
) {
    let r = radius;
    let path = match rank % 4 {
        0 => Path::circle((x, y), r),
        1 => Path::rect(x - r * 0.9, y - r * 0.9, r * 1.8, r * 1.8),
        2 => closed(&[
            (x, y - r * 1.2),
            (x + r * 1.1, y + r * 0.8),
            (x - r * 1.1, y + r * 0.8),
        ]),
        _ => closed(&[
            (x, y - r * 1.3),
            (x + r * 1.3, y),
            (x, y + r * 1.3),
            (x - r * 1.3, y),
        ]),
    };
    match doubtful {
        true => sheet.framed(path, PAPER, Stroke::solid(colour, 0.9)),
        false => sheet.fill(path, colour),
    }
}

fn closed(corners: &[(f64, f64)]) -> Path {
    let mut path = Path::polyline(corners);
    path.0.push(Step::Close);
    path
}
