//! The head of a page: what it is of, the fields to fill in once, and how each column is read.

use super::paper::{POINTS, Paper, Pen};
use crate::analysis::bench_sheet::BenchSheet;
use crate::render::scene::{Face, Word, wrap};

/// Letters of the title, of fields and of what is small, points.
const TITLE: f64 = 13.0;
const FIELD: f64 = 8.5;
const SMALL: f64 = 8.5;
/// From one small line to the next, millimetres.
const LEADING: f64 = 3.7;
/// A field's height to write in.
const FIELD_HEIGHT: f64 = 8.0;

/// Draws the head; it ends above `floor`. What does not fit is cut to a line each, with an ellipsis. Returns where it ends,
/// millimetres from above.
pub(super) fn head(pen: &mut Pen, sheet: &BenchSheet, paper: Paper, floor: f64) -> f64 {
    let (left, room) = (paper.border(), paper.size().0 - 2.0 * paper.border());
    let mut y = left + 4.5;
    let title = match sheet.is_stocktake() {
        true => format!("Stock-take: {}", sheet.subject()),
        false => format!("Measuring: {}", sheet.subject()),
    };
    pen.words(&title, (left, y), (TITLE, Face::Bold), room);
    y += 3.0;
    fields(pen, sheet, (left, y), room);
    y += FIELD_HEIGHT + 3.6;
    for line in legend(sheet, room, ((floor - y) / LEADING).max(0.0) as usize) {
        let (name, rest) = line;
        let end = pen.words(&name, (left, y), (SMALL, Face::Bold), room);
        pen.words(&rest, (end, y), (SMALL, Face::Roman), left + room - end);
        y += LEADING;
    }
    y
}

/// Who, where, light and date, each with a line to write on.
fn fields(pen: &mut Pen, sheet: &BenchSheet, (left, y): (f64, f64), room: f64) {
    let place = sheet.place.clone().unwrap_or_default();
    let blank = String::new;
    let mut fields = vec![("who", blank()), ("where", place), ("date", blank())];
    if !sheet.is_stocktake() {
        fields.insert(2, ("light", blank()));
    }
    let each = room / fields.len() as f64;
    for (at, (field, value)) in fields.into_iter().enumerate() {
        let x = left + each * at as f64;
        let base = y + FIELD_HEIGHT - 1.5;
        let end = pen.words(field, (x, base), (FIELD, Face::Roman), each) + 1.5;
        let stop = x + each - 2.5;
        pen.words(&value, (end, base), (FIELD, Face::Italic), stop - end);
        pen.line((end, base + 1.0), (stop, base + 1.0), 0.4);
    }
}

/// How each column is read, its name apart from the rest: in full while there is room, else one line each.
fn legend(sheet: &BenchSheet, room: f64, most: usize) -> Vec<(String, String)> {
    let mut legend = whole(sheet, room);
    if legend.len() > most {
        legend = sheet
            .columns
            .iter()
            .map(|column| parted(&column.words()))
            .collect();
        legend.extend(remark(sheet));
    }
    legend.truncate(most);
    legend
}

fn whole(sheet: &BenchSheet, room: f64) -> Vec<(String, String)> {
    let mut lines = Vec::new();
    for column in &sheet.columns {
        let (name, rest) = parted(&column.words());
        let words = [
            Word {
                text: name.clone(),
                face: Face::Bold,
            },
            Word::roman(rest),
        ];
        for (at, line) in wrap(&words, SMALL, room * POINTS).into_iter().enumerate() {
            let text: String = line.iter().map(|word| word.text.as_str()).collect();
            lines.push(match text.strip_prefix(&name).filter(|_| at == 0) {
                Some(rest) => (name.clone(), rest.to_owned()),
                None => (String::new(), text),
            });
        }
    }
    lines.extend(remark(sheet));
    lines
}

/// What holds for the whole sheet.
fn remark(sheet: &BenchSheet) -> Option<(String, String)> {
    let words = match sheet.is_stocktake() {
        true => "Tick each plant you see.",
        false => {
            "Small print: the last reading. Leave empty what you did not read; write dead for a plant that died."
        }
    };
    Some((String::new(), words.to_owned()))
}

/// A name with its colon, and what follows.
fn parted(words: &str) -> (String, String) {
    match words.split_once(": ") {
        Some((name, rest)) => (format!("{name}: "), rest.to_owned()),
        None => (words.to_owned(), String::new()),
    }
}
