//! Who is the better parent: plants as rows, best first, each a mark on the line of its error, over one axis.
//!
//! Doubt has a shape of its own: a plant known by the mean of its pod alone is a hollow dot. Those that may be the best
//! are bold.

use super::frame::{DOT, Stand, begin, end, nothing, say, under};
use super::look::Look;
use super::scale::Scale;
use super::sheet::Sheet;
use crate::render::scene::{
    Face, INK, PAPER, Path, RULE, SOFT, Setting, Stroke, Word, fit, line_width, set, width, wrap,
};
use crate::report::chart::{MeritChart, MeritChartRow, MeritKnown};

/// Height of a row, in sizes of labels.
const ROW: f64 = 1.6;
/// The most room for codes and for what stands at the right, parts of all.
const CODES: f64 = 0.34;
const FIGURES: f64 = 0.24;
/// How many times the usual error a line may reach beyond the best before it is cut with an arrow.
const REACH: f64 = 4.0;

/// Where the columns stand.
struct Columns {
    /// Right end of the places.
    places: f64,
    /// Left end of the codes, and their room.
    codes: (f64, f64),
    axis: Scale,
    /// Room of the figures, which end at the margin.
    figures: f64,
}

/// The chart of merit.
pub fn merit(chart: &MeritChart, look: Look) -> Sheet {
    let (mut sheet, top) = begin(&chart.title, look);
    let top = under(&mut sheet, &chart.under, top);
    if chart.rows.is_empty() {
        let bottom = nothing(&mut sheet, top);
        return end(sheet, &chart.notes, bottom);
    }
    let columns = columns(chart, look);
    let from = sheet.marks.len();
    let first = headings(&mut sheet, chart, &columns, top);
    sheet.repeat_from(top, first, from);
    let pitch = look.label * ROW;
    let bottom = first + pitch * chart.rows.len() as f64;
    for (at, row) in chart.rows.iter().enumerate() {
        // A height computed once for the row above and the row below, so that a page ends exactly between them.
        let top_of = |at: usize| first + pitch * at as f64;
        rules(&mut sheet, &columns.axis, (top_of(at), top_of(at + 1)));
        paint(&mut sheet, row, &columns, top_of(at) + pitch * 0.5);
        if at + 1 < chart.rows.len() {
            sheet.may_end(top_of(at + 1));
        }
    }
    sheet.repeat_to(bottom);
    end(sheet, &chart.notes, bottom + look.small * 0.9)
}

fn columns(chart: &MeritChart, look: Look) -> Columns {
    let most = |widths: &mut dyn Iterator<Item = f64>| widths.fold(0.0, f64::max);
    let digits = chart.rows.len().to_string();
    let places = look.margin + width(&digits, Face::Roman, look.small) + 1.0;
    let mut codes = chart
        .rows
        .iter()
        .map(|row| width(&row.plant, Face::Bold, look.label));
    let codes = most(&mut codes).min(look.room() * CODES);
    let mut figures = chart
        .rows
        .iter()
        .map(|row| width(&row.figure, Face::Roman, look.small));
    let least = match chart.figure.is_empty() {
        true => 0.0,
        false => look.small * 5.0,
    };
    let figures = most(&mut figures).max(least).min(look.room() * FIGURES);
    let left = places + look.small * 0.6;
    let paper = (
        left + codes + look.small * 1.2,
        look.right() - figures - look.small * 1.6,
    );
    Columns {
        places,
        codes: (left, codes),
        axis: Scale::linear(values(chart).into_iter(), paper, 5),
        figures,
    }
}

/// All that the axis must show: 0, merits, and errors that are not out of all proportion.
fn values(chart: &MeritChart) -> Vec<f64> {
    let middle = chart.rows.iter().map(|row| row.interval.middle);
    let best = middle.clone().fold(0.0, f64::max);
    let mut errors: Vec<f64> = chart
        .rows
        .iter()
        .filter(|row| !row.is_open)
        .map(|row| row.interval.high - row.interval.middle)
        .collect();
    errors.sort_by(f64::total_cmp);
    let usual = errors.get(errors.len() / 2).copied().unwrap_or(0.0);
    let limit = best + REACH * usual;
    let lows = chart.rows.iter().map(|row| row.interval.low);
    let highs = chart.rows.iter().map(|row| row.interval.high.min(limit));
    [0.0]
        .into_iter()
        .chain(middle)
        .chain(lows)
        .chain(highs)
        .collect()
}

