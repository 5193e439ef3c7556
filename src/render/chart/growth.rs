//! Who grows: size over age, the plant in question in front, every line named at its end.

use super::ends::{End, name_ends, room_for};
use super::frame::{DOT, FOCUS, across, begin, end, nothing, up};
use super::groups::{group_colour, line_of, mark};
use super::look::Look;
use super::scale::Scale;
use super::sheet::Sheet;
use crate::render::scene::{Colour, Path, Step, Stroke};
use crate::report::chart::{GrowthChart, GrowthCurve, GrowthReading};
use crate::wording::counted;

/// Height of the field.
const TALL: f64 = 230.0;
/// Half the length of the stroke that marks a pot move.
const MOVE: f64 = 6.0;
/// Half the length of the strokes that end a range of ages.
const AGE_END: f64 = 2.4;

/// The two axes.
struct Field {
    x: Scale,
    y: Scale,
    right: f64,
    top: f64,
}

/// The chart of growth.
pub fn growth(chart: &GrowthChart, look: Look) -> Sheet {
    let (mut sheet, top) = begin(&chart.title, look);
    let of_curve = |curve: &'_ GrowthCurve| -> Vec<GrowthReading> {
        let behind = curve.behind.iter().flatten();
        curve.readings.iter().chain(behind).copied().collect()
    };
    let all = || chart.curves.iter().flat_map(of_curve);
    let bands = || chart.curves.iter().flat_map(|curve| &curve.band);
    if all().next().is_none() {
        let bottom = nothing(&mut sheet, top);
        return end(sheet, &chart.notes, bottom);
    }
    let (top, bottom) = (top + 14.0, top + 14.0 + TALL);
    let right =
        look.right() - room_for(chart.curves.iter().map(|curve| curve.label.as_str()), look);
    let fitted = || chart.curves.iter().flat_map(|curve| curve.fitted.iter());
    let ages = all()
        .flat_map(|reading| {
            let (least, most) = reading.between.unwrap_or((reading.age, reading.age));
            [least, most]
        })
        .chain(fitted().map(|point| point.0))
        .chain(bands().map(|band| band.0));
    let sizes = all()
        .map(|reading| reading.size)
        .chain(fitted().map(|point| point.1))
        .chain(bands().flat_map(|band| [band.1, band.2]));
    let y = match chart.logarithmic {
        true => Scale::logarithmic(sizes, (bottom, top)),
        false => Scale::linear(sizes.chain([0.0]), (bottom, top), 6),
    };
    let field = Field {
        x: Scale::linear(ages, (look.margin + look.beside_letters(24.0), right), 7),
        y,
        right,
        top,
    };
    across(&mut sheet, &field.x, (top, bottom), &chart.across);
    up(
        &mut sheet,
        &field.y,
        (look.margin + look.beside_letters(24.0), right),
        &chart.up,
    );
    let mut sorted: Vec<&GrowthCurve> = chart.curves.iter().collect();
    sorted.sort_by_key(|curve| curve.focus);
    for curve in &sorted {
        paint_behind(&mut sheet, curve, &field);
    }
    for curve in &sorted {
        paint(&mut sheet, curve, &field);
    }
    let unnamed = names(&mut sheet, &sorted, &field);
    let unnamed = (unnamed > 0).then(|| {
        let lines = counted(unnamed, "line has", "lines have");
        format!("{lines} no room for a name.")
    });
    let notes: Vec<String> = unnamed.into_iter().chain(chart.notes.clone()).collect();
    end(sheet, &notes, bottom + look.small * 2.7)
}

fn colour(curve: &GrowthCurve) -> Colour {
    match (curve.focus, stands_for_many(curve)) {
        (true, _) => FOCUS,
        (false, true) => group_colour(curve.group),
        (false, false) => DOT.faded(0.75),
    }
}

fn stands_for_many(curve: &GrowthCurve) -> bool {
    !curve.behind.is_empty() || !curve.band.is_empty()
}

