//! Does one cross vary more than another: readings of crosses side by side on one axis.
//!
//! Below each row stand the measured middle with its interval (solid) and what the parents' ancestry expects (dotted).

use super::frame::{LABEL, MARGIN, SMALL, WIDTH, across, begin, end, nothing};
use super::heading::heading;
use super::row::{place, values};
use super::scale::Scale;
use crate::render::scene::{Path, RULE, Scene, Stroke};
use crate::report::chart::VariationChart;

/// The chart of the spread of crosses.
pub fn variation(chart: &VariationChart) -> Scene {
    let (mut scene, top) = begin(&chart.title);
    if chart.rows.is_empty() {
        let bottom = nothing(&mut scene, top);
        return end(scene, &chart.notes, bottom);
    }
    let scale = Scale::linear(
        chart.rows.iter().flat_map(values),
        (MARGIN + 8.0, WIDTH - MARGIN - 8.0),
        7,
    );
    let mut y = top;
    let mut lanes = Vec::new();
    for row in &chart.rows {
        let (placed, named) = (place(row, &scale), heading(row, &[]));
        let base = y + LABEL * 1.4;
        y = base + named.tall - LABEL * 1.2 + placed.above + 3.0;
        let middle = y;
        y += placed.below + 6.0;
        lanes.push((placed, named, base, middle, y - 2.0));
    }
    across(&mut scene, &scale, (top, y), &chart.heading);
    for (placed, named, base, middle, bottom) in lanes {
        named.paint(&mut scene, base);
        placed.paint(&mut scene, &scale, middle);
        scene.stroke(
            Path::line((MARGIN, bottom), (WIDTH - MARGIN, bottom)),
            Stroke::solid(RULE, 0.5),
        );
    }
    end(scene, &chart.notes, y + SMALL * 2.6)
}
