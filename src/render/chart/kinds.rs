//! Kinds without order: a short bar for each, its name before it, its count and share after it.

use super::frame::{Stand, say};
use super::sheet::Sheet;
use crate::render::scene::{
    Face, INK, Path, SOFT, Setting, Word, fit, line_width, set, width, wrap,
};
use crate::report::chart::{KindBar, KindGroup};

/// Length of the longest bar.
const LONGEST: f64 = 130.0;
/// From one bar to the next.
const STEP: f64 = 12.0;
/// From one line of a remark to the next, in sizes of its letters.
const FURTHER: f64 = 1.2;
/// Thickness of a bar.
const THICK: f64 = 5.0;
/// Most room for the name of a kind.
const NAME: f64 = 110.0;

/// Paints the groups one below the other; returns where the last ends.
pub fn kinds(sheet: &mut Sheet, groups: &[KindGroup], top: f64) -> f64 {
    let look = sheet.look;
    let bars = || groups.iter().flat_map(|group| &group.bars);
    let most = bars().map(|bar| bar.n).max().unwrap_or(1).max(1) as f64;
    let names = bars().map(|bar| width(&bar.kind, Face::Roman, look.small));
    let left = look.margin + 8.0 + names.fold(0.0, f64::max).min(look.beside_letters(NAME)) + 6.0;
    let mut y = top + 2.0;
    for group in groups {
        y += look.label * 1.3;
        write(sheet, &group.label, (look.margin, y), look.label);
        y += 3.0;
        for kind in &group.bars {
            y += look.beside_letters(STEP);
            y += bar(sheet, kind, (left, y), LONGEST * kind.n as f64 / most);
        }
        y += 4.0;
    }
    y
}

/// One kind; returns how far its remark runs on below.
fn bar(sheet: &mut Sheet, kind: &KindBar, (left, base): (f64, f64), long: f64) -> f64 {
    let look = sheet.look;
    let small = |colour| Setting {
        size: look.small,
        colour,
    };
    let name = fit(
        &[Word::roman(kind.kind.as_str())],
        look.small,
        look.beside_letters(NAME),
    );
    let from = left - 6.0 - line_width(&name, look.small);
    set(sheet, &name, (from, base), small(INK));
    if long > 0.0 {
        sheet.fill(Path::rect(left, base - THICK - 0.2, long, THICK), INK);
    }
    let count = kind.n.to_string();
    let after = left + long + 5.0;
    say(sheet, &count, (after, base), Stand::After, small(INK));
    let told = after + width(&count, Face::Roman, look.small) + 6.0;
    let remark = [Word::roman(kind.remark.as_str())];
    let lines = wrap(&remark, look.small, look.right() - told);
    for (rank, line) in lines.iter().enumerate() {
        let place = (told, base + rank as f64 * FURTHER * look.small);
        set(sheet, line, place, small(SOFT));
    }
    lines.len().saturating_sub(1) as f64 * FURTHER * look.small
}

fn write(sheet: &mut Sheet, text: &str, place: (f64, f64), size: f64) {
    say(sheet, text, place, Stand::After, Setting::ink(size));
}