/// The plants behind the line of their group, or the band of their middle half.
fn paint_behind(sheet: &mut Sheet, curve: &GrowthCurve, field: &Field) {
    let place = |age: f64, size: f64| {
        let shown = field.x.shows(age) && field.y.shows(size);
        shown.then(|| (field.x.at(age), field.y.at(size)))
    };
    for plant in &curve.behind {
        let sure = plant.iter().filter(|reading| !reading.doubtful);
        let line: Vec<_> = sure.filter_map(|one| place(one.age, one.size)).collect();
        let thin = line_of(curve.group, colour(curve).faded(0.45), 0.6);
        sheet.stroke(Path::polyline(&line), thin);
    }
    let lower = curve.band.iter().filter_map(|band| place(band.0, band.1));
    let upper = curve
        .band
        .iter()
        .rev()
        .filter_map(|band| place(band.0, band.2));
    let border: Vec<(f64, f64)> = lower.chain(upper).collect();
    if border.len() > 3 {
        let mut path = Path::polyline(&border);
        path.0.push(Step::Close);
        let edge = line_of(curve.group, colour(curve).faded(0.6), 0.6);
        sheet.framed(path, colour(curve).faded(0.12), edge);
    }
}

fn paint(sheet: &mut Sheet, curve: &GrowthCurve, field: &Field) {
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
    let strong = curve.focus || stands_for_many(curve);
    let thick = if strong { 1.8 } else { 0.8 };
    let through = if fitted.is_empty() { &sure } else { &fitted };
    let line = line_of(curve.group, colour(curve), thick);
    sheet.stroke(Path::polyline(through), line);
    for reading in curve
        .readings
        .iter()
        .filter(|reading| shown(reading.age, reading.size))
    {
        let radius = if strong { 2.6 } else { 1.5 };
        let at = place(reading.age, reading.size);
        if let Some(ages) = reading.between {
            age_bar(sheet, ages, (field, at.1), colour(curve));
        }
        let kind = (curve.group, radius);
        mark(sheet, at, kind, colour(curve), reading.doubtful);
    }
    if curve.focus {
        mark_pot_moves(sheet, curve, through, field);
    }
}

/// The ages that the dates of a reading allow, ended like an interval.
fn age_bar(sheet: &mut Sheet, ages: (f64, f64), (field, y): (&Field, f64), colour: Colour) {
    let [from, to] = [ages.0, ages.1].map(|age| field.x.at(age));
    let mut stroke = |from, to| sheet.stroke(Path::line(from, to), Stroke::solid(colour, 0.8));
    stroke((from, y), (to, y));
    for x in [from, to] {
        stroke((x, y - AGE_END), (x, y + AGE_END));
    }
}

/// A short stroke across the line wherever the plant was potted on.
fn mark_pot_moves(sheet: &mut Sheet, curve: &GrowthCurve, through: &[(f64, f64)], field: &Field) {
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
        sheet.stroke(Path::line((x, y - MOVE), (x, y + MOVE)), stroke);
    }
}

/// Names at the ends of the lines; returns how many have none.
fn names(sheet: &mut Sheet, curves: &[&GrowthCurve], field: &Field) -> usize {
    let ends = curves.iter().filter_map(|curve| {
        Some(End {
            label: &curve.label,
            place: last(curve, field)?,
            focus: curve.focus,
        })
    });
    let ends: Vec<End> = ends.collect();
    name_ends(sheet, &ends, (field.right, field.top, field.top + TALL))
}

/// Where the line of a curve ends, or the range of ages of its last reading.
fn last(curve: &GrowthCurve, field: &Field) -> Option<(f64, f64)> {
    let sure = curve
        .readings
        .iter()
        .filter(|reading| !reading.doubtful && field.y.shows(reading.size));
    let reading = sure.max_by(|a, b| a.age.total_cmp(&b.age))?;
    let age = reading.between.map_or(reading.age, |(_, most)| most);
    let end = curve.fitted.last().copied().unwrap_or((age, reading.size));
    Some((field.x.at(end.0), field.y.at(end.1)))
}
