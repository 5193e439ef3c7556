//! Two traits against each other: a dot for each place, the numbers of its plants beside it, and the front.

use super::frame::{DOT, across, begin, end, nothing, under, up};
use super::look::Look;
use super::scale::Scale;
use super::sheet::Sheet;
use crate::render::scene::{Face, INK, PAPER, Path, RULE, Setting, Stroke, Word, set, width};
use crate::report::chart::{ScatterAxis, ScatterChart, ScatterDot};

/// Height of the field as a part of its width.
const TALL: f64 = 0.72;
/// Radius of a dot.
const RADIUS: f64 = 3.0;
/// Numbers of one place written out; of more only how many.
const WRITTEN: usize = 4;

/// The scatter of two traits.
pub fn scatter(chart: &ScatterChart, look: Look) -> Sheet {
    let (mut sheet, top) = begin(&chart.title, look);
    let top = under(&mut sheet, &chart.under, top);
    if chart.dots.is_empty() {
        let bottom = nothing(&mut sheet, top);
        return end(sheet, &chart.notes, bottom);
    }
    let left = look.margin + look.beside_letters(24.0);
    let right = look.right() - look.small;
    let top = top + look.small * 1.8;
    let bottom = top + (right - left) * TALL;
    let values = |of: fn(&ScatterDot) -> f64| chart.dots.iter().map(of);
    let x = axis(&chart.across, values(|dot| dot.at.0), (left, right));
    let y = axis(&chart.up, values(|dot| dot.at.1), (bottom, top));
    across(&mut sheet, &x, (top, bottom), "");
    up(&mut sheet, &y, (left, right), "");
    let soft = Setting::soft(look.small);
    let name = |text: &str, room| {
        let word = [Word::roman(text)];
        crate::render::scene::fit(&word, look.small, room)
    };
    set(
        &mut sheet,
        &name(&chart.up.heading, look.room()),
        (look.margin, top - look.small),
        soft,
    );
    let below = bottom + look.small * 2.6;
    set(
        &mut sheet,
        &name(&chart.across.heading, look.right() - left),
        (left, below),
        soft,
    );
    let front: Vec<(f64, f64)> = chart
        .front
        .iter()
        .map(|at| (x.at(at.0), y.at(at.1)))
        .collect();
    sheet.stroke(
        Path::polyline(&front),
        Stroke::dashed(INK, 0.9, &[3.5, 2.5]),
    );
    dots(&mut sheet, chart, (&x, &y), [left, right, top, bottom]);
    end(sheet, &chart.notes, below + look.small * 0.4)
}

fn axis(of: &ScatterAxis, values: impl Iterator<Item = f64>, paper: (f64, f64)) -> Scale {
    match of.steps {
        Some(steps) => Scale::steps(steps, paper),
        None => Scale::linear(values, paper, 6),
    }
}

/// The dots, then beside each the numbers of its plants where there is room, nearest first.
fn dots(sheet: &mut Sheet, chart: &ScatterChart, (x, y): (&Scale, &Scale), field: [f64; 4]) {
    let look = sheet.look;
    let radius = look.beside_letters(RADIUS);
    let places: Vec<(f64, f64)> = chart
        .dots
        .iter()
        .map(|dot| (x.at(dot.at.0), y.at(dot.at.1)))
        .collect();
    let around = |&(x, y): &(f64, f64)| [x - radius, x + radius, y - radius, y + radius];
    let mut taken: Vec<[f64; 4]> = places.iter().map(around).collect();
    for (dot, &place) in chart.dots.iter().zip(&places) {
        let fill = if dot.is_kept { DOT.readable() } else { PAPER };
        sheet.framed(
            Path::circle(place, radius),
            fill,
            Stroke::solid(DOT.readable(), 1.1),
        );
    }
    // Those that matter are named first.
    let mut order: Vec<usize> = (0..places.len()).collect();
    order.sort_by_key(|&at| (!chart.dots[at].is_kept, !chart.dots[at].is_on_front));
    for at in order {
        let words = numbers(&chart.dots[at]);
        let wide = width(&words, Face::Roman, look.small);
        let Some(left) = free(places[at], (wide, look.small), &taken, field) else {
            continue;
        };
        let base = left.1 + look.small * 0.36;
        taken.push([
            left.0,
            left.0 + wide,
            left.1 - look.small * 0.5,
            left.1 + look.small * 0.5,
        ]);
        let near = (left.0 + wide / 2.0 - places[at].0).abs() < wide / 2.0 + 3.0 * radius;
        if !near {
            sheet.stroke(
                Path::line(places[at], (left.0, left.1)),
                Stroke::solid(RULE, 0.6),
            );
        }
        let setting = Setting::ink(look.small);
        // On paper of its own, so that the grid does not run through it.
        let tall = look.small * 0.9;
        let paper = Path::rect(left.0 - 1.0, left.1 - tall / 2.0, wide + 2.0, tall);
        sheet.fill(paper, PAPER);
        set(sheet, &[Word::roman(words)], (left.0, base), setting);
    }
}

/// `4, 15`; of many the first and how many more.
fn numbers(dot: &ScatterDot) -> String {
    match dot.numbers.len() {
        0..=WRITTEN => dot.numbers.join(", "),
        all => format!("{} and {} more", dot.numbers[0], all - 1),
    }
}

/// Left end and middle height of a text near a place, clear of what is taken and inside the field; `None` where there is no
/// room for it.
fn free(
    (x, y): (f64, f64),
    (wide, tall): (f64, f64),
    taken: &[[f64; 4]],
    field: [f64; 4],
) -> Option<(f64, f64)> {
    let half = tall / 2.0;
    let tries = (1..=6).flat_map(|ring| {
        let away = tall * (0.35 + 0.55 * f64::from(ring));
        [
            (x + away, y),
            (x - away - wide, y),
            (x - wide / 2.0, y - away),
            (x - wide / 2.0, y + away),
            (x + away * 0.7, y - away * 0.7),
            (x + away * 0.7, y + away * 0.7),
            (x - away * 0.7 - wide, y - away * 0.7),
            (x - away * 0.7 - wide, y + away * 0.7),
        ]
    });
    tries.into_iter().find(|&(left, middle)| {
        let mine = [left, left + wide, middle - half, middle + half];
        let inside = mine[0] >= field[0]
            && mine[1] <= field[1]
            && mine[2] >= field[2]
            && mine[3] <= field[3];
        let touches = |of: &[f64; 4]| {
            mine[0] < of[1] + 1.0
                && of[0] < mine[1] + 1.0
                && mine[2] < of[3] + 0.5
                && of[2] < mine[3] + 0.5
        };
        inside && !taken.iter().any(touches)
    })
}
