//! Counts against a stated ratio: a bar for what was counted, an upright stroke where the ratio expects it to end.

use super::frame::{Stand, say, small};
use super::sheet::Sheet;
use crate::render::scene::{
    Face, INK, Path, SOFT, Setting, Stroke, Word, fit, line_width, set, width,
};
use crate::report::chart::RatioStrip;
use crate::wording::number;

/// Parts of the room for the names of the parts, and for the longest bar.
const NAMES: f64 = 0.3;
const BARS: f64 = 0.3;

/// Paints the parts one below the other; returns where they end.
pub fn ratio(sheet: &mut Sheet, of: &RatioStrip, top: f64) -> f64 {
    let look = sheet.look;
    let mut y = small(sheet, std::slice::from_ref(&of.verdict), top);
    let most = of
        .parts
        .iter()
        .map(|part| f64::max(part.n as f64, part.expected));
    let most = most.fold(1.0, f64::max);
    let names = of
        .parts
        .iter()
        .map(|part| width(&part.label, Face::Roman, look.small));
    let names = names.fold(0.0, f64::max).min(look.room() * NAMES);
    let left = look.margin + names + look.small * 0.7;
    let long = look.room() * BARS;
    for part in &of.parts {
        y += look.small * 1.5;
        let ink = Setting::ink(look.small);
        let name = fit(&[Word::roman(part.label.as_str())], look.small, names);
        let from = look.margin + names - line_width(&name, look.small);
        set(sheet, &name, (from, y), ink);
        let (thick, middle) = (look.small * 0.5, y - look.small * 0.3);
        let bar = Path::rect(
            left,
            middle - thick / 2.0,
            long * part.n as f64 / most,
            thick,
        );
        sheet.fill(bar, INK);
        let x = left + long * part.expected / most;
        let stroke = Path::line((x, middle - thick * 1.2), (x, middle + thick * 1.2));
        sheet.stroke(stroke, Stroke::solid(SOFT, 1.4));
        let words = format!("{} counted, {} expected", part.n, number(part.expected, 1));
        say(
            sheet,
            &words,
            (left + long + look.small * 0.8, y),
            Stand::After,
            Setting::soft(look.small),
        );
    }
    y + look.small * 0.8
}
