//! The box of one plant as a table: its name, its code, the squares of its descent, and siblings that are not drawn.

use super::label::{Label, hex};
use crate::render::pedigree::{Parts, Signs, Square, Tile, lines};
use crate::render::scene::{INK, PAPER, RULE, SOFT};
use crate::report::pedigree::DrawnPlant;

/// Sizes of letters: names, the name of the plant on offer, and all else.
const NAME: f64 = 12.0;
const FOCUS: f64 = 15.0;
const SMALL: f64 = 9.0;
/// The widest a name runs before it is broken, and that of the plant on offer.
const ROOM: (f64, f64) = (185.0, 225.0);
/// Squares in a row.
const ROW: usize = 8;
/// A square and its letters; three of any typeface fit.
const TILE: Tile = Tile {
    side: 26.0,
    letters: 8.0,
};
/// Height of a square, which is wider than high here.
const HIGH: f64 = 19.0;
/// A table that shows nothing of itself.
const BARE: &str = r#"BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="1""#;
const LEFT: &str = r#" ALIGN="LEFT" BALIGN="LEFT""#;

/// A plant; `note` says what is not certain of its parents, `more` how many siblings are not drawn.
pub fn plant(plant: &DrawnPlant, signs: &Signs, (note, more): (&str, &str)) -> Label {
    let (size, room) = match plant.focus {
        true => (FOCUS, ROOM.1),
        false => (NAME, ROOM.0),
    };
    let mut rows: Vec<Label> = lines(plant, note, (size, SMALL), room)
        .iter()
        .map(|(line, size)| {
            let told = *size > SMALL && !plant.fate.is_over();
            let colour = if told { INK } else { SOFT };
            Label::row([Label::words(line).set(*size, colour).cell(LEFT)])
        })
        .collect();
    let parts = Parts::of(plant, signs, (TILE, room), false);
    let chip = match &parts {
        Parts::None => None,
        Parts::One(of) => Some(squares(signs, &[*of])),
        Parts::Squares(all) => {
            rows.push(Label::row([squares(signs, all).cell(LEFT)]));
            None
        }
        Parts::Figures(lines) => {
            let figures = lines.iter().map(|line| Label::words(line).set(SMALL, INK));
            rows.extend(figures.map(|line| Label::row([line.cell(LEFT)])));
            None
        }
    };
    if !more.is_empty() {
        rows.push(Label::row([Label::text(more).set(SMALL, SOFT).cell(LEFT)]));
    }
    let text = Label::table(rows, BARE).cell("");
    let cells = chip.map(|chip| chip.cell("")).into_iter().chain([text]);
    Label::table([Label::row(cells)], &frame(plant.focus))
}

/// The frame of a box; that of the plant on offer is heavy.
fn frame(focus: bool) -> String {
    let (border, colour) = if focus { (3, INK) } else { (1, RULE) };
    let colour = hex(colour);
    format!(
        r##"BORDER="{border}" CELLBORDER="0" CELLSPACING="2" CELLPADDING="1" STYLE="ROUNDED" COLOR="{colour}" BGCOLOR="#ffffff""##
    )
}

/// Squares with their letters, eight in a row.
pub fn squares(signs: &Signs, all: &[Square]) -> Label {
    let rows = all.chunks(ROW);
    let rows = rows.map(|row| Label::row(row.iter().map(|&of| square(signs, of))));
    let long = |count: usize, side: f64| count as f64 * (side + 2.0) + 2.0;
    let wide = long(all.len().min(ROW), TILE.side);
    let high = long(all.len().div_ceil(ROW), HIGH);
    // Without a size of its own the table would be stretched to the width of the box.
    let attributes = format!(
        r#"BORDER="0" CELLBORDER="1" CELLSPACING="2" CELLPADDING="0" FIXEDSIZE="TRUE" WIDTH="{wide:.0}" HEIGHT="{high:.0}""#
    );
    Label::table(rows, &attributes)
}

fn square(signs: &Signs, of: Square) -> Label {
    let (text, fill) = signs.sign(of);
    let letters = fill.map_or(INK, |fill| fill.letters_on());
    Label::text(text)
        .set(TILE.letters, letters)
        .square(fill.unwrap_or(PAPER), (TILE.side, HIGH))
}
