//! Whom to select: siblings as numbered rows, best first, traits as columns of marks, a line below those to keep.
//!
//! A step of a scale is so many filled dots of all there are; a measure is a dot on a thin line from the least to the
//! most read, with its figure. Colour alone never carries meaning: groups are named, and pale rows are named as gone.

use super::columns::{Columns, columns};
use super::frame::{Stand, begin, end, nothing, say, under};
use super::look::Look;
use super::marks::{Pen, brackets, cell, index};
use super::sheet::Sheet;
use crate::render::scene::{
    Face, INK, Path, RULE, SOFT, Setting, Stroke, TextRun, Word, fit, line_width, set, wrap,
};
use crate::report::chart::{GridColumn, GridCross, GridGroup, GridRow, SelectGrid};
use crate::wording::counted;

/// Height of a row and of the line that names a group, in sizes of labels.
const ROW: f64 = 1.65;
const GROUP: f64 = 1.9;

/// The grid of a proposal.
pub fn select(grid: &SelectGrid, look: Look) -> Sheet {
    let (mut sheet, top) = begin(&grid.title, look);
    let mut y = under(&mut sheet, &grid.under, top);
    let columns = columns(grid, look);
    if grid.crosses.iter().all(|cross| cross.groups.is_empty()) {
        y = nothing(&mut sheet, y);
    }
    for cross in &grid.crosses {
        if !cross.groups.is_empty() {
            y = paint(&mut sheet, grid, (cross, &columns), y) + look.label;
        }
    }
    let mut notes = grid.notes.clone();
    if let Some(hidden) = grid.columns.len().checked_sub(columns.traits.len())
        && hidden > 0
    {
        let traits = counted(hidden, "trait does", "traits do");
        notes.insert(
            0,
            format!("{traits} not fit on this width; write a PDF, which is wider."),
        );
    }
    end(sheet, &notes, y)
}

/// One cross; returns where it ends.
fn paint(
    sheet: &mut Sheet,
    grid: &SelectGrid,
    (cross, columns): (&GridCross, &Columns),
    top: f64,
) -> f64 {
    let look = sheet.look;
    sheet.may_end(top);
    let from = sheet.marks.len();
    let mut y = headings(sheet, grid, (&cross.id, columns), top);
    sheet.repeat_from(top, y, from);
    let mut middles = Vec::new();
    for (rank, group) in cross.groups.iter().enumerate() {
        if rank > 0 {
            sheet.may_end(y);
        }
        let kept_above = rank
            .checked_sub(1)
            .is_some_and(|above| cross.groups[above].is_kept);
        y = group_line(sheet, (group, kept_above), columns.number.left, y);
        for row in &group.rows {
            let middle = y + look.label * ROW / 2.0;
            paint_row(sheet, (row, group), columns, middle);
            middles.push(middle);
            y += look.label * ROW;
            sheet.may_end(y);
        }
    }
    sheet.repeat_to(y);
    brackets(sheet, &cross.equal, &middles, columns.left_bracket());
    brackets(sheet, &cross.unsure, &middles, columns.right_bracket());
    y
}

/// The cross and what each column holds; returns where the rows begin.
fn headings(
    sheet: &mut Sheet,
    grid: &SelectGrid,
    (id, columns): (&str, &Columns),
    top: f64,
) -> f64 {
    let look = sheet.look;
    let mut texts: Vec<(f64, Vec<Vec<Word>>)> = Vec::new();
    for (of, at) in grid.columns.iter().zip(&columns.traits) {
        texts.push((at.left, heading(of, at.width - look.small * 0.6, look)));
    }
    if let Some(at) = columns.index {
        let word = [Word::roman("index, 95 %")];
        texts.push((at.left, wrap(&word, look.small, at.width)));
    }
    let tall = texts
        .iter()
        .map(|(_, lines)| lines.len())
        .max()
        .unwrap_or(0) as f64;
    let id = Word {
        text: format!("{id}, number"),
        face: Face::Roman,
    };
    let lines = wrap(&[id], look.small, columns.number.width - look.small * 0.5);
    let tall = tall.max(lines.len() as f64);
    texts.push((columns.number.left, lines));
    let bottom = top + look.small * 1.25 * tall;
    for (left, lines) in texts {
        let first = bottom - look.small * 1.25 * (lines.len() as f64 - 1.0);
        for (rank, line) in lines.iter().enumerate() {
            let y = first + rank as f64 * look.small * 1.25;
            set(sheet, line, (left, y), Setting::soft(look.small));
        }
    }
    bottom + look.small * 0.5
}

/// The trait, then how it counts.
fn heading(of: &GridColumn, room: f64, look: Look) -> Vec<Vec<Word>> {
    let mut lines = wrap(&[Word::roman(of.heading.as_str())], look.small, room);
    lines.extend(wrap(&[Word::roman(of.counts.as_str())], look.small, room));
    lines
}

/// The name of a group, below a line that is strong where those above are kept; returns where its rows begin.
fn group_line(
    sheet: &mut Sheet,
    (group, kept_above): (&GridGroup, bool),
    left: f64,
    y: f64,
) -> f64 {
    let look = sheet.look;
    let stroke = match kept_above {
        true => Stroke::solid(INK, 1.3),
        false => Stroke::solid(RULE, 0.6),
    };
    sheet.stroke(Path::line((look.margin, y), (look.right(), y)), stroke);
    let base = y + look.label * 1.35;
    sheet.text(TextRun {
        // Clear of a bracket that goes on from one group to the next.
        place: (left, base),
        size: look.label,
        face: Face::Bold,
        colour: if group.is_gone { SOFT } else { INK },
        text: group.heading.clone(),
    });
    y + look.label * GROUP
}

fn paint_row(
    sheet: &mut Sheet,
    (row, group): (&GridRow, &GridGroup),
    columns: &Columns,
    middle: f64,
) {
    let look = sheet.look;
    let pen = Pen::of(group);
    let base = middle + look.label * 0.32;
    let number = [Word {
        text: row.number.clone(),
        face: if group.is_kept {
            Face::Bold
        } else {
            Face::Roman
        },
    }];
    let number = fit(&number, look.label, columns.number.width - look.small);
    let left = columns.number.left + columns.number.width
        - look.small * 0.9
        - line_width(&number, look.label);
    set(
        sheet,
        &number,
        (left.max(columns.number.left), base),
        Setting {
            size: look.label,
            colour: pen.words,
        },
    );
    for ((read, at), column) in row.cells.iter().zip(&columns.traits).zip(&columns.axes) {
        match read {
            Some(read) => cell(sheet, (read, column), (*at, middle), pen),
            None => say(
                sheet,
                "–",
                (at.left, base),
                Stand::After,
                Setting::soft(look.small),
            ),
        }
    }
    match (&row.index, columns.index, &columns.index_axis) {
        (Some(of), Some(at), Some(axis)) => {
            index(sheet, (of, &row.remark), (at, axis, middle), pen)
        }
        _ => {
            let (left, room) = columns.remark(look);
            let lines = wrap(&[Word::roman(row.remark.as_str())], look.small, room);
            let line = lines.first().map_or(&[][..], |line| &line[..]);
            set(sheet, line, (left, base), Setting::soft(look.small));
        }
    }
}
