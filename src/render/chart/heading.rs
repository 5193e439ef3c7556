//! The heading of a row: its name at the left, what is said of it at the right, clear of each other and of the lines that
//! mark parents.
//!
//! A long name is broken between words; where name and remark do not fit side by side the remark stands below.

use super::apart::clear;
use super::look::Look;
use super::sheet::Sheet;
use crate::render::pedigree::words;
use crate::render::scene::{PAPER, Path, Setting, Word, fit, line_width, set, wrap};
use crate::report::chart::DotRow;

/// From one line of a heading to the next, in sizes of its letters.
const LINE: f64 = 1.2;
/// Between a name and its remark.
const GAP: f64 = 8.0;
/// The least room for a name beside a remark.
const NAME: f64 = 150.0;

/// The ends of the paper.
fn ends(look: Look) -> (f64, f64) {
    (look.margin, look.right())
}

/// A text with its place.
struct Part {
    line: Vec<Word>,
    left: f64,
    /// Below the first line of the heading.
    down: f64,
    setting: Setting,
}

/// A heading whose texts have found their places.
pub struct Heading {
    parts: Vec<Part>,
    /// Its height.
    pub tall: f64,
}

/// Places name and remark of a row so that none of the upright `lines` runs through them, where that can be.
pub fn heading(row: &DotRow, lines: &[f64], look: Look) -> Heading {
    let remark = fit(&[Word::roman(row.remark.as_str())], look.small, look.room());
    let (name, remark) = (words(&row.label, false), remark);
    let parts =
        beside(&name, &remark, lines, look).unwrap_or_else(|| below(&name, &remark, lines, look));
    let last = parts.iter().map(|part| part.down).fold(0.0, f64::max);
    let empty = parts.iter().all(|part| line_width(&part.line, 1.0) == 0.0);
    Heading {
        tall: if empty { 0.0 } else { last + look.label * LINE },
        parts,
    }
}

/// Name and remark side by side; `None` where they do not fit or lines are in the way.
fn beside(name: &[Word], remark: &[Word], lines: &[f64], look: Look) -> Option<Vec<Part>> {
    let ends = ends(look);
    let wide = line_width(remark, look.small);
    let right = clear(ends.1 - wide, wide, ends, lines)?;
    let room = right - GAP - ends.0;
    if wide > 0.0 && room < look.beside_letters(NAME) {
        return None;
    }
    let mut parts = named(name, (ends.0, ends.0 + room), lines, look)?;
    parts.push(told(remark, right, 0.0, look));
    Some(parts)
}

/// The remark below the name; where no place is free of lines, it stands over one.
fn below(name: &[Word], remark: &[Word], lines: &[f64], look: Look) -> Vec<Part> {
    let ends = ends(look);
    let mut parts = named(name, ends, lines, look)
        .or_else(|| named(name, ends, &[], look))
        .unwrap_or_default();
    let down = parts.len() as f64 * look.label * LINE;
    let wide = line_width(remark, look.small);
    let left = clear(ends.0, wide, ends, lines).unwrap_or(ends.0);
    if wide > 0.0 {
        parts.push(told(remark, left, down, look));
    }
    parts
}

fn told(remark: &[Word], left: f64, down: f64, look: Look) -> Part {
    Part {
        line: remark.to_vec(),
        left,
        down,
        setting: Setting::soft(look.small),
    }
}

/// The lines of a name, each clear of what is in the way.
fn named(name: &[Word], room: (f64, f64), lines: &[f64], look: Look) -> Option<Vec<Part>> {
    let broken = wrap(name, look.label, room.1 - room.0).into_iter();
    let place = |(rank, line): (usize, Vec<Word>)| {
        let left = clear(room.0, line_width(&line, look.label), room, lines)?;
        Some(Part {
            line,
            left,
            down: rank as f64 * look.label * LINE,
            setting: Setting::ink(look.label),
        })
    };
    broken.enumerate().map(place).collect()
}

impl Heading {
    /// Left, right, top and bottom of every text, the first baseline being at `base`.
    pub fn boxes(&self, base: f64) -> impl Iterator<Item = [f64; 4]> {
        self.parts.iter().map(move |part| {
            let (size, y) = (part.setting.size, base + part.down);
            let right = part.left + line_width(&part.line, size);
            [part.left, right, y - size * 0.85, y + size * 0.3]
        })
    }

    /// Writes the heading, on paper of its own so that the grid does not run through it.
    pub fn paint(&self, sheet: &mut Sheet, base: f64) {
        for (part, [left, right, top, bottom]) in self.parts.iter().zip(self.boxes(base)) {
            if right > left {
                let paper = Path::rect(left - 2.0, top, right - left + 4.0, bottom - top);
                sheet.fill(paper, PAPER);
            }
            let place = (part.left, base + part.down);
            set(sheet, &part.line, place, part.setting);
        }
    }
}
