//! The picture of who is related to whom: a triangle of all pairs, or the closest in words where the plants are too many.

use super::words::probability;
use crate::analysis::kinship::{KinReport, PairRow};
use crate::report::chart::{KinshipCell, KinshipChart};
use crate::report::sheet::Report;
use crate::wording::{counted, upright};

/// Plants whose pairs can be read in a triangle.
const READABLE: usize = 40;
/// Pairs named where they cannot.
const NAMED: usize = 20;

/// The chart of kinship.
pub fn kinship_chart(report: &KinReport) -> KinshipChart {
    let plants = &report.square;
    let is_readable = plants.len() <= READABLE;
    KinshipChart {
        title: upright(report.sheet().answer),
        under: vec![match is_readable {
            true => "Kinship of every two, at least; it is also the inbreeding expected of their seedlings".to_owned(),
            false => format!(
                "{} are too many to read in one picture, which holds {READABLE}; the most closely related are",
                counted(plants.len(), "plant", "plants")
            ),
        }],
        rows: match is_readable {
            true => (0..plants.len()).map(|of| row(report, of)).collect(),
            false => Vec::new(),
        },
        words: match is_readable {
            true => Vec::new(),
            false => closest(report),
        },
        notes: notes(report, is_readable),
        plants: plants.clone(),
    }
}

/// A plant with every one before it and itself.
fn row(report: &KinReport, of: usize) -> Vec<KinshipCell> {
    let cell = |with: usize| match report.pair(with, of) {
        Some(pair) => KinshipCell {
            kinship: Some(pair.kinship),
            is_expected: !pair.is_certain(),
        },
        None => KinshipCell::default(),
    };
    (0..=of).map(cell).collect()
}

fn closest(report: &KinReport) -> Vec<String> {
    let mut apart: Vec<&PairRow> = report
        .pairs
        .iter()
        .filter(|pair| pair.a != pair.b)
        .collect();
    apart.retain(|pair| pair.kinship > 0.0);
    // Stable: equals stay in the order asked for.
    apart.sort_by(|a, b| b.kinship.total_cmp(&a.kinship));
    let line = |pair: &&PairRow| {
        let sure = if pair.is_certain() { "" } else { "expected " };
        format!(
            "{} and {}: {sure}at least {}",
            pair.a,
            pair.b,
            probability(pair.kinship)
        )
    };
    let mut lines: Vec<String> = apart.iter().take(NAMED).map(line).collect();
    if let Some(more @ 1..) = apart.len().checked_sub(NAMED) {
        let more = counted(more, "more pair is", "more pairs are");
        lines.push(format!("{more} related; a .csv file holds all"));
    }
    lines
}

fn notes(report: &KinReport, is_readable: bool) -> Vec<String> {
    let mut notes = Vec::new();
    if is_readable {
        notes.push("The number of a column is that of the plant in the row.".to_owned());
        if report.square.len() > 2 {
            notes.push(
                "Last in each row: the plant with itself, that is ½ or, where it is inbred, more."
                    .to_owned(),
            );
        }
        if report.pairs.iter().any(|pair| pair.kinship == 0.0) {
            notes.push(
                "0: no common ancestor is on record, which does not mean that there is none."
                    .to_owned(),
            );
        }
        if report.pairs.iter().any(|pair| !pair.is_certain()) {
            notes.push(
                "Broken frame: parents are one of several, and the figure is the mean over them."
                    .to_owned(),
            );
        }
    }
    notes.extend(report.cautions.iter().cloned());
    notes.extend(
        report
            .rests_on
            .assumptions()
            .iter()
            .map(|of| of.to_string()),
    );
    notes
}
