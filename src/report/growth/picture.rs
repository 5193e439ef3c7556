//! Who grows, ready to be drawn.
//!
//! One group: a line for every plant, the plant in question in front. Several groups: a line for each, through the
//! typical size of the plants that lived to its last sitting. Bare numbers stand hollow where centimetres would put
//! them.

use super::sheet::unitless_words;
use crate::analysis::growth::{GroupGrowth, GroupKind, Grown, GrowthReport, typical};
use crate::record::LengthUnit;
use crate::report::chart::{GrowthChart, GrowthCurve, GrowthReading};
use crate::report::sheet::Report;
use crate::statistics::Scale;
use crate::statistics::curves::Shape;
use crate::wording::{Name, NameRun};
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
            for group in groups {
                let plants = group.grown.iter().zip(&group.each);
                curves.extend(plants.map(|(grown, plant)| GrowthCurve {
                    potted: plant.moved_at.clone(),
                    ..of_plant(&group.id, grown, true)
                }));
            }
        }
        [group] => {
            let plants = group.grown.iter().zip(&group.each);
            curves.extend(plants.map(|(grown, plant)| of_plant(&plant.id, grown, false)));
        }
        groups => curves.extend(groups.iter().map(of_group)),
    }
    add_unitless(report, &mut curves);
    let sizes = || {
        curves
            .iter()
            .flat_map(|c| c.readings.iter().map(|r| r.size))
    };
    let (least, most) = (
        sizes().fold(f64::INFINITY, f64::min),
        sizes().fold(0.0, f64::max),
    );
    let wide = least > 0.0 && most > WIDE * least;
    GrowthChart {
        title: title(report),
        across: "months from sowing".to_owned(),
        up: axis(report, wide),
        logarithmic: wide,
        notes: notes(report),
        curves,
    }
}

fn axis(report: &GrowthReport, logarithmic: bool) -> String {
    let scale = if logarithmic {
        ", each step by a factor"
    } else {
        ""
    };
    match report.unit {
        "" => format!("{}{scale}", report.of_trait),
        unit => format!("{}, {unit}{scale}", report.of_trait),
    }
}

pub(crate) fn asked(report: &GrowthReport) -> String {
    let ids: Vec<&str> = report.groups.iter().map(|g| g.id.as_str()).collect();
    crate::wording::listed(&ids)
}

fn title(report: &GrowthReport) -> Name {
    vec![NameRun {
        text: "Growth of ".to_owned() + &asked(report),
        italic: false,
    }]
}

fn notes(report: &GrowthReport) -> Vec<String> {
    let mut notes = Vec::new();
    if !report.comparisons.is_empty() {
        notes.push(report.sheet().answer);
    }
    let all_plants = report.groups.iter().all(|g| g.kind == GroupKind::Plant);
    if report.groups.len() > 1 && !all_plants {
        notes.push(format!(
            "Each line: {} of the plants read at its last sitting.",
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
    for bare in &report.unitless {
        notes.push(unitless_words(bare));
    }
    notes
}

fn of_plant(label: &str, grown: &Grown, focus: bool) -> GrowthCurve {
    let sure = grown.points.iter().filter_map(|point| {
        Some(GrowthReading {
            age: point.middle_age()?,
            size: point.size,
            doubtful: false,
        })
    });
    GrowthCurve {
        label: label.to_owned(),
        readings: sure.collect(),
        fitted: Vec::new(),
        potted: Vec::new(),
        focus,
    }
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
            })
            .collect(),
        fitted: supported.map_or(Vec::new(), |curve| curve.points.clone()),
        potted: Vec::new(),
        focus: false,
    }
}

/// Puts bare numbers where the probable unit, else centimetres, would have them.
fn add_unitless(report: &GrowthReport, curves: &mut [GrowthCurve]) {
    for bare in &report.unitless {
        let (Some(age), Some(curve)) = (
            bare.age,
            curves.iter_mut().find(|curve| curve.label == bare.id),
        ) else {
            continue;
        };
        let unit = bare.probably.unwrap_or(LengthUnit::Cm);
        let guess = bare.guesses.iter().find(|guess| guess.unit == unit);
        curve.readings.extend(guess.map(|guess| GrowthReading {
            age,
            size: guess.cm * report.cm_shown,
            doubtful: true,
        }));
        curve.readings.sort_by(|a, b| a.age.total_cmp(&b.age));
    }
}
