//! What a season can gain for the kinship it costs: plans none of which is beaten on both.

use super::apart::apart;
use super::frame::{
    DOT, FOCUS, MARGIN, SMALL, Stand, WIDTH, across, begin, dot, end, nothing, say, up,
};
use super::scale::Scale;
use crate::render::scene::{Face, INK, Path, RULE, SOFT, Scene, Setting, Stroke, width};
use crate::report::chart::{FrontierChart, FrontierPlan};

/// Height of the field.
const TALL: f64 = 210.0;

/// The chart of gain against kinship.
pub fn frontier(chart: &FrontierChart) -> Scene {
    let (mut scene, top) = begin(&chart.title);
    let mut plans: Vec<&FrontierPlan> = chart
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
    let wide = plans
        .iter()
        .map(|plan| width(&plan.label, Face::Roman, SMALL))
        .fold(0.0, f64::max)
        .min(120.0);
    let right = WIDTH - MARGIN - wide - 8.0;
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
    names(&mut scene, &plans, &places, right + 6.0);
    end(scene, &chart.notes, bottom + SMALL * 2.7)
}

/// Names in a column at the right, each led to its plan.
fn names(scene: &mut Scene, plans: &[&FrontierPlan], places: &[(f64, f64)], column: f64) {
    let named: Vec<usize> = (0..plans.len())
        .filter(|&row| !plans[row].label.is_empty())
        .collect();
    let wishes: Vec<f64> = named.iter().map(|&row| places[row].1).collect();
    for (&row, y) in named.iter().zip(apart(&wishes, SMALL * 1.2)) {
        let from = (places[row].0 + 5.0, places[row].1);
        scene.stroke(
            Path::line(from, (column - 2.0, y)),
            Stroke::solid(RULE, 0.6),
        );
        let colour = if plans[row].chosen { FOCUS } else { SOFT };
        say(
            scene,
            &plans[row].label,
            (column, y + SMALL * 0.3),
            Stand::After,
            Setting {
                size: SMALL,
                colour,
            },
        );
    }
}
