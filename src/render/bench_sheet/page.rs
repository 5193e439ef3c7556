//! A page of rows, and all pages one under the other for pictures that have no pages.

use super::columns::{Placed, TooWide, placed};
use super::head::head;
use super::paper::{AIR, POINTS, Paper, Pen};
use crate::analysis::bench_sheet::{BenchSheet, ReadAs, SheetColumn, SheetRow};
use crate::render::scene::{Face, Scene};

/// Height of a row to write in, millimetres.
const ROW: f64 = 8.0;
/// Height of the headings.
const HEADINGS: f64 = 7.0;
/// Height of the line under the table.
const FOOT: f64 = 6.0;
/// Between pages set one under the other.
const GAP: f64 = 6.0;
/// Rows after which a stronger line helps the eye.
const STRONG: usize = 5;

/// The pages, each a scene of the paper's size.
///
/// # Errors
/// If the columns do not fit beside each other.
pub fn pages(sheet: &BenchSheet, paper: Paper) -> Result<Vec<Scene>, TooWide> {
    let columns = placed(sheet, paper)?;
    let (width, height) = paper.size();
    let all = sheet.rows.chunks(paper.rows()).count();
    let page = |at: usize| {
        let mut scene = empty(sheet, (width, height));
        let mut pen = Pen {
            scene: &mut scene,
            top: 0.0,
        };
        draw(&mut pen, sheet, (paper, &columns), (at, all));
        scene
    };
    Ok((0..all).map(page).collect())
}

/// All pages one under the other.
///
/// # Errors
/// As [`pages`].
pub fn stacked(sheet: &BenchSheet, paper: Paper) -> Result<Scene, TooWide> {
    let columns = placed(sheet, paper)?;
    let (width, height) = paper.size();
    let all = sheet.rows.chunks(paper.rows()).count();
    let mut scene = empty(sheet, (width, (height + GAP) * all as f64 - GAP));
    for at in 0..all {
        let mut pen = Pen {
            scene: &mut scene,
            top: (height + GAP) * at as f64,
        };
        draw(&mut pen, sheet, (paper, &columns), (at, all));
    }
    Ok(scene)
}

fn empty(sheet: &BenchSheet, (width, height): (f64, f64)) -> Scene {
    let what = if sheet.is_stocktake() {
        "Stock-take"
    } else {
        "Measuring"
    };
    Scene {
        width: width * POINTS,
        height: height * POINTS,
        title: format!("{what}: {}", sheet.subject()),
        description: format!("A sheet with {} rows to fill in by hand", sheet.rows.len()),
        ..Scene::default()
    }
}

fn draw(
    pen: &mut Pen,
    sheet: &BenchSheet,
    (paper, columns): (Paper, &[Placed]),
    (at, all): (usize, usize),
) {
    let (width, height) = paper.size();
    pen.paper((width, height));
    let most = paper.rows();
    let rows = sheet.rows.chunks(most).nth(at).unwrap_or(&[]);
    let bottom = height - paper.border() - FOOT;
    let lowest = bottom - ROW * most as f64;
    let end = head(pen, sheet, paper, lowest - HEADINGS);
    let top = lowest.min(end + HEADINGS);
    headings(pen, sheet, columns, top);
    for (line, row) in rows.iter().enumerate() {
        fill(pen, sheet, (columns, row), top + ROW * line as f64);
    }
    let foot = top + ROW * rows.len() as f64;
    grid(pen, columns, (top, rows.len()));
    let first = at * most + 1;
    let counted = format!(
        "{}–{} of {} · page {} of {all}",
        first,
        first + rows.len() - 1,
        sheet.rows.len(),
        at + 1
    );
    let left = paper.border();
    let next = match sheet.is_stocktake() {
        true => format!("{counted} · made {}", sheet.made),
        false => format!("{counted} · made {} · {}", sheet.made, sheet.command()),
    };
    pen.words(
        &next,
        (left, foot + 4.2),
        (7.0, Face::Roman),
        width - 2.0 * left,
    );
}

/// Lines between rows and columns.
fn grid(pen: &mut Pen, columns: &[Placed], (top, rows): (f64, usize)) {
    let (Some(first), Some(last)) = (columns.first(), columns.last()) else {
        return;
    };
    let (left, right) = (first.left, last.left + last.width);
    for line in 0..=rows {
        let y = top + ROW * line as f64;
        let width = if line % STRONG == 0 || line == rows {
            0.9
        } else {
            0.35
        };
        pen.line((left, y), (right, y), width);
    }
    let bottom = top + ROW * rows as f64;
    for edge in columns.iter().map(|column| column.left).chain([right]) {
        pen.line((edge, top - HEADINGS + 1.5), (edge, bottom), 0.35);
    }
}

/// The plant, each column by name and unit, and the remarks.
fn headings(pen: &mut Pen, sheet: &BenchSheet, columns: &[Placed], top: f64) {
    let y = top - 1.6;
    let of_columns = sheet.columns.iter().map(|column| column.heading.as_str());
    let second = if sheet.is_stocktake() {
        "seen · place · remarks"
    } else {
        "remarks"
    };
    let words = std::iter::once("plant").chain(of_columns).chain([second]);
    for (word, column) in words.zip(columns) {
        pen.words(
            word,
            (column.left + 1.0, y),
            (8.5, Face::Bold),
            column.width - 1.6,
        );
    }
}

/// One plant's row.
fn fill(pen: &mut Pen, sheet: &BenchSheet, (columns, row): (&[Placed], &SheetRow), top: f64) {
    let base = top + ROW * 0.66;
    let room = |column: &Placed| column.width - AIR;
    let first = columns[0];
    pen.code(&row.plant, (first.left + 1.0, base), room(&first));
    if sheet.is_stocktake() {
        let column = columns[1];
        pen.square((column.left + 2.0, top + 1.75), (4.5, 4.5));
        if let Some(place) = &row.place {
            pen.words(
                place,
                (column.left + 9.0, base),
                (8.0, Face::Roman),
                column.width - 10.0,
            );
        }
        return;
    }
    for ((column, of), last) in columns[1..].iter().zip(&sheet.columns).zip(&row.last) {
        if column.ringed {
            ringed(pen, of, column, top);
        }
        if let Some(last) = last {
            // Above the steps to be ringed, or beside what is written.
            pen.words(
                last,
                (column.left + 0.7, top + 2.4),
                (6.5, Face::Roman),
                room(column),
            );
        }
    }
}

/// The steps of a scale, or the short forms of kinds, each in a box to be ringed.
fn ringed(pen: &mut Pen, of: &SheetColumn, column: &Placed, top: f64) {
    let words: Vec<String> = match &of.read_as {
        ReadAs::Scale(anchors) => (1..=anchors.len()).map(|step| step.to_string()).collect(),
        ReadAs::Kinds(kinds) => kinds.iter().map(|(short, _)| short.clone()).collect(),
        _ => return,
    };
    let each = (column.width - 2.0) / words.len() as f64;
    for (at, word) in words.iter().enumerate() {
        let left = column.left + 1.0 + each * at as f64;
        pen.square((left + 0.3, top + 3.0), (each - 0.6, 4.2));
        pen.centred(word, (left + each / 2.0, top + 6.1), (7.5, Face::Roman));
    }
}
