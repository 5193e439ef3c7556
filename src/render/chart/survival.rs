//! Who lives on: steps by Kaplan and Meier, named at their ends, and below the axis how many were followed at each age.

use super::ends::{End, name_ends, room_for};
use super::frame::{DOT, Stand, across, begin, dot, end, nothing, say, up};
use super::groups::line_of;
use super::look::Look;
use super::scale::Scale;
use super::sheet::Sheet;
use crate::analysis::growth::Lived;
use crate::render::scene::{INK, Path, Setting, Stroke, Word, fit, set};
use crate::report::chart::{SurvivalChart, SurvivalCurve};

/// Height of the field.
const TALL: f64 = 190.0;
/// Half the length of the stroke that marks a plant followed no longer.
const LEFT: f64 = 2.6;
/// From one line of counts to the next, in sizes of its letters.
const LINE: f64 = 1.35;

/// The two axes.
struct Field {
    x: Scale,
    y: Scale,
}

/// The chart of survival.
pub fn survival(chart: &SurvivalChart, look: Look) -> Sheet {
    let (mut sheet, top) = begin(&chart.title, look);
    let lives = || chart.curves.iter().flat_map(|curve| &curve.lives);
    if lives().next().is_none() {
        let bottom = nothing(&mut sheet, top);
        return end(sheet, &chart.notes, bottom);
    }
    let (top, bottom) = (top + 14.0, top + 14.0 + TALL);
    let left = look.margin + look.beside_letters(24.0);
    let right =
        look.right() - room_for(chart.curves.iter().map(|curve| curve.label.as_str()), look);
    let ages = lives().map(|life| life.until).chain([0.0]);
    let field = Field {
        x: Scale::linear(ages, (left, right), 7),
        y: Scale::linear([0.0, 100.0].into_iter(), (bottom, top), 5),
    };
    across(&mut sheet, &field.x, (top, bottom), &chart.across);
    up(&mut sheet, &field.y, (left, right), &chart.up);
    let mut ends = Vec::new();
    for (rank, curve) in chart.curves.iter().enumerate() {
        let place = paint(&mut sheet, curve, &field, rank);
        ends.push(End {
            label: &curve.label,
            place,
            focus: false,
        });
    }
    name_ends(&mut sheet, &ends, (right, top, bottom));
    let below = counts(&mut sheet, chart, &field.x, bottom + look.small * 2.5);
    end(sheet, &chart.notes, below)
}

/// The steps of one group, dots where deaths were found, strokes where plants left; returns where the line ends.
fn paint(sheet: &mut Sheet, curve: &SurvivalCurve, field: &Field, rank: usize) -> (f64, f64) {
    limits(sheet, curve, field);
    let line: Vec<(f64, f64)> = corners(curve)
        .into_iter()
        .map(|(age, alive)| (field.x.at(age), field.y.at(alive)))
        .collect();
    sheet.stroke(Path::polyline(&line), line_of(rank, DOT.readable(), 1.4));
    for life in curve.lives.iter().filter(|life| !life.died) {
        let (x, y) = (
            field.x.at(life.until),
            field.y.at(alive_at(curve, life.until)),
        );
        sheet.stroke(
            Path::line((x, y - LEFT), (x, y + LEFT)),
            Stroke::solid(INK, 0.7),
        );
    }
    for step in &curve.steps {
        let place = (field.x.at(step.age), field.y.at(step.alive));
        dot(sheet, place, 2.2, DOT.readable(), false);
    }
    line.last().copied().unwrap_or_default()
}

/// A faint band between the 95 % limits, where they are given.
fn limits(sheet: &mut Sheet, curve: &SurvivalCurve, field: &Field) {
    let until = last_age(curve);
    let ages = curve.steps.iter().skip(1).map(|step| step.age);
    for (step, next) in curve.steps.iter().zip(ages.chain([until])) {
        let Some((low, high)) = step.limits else {
            continue;
        };
        let (x, y) = (field.x.at(step.age), field.y.at(high));
        let size = (field.x.at(next) - x, field.y.at(low) - y);
        sheet.fill(Path::rect(x, y, size.0, size.1), DOT.faded(0.16));
    }
}

/// Age and share alive at every corner of the steps, from the first plant followed to the last.
fn corners(curve: &SurvivalCurve) -> Vec<(f64, f64)> {
    let begins = curve.lives.iter().map(|life| life.from);
    let mut alive = 100.0;
    let mut corners = vec![(
        begins.fold(f64::INFINITY, f64::min).min(last_age(curve)),
        alive,
    )];
    for step in &curve.steps {
        corners.extend([(step.age, alive), (step.age, step.alive)]);
        alive = step.alive;
    }
    corners.push((last_age(curve), alive));
    corners
}

fn last_age(curve: &SurvivalCurve) -> f64 {
    curve
        .lives
        .iter()
        .map(|life| life.until)
        .fold(0.0, f64::max)
}

fn alive_at(curve: &SurvivalCurve, age: f64) -> f64 {
    let before = curve.steps.iter().take_while(|step| step.age <= age);
    before.last().map_or(100.0, |step| step.alive)
}

/// Whether a plant was followed just before an age; at 0, from the beginning.
fn at_risk(life: &Lived, age: f64) -> bool {
    (life.from < age || (age == 0.0 && life.from == 0.0)) && age <= life.until
}

/// How many plants of each group were followed at each tick; returns where the lines end.
fn counts(sheet: &mut Sheet, chart: &SurvivalChart, x: &Scale, top: f64) -> f64 {
    let look = sheet.look;
    let soft = Setting::soft(look.small);
    let mut y = top;
    say(sheet, &chart.counted, (look.margin, y), Stand::After, soft);
    for curve in &chart.curves {
        y += LINE * look.small;
        for (age, _) in x.labels() {
            let followed = curve.lives.iter().filter(|life| at_risk(life, age)).count();
            let small = Setting::ink(look.small);
            let place = (x.at(age), y);
            say(sheet, &followed.to_string(), place, Stand::Middle, small);
        }
        let from = x.ticks.last().map_or(look.margin, |tick| x.at(*tick)) + 10.0;
        let label = fit(
            &[Word::roman(curve.label.as_str())],
            look.small,
            look.right() - from,
        );
        set(sheet, &label, (from, y), soft);
    }
    y + 4.0
}
