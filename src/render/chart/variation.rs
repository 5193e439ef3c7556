//! Does one cross vary more than another: readings of crosses side by side on one axis.
//!
//! Below each row stand the measured middle with its interval (solid) and what the parents' ancestry expects (dotted).

use super::frame::{across, begin, end, nothing};
use super::heading::heading;
use super::look::Look;
use super::row::{place, read, values};
use super::scale::Scale;
use super::sheet::Sheet;
use crate::render::scene::{Path, RULE, Stroke};
use crate::report::chart::VariationChart;

/// The chart of the spread of crosses.
pub fn variation(chart: &VariationChart, look: Look) -> Sheet {
    let (mut sheet, top) = begin(&chart.title, look);
    if chart.rows.is_empty() {
        let bottom = nothing(&mut sheet, top);
        return end(sheet, &chart.notes, bottom);
    }
    let scale = Scale::linear(
        chart.rows.iter().flat_map(values),
        (look.margin + 8.0, look.right() - 8.0),
        7,
    );
    let mut y = top;
    let mut lanes = Vec::new();
    for row in &chart.rows {
        let (placed, named) = (place(row, &scale, look), heading(row, &[], look));
        let base = y + look.label * 1.4;
        y = base + named.tall - look.label * 1.2 + placed.above + 3.0;
        let middle = y;
        y += placed.below + 6.0;
        lanes.push((placed, named, base, middle, y - 2.0));
    }
    // Where nothing can be set side by side there is nothing to read off an axis.
    if chart.rows.iter().any(|row| values(row).next().is_some()) {
        across(&mut sheet, &scale, (top, y), &chart.heading);
    }
    for (placed, named, base, middle, bottom) in lanes {
        named.paint(&mut sheet, base);
        placed.paint(&mut sheet, &scale, middle);
        sheet.stroke(
            Path::line((look.margin, bottom), (look.right(), bottom)),
            Stroke::solid(RULE, 0.5),
        );
        // The numbers of the axis stay with the last row.
        if bottom + 2.0 < y {
            sheet.may_end(bottom + 1.0);
        }
    }
    let mut notes = read(chart.rows.iter());
    notes.extend_from_slice(&chart.notes);
    end(sheet, &notes, y + look.small * 2.6)
}
