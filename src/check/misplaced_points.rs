//! Is a length so far from those of its siblings that a slip of the pen is likelier than such a plant? Is it like theirs
//! once inches are put right?
//!
//! Seedlings of one cross and one sowing, read on one day, are of one age. Rows flagged for pests are left out, as they
//! are left out of figures. What is far is decided by `statistics::outlier`.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::observation::{says_pest, value};
use crate::record::{Length, LengthUnit, Reads, Trait};
use crate::registry::{Column, CrossRow, Reading, SittingHead, SowingRow};
use crate::statistics::outlier::{FEWEST, INCH_FOLD, Outlier, Slip, outliers};
use std::collections::BTreeMap;

/// Cross and sowing.
type Siblings = (Option<CrossRow>, Option<SowingRow>);

/// Lengths of one sitting that are far from those of siblings, or like theirs once inches are put right.
pub(super) fn of_sitting(context: &CheckContext, head: &SittingHead) -> Vec<Finding> {
    let told = |(reading, outlier): (Reading, Outlier)| match outlier.slip {
        Slip::Far => Some(far(context, head, &reading, outlier)),
        Slip::Inches => inches(context, head, &reading, outlier),
    };
    slips(context, head).into_iter().filter_map(told).collect()
}

/// The readings of a sitting that are far from those of siblings, column by column.
pub(super) fn far_off(context: &CheckContext, head: &SittingHead) -> Vec<(Reading, Outlier)> {
    let mut found = slips(context, head);
    found.retain(|(_, outlier)| outlier.slip == Slip::Far);
    found
}

fn slips(context: &CheckContext, head: &SittingHead) -> Vec<(Reading, Outlier)> {
    let mut found = Vec::new();
    for at in 0..head.columns.len() {
        if let Some(declared) = length(context, head, at) {
            let groups = groups(context, head, at, declared);
            found.extend(groups.into_values().flat_map(slips_in));
        }
    }
    found
}

/// The trait of a column, when it is a length.
pub(super) fn length<'r, 't>(
    context: &CheckContext<'r, 't>,
    head: &SittingHead,
    column: usize,
) -> Option<&'r Trait<'t>> {
    let Some(&Column::Trait { index, .. }) = head.columns.get(column) else {
        return None;
    };
    let declared = &context.registry[index];
    matches!(declared.reads, Reads::Length(_)).then_some(declared)
}

/// The lengths of one column in cm, siblings together.
fn groups(
    context: &CheckContext,
    head: &SittingHead,
    column: usize,
    declared: &Trait,
) -> BTreeMap<Siblings, Vec<(Reading, f64)>> {
    let registry = context.registry;
    let Column::Trait { unit, .. } = head.columns[column] else {
        return BTreeMap::new();
    };
    let mut groups: BTreeMap<Siblings, Vec<(Reading, f64)>> = BTreeMap::new();
    for row in 0..head.row_plants().len() {
        let own = head
            .row(row)
            .find(|reading| usize::from(reading.column) == column);
        let Some(reading) = own.filter(|_| !has_pest(context, head, row)) else {
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
fn has_pest(context: &CheckContext, head: &SittingHead, row: usize) -> bool {
    if !head.columns.contains(&Column::Pest) {
        return false;
    }
    let mut cells = head.row(row);
    cells.any(|reading| {
        let is_pest = head.columns.get(usize::from(reading.column)) == Some(&Column::Pest);
        is_pest && says_pest(context.registry.cell(reading))
    })
}

fn slips_in(siblings: Vec<(Reading, f64)>) -> Vec<(Reading, Outlier)> {
    let sizes: Vec<f64> = siblings.iter().map(|(_, cm)| *cm).collect();
    let least = sizes.iter().copied().fold(f64::INFINITY, f64::min);
    let most = sizes.iter().copied().fold(0.0, f64::max);
    if sizes.len() < FEWEST || most < INCH_FOLD * least {
        return Vec::new();
    }
    let far = outliers(&sizes).unwrap_or_default();
    far.into_iter()
        .map(|outlier| (siblings[outlier.place].0, outlier))
        .collect()
}

fn far(context: &CheckContext, head: &SittingHead, reading: &Reading, outlier: Outlier) -> Finding {
    let title = format!(
        "{} reads {:.0} times {} than the median of its siblings",
        context.registry.code(reading.plant),
        outlier.fold(),
        side(&outlier)
    );
    beside_siblings(
        (context, head, reading),
        Finding::warning(Code("far-from-siblings"), title),
        &outlier,
    )
    .help("did the decimal point slip, is it another unit, or another plant? if it is true, leave it as it is")
}

/// Asks whether inches and centimetres were mixed up; not of pitchers, of which one plant has small and large ones.
fn inches(
    context: &CheckContext,
    head: &SittingHead,
    reading: &Reading,
    outlier: Outlier,
) -> Option<Finding> {
    let column = usize::from(reading.column);
    length(context, head, column).filter(|declared| !declared.of_pitcher)?;
    let Column::Trait { unit, .. } = head.columns[column] else {
        return None;
    };
    let own = Length::read(context.registry.cell(reading)).ok();
    let unit = own.and_then(|own| own.unit).or(unit);
    let title = format!(
        "{} reads {:.1} times {} than the median of its siblings: inches or centimetres?",
        context.registry.code(reading.plant),
        outlier.fold(),
        side(&outlier)
    );
    let cm = outlier.converted();
    let asks = match (unit == Some(LengthUnit::In), outlier.is_above()) {
        (false, false) => {
            format!("read as inches it would be {cm:.1} cm: were inches written as centimetres?")
        }
        (true, true) => format!(
            "read as centimetres it would be {cm:.1} cm: were centimetres written as inches?"
        ),
        _ => format!(
            "turned from inches once too often, or not at all? put right it would be {cm:.1} cm"
        ),
    };
    let note = Finding::note(Code("inches-among-siblings"), title);
    let note = beside_siblings((context, head, reading), note, &outlier);
    Some(note.help(asks).help("if it is true, leave it as it is"))
}

fn side(outlier: &Outlier) -> &'static str {
    match outlier.is_above() {
        true => "larger",
        false => "smaller",
    }
}

fn beside_siblings(
    (context, head, reading): (&CheckContext, &SittingHead, &Reading),
    finding: Finding,
    outlier: &Outlier,
) -> Finding {
    let cell = context.registry.cell(reading);
    let own = context.span(head.file, cell);
    finding
        .at(own.or_else(|| context.span(head.file, head.sitting.on)))
        .found(format!("`{cell}`"))
        .needed(format!(
            "a size near {:.1} cm, the median of its {} siblings read that day",
            outlier.typical,
            outlier.n - 1
        ))
}
