//! Who is related to whom: a triangle of figures, darker the closer; wider ones stand in stretches of columns, one below
//! the other.
//!
//! The figure stands in every cell, so that no meaning depends on the shade.

use super::frame::{DOT, Stand, begin, end, nothing, say, small, under};
use super::look::Look;
use super::sheet::Sheet;
use crate::render::scene::{Face, INK, PAPER, Path, RULE, SOFT, Setting, Stroke, Word, set, width};
use crate::report::chart::{KinshipCell, KinshipChart};
use std::ops::Range;

/// Height of a row, in sizes of labels.
const ROW: f64 = 1.55;
/// Most room for codes, a part of all.
const CODES: f64 = 0.3;
/// The widest a cell gets, in sizes of small letters.
const MOST: f64 = 5.5;

/// How figures are written.
#[derive(Clone, Copy)]
enum Figures {
    /// Four decimals.
    Decimals,
    /// Whole hundredths, with a `<1` for what is less.
    Hundredths,
}

/// Where everything stands.
struct Grid {
    figures: Figures,
    /// Right end of the numbers of plants.
    numbers: f64,
    /// Left end of codes, and their room.
    codes: (f64, f64),
    /// Left end of the first column, and from one to the next.
    cells: (f64, f64),
    /// Columns side by side.
    count: usize,
}

/// The chart of kinship.
pub fn kinship(chart: &KinshipChart, look: Look) -> Sheet {
    let (mut sheet, top) = begin(&chart.title, look);
    let mut y = under(&mut sheet, &chart.under, top);
    if !chart.words.is_empty() {
        y = small(&mut sheet, &chart.words, y);
    } else if chart.rows.is_empty() {
        y = nothing(&mut sheet, y);
    }
    let mut notes = chart.notes.clone();
    if !chart.rows.is_empty() {
        let grid = grid(chart, look);
        if matches!(grid.figures, Figures::Hundredths) {
            notes.insert(0, "Figures are hundredths, rounded.".to_owned());
        }
        for from in (0..chart.rows.len()).step_by(grid.count) {
            let columns = from..(from + grid.count).min(chart.rows.len());
            y = stretch(&mut sheet, chart, (&grid, columns), y) + look.label;
        }
    }
    end(sheet, &notes, y)
}

/// The most exact figures that fit side by side, or hundredths in stretches.
fn grid(chart: &KinshipChart, look: Look) -> Grid {
    let all = chart.plants.len();
    let digits = width(&all.to_string(), Face::Roman, look.small);
    let codes = chart.plants.iter();
    let codes = codes.map(|code| width(code, Face::Roman, look.label));
    let codes = codes.fold(0.0, f64::max).min(look.room() * CODES);
    let left = look.margin + digits + look.small * 0.6;
    let first = left + codes + look.small * 0.7;
    let room = look.right() - first;
    let of = |figures: Figures| {
        let wide = f64::max(widest(chart, figures, look), digits) + look.small * 0.55;
        (figures, wide, (room / wide) as usize)
    };
    let exact = of(Figures::Decimals);
    let (figures, wide, fitting) = match exact.2 >= all {
        true => exact,
        false => of(Figures::Hundredths),
    };
    let stretches = all.div_ceil(fitting.max(1)).max(1);
    let count = all.div_ceil(stretches).max(1);
    Grid {
        figures,
        numbers: look.margin + digits,
        codes: (left, codes),
        cells: (
            first,
            (room / count as f64).min(look.small * MOST).max(wide),
        ),
        count,
    }
}

fn widest(chart: &KinshipChart, figures: Figures, look: Look) -> f64 {
    let cells = chart.rows.iter().flatten();
    let texts = cells.map(|cell| width(&written(*cell, figures), Face::Roman, look.small));
    texts.fold(0.0, f64::max)
}

fn written(cell: KinshipCell, figures: Figures) -> String {
    let Some(kinship) = cell.kinship else {
        return String::new();
    };
    match figures {
        Figures::Decimals => format!("{kinship:.4}"),
        Figures::Hundredths => match 100.0 * kinship {
            least if least > 0.0 && least < 0.5 => "<1".to_owned(),
            of => format!("{:.0}", libm::round(of)),
        },
    }
}