/// What the columns hold and the figures of the axis, which every page repeats; returns where the rows begin.
fn headings(sheet: &mut Sheet, chart: &MeritChart, columns: &Columns, top: f64) -> f64 {
    let look = sheet.look;
    let soft = Setting::soft(look.small);
    let figure = [Word::roman(chart.figure.as_str())];
    let right = wrap(&figure, look.small, columns.figures);
    let step = look.small * 1.25;
    let bottom = top + step * right.len().max(2) as f64;
    for (rank, line) in right.iter().enumerate() {
        let up = (right.len() - 1 - rank) as f64 * step;
        let x = look.right() - line_width(line, look.small);
        set(sheet, line, (x, bottom - up), soft);
    }
    let end = columns.axis.paper().1;
    let name = [Word::roman(chart.heading.as_str())];
    let name = fit(&name, look.small, end - look.margin);
    let x = end - line_width(&name, look.small);
    set(sheet, &name, (x, bottom - step), soft);
    for (tick, label) in columns.axis.labels() {
        let place = (columns.axis.at(tick), bottom);
        say(sheet, &label, place, Stand::Middle, soft);
    }
    bottom + look.small * 0.6
}

/// Upright lines at the figures of the axis, darker at 0, over the height of one row so that a page may end below it.
fn rules(sheet: &mut Sheet, axis: &Scale, (top, bottom): (f64, f64)) {
    for &tick in &axis.ticks {
        let x = axis.at(tick);
        sheet.stroke(Path::line((x, top), (x, bottom)), Stroke::solid(RULE, 0.5));
    }
    let x = axis.at(0.0);
    sheet.stroke(Path::line((x, top), (x, bottom)), Stroke::solid(SOFT, 0.8));
}

fn paint(sheet: &mut Sheet, row: &MeritChartRow, columns: &Columns, y: f64) {
    let look = sheet.look;
    let base = y + look.label * 0.32;
    let soft = Setting::soft(look.small);
    let place = row.place.to_string();
    say(sheet, &place, (columns.places, base), Stand::Before, soft);
    let code = Word {
        text: row.plant.clone(),
        face: match row.may_be_best {
            true => Face::Bold,
            false => Face::Roman,
        },
    };
    let code = fit(&[code], look.label, columns.codes.1);
    let ink = Setting::ink(look.label);
    set(sheet, &code, (columns.codes.0, base), ink);
    error(sheet, row, &columns.axis, y);
    let figure = fit(
        &[Word::roman(row.figure.as_str())],
        look.small,
        columns.figures,
    );
    let x = look.right() - line_width(&figure, look.small);
    set(
        sheet,
        &figure,
        (x, base),
        Setting {
            colour: INK,
            ..soft
        },
    );
}

/// The line of the error with a stroke at each end, an arrow where it goes on, and the mark of the merit.
fn error(sheet: &mut Sheet, row: &MeritChartRow, axis: &Scale, y: f64) {
    let look = sheet.look;
    let of = row.interval;
    if ![of.low, of.middle, of.high]
        .iter()
        .all(|value| value.is_finite())
    {
        return;
    }
    let (edge, half) = (axis.paper().1, look.beside_letters(2.2));
    let pen = Stroke::solid(INK, 1.0);
    let goes_on = row.is_open || axis.at(of.high) > edge + 0.1;
    let (low, high) = (
        axis.at(of.low),
        if goes_on { edge } else { axis.at(of.high) },
    );
    sheet.stroke(Path::line((low, y), (high, y)), pen.clone());
    sheet.stroke(Path::line((low, y - half), (low, y + half)), pen.clone());
    match goes_on {
        true => {
            for up in [-half, half] {
                sheet.stroke(
                    Path::line((high - 1.5 * half, y + up), (high, y)),
                    pen.clone(),
                );
            }
        }
        false => sheet.stroke(Path::line((high, y - half), (high, y + half)), pen),
    }
    mark(sheet, row.known, (axis.at(of.middle), y));
}

fn mark(sheet: &mut Sheet, known: MeritKnown, (x, y): (f64, f64)) {
    let radius = sheet.look.beside_letters(3.0);
    let green = DOT.readable();
    match known {
        MeritKnown::Itself => sheet.fill(Path::circle((x, y), radius), green),
        MeritKnown::Offspring => {
            let side = radius * 1.8;
            sheet.fill(
                Path::rect(x - side / 2.0, y - side / 2.0, side, side),
                green,
            );
        }
        MeritKnown::Mean => {
            sheet.framed(
                Path::circle((x, y), radius),
                PAPER,
                Stroke::solid(green, 1.1),
            );
        }
    }
}
