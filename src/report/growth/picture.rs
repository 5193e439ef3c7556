//! Who grows, ready to be drawn.
//!
//! One group: a line for every plant, the plant in question in front. Several groups: a line for each, through the
//! typical size of the plants that lived to its last sitting. Bare numbers stand hollow where centimetres would put
//! them.

use super::sheet::unitless_words;
use crate::analysis::growth::{GroupGrowth, GroupKind, Grown, GrowthReport, middle_half, typical};
use crate::observation::moment::is_within_a_month;
use crate::record::LengthUnit;
use crate::report::caution::Weight;
use crate::report::chart::{GrowthChart, GrowthCurve, GrowthReading};
use crate::report::sheet::{Report, Sheet};
use crate::statistics::Scale;
use crate::statistics::curves::Shape;
use crate::wording::with_its_unit;
use std::collections::BTreeMap;

/// Factor between the largest and the smallest size from which sizes are drawn on a log scale.
const WIDE: f64 = 20.0;

/// The chart of an answer.
pub fn growth_chart(report: &GrowthReport) -> GrowthChart {
    let plants_only = report.groups.iter().all(|g| g.kind == GroupKind::Plant);
    let mut curves: Vec<GrowthCurve> = Vec::new();
    match &report.groups[..] {
        groups if plants_only => {
            let asked = |label: &String| groups.iter().any(|group| group.id == *label);
            let siblings = groups.iter().flat_map(|group| &group.siblings);
            let siblings: BTreeMap<&String, &Grown> =
                siblings.map(|(label, grown)| (label, grown)).collect();
            let behind = siblings.iter().filter(|(label, _)| !asked(label));
            curves.extend(behind.map(|(label, grown)| of_plant(label, grown, false)));
            for (rank, group) in groups.iter().enumerate() {
                let plants = group.grown.iter().zip(&group.each);
                curves.extend(plants.map(|(grown, plant)| GrowthCurve {
                    group: rank,
                    potted: plant.moved_at.clone(),
                    ..of_plant(&group.id, grown, true)
                }));
            }
        }
        [group] => {
            let plants = group.grown.iter().zip(&group.each);
            curves.extend(plants.map(|(grown, plant)| of_plant(&plant.id, grown, false)));
        }
        groups => curves.extend(of_groups(groups)),
    }
    let hollow = add_unitless(report, &mut curves);
    let sizes = || {
        let drawn = curves
            .iter()
            .flat_map(|c| c.readings.iter().chain(c.behind.iter().flatten()));
        drawn.map(|reading| reading.size)
    };
    let (least, most) = (
        sizes().fold(f64::INFINITY, f64::min),
        sizes().fold(0.0, f64::max),
    );
    let wide = least > 0.0 && most > WIDE * least;
    let sheet = report.sheet();
    GrowthChart {
        notes: notes(report, &sheet, (&curves, &hollow)),
        title: crate::wording::upright(sheet.answer),
        across: "months from sowing".to_owned(),
        up: axis(report, wide),
        logarithmic: wide,
        curves,
    }
}

fn axis(report: &GrowthReport, logarithmic: bool) -> String {
    let scale = match logarithmic {
        true => ", each step by a factor",
        false => "",
    };
    format!("{}{scale}", with_its_unit(&report.of_trait, report.unit))
}

/// What belongs beside the picture; `hollow` says for each bare number whether it is drawn.
fn notes(
    report: &GrowthReport,
    sheet: &Sheet,
    (curves, hollow): (&[GrowthCurve], &[bool]),
) -> Vec<String> {
    let mut notes = Vec::new();
    let mut readings = curves.iter().flat_map(|curve| &curve.readings);
    if readings.any(|reading| reading.between.is_some()) {
        notes.push("A bar through a mark: the ages that its dates allow.".to_owned());
    }
    let without_age = report.groups.iter().filter(|group| has_no_age(group));
    notes.extend(without_age.map(|group| {
        format!(
            "{}: not drawn, since the ages of its readings are not known.",
            group.id
        )
    }));
    let all_plants = report.groups.iter().all(|g| g.kind == GroupKind::Plant);
    if report.groups.len() > 1 && !all_plants {
        let behind = match are_many(&report.groups) {
            true => "the band: the middle half of the plants of each age",
            false => "thin lines: its plants",
        };
        notes.push(format!(
            "Strong line: {} of the plants read at its last sitting; {behind}.",
            match report.scale {
                Scale::Log => "typical size (geometric mean)",
                Scale::Plain => "mean",
            }
        ));
    }
    let potted = |group: &GroupGrowth| group.each.iter().any(|plant| !plant.moved_at.is_empty());
    if all_plants && report.groups.iter().any(potted) {
        notes.push("A short stroke across the line: potted on.".to_owned());
    }
    for (bare, is_drawn) in report.unitless.iter().zip(hollow) {
        let drawn = if *is_drawn { " and drawn hollow" } else { "" };
        notes.push(format!("{}{drawn}", unitless_words(bare)));
    }
    // A picture goes about by itself, so what makes its title less sure stands in it.
    notes.extend(cautions(sheet, Weight::Answer));
    notes
}

