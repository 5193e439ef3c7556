//! Is a plant read twice in one sitting, by two rows that say the same thing of it?
//!
//! Two rows are right when each is of another kind of pitcher, or when each fills other columns.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::registry::{Column, Reading, SittingHead};
use crate::text::Span;

/// Second rows of a plant in a sitting.
pub(super) fn of_sitting(context: &CheckContext, head: &SittingHead) -> Vec<Finding> {
    if head.row_plants().is_sorted_by(|a, b| a < b) {
        return Vec::new();
    }
    let mut rows: Vec<_> = head.row_plants().zip(0..).collect();
    rows.sort_unstable();
    let of_one_plant = rows.chunk_by(|(a, _), (b, _)| a == b);
    of_one_plant
        .flat_map(|rows| {
            let pairs = rows.windows(2);
            pairs.filter_map(|pair| twice(context, head, pair[0].1, pair[1].1))
        })
        .collect()
}

fn twice(
    context: &CheckContext,
    head: &SittingHead,
    first: usize,
    second: usize,
) -> Option<Finding> {
    let read_before = |reading: &Reading| {
        let is_trait = matches!(column(head, reading), Column::Trait { .. });
        is_trait
            && head
                .row(first)
                .any(|before| before.column == reading.column)
    };
    let again = head.row(second).find(read_before)?;
    if pitcher(context, head, first) != pitcher(context, head, second) {
        return None;
    }
    let before = head
        .row(first)
        .find(|before| before.column == again.column)?;
    let code = context.registry.code(again.plant);
    let finding = Finding::warning(
        Code("read-twice"),
        format!("{code} is read twice in one sitting"),
    )
    .at(place(context, head, &again))
    .found(format!("`{}`, and before it `{}`", context.registry.cell(again), context.registry.cell(before)))
    .needed("one row for each plant, or a column `pitcher` that distinguishes the two")
    .help("is one of them another plant? read its tag again; a second reading on purpose is a sitting of its own");
    Some(finding.related(place(context, head, &before), "read here before"))
}

fn column(head: &SittingHead, reading: &Reading) -> Column {
    let column = head.columns.get(usize::from(reading.column));
    column.copied().unwrap_or(Column::Unknown)
}

/// What a row says of the kind of pitcher.
fn pitcher<'r>(context: &'r CheckContext, head: &SittingHead, row: usize) -> Option<&'r str> {
    let cell = head
        .row(row)
        .find(|reading| column(head, reading) == Column::Pitcher)?;
    Some(context.registry.cell(cell).trim())
}

fn place(context: &CheckContext, head: &SittingHead, reading: &Reading) -> Option<Span> {
    let cell = context.registry.cell(reading);
    let own = context.span(head.file, cell);
    own.or_else(|| context.span(head.file, head.sitting.on))
}
