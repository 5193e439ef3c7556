//! Who grows: size over age, the plant in question in front, every line named at its end.

use super::ends::{End, name_ends, room_for};
use super::frame::{DOT, FOCUS, MARGIN, SMALL, WIDTH, across, begin, dot, end, nothing, up};
use super::scale::Scale;
use crate::render::scene::{Colour, Path, Scene, Stroke};
use crate::report::chart::{GrowthChart, GrowthCurve};

/// Height of the field.
const TALL: f64 = 230.0;
/// Half the length of the stroke that marks a pot move.
const MOVE: f64 = 6.0;

/// The two axes.
struct Field {
    x: Scale,
    y: Scale,
    right: f64,
    top: f64,
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
    let right = WIDTH - MARGIN - room_for(chart.curves.iter().map(|curve| curve.label.as_str()));
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
        top,
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

/// Names at the ends of the lines.
fn names(scene: &mut Scene, curves: &[&GrowthCurve], field: &Field) {
    let ends = curves.iter().filter_map(|curve| {
        Some(End {
            label: &curve.label,
            place: last(curve, field)?,
            focus: curve.focus,
        })
    });
    let ends: Vec<End> = ends.collect();
    name_ends(scene, &ends, (field.right, field.top, field.top + TALL));
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
