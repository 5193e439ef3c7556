//! The sheet that `podbook export plants` writes, known by its headings when it is read again.

use super::answer::{ColumnTaken, ImportTable, ReadOn};
use super::facts::RowFacts;
use super::looks::{plain, seen};
use crate::observation::asked_columns::headed_column;
use crate::record::{Holds, Length};
use crate::registry::ids::{is_seedling_number, splits};
use crate::registry::{Column, Registry};
use crate::text::GridRow;

/// Headings that every such sheet has, with what they hold; those that podbook works out are not read.
const HEADINGS: [(&str, Holds); 15] = [
    ("plant", Holds::Code),
    ("name", Holds::NotRead),
    ("evidence", Holds::NotRead),
    ("sex", Holds::Sex),
    ("status", Holds::Status),
    (KEPT, Holds::NotRead),
    ("place", Holds::Place),
    ("pot", Holds::Pot),
    ("sown", Holds::NotRead),
    ("arrived", Holds::Acquired),
    ("received as", Holds::Label),
    ("from", Holds::Supplier),
    ("supplier's code", Holds::SupplierCode),
    ("nickname", Holds::NotRead),
    ("note", Holds::Note),
];
/// Headings that only later sheets have. The price of the record is what was asked for a plant that left.
const LATER: [(&str, Holds); 1] = [("went to", Holds::To)];
/// Heading of the column that says whether a plant is marked to keep.
pub const KEPT: &str = "kept";
/// Heading of the column that says what was asked for a plant when it went.
pub const PRICE: &str = "price";
/// Heading of the column with the words on its tag when it went.
pub const LEFT_LABEL: &str = "tag it left with";
/// What stands behind the name of a trait over the cells as they were written.
pub(super) const AS_WRITTEN: &str = ", as written";
/// And over the days of the readings.
pub(super) const READ_ON: &str = ", read on";

/// Whether columns are those of such a sheet.
pub(super) fn is_own(columns: &[ColumnTaken]) -> bool {
    let has = |words: &str| columns.iter().any(|of| of.heading == words);
    HEADINGS.iter().all(|(words, _)| has(words))
}

/// Takes the columns for what the sheet has in them: of the three of a trait the cell as it was written, with its day.
pub(super) fn take(columns: &mut [ColumnTaken], registry: &Registry) {
    let days: Vec<(String, usize)> = columns
        .iter()
        .filter_map(|of| Some((of.heading.strip_suffix(READ_ON)?.to_owned(), of.at)))
        .collect();
    for column in columns {
        let mut known = HEADINGS.iter().chain(&LATER);
        let own = known.find(|(words, _)| *words == column.heading);
        column.holds = own.map_or(Holds::NotRead, |(_, holds)| *holds);
        (column.of_trait, column.unit, column.read_on) = (None, None, None);
        let Some(name) = column.heading.strip_suffix(AS_WRITTEN) else {
            continue;
        };
        let asked = headed_column(registry, name).map(|asked| asked.column);
        if let Some(Column::Trait { index, .. }) = asked {
            column.holds = Holds::Reading;
            column.of_trait = Some(index);
            let day = days.iter().find(|(of, _)| of == name);
            column.read_on = day.map(|(_, at)| ReadOn::Column(*at));
        }
    }
}

/// The cell of a length that was written without its unit, with the unit: the column of its value before it has both.
pub(super) fn with_unit(
    table: &ImportTable,
    column: &ColumnTaken,
    row: &GridRow,
) -> Option<String> {
    let name = column.heading.strip_suffix(AS_WRITTEN)?;
    let cell = row.cells.get(column.at)?.trim();
    Length::read(cell)
        .ok()
        .filter(|length| length.unit.is_none())?;
    let beside = table.columns.iter().find(|of| of.at + 1 == column.at)?;
    let unit = beside.heading.strip_prefix(name)?.strip_prefix(", ")?;
    let value = row.cells.get(beside.at)?.trim();
    (!value.is_empty()).then(|| format!("{value} {unit}"))
}

/// A plant without a name that it came under is a seedling: the sheet has its cross in its code.
pub(super) fn seedling(facts: &mut RowFacts) {
    let is_numbered = |(_, number): &(&str, &str)| is_seedling_number(number);
    let code = facts.code.as_deref().filter(|_| facts.label.is_none());
    let cross = code.and_then(|code| splits(code).find(is_numbered));
    if let Some((cross, _)) = cross {
        facts.cross = Some(cross.to_owned());
    }
}

/// Reads what no other table says of a plant: whether it is marked to keep, for how much it went, and with which tag.
pub(super) fn left_with(table: &ImportTable, row: &GridRow, facts: &mut RowFacts) {
    if !table.is_own_sheet {
        return;
    }
    let cell = |heading: &str| {
        let cell = plain(&seen(table.headed(heading)?.cell(row)));
        Some(cell).filter(|cell| !cell.is_empty())
    };
    facts.kept = cell(KEPT).is_some();
    if facts.fate.is_some() {
        (facts.price, facts.left_label) = (cell(PRICE), cell(LEFT_LABEL));
    }
}
