//! On which sheet of paper a picture of some size can be read.

use crate::render::scene::POINTS;

/// Shorter and longer side of sheets in millimetres, A4 to A0 (ISO 216).
const SHEETS: [(&str, f64, f64); 5] = [
    ("A4", 210.0, 297.0),
    ("A3", 297.0, 420.0),
    ("A2", 420.0, 594.0),
    ("A1", 594.0, 841.0),
    ("A0", 841.0, 1189.0),
];
/// Edge of a sheet that printers leave white, in millimetres.
pub const EDGE: f64 = 8.0;
/// How far a picture may be made smaller: letters of 7 points then have 5.
const SMALLEST: f64 = 5.0 / 7.0;
/// The smallest sheet on which a picture of that width and height can be read: its name, how large the picture may be there
/// at most, and the sheet's width and height in points.
pub fn sheet(size: (f64, f64)) -> Option<(&'static str, f64, (f64, f64))> {
    let mut sheets = SHEETS.into_iter().map(|(name, short, long)| {
        let (scale, page) = better(size, short * POINTS, long * POINTS);
        (name, scale, page)
    });
    sheets.find(|(_, scale, _)| *scale >= SMALLEST)
}

/// Says so where a picture of that size cannot be read on A4.
pub fn advice(size: (f64, f64)) -> Option<String> {
    match sheet(size) {
        Some(("A4", ..)) => None,
        Some((sheet, ..)) => Some(format!(
            "Too large to read on one A4 sheet: print it on {sheet}."
        )),
        None => Some("Too large to read on one A4 sheet: draw fewer generations.".to_owned()),
    }
}

/// Of a sheet upright and across, the one on which the picture is larger: its scale there, and width and height.
fn better(size: (f64, f64), short: f64, long: f64) -> (f64, (f64, f64)) {
    let scale = |page: (f64, f64)| {
        let room = |side: f64| side - 2.0 * EDGE * POINTS;
        f64::min(room(page.0) / size.0, room(page.1) / size.1)
    };
    let (upright, across) = ((short, long), (long, short));
    match scale(across) > scale(upright) {
        true => (scale(across), across),
        false => (scale(upright), upright),
    }
}