/// Some columns and the rows that reach them; returns where they end.
fn stretch(
    sheet: &mut Sheet,
    chart: &KinshipChart,
    (grid, columns): (&Grid, Range<usize>),
    top: f64,
) -> f64 {
    let look = sheet.look;
    sheet.may_end(top);
    let (first, pitch) = grid.cells;
    let head = sheet.marks.len();
    let soft = Setting::soft(look.small);
    let base = top + look.small * 1.1;
    for (at, column) in columns.clone().enumerate() {
        let x = first + pitch * (at as f64 + 0.5);
        say(
            sheet,
            &(column + 1).to_string(),
            (x, base),
            Stand::Middle,
            soft,
        );
    }
    let mut y = base + look.small * 0.5;
    sheet.repeat_from(top, y, head);
    for row in columns.start..chart.rows.len() {
        paint_row(sheet, (chart, row), (grid, &columns), y);
        y += look.label * ROW;
        sheet.may_end(y);
    }
    sheet.repeat_to(y);
    y
}

/// A code cut in its middle where it has too little room: seedlings of one cross differ in their ends.
fn shorter(code: &str, (size, room): (f64, f64)) -> String {
    let letters: Vec<char> = code.chars().collect();
    let kept = |kept: usize| -> String {
        let (head, tail) = (kept / 2, letters.len() - (kept - kept / 2));
        let head: String = letters[..head].iter().collect();
        head + "…" + &letters[tail..].iter().collect::<String>()
    };
    let whole = std::iter::once(code.to_owned());
    let mut tries = whole.chain((1..letters.len()).rev().map(kept));
    let fits = |text: &String| width(text, Face::Roman, size) <= room;
    tries.find(fits).unwrap_or_default()
}

fn paint_row(
    sheet: &mut Sheet,
    (chart, row): (&KinshipChart, usize),
    (grid, columns): (&Grid, &Range<usize>),
    y: f64,
) {
    let look = sheet.look;
    let tall = look.label * ROW;
    let base = y + tall / 2.0 + look.label * 0.32;
    let soft = Setting::soft(look.small);
    let number = (row + 1).to_string();
    say(sheet, &number, (grid.numbers, base), Stand::Before, soft);
    let code = [Word::roman(shorter(
        &chart.plants[row],
        (look.label, grid.codes.1),
    ))];
    let ink = Setting::ink(look.label);
    set(sheet, &code, (grid.codes.0, base), ink);
    let (first, pitch) = grid.cells;
    let cells = chart.rows[row].iter().enumerate();
    for (at, cell) in cells.skip(columns.start).take(columns.len()) {
        let left = first + pitch * (at - columns.start) as f64;
        paint_cell(sheet, (*cell, grid.figures), (left, y), (pitch, tall));
    }
}

fn paint_cell(
    sheet: &mut Sheet,
    (cell, figures): (KinshipCell, Figures),
    (left, top): (f64, f64),
    (wide, tall): (f64, f64),
) {
    let look = sheet.look;
    let Some(kinship) = cell.kinship else {
        return;
    };
    let path = Path::rect(left + 0.6, top + 0.6, wide - 1.2, tall - 1.2);
    let shade = match kinship > 0.0 {
        true => DOT.faded(0.12 + 0.8 * kinship.min(0.5)),
        false => PAPER,
    };
    let stroke = match cell.is_expected {
        true => Stroke::dashed(INK, 0.9, &[2.4, 1.8]),
        false => Stroke::solid(RULE, 0.5),
    };
    sheet.framed(path, shade, stroke);
    let setting = Setting {
        size: look.small,
        colour: if kinship > 0.0 { INK } else { SOFT },
    };
    let base = top + tall / 2.0 + look.small * 0.33;
    let text = written(cell, figures);
    say(
        sheet,
        &text,
        (left + wide / 2.0, base),
        Stand::Middle,
        setting,
    );
}
