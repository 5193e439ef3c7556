//! What several plants descend from: one ribbon each, species labelled where they stand.

use super::frame::{LABEL, MARGIN, SMALL, WIDTH, begin, end, nothing};
use crate::render::pedigree::{Ribbon, is_share, words};
use crate::render::scene::{INK, Scene, Setting, set, wrap};
use crate::report::chart::ParentageChart;

/// Height of a ribbon.
const RIBBON: f64 = 11.0;

/// The chart of species shares.
pub fn parentage(chart: &ParentageChart) -> Scene {
    let (mut scene, mut y) = begin(&chart.title);
    if chart.rows.is_empty() {
        y = nothing(&mut scene, y);
    }
    let room = WIDTH - 2.0 * MARGIN;
    for row in &chart.rows {
        for line in wrap(&words(&row.label, false), LABEL, room) {
            y += LABEL * 1.15;
            let setting = Setting {
                size: LABEL,
                colour: INK,
            };
            set(&mut scene, &line, (MARGIN, y), setting);
        }
        y += 3.5;
        let ribbon = Ribbon {
            corner: (MARGIN, y),
            size: (room, RIBBON),
            letters: SMALL,
        };
        ribbon.paint(&mut scene, &chart.species, &row.shares);
        let unknown = [(row.unknown_share, "unknown")];
        let open = if is_share(row.unknown_share) {
            &unknown[..]
        } else {
            &[]
        };
        ribbon.label(&mut scene, &chart.species, (&row.shares, open));
        y += RIBBON + SMALL * 1.3 + 7.0;
    }
    end(scene, &chart.notes, y)
}
