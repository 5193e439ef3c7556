//! How siblings differ: one strip of dots for each trait, their parents marked on the same axis; bars for kinds.

use super::frame::{LABEL, MARGIN, SMALL, WIDTH, across, begin, end, nothing};
use super::heading::heading;
use super::kinds::kinds;
use super::parents;
use super::row::{place, values};
use super::scale::Scale;
use crate::render::scene::{INK, Scene, Setting, Word, set, wrap};
use crate::report::chart::{SiblingsChart, TraitStrip};

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
    let y = titled(scene, &strip.heading, top);
    if !strip.kinds.is_empty() {
        return kinds(scene, &strip.kinds, y) + 10.0;
    }
    let parents = strip.parents.iter().map(|parent| parent.value);
    // A scale is shown whole: a step nobody has is an answer too.
    let ends = strip.steps.map(|steps| [1.0, steps as f64]);
    let ends = ends.into_iter().flatten();
    let read = strip.rows.iter().flat_map(values).chain(parents);
    let all: Vec<f64> = read.chain(ends).collect();
    let ticks = ticks(&all);
    let scale = Scale::linear(all.into_iter(), (MARGIN + 8.0, WIDTH - MARGIN - 8.0), ticks);
    let parents = parents::shown(&strip.parents, &scale);
    let lines: Vec<f64> = parents.iter().map(|(_, x)| *x).collect();
    let field = y + 7.0 + parents.len() as f64 * parents::STEP;
    let mut y = field - 2.0;
    let (mut lanes, mut texts) = (Vec::new(), Vec::new());
    for row in &strip.rows {
        let (placed, named) = (place(row, &scale), heading(row, &lines));
        let base = y + LABEL * 1.1;
        y += named.tall + placed.above + 3.0;
        texts.extend(named.boxes(base));
        texts.extend(placed.boxes(y));
        lanes.push((placed, named, base, y));
        y += lanes[lanes.len() - 1].0.below + 3.0;
    }
    across(scene, &scale, (field, y), "");
    parents::paint(scene, &parents, (field, y), &texts);
    for (placed, named, base, middle) in lanes {
        named.paint(scene, base);
        placed.paint(scene, &scale, middle);
    }
    y + SMALL * 1.25 + 10.0
}

/// The trait's heading, on as many lines as it needs; returns the last baseline.
fn titled(scene: &mut Scene, heading: &str, top: f64) -> f64 {
    let size = LABEL + 0.5;
    let mut y = top + LABEL - size * 1.25;
    for line in wrap(&[Word::roman(heading)], size, WIDTH - 2.0 * MARGIN) {
        y += size * 1.25;
        set(scene, &line, (MARGIN, y), Setting { size, colour: INK });
    }
    y
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
