//! Where parents stand on the axis of their offspring: a line through the strip, its sign and code on top.
//!
//! Each label has a line of its own above the field and keeps clear of the lines of the others; a parent's line leaves a
//! gap wherever a text could find no other place.

use super::apart::clear;
use super::scale::Scale;
use super::sheet::Sheet;
use crate::render::scene::{Path, SOFT, Setting, Stroke, Word, fit, line_width, set};
use crate::report::chart::ParentReading;
use crate::report::pedigree::Sex;

/// From one label to the next, in sizes of small letters.
pub const STEP: f64 = 1.25;

/// Parents that can be shown, with their places across.
pub fn shown<'p>(parents: &'p [ParentReading], scale: &Scale) -> Vec<(&'p ParentReading, f64)> {
    parents
        .iter()
        .filter(|parent| scale.shows(parent.value))
        .map(|parent| (parent, scale.at(parent.value)))
        .collect()
}

/// Paints labels above the field and lines through it; `texts` are the boxes in it that no line may run through.
pub fn paint(
    sheet: &mut Sheet,
    parents: &[(&ParentReading, f64)],
    field: (f64, f64),
    texts: &[[f64; 4]],
) {
    let look = sheet.look;
    let mut taken = texts.to_vec();
    let mut labels = Vec::new();
    for (rank, (parent, x)) in parents.iter().enumerate() {
        let base = field.0 - 3.0 - (parents.len() - 1 - rank) as f64 * STEP * look.small;
        let (_, sign) = pen(parent);
        let text = [Word::roman(format!("{sign}{}", parent.label))];
        let line = fit(&text, look.small, look.room());
        let wide = line_width(&line, look.small);
        let above: Vec<f64> = parents[..rank].iter().map(|(_, x)| *x).collect();
        let room = (look.margin, look.right());
        let wish = x - wide / 2.0;
        let left = clear(wish, wide, room, &above)
            .unwrap_or_else(|| wish.clamp(room.0, f64::max(room.1 - wide, room.0)));
        taken.push([
            left,
            left + wide,
            base - look.small * 0.85,
            base + look.small * 0.3,
        ]);
        labels.push((line, (left, base)));
    }
    for (rank, (parent, x)) in parents.iter().enumerate() {
        let from = labels[rank].1.1 + look.small * 0.3;
        for (top, bottom) in gaps(*x, (from, field.1), &taken) {
            sheet.stroke(Path::line((*x, top), (*x, bottom)), pen(parent).0);
        }
    }
    for (line, place) in labels {
        let setting = Setting::ink(look.small);
        set(sheet, &line, place, setting);
    }
}

fn pen(parent: &ParentReading) -> (Stroke, &'static str) {
    match parent.sex {
        Some(Sex::Female) => (Stroke::solid(SOFT, 0.9), "♀ "),
        Some(Sex::Male) => (Stroke::dashed(SOFT, 0.9, &[3.5, 2.4]), "♂ "),
        None => (Stroke::dashed(SOFT, 0.9, &[0.1, 2.4]), ""),
    }
}

/// The stretches of an upright line that run through no text.
fn gaps(x: f64, line: (f64, f64), texts: &[[f64; 4]]) -> Vec<(f64, f64)> {
    let mut over: Vec<&[f64; 4]> = texts
        .iter()
        .filter(|text| text[0] - 2.0 < x && x < text[1] + 2.0)
        .collect();
    over.sort_by(|a, b| a[2].total_cmp(&b[2]));
    let (mut stretches, mut from) = (Vec::new(), line.0);
    for text in over {
        if text[2] > from {
            stretches.push((from, text[2].min(line.1)));
        }
        from = from.max(text[3]);
    }
    if from < line.1 {
        stretches.push((from, line.1));
    }
    stretches
}
