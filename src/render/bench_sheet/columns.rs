//! How wide each column of a sheet is, and whether a scale gets its steps to ring or a box to write in.

use super::paper::{AIR, CODE, Paper, code_width};
use crate::analysis::bench_sheet::{BenchSheet, ReadAs, SheetColumn};
use std::fmt;

/// Least widths, millimetres, for handwriting with cold hands.
const PLANT: f64 = 21.0;
const MEASURE: f64 = 19.0;
const WRITTEN_STEP: f64 = 14.0;
const WRITTEN_KIND: f64 = 18.0;
const STEP: f64 = 5.2;
const REMARKS: f64 = 27.0;
/// Letters of codes below which none is read with wet hands, points.
const LEAST_CODE: f64 = 7.0;
/// Most steps or kinds that are set out to be ringed.
const MOST_RINGED: usize = 7;

/// A column on paper.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed {
    /// Its left edge, mm.
    pub left: f64,
    /// Its width, mm.
    pub width: f64,
    /// Whether its steps are set out to be ringed.
    pub ringed: bool,
}

/// Columns that do not fit beside each other.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TooWide {
    /// How many columns there are.
    pub columns: usize,
    /// How many of them fit.
    pub fitting: usize,
    /// On which paper.
    pub paper: Paper,
}

impl fmt::Display for TooWide {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (name, other) = match self.paper {
            Paper::A4 => ("A4", ""),
            Paper::A5 => ("A5", ", or use --paper a4"),
        };
        write!(
            f,
            "{} columns do not fit on {name} beside each other; {} do\nname fewer with --traits{other}",
            self.columns, self.fitting
        )
    }
}

/// The plant's column, then those of the sheet, then the remarks.
pub(super) fn placed(sheet: &BenchSheet, paper: Paper) -> Result<Vec<Placed>, TooWide> {
    let room = paper.size().0 - 2.0 * paper.border();
    let mut widths: Vec<f64> = sheet.columns.iter().map(written).collect();
    let mut ringed = vec![false; widths.len()];
    let left_over = |widths: &[f64]| room - widths.iter().sum::<f64>() - REMARKS;
    if left_over(&widths) < PLANT {
        let fitting = (0..widths.len()).rfind(|n| left_over(&widths[..*n]) >= PLANT);
        return Err(TooWide {
            columns: widths.len(),
            fitting: fitting.unwrap_or(0),
            paper,
        });
    }
    let mut plant = codes(sheet, LEAST_CODE).min(left_over(&widths));
    for (at, column) in sheet.columns.iter().enumerate() {
        let Some(steps) = steps(column).filter(|steps| *steps <= MOST_RINGED) else {
            continue;
        };
        let wanted = STEP * steps as f64 + 2.0;
        if left_over(&widths) + widths[at] - wanted >= plant {
            (widths[at], ringed[at]) = (wanted, true);
        }
    }
    plant = plant.max(codes(sheet, CODE).min(left_over(&widths)));
    let mut left = paper.border();
    let remarks = left_over(&widths) - plant + REMARKS;
    let all = std::iter::once((plant, false)).chain(widths.into_iter().zip(ringed));
    let all = all.chain([(remarks, false)]).map(|(width, ringed)| {
        left += width;
        Placed {
            left: left - width,
            width,
            ringed,
        }
    });
    Ok(all.collect())
}

/// Room for the longest code in letters of so many points, no less than for a short one.
fn codes(sheet: &BenchSheet, size: f64) -> f64 {
    let wide = sheet.rows.iter().map(|row| code_width(&row.plant, size));
    wide.fold(PLANT - AIR, f64::max) + AIR
}

fn written(column: &SheetColumn) -> f64 {
    match &column.read_as {
        ReadAs::Measure(_) | ReadAs::Words => MEASURE,
        ReadAs::Scale(_) => WRITTEN_STEP,
        ReadAs::Kinds(_) => WRITTEN_KIND,
    }
}

fn steps(column: &SheetColumn) -> Option<usize> {
    match &column.read_as {
        ReadAs::Scale(anchors) => Some(anchors.len()),
        ReadAs::Kinds(kinds) => Some(kinds.len()),
        _ => None,
    }
}
