//! What stands over the graph: the heading, the key of species and the notes, broken to the width of a page.

use super::label::Label;
use super::plant::squares;
use crate::render::pedigree::{
    Signs, Square, drawn, expected, has_doubt, heading_of, lines_words, signs_words, squares_words,
    words,
};
use crate::render::scene::{INK, SOFT, Word, wrap};
use crate::report::pedigree::PedigreeDrawing;

/// The widest a line of text runs, in points.
const ROOM: f64 = 620.0;
/// Sizes of letters: heading, formula and evidence, notes.
const TITLE: f64 = 18.0;
const BODY: f64 = 12.0;
const SMALL: f64 = 9.5;
const BARE: &str = r#"BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="2""#;
const LEFT: &str = r#" ALIGN="LEFT""#;

/// What it is of, its formula, what it is expected to descend from and how surely that is known; then species by their
/// squares, and notes.
pub fn page(drawing: &PedigreeDrawing, signs: &Signs) -> Label {
    let said = heading_of(drawing);
    let mut rows = broken(&words(&said.title, true), TITLE, INK);
    rows.extend(broken(&words(&said.formula, false), BODY, INK));
    rows.extend(broken(&expected(drawing), BODY, INK));
    rows.extend(broken(&[Word::roman(said.evidence)], BODY, SOFT));
    rows.extend(key(drawing, signs));
    let reading = reading(drawing);
    let notes = drawing.footnotes.iter().map(String::as_str);
    let read = Some(reading.as_str()).filter(|words| !words.is_empty());
    for text in read.into_iter().chain(notes) {
        rows.extend(broken(&[Word::roman(text)], SMALL, SOFT));
    }
    if rows.is_empty() {
        // Graphviz reads no table without a row.
        return Label::default();
    }
    Label::table(rows, BARE)
}

/// How to read lines and squares, each where there are some.
fn reading(drawing: &PedigreeDrawing) -> String {
    let mut said = lines_words(drawing);
    said.extend(has_doubt(drawing).then_some("broken line: in doubt"));
    said.extend(squares_words(drawing));
    said.extend(signs_words(drawing));
    said.join("; ")
}

/// Species by their squares, so many in a row.
fn key(drawing: &PedigreeDrawing, signs: &Signs) -> Option<Label> {
    let species = drawn(drawing);
    let rows: Vec<Label> = species
        .chunks(6)
        .map(|some| {
            Label::row(some.iter().flat_map(|&row| {
                let name = Label::words(&words(&drawing.species[row], false));
                let square = squares(signs, &[Square::Species(row)]);
                [square.cell(""), name.set(SMALL, INK).cell(LEFT)]
            }))
        })
        .collect();
    let table = |rows| Label::row([Label::table(rows, BARE).cell(LEFT)]);
    (!rows.is_empty()).then(|| table(rows))
}

fn broken(text: &[Word], size: f64, colour: crate::render::scene::Colour) -> Vec<Label> {
    let lines = wrap(text, size, ROOM).into_iter();
    let said = lines.filter(|line| line.iter().any(|word| !word.text.is_empty()));
    said.map(|line| Label::row([Label::words(&line).set(size, colour).cell(LEFT)]))
        .collect()
}
