//! How siblings differ: one strip of dots for each trait, their parents marked on the same axis; bars for kinds.

use super::frame::{LABEL, MARGIN, SMALL, Stand, WIDTH, across, begin, end, nothing, say};
use super::kinds::kinds;
use super::row::{place, values};
use super::scale::Scale;
use crate::render::scene::{Face, INK, Path, SOFT, Scene, Setting, Stroke, width};
use crate::report::chart::{SiblingsChart, TraitStrip};
use crate::report::pedigree::Sex;

/// The chart of siblings.
pub fn siblings(chart: &SiblingsChart) -> Scene {
    let (mut scene, mut y) = begin(&chart.title);
    if chart.strips.is_empty() {
        y = nothing(&mut scene, y);
    }
    for strip in &chart.strips {
        y = paint(&mut scene, strip, y);
    }
    end(scene, &chart.notes, y)
}

/// One trait; returns where it ends.
fn paint(scene: &mut Scene, strip: &TraitStrip, top: f64) -> f64 {
    let mut y = top + LABEL;
    say(
        scene,
        &strip.heading,
        (MARGIN, y),
        Stand::After,
        Setting {
            size: LABEL + 0.5,
            colour: INK,
        },
    );
    if !strip.kinds.is_empty() {
        return kinds(scene, &strip.kinds, y) + 10.0;
    }
    let all = strip
        .rows
        .iter()
        .flat_map(values)
        .chain(strip.parents.iter().map(|parent| parent.value));
    let all: Vec<f64> = all.collect();
    let ticks = ticks(&all);
    let scale = Scale::linear(all.into_iter(), (MARGIN + 8.0, WIDTH - MARGIN - 8.0), ticks);
    y += 5.0 + strip.parents.len() as f64 * SMALL * 1.25;
    let field = y + 2.0;
    let mut lanes = Vec::new();
    for row in &strip.rows {
        let placed = place(row, &scale);
        let heading = if row.label.is_empty() && row.remark.is_empty() {
            0.0
        } else {
            LABEL * 1.3
        };
        y += heading + placed.above + 3.0;
        lanes.push((placed, y, heading));
        y += lanes[lanes.len() - 1].0.below + 3.0;
    }
    across(scene, &scale, (field, y), "");
    parents(scene, strip, &scale, (field, y));
    for (placed, middle, heading) in lanes {
        let base = middle - placed.above - heading * 0.25;
        placed.heading(scene, base);
        placed.paint(scene, &scale, middle);
    }
    y + SMALL * 1.25 + 10.0
}

/// About how many ticks: steps and counts have none between whole numbers.
fn ticks(values: &[f64]) -> usize {
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let most = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let whole = values.iter().all(|value| value.fract() == 0.0);
    if whole && most - least < 7.0 {
        (most - least).max(1.0) as usize
    } else {
        7
    }
}

/// The parents' values: a line through the strip, the sign and code on top.
fn parents(scene: &mut Scene, strip: &TraitStrip, scale: &Scale, field: (f64, f64)) {
    for (rank, parent) in strip
        .parents
        .iter()
        .filter(|parent| scale.shows(parent.value))
        .enumerate()
    {
        let x = scale.at(parent.value);
        let (sign, pen) = match parent.sex {
            Some(Sex::Female) => ("♀ ", Stroke::solid(SOFT, 0.9)),
            Some(Sex::Male) => ("♂ ", Stroke::dashed(SOFT, 0.9, &[3.5, 2.4])),
            None => ("", Stroke::dashed(SOFT, 0.9, &[0.1, 2.4])),
        };
        let text = format!("{sign}{}", parent.label);
        let base = field.0 - 3.0 - (strip.parents.len() - 1 - rank) as f64 * SMALL * 1.25;
        scene.stroke(Path::line((x, base + 1.5), (x, field.1)), pen);
        let wide = width(&text, Face::Roman, SMALL);
        let left = (x - wide / 2.0).clamp(MARGIN, f64::max(WIDTH - MARGIN - wide, MARGIN));
        say(
            scene,
            &text,
            (left, base),
            Stand::After,
            Setting {
                size: SMALL,
                colour: INK,
            },
        );
    }
}
