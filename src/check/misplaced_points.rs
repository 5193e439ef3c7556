//! Is a length so far from those of its siblings that a slip of the pen is likelier than such a plant?
//!
//! Seedlings of one cross and one sowing, read on one day, are of one age. Rows flagged for pests are left out, as they
//! are left out of figures. What is far is decided by `statistics::outlier`.

use super::ground::Ground;
use crate::diagnostic::{Code, Finding};
use crate::observation::{says_pest, value};
use crate::record::{Reads, Trait};
use crate::registry::{Column, Reading, SittingHead};
use crate::statistics::outlier::{FEWEST, FOLD, Outlier, outliers};
use std::collections::BTreeMap;

/// Cross and sowing.
type Siblings = (Option<u32>, Option<usize>);

/// Lengths of one sitting that are far from those of siblings.
pub(super) fn of_sitting(ground: &Ground, head: &SittingHead) -> Vec<Finding> {
    far_off(ground, head)
        .into_iter()
        .map(|(reading, outlier)| far(ground, head, &reading, outlier))
        .collect()
}

/// The readings of a sitting that are far from those of siblings, column by column.
pub(super) fn far_off(ground: &Ground, head: &SittingHead) -> Vec<(Reading, Outlier)> {
    let mut found = Vec::new();
    for at in 0..head.columns.len() {
        if let Some(declared) = length(ground, head, at) {
            let groups = groups(ground, head, at, declared);
            found.extend(groups.into_values().flat_map(far_in));
        }
    }
    found
}

/// The trait of a column, when it is a length.
pub(super) fn length<'r, 't>(
    ground: &Ground<'r, 't>,
    head: &SittingHead,
    column: usize,
) -> Option<&'r Trait<'t>> {
    let Some(&Column::Trait { index, .. }) = head.columns.get(column) else {
        return None;
    };
    let declared = &ground.registry.settings.traits[usize::from(index)];
    matches!(declared.reads, Reads::Length(_)).then_some(declared)
}

/// The lengths of one column in cm, siblings together.
fn groups(
    ground: &Ground,
    head: &SittingHead,
    column: usize,
    declared: &Trait,
) -> BTreeMap<Siblings, Vec<(Reading, f64)>> {
    let registry = ground.registry;
    let Column::Trait { unit, .. } = head.columns[column] else {
        return BTreeMap::new();
    };
    let mut groups: BTreeMap<Siblings, Vec<(Reading, f64)>> = BTreeMap::new();
    for row in 0..head.row_plants().len() {
        let own = head
            .row(row)
            .find(|reading| usize::from(reading.column) == column);
        let Some(reading) = own.filter(|_| !has_pest(ground, head, row)) else {
            continue;
        };
        if let Ok(cm) = value(declared, registry.cell(reading), unit)
            && cm > 0.0
        {
            let siblings = (
                registry.cross_of(reading.plant),
                registry.road(reading.plant).0,
            );
            groups.entry(siblings).or_default().push((reading, cm));
        }
    }
    // Founders are no siblings of each other.
    groups.retain(|(cross, _), _| cross.is_some());
    groups
}

/// Whether a row of a sitting is flagged for pests.
fn has_pest(ground: &Ground, head: &SittingHead, row: usize) -> bool {
    if !head.columns.contains(&Column::Pest) {
        return false;
    }
    let mut cells = head.row(row);
    cells.any(|reading| {
        let is_pest = head.columns.get(usize::from(reading.column)) == Some(&Column::Pest);
        is_pest && says_pest(ground.registry.cell(reading))
    })
}

fn far_in(siblings: Vec<(Reading, f64)>) -> Vec<(Reading, Outlier)> {
    let sizes: Vec<f64> = siblings.iter().map(|(_, cm)| *cm).collect();
    let least = sizes.iter().copied().fold(f64::INFINITY, f64::min);
    let most = sizes.iter().copied().fold(0.0, f64::max);
    if sizes.len() < FEWEST || most < FOLD * least {
        return Vec::new();
    }
    let far = outliers(&sizes).unwrap_or_default();
    far.into_iter()
        .map(|outlier| (siblings[outlier.place].0, outlier))
        .collect()
}

fn far(ground: &Ground, head: &SittingHead, reading: &Reading, outlier: Outlier) -> Finding {
    let registry = ground.registry;
    let cell = registry.cell(reading);
    let side = if outlier.is_above() {
        "larger"
    } else {
        "smaller"
    };
    let title = format!(
        "{} reads {:.0} times {side} than the median of its siblings",
        registry.code(reading.plant),
        outlier.fold()
    );
    let own = ground.span(head.file, cell);
    Finding::warning(Code("far-from-siblings"), title)
        .at(own.or_else(|| ground.span(head.file, head.sitting.on)))
        .found(format!("`{cell}`"))
        .needed(format!(
            "a size near {:.1} cm, the median of its {} siblings read that day",
            outlier.typical,
            outlier.n - 1
        ))
        .help("did the decimal point slip, is it another unit, or another plant? if it is true, leave it as it is")
}
