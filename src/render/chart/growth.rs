//! Who grows: size over age, the plant in question in front, every line named at its end.

use super::apart::apart;
use super::frame::{DOT, FOCUS, MARGIN, SMALL, WIDTH, across, begin, dot, end, nothing, up};
use super::scale::Scale;
use crate::render::scene::{
    Colour, Face, Path, RULE, SOFT, Scene, Setting, Stroke, Word, fit, set, width,
};
use crate::report::chart::{GrowthChart, GrowthCurve};

/// Height of the field.
const TALL: f64 = 230.0;
/// Most room for names at the ends of lines.
const NAMES: f64 = 96.0;

/// Half the length of the stroke that marks a pot move.
const MOVE: f64 = 6.0;

/// The two axes.
struct Field {
    x: Scale,
    y: Scale,
    right: f64,
}

/// The chart of growth.
pub fn growth(chart: &GrowthChart) -> Scene {
    let (mut scene, top) = begin(&chart.title);
    let all = || chart.curves.iter().flat_map(|curve| curve.readings.iter());
    if all().next().is_none() {
        let bottom = nothing(&mut scene, top);
        return end(scene, &chart.notes, bottom);
    }
    let (top, bottom) = (top + 14.0, top + 14.0 + TALL);
    let right = WIDTH - MARGIN - names_width(chart);
    let fitted = || chart.curves.iter().flat_map(|curve| curve.fitted.iter());
    let ages = all()
        .map(|reading| reading.age)
        .chain(fitted().map(|point| point.0));
    let sizes = all()
        .map(|reading| reading.size)
        .chain(fitted().map(|point| point.1));
    let y = match chart.logarithmic {
        true => Scale::logarithmic(sizes, (bottom, top)),
        false => Scale::linear(sizes.chain([0.0]), (bottom, top), 6),
    };
    let field = Field {
        x: Scale::linear(ages, (MARGIN + 24.0, right), 7),
        y,
        right,
    };
    across(&mut scene, &field.x, (top, bottom), &chart.across);
    up(&mut scene, &field.y, (MARGIN + 24.0, right), &chart.up);
    let mut sorted: Vec<&GrowthCurve> = chart.curves.iter().collect();
    sorted.sort_by_key(|curve| curve.focus);
    for curve in &sorted {
        paint(&mut scene, curve, &field);
    }
    names(&mut scene, &sorted, &field);
    end(scene, &chart.notes, bottom + SMALL * 2.7)
}

fn names_width(chart: &GrowthChart) -> f64 {
    let wide = chart
        .curves
        .iter()
        .map(|curve| width(&curve.label, Face::Roman, SMALL))
        .fold(0.0, f64::max);
    (wide + 14.0).min(NAMES)
}

fn colour(curve: &GrowthCurve) -> Colour {
    if curve.focus { FOCUS } else { DOT.faded(0.75) }
}

fn paint(scene: &mut Scene, curve: &GrowthCurve, field: &Field) {
    let shown = |age: f64, size: f64| field.x.shows(age) && field.y.shows(size);
    let place = |age: f64, size: f64| (field.x.at(age), field.y.at(size));
    let sure: Vec<(f64, f64)> = curve
        .readings
        .iter()
        .filter(|reading| !reading.doubtful && shown(reading.age, reading.size))
        .map(|reading| place(reading.age, reading.size))
        .collect();
    let fitted: Vec<(f64, f64)> = curve
        .fitted
        .iter()
        .filter(|point| shown(point.0, point.1))
        .map(|point| place(point.0, point.1))
        .collect();
    let thick = if curve.focus { 1.8 } else { 0.8 };
    let through = if fitted.is_empty() { &sure } else { &fitted };
    scene.stroke(Path::polyline(through), Stroke::solid(colour(curve), thick));
    for reading in curve
        .readings
        .iter()
        .filter(|reading| shown(reading.age, reading.size))
    {
        let radius = if curve.focus { 2.6 } else { 1.5 };
        dot(
            scene,
            place(reading.age, reading.size),
            radius,
            colour(curve),
            reading.doubtful,
        );
    }
    if curve.focus {
        mark_pot_moves(scene, curve, through, field);
    }
}

/// A short stroke across the line wherever the plant was potted on.
fn mark_pot_moves(scene: &mut Scene, curve: &GrowthCurve, through: &[(f64, f64)], field: &Field) {
    for &age in curve.potted.iter().filter(|age| age.is_finite()) {
        let x = field.x.at(age);
        let Some(pair) = through
            .windows(2)
            .find(|pair| pair[0].0 <= x && x <= pair[1].0 && pair[0].0 < pair[1].0)
        else {
            continue;
        };
        let part = (x - pair[0].0) / (pair[1].0 - pair[0].0);
        let y = pair[0].1 + part * (pair[1].1 - pair[0].1);
        let stroke = Stroke::solid(colour(curve), 0.9);
        scene.stroke(Path::line((x, y - MOVE), (x, y + MOVE)), stroke);
    }
}

/// Names at the ends of lines, kept apart; where there are too many only the plants in question are named.
fn names(scene: &mut Scene, curves: &[&GrowthCurve], field: &Field) {
    let ends: Vec<(&GrowthCurve, (f64, f64))> = curves
        .iter()
        .filter_map(|curve| last(curve, field).map(|place| (*curve, place)))
        .collect();
    let room = SMALL * 1.15;
    let crowded = ends.len() as f64 * room > TALL;
    let named: Vec<&(&GrowthCurve, (f64, f64))> = ends
        .iter()
        .filter(|(curve, _)| curve.focus || !crowded)
        .collect();
    let wishes: Vec<f64> = named.iter().map(|(_, place)| place.1).collect();
    for ((curve, place), y) in named.iter().zip(apart(&wishes, room)) {
        let x = field.right + 10.0;
        scene.stroke(
            Path::line((place.0 + 3.0, place.1), (x - 2.0, y)),
            Stroke::solid(RULE, 0.6),
        );
        let colour = if curve.focus { FOCUS } else { SOFT };
        let label = fit(&[Word::roman(curve.label.as_str())], SMALL, NAMES - 12.0);
        set(
            scene,
            &label,
            (x, y + SMALL * 0.3),
            Setting {
                size: SMALL,
                colour,
            },
        );
    }
}

/// Where the line of a curve ends.
fn last(curve: &GrowthCurve, field: &Field) -> Option<(f64, f64)> {
    let sure = curve
        .readings
        .iter()
        .filter(|reading| !reading.doubtful && field.y.shows(reading.size));
    let reading = sure.max_by(|a, b| a.age.total_cmp(&b.age))?;
    let end = curve
        .fitted
        .last()
        .copied()
        .unwrap_or((reading.age, reading.size));
    Some((field.x.at(end.0), field.y.at(end.1)))
}
