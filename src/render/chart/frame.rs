//! What every chart shares: title on top, notes below, axes with a thin grid.

use super::look::Look;
use super::scale::Scale;
use super::sheet::Sheet;
use crate::render::pedigree::words;
use crate::render::scene::{
    Colour, Mark, PAPER, Path, RULE, Setting, Stroke, Word, fit, line_width, set, wrap,
};
use crate::text::one_line;
use crate::wording::{Name, NameRun};

/// Dots of siblings.
pub const DOT: Colour = Colour(0x4b, 0x96, 0x69);
/// The plant in question.
pub const FOCUS: Colour = Colour(0x8c, 0x1a, 0x2b);

/// An empty chart with its title; returns where the chart itself begins.
pub fn begin(title: &Name, look: Look) -> (Sheet, f64) {
    let plain: String = title.iter().map(|run| run.text.as_str()).collect();
    let mut sheet = Sheet::new(plain, look);
    let mut y = look.margin;
    for line in wrap(&words(title, false), look.title, look.room()) {
        y += look.title + 0.5;
        set(
            &mut sheet,
            &line,
            (look.margin, y),
            Setting::ink(look.title),
        );
        y += 2.5;
    }
    (sheet, y + 6.0)
}

/// What holds for the whole picture, below its title; returns where the chart begins.
pub fn under(sheet: &mut Sheet, lines: &[String], top: f64) -> f64 {
    if lines.is_empty() {
        return top;
    }
    small(sheet, lines, top - 6.0) + 8.0
}

/// Small lines, each broken where it is too long; returns where they end.
pub fn small(sheet: &mut Sheet, lines: &[String], top: f64) -> f64 {
    let look = sheet.look;
    let mut y = top;
    for line in lines {
        // A sentence is never cut: the weakest link stands at its end.
        let sentence = [Word::roman(one_line(line))];
        for line in wrap(&sentence, look.small, look.room()) {
            y += look.small * 1.3;
            let setting = Setting::soft(look.small);
            set(sheet, &line, (look.margin, y), setting);
        }
        y += 1.5;
        sheet.may_end(y + 1.5);
    }
    y
}

/// The notes below a chart; closes the sheet.
pub fn end(mut sheet: Sheet, notes: &[String], bottom: f64) -> Sheet {
    sheet.may_end(bottom);
    let y = small(&mut sheet, notes, bottom + 4.0);
    sheet.height = y + sheet.look.margin;
    sheet.description = sheet
        .texts()
        .map(|run| run.text.as_str())
        .collect::<Vec<_>>()
        .join(" ");
    sheet
}

/// Where a text stands against the place given for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stand {
    /// It begins there.
    After,
    /// Its middle is there.
    Middle,
    /// It ends there.
    Before,
}

/// A short upright text, cut to the width of the paper.
pub fn say(sheet: &mut Sheet, text: &str, place: (f64, f64), stand: Stand, setting: Setting) {
    let look = sheet.look;
    let name: Name = vec![NameRun {
        text: text.to_string(),
        italic: false,
    }];
    let line = fit(&words(&name, false), setting.size, look.room());
    let wide = line_width(&line, setting.size);
    let x = match stand {
        Stand::After => place.0,
        Stand::Middle => place.0 - wide / 2.0,
        Stand::Before => place.0 - wide,
    };
    set(sheet, &line, (x, place.1), setting);
}

/// The axis across, below the field, with grid lines through it.
pub fn across(sheet: &mut Sheet, scale: &Scale, field: (f64, f64), name: &str) {
    let look = sheet.look;
    let (top, bottom) = field;
    let first = sheet.marks.len();
    for (tick, label) in scale.labels() {
        let x = scale.at(tick);
        sheet.stroke(Path::line((x, top), (x, bottom)), Stroke::solid(RULE, 0.5));
        say(
            sheet,
            &label,
            (x, bottom + look.small * 1.25),
            Stand::Middle,
            Setting::soft(look.small),
        );
    }
    // A page that begins within the field has the numbers above it.
    let tall = look.small * 1.25 + 3.0;
    let numbers = sheet.marks[first..].iter();
    let numbers = numbers
        .filter(|mark| matches!(mark, Mark::Text(_)))
        .cloned();
    let up = top - 3.0 - (bottom + look.small * 1.25);
    let numbers = numbers.map(|mark| mark.moved((0.0, up))).collect();
    sheet.repeat_above(field, tall, numbers);
    if !name.is_empty() {
        let end = scale
            .ticks
            .last()
            .map_or(look.right(), |tick| scale.at(*tick));
        say(
            sheet,
            name,
            (end, bottom + look.small * 2.5),
            Stand::Before,
            Setting::soft(look.small),
        );
    }
}

/// The axis up, left of the field, with grid lines through it; its name stands above.
pub fn up(sheet: &mut Sheet, scale: &Scale, field: (f64, f64), name: &str) {
    let look = sheet.look;
    let (left, right) = field;
    for (tick, label) in scale.labels() {
        let y = scale.at(tick);
        sheet.stroke(Path::line((left, y), (right, y)), Stroke::solid(RULE, 0.5));
        say(
            sheet,
            &label,
            (left - 4.0, y + look.small * 0.3),
            Stand::Before,
            Setting::soft(look.small),
        );
    }
    let top = scale.ticks.last().map_or(0.0, |tick| scale.at(*tick));
    say(
        sheet,
        name,
        (look.margin, top - 8.0),
        Stand::After,
        Setting::soft(look.small),
    );
}

/// A dot, hollow where its reading is doubtful.
pub fn dot(sheet: &mut Sheet, place: (f64, f64), radius: f64, colour: Colour, doubtful: bool) {
    let path = Path::circle(place, radius);
    match doubtful {
        true => sheet.framed(path, PAPER, Stroke::solid(colour, 0.9)),
        false => sheet.fill(path, colour),
    }
}

/// Said in place of a chart without values.
pub fn nothing(sheet: &mut Sheet, top: f64) -> f64 {
    let look = sheet.look;
    let line = [Word::roman("no readings to show")];
    set(
        sheet,
        &line,
        (look.margin, top + 12.0),
        Setting::soft(look.label),
    );
    top + 18.0
}
