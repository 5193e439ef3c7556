//! What several plants descend from: one ribbon each, species labelled where they stand.

use super::frame::{begin, end, nothing};
use super::look::Look;
use super::sheet::Sheet;
use crate::render::pedigree::{Ribbon, is_share, words};
use crate::render::scene::{Setting, Word, set, wrap};
use crate::report::chart::ParentageChart;

/// Height of a ribbon.
const RIBBON: f64 = 11.0;

/// The chart of species shares.
pub fn parentage(chart: &ParentageChart, look: Look) -> Sheet {
    let (mut sheet, mut y) = begin(&chart.title, look);
    if chart.rows.is_empty() {
        y = nothing(&mut sheet, y);
    }
    let room = look.room();
    for row in &chart.rows {
        sheet.may_end(y);
        for line in wrap(&words(&row.label, false), look.label, room) {
            y += look.label * 1.15;
            let setting = Setting::ink(look.label);
            set(&mut sheet, &line, (look.margin, y), setting);
        }
        y += 3.5;
        let ribbon = Ribbon {
            corner: (look.margin, y),
            size: (room, RIBBON),
            letters: look.small,
        };
        ribbon.paint(&mut sheet, &chart.species, &row.shares);
        let either = row.either.iter();
        let either = either.map(|part| (part.fraction, part.of.as_str()));
        let open = either.chain([(row.unknown_share, "unknown")]);
        let open: Vec<_> = open.filter(|(part, _)| is_share(*part)).collect();
        let unnamed = ribbon.label(&mut sheet, &chart.species, (&row.shares, &open));
        y += RIBBON + look.small * 1.3;
        y = without_room(&mut sheet, &unnamed, y) + 7.0;
    }
    end(sheet, &chart.notes, y)
}

/// Names the shares that are too short for their names, in their order, below `top`; returns where it ends.
fn without_room(sheet: &mut Sheet, shares: &[Vec<Word>], top: f64) -> f64 {
    let look = sheet.look;
    if shares.is_empty() {
        return top;
    }
    let mut words = Vec::new();
    for share in shares {
        let before = if words.is_empty() {
            "short parts, left to right: "
        } else {
            ", "
        };
        words.push(Word::roman(before));
        words.extend(share.iter().cloned());
    }
    let setting = Setting::ink(look.small);
    let mut y = top;
    for line in wrap(&words, look.small, look.room()) {
        y += look.small * 1.2;
        set(sheet, &line, (look.margin, y), setting);
    }
    y
}
