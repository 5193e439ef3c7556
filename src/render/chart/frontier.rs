//! What a season can gain for the kinship it costs: plans none of which is beaten on both.

use super::frame::{DOT, FOCUS, MARGIN, SMALL, WIDTH, across, begin, dot, end, nothing, up};
use super::scale::Scale;
use crate::render::scene::{
    INK, PAPER, Path, SOFT, Scene, Setting, Stroke, Word, fit, line_width, set,
};
use crate::report::chart::{FrontierChart, FrontierPoint};

/// Height of the field.
const TALL: f64 = 210.0;

/// The chart of gain against kinship.
pub fn frontier(chart: &FrontierChart) -> Scene {
    let (mut scene, top) = begin(&chart.title);
    let mut plans: Vec<&FrontierPoint> = chart
        .plans
        .iter()
        .filter(|plan| plan.kinship.is_finite() && plan.gain.is_finite())
        .collect();
    if plans.is_empty() {
        let bottom = nothing(&mut scene, top);
        return end(scene, &chart.notes, bottom);
    }
    plans.sort_by(|a, b| {
        a.kinship
            .total_cmp(&b.kinship)
            .then(a.gain.total_cmp(&b.gain))
    });
    let (top, bottom) = (top + 14.0, top + 14.0 + TALL);
    let left = MARGIN + 30.0;
    let right = WIDTH - MARGIN - 10.0;
    let x = Scale::linear(plans.iter().map(|plan| plan.kinship), (left, right), 6);
    let y = Scale::linear(plans.iter().map(|plan| plan.gain), (bottom, top), 6);
    across(&mut scene, &x, (top, bottom), &chart.across);
    up(&mut scene, &y, (left, right), &chart.up);
    let places: Vec<(f64, f64)> = plans
        .iter()
        .map(|plan| (x.at(plan.kinship), y.at(plan.gain)))
        .collect();
    scene.stroke(Path::polyline(&places), Stroke::solid(INK, 1.1));
    for (plan, place) in plans.iter().zip(&places) {
        let (radius, colour) = if plan.chosen {
            (4.0, FOCUS)
        } else {
            (2.6, DOT)
        };
        dot(&mut scene, *place, radius, colour, false);
    }
    names(&mut scene, &plans, &places);
    end(scene, &chart.notes, bottom + SMALL * 2.7)
}

/// Names below and right of their plans, where a rising frontier leaves room; one that would cover another moves down.
fn names(scene: &mut Scene, plans: &[&FrontierPoint], places: &[(f64, f64)]) {
    let mut taken: Vec<[f64; 3]> = Vec::new();
    for (plan, place) in plans
        .iter()
        .zip(places)
        .filter(|(plan, _)| !plan.label.is_empty())
    {
        let line = fit(&[Word::roman(plan.label.as_str())], SMALL, WIDTH / 2.0);
        let wide = line_width(&line, SMALL);
        let left = (place.0 + 5.0).min(WIDTH - MARGIN - wide);
        let mut base = place.1 + SMALL * 1.5;
        let covered = |base: f64| {
            let over = |one: &&[f64; 3]| {
                left < one[1] && one[0] < left + wide && (base - one[2]).abs() < SMALL * 1.1
            };
            taken.iter().find(over).copied()
        };
        while let Some(one) = covered(base) {
            base = one[2] + SMALL * 1.15;
        }
        taken.push([left, left + wide, base]);
        scene.fill(
            Path::rect(left - 1.0, base - SMALL * 0.8, wide + 2.0, SMALL * 1.05),
            PAPER,
        );
        let colour = if plan.chosen { FOCUS } else { SOFT };
        set(
            scene,
            &line,
            (left, base),
            Setting {
                size: SMALL,
                colour,
            },
        );
    }
}
