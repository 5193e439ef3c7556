//! The marks in a row of the trait grid: steps, measures, the index, and brackets over several rows.

use super::columns::{Axis, Column};
use super::frame::{DOT, Stand, say};
use super::scale::Scale;
use super::sheet::Sheet;
use crate::render::scene::{Colour, INK, Path, RULE, SOFT, Setting, Stroke};
use crate::report::chart::{ChartInterval, GridCell, GridGroup};

/// With what the marks and words of a group are drawn.
#[derive(Clone, Copy, Debug)]
pub struct Pen {
    mark: Colour,
    /// Colour of words.
    pub words: Colour,
}

impl Pen {
    /// Full for those to keep, quieter for the others, pale for those no longer here.
    pub fn of(group: &GridGroup) -> Pen {
        let green = DOT.readable();
        match (group.is_kept, group.is_gone) {
            (true, _) => Pen {
                mark: green,
                words: INK,
            },
            (false, false) => Pen {
                mark: green.faded(0.75),
                words: INK,
            },
            (false, true) => Pen {
                mark: SOFT.faded(0.45),
                words: SOFT,
            },
        }
    }
}

/// A reading in its column.
pub fn cell(
    sheet: &mut Sheet,
    (read, axis): (&GridCell, &Axis),
    (at, middle): (Column, f64),
    pen: Pen,
) {
    match axis {
        Axis::Steps(steps) => dots(sheet, (read.value, *steps), (at, middle), pen),
        Axis::Measure(scale, words) => measure(sheet, (read, *words), (scale, middle), pen),
    }
}

/// As many dots as the scale has steps, filled up to the step read.
fn dots(sheet: &mut Sheet, (value, steps): (f64, usize), (at, middle): (Column, f64), pen: Pen) {
    let look = sheet.look;
    let room = at.width - look.small;
    let pitch = (room / steps.max(1) as f64).min(look.small * 0.95);
    let radius = pitch * 0.36;
    for step in 1..=steps {
        let centre = (at.left + pitch * (step as f64 - 0.5), middle);
        let path = Path::circle(centre, radius);
        if step as f64 <= value + 1e-9 {
            sheet.fill(path, pen.mark);
        } else {
            sheet.stroke(path, Stroke::solid(pen.mark.faded(0.55), 0.6));
        }
    }
}

/// A dot on the line from the least to the most read, and the figure after it.
fn measure(
    sheet: &mut Sheet,
    (read, words): (&GridCell, f64),
    (scale, middle): (&Scale, f64),
    pen: Pen,
) {
    let look = sheet.look;
    let (from, to) = scale.paper();
    sheet.stroke(
        Path::line((from, middle), (to, middle)),
        Stroke::solid(RULE, 0.8),
    );
    if scale.shows(read.value) {
        let centre = (scale.at(read.value), middle);
        sheet.fill(Path::circle(centre, look.beside_letters(2.4)), pen.mark);
    }
    if words > 0.0 {
        let setting = Setting {
            size: look.small,
            colour: pen.words,
        };
        let place = (to + words, middle + look.small * 0.32);
        say(sheet, &read.words, place, Stand::Before, setting);
    }
}

/// The index in words, and a point on its interval; an upright stroke stands at 0, the mean of the siblings.
pub fn index(
    sheet: &mut Sheet,
    (of, words): (&ChartInterval, &str),
    (at, axis, middle): (Column, &Scale, f64),
    pen: Pen,
) {
    let look = sheet.look;
    let place = (
        axis.paper().0 - look.small * 0.5,
        middle + look.small * 0.32,
    );
    let setting = Setting {
        size: look.small,
        colour: pen.words,
    };
    say(
        sheet,
        words,
        (place.0.max(at.left), place.1),
        Stand::Before,
        setting,
    );
    let zero = axis.at(0.0);
    let half = look.label * 0.5;
    sheet.stroke(
        Path::line((zero, middle - half), (zero, middle + half)),
        Stroke::solid(RULE, 0.8),
    );
    if axis.shows(of.low) && axis.shows(of.high) {
        let line = Path::line((axis.at(of.low), middle), (axis.at(of.high), middle));
        sheet.stroke(line, Stroke::solid(pen.words, 0.9));
    }
    if axis.shows(of.middle) {
        sheet.fill(
            Path::circle((axis.at(of.middle), middle), look.beside_letters(2.2)),
            pen.words,
        );
    }
}

/// Brackets over runs of rows, at a place across whose ends turn to one side.
pub fn brackets(
    sheet: &mut Sheet,
    runs: &[(usize, usize)],
    middles: &[f64],
    (x, turn): (f64, f64),
) {
    let look = sheet.look;
    let end = look.small * 0.55 * turn;
    for &(first, last) in runs {
        let Some(rows) = middles.get(first..=last) else {
            continue;
        };
        let ends = rows.first().into_iter().chain(rows.last());
        for &y in ends {
            sheet.stroke(Path::line((x, y), (x + end, y)), Stroke::solid(INK, 0.9));
        }
        // From row to row, so that a page may end between them.
        for two in rows.windows(2) {
            sheet.stroke(
                Path::line((x, two[0]), (x, two[1])),
                Stroke::solid(INK, 0.9),
            );
        }
    }
}