/// Whether it was read, but never at an age.
fn has_no_age(group: &GroupGrowth) -> bool {
    let mut points = group.grown.iter().flat_map(|grown| &grown.points);
    !group.grown.is_empty() && points.all(|point| point.age.is_none())
}

/// The cautions of the answer as weighty as this one, in words for a picture.
pub(super) fn cautions(sheet: &Sheet, least: Weight) -> impl Iterator<Item = String> {
    let weighty = sheet.cautions.iter().filter(move |of| of.weight <= least);
    weighty.map(|caution| caution.text.clone())
}

fn of_plant(label: &str, grown: &Grown, focus: bool) -> GrowthCurve {
    let sure = grown.points.iter().filter_map(|point| {
        Some(GrowthReading {
            age: point.middle_age()?,
            size: point.size,
            doubtful: false,
            between: point
                .age
                .filter(|(least, most)| !is_within_a_month(most - least)),
        })
    });
    GrowthCurve {
        label: label.to_owned(),
        readings: sure.collect(),
        focus,
        ..GrowthCurve::default()
    }
}

/// Plants in all up to which each has a line of its own behind that of its group.
const LINES: usize = 80;

fn are_many(groups: &[GroupGrowth]) -> bool {
    groups.iter().map(|group| group.grown.len()).sum::<usize>() > LINES
}

/// A strong line for each group, its plants behind it.
fn of_groups(groups: &[GroupGrowth]) -> Vec<GrowthCurve> {
    let many = are_many(groups);
    let curve = |(rank, group): (usize, &GroupGrowth)| {
        let mut curve = GrowthCurve {
            group: rank,
            ..of_group(group)
        };
        if many {
            let band = middle_half(&group.grown).into_iter();
            curve.band = band.map(|of| (of.age, of.low, of.high)).collect();
        } else {
            let each = group.grown.iter();
            curve.behind = each
                .map(|grown| of_plant("", grown, false).readings)
                .collect();
        }
        curve
    };
    groups.iter().enumerate().map(curve).collect()
}

fn of_group(group: &GroupGrowth) -> GrowthCurve {
    let readings = typical(&group.grown).into_iter();
    let supported = group
        .curves
        .first()
        .filter(|curve| curve.identified && curve.shape != Shape::Exponential);
    GrowthCurve {
        label: group.id.clone(),
        readings: readings
            .map(|reading| GrowthReading {
                age: reading.age,
                size: reading.size,
                doubtful: false,
                between: reading.between,
            })
            .collect(),
        fitted: supported.map_or(Vec::new(), |curve| curve.points.clone()),
        ..GrowthCurve::default()
    }
}

/// Puts bare numbers where the probable unit, else centimetres, would have them; says of each whether it is drawn, since a
/// group's one line has no place for that of a plant.
fn add_unitless(report: &GrowthReport, curves: &mut [GrowthCurve]) -> Vec<bool> {
    let bare = report.unitless.iter();
    bare.map(|bare| {
        let unit = bare.probably.unwrap_or(LengthUnit::Cm);
        let guess = bare.guesses.iter().find(|guess| guess.unit == unit);
        let curve = curves.iter_mut().find(|curve| curve.label == bare.id);
        let (Some(age), Some(guess), Some(curve)) = (bare.age, guess, curve) else {
            return false;
        };
        curve.readings.push(GrowthReading {
            age,
            size: guess.cm * report.cm_shown,
            doubtful: true,
            between: None,
        });
        curve.readings.sort_by(|a, b| a.age.total_cmp(&b.age));
        true
    })
    .collect()
}
