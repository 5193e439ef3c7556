//! The rows of podbook's own sheet beside the registry: whether the sheet was written from it, and which plant a row is
//! whose code was changed or taken out.

use super::answer::ImportTable;
use super::differs::Held;
use super::looks::plain;
use super::word_lists::is_in;
use crate::observation::plant_cells::{CELLS, plant_cells};
use crate::record::Day;
use crate::registry::{PlantRow, Registry};
use crate::text::GridRow;
use std::collections::{BTreeMap, BTreeSet};

/// The cells that stay the same while a plant is here: by them it is known without its code.
const LASTING: &str = "sown | arrived | received as | from | supplier's code | nickname";

/// What the rows of one such sheet say together.
#[derive(Default)]
pub(super) struct OwnRows {
    /// Whether it was written from this registry: of the lasting cells of its plants most are as recorded.
    pub is_of_this_registry: bool,
    /// Codes of plants on record without a row, by their lasting cells.
    without_row: BTreeMap<Vec<String>, Vec<String>>,
}

impl OwnRows {
    /// What the rows of a table say together: nothing where it is no such sheet; `rows` are those below its headings.
    pub fn of(registry: &Registry, today: Day, table: &ImportTable, rows: &[&GridRow]) -> OwnRows {
        if !table.is_own_sheet {
            return OwnRows::default();
        }
        let (mut same, mut other, mut named) = (0, 0, BTreeSet::new());
        for row in rows {
            let Some(plant) = registry.plant(&cell(table, row, "plant")) else {
                continue;
            };
            let held = Held {
                registry,
                today,
                table,
                row,
                plant,
            };
            let (agree, differ) = held.agreement(LASTING);
            (same, other) = (same + agree, other + differ);
            named.insert(plant);
        }
        match same > 0 && same >= other {
            true => OwnRows {
                is_of_this_registry: true,
                without_row: without_row(registry, today, &named),
            },
            false => OwnRows::default(),
        }
    }

    /// The one plant on record without a row of its own that has the lasting cells of a row, two of them at least filled.
    pub fn known_by_cells(&self, table: &ImportTable, row: &GridRow) -> Option<&str> {
        let in_order = CELLS.iter().filter(|name| is_in(LASTING, name));
        let key: Vec<String> = in_order.map(|name| cell(table, row, name)).collect();
        let filled = key.iter().filter(|cell| !cell.is_empty()).count();
        match self.without_row.get(&key).map(Vec::as_slice) {
            Some([code]) if filled >= 2 => Some(code),
            _ => None,
        }
    }
}

fn cell(table: &ImportTable, row: &GridRow, heading: &str) -> String {
    let column = table.headed(heading);
    plain(column.map_or("", |of| of.cell(row)))
}

/// Codes of the plants on record that are not among some, by their lasting cells.
fn without_row(
    registry: &Registry,
    today: Day,
    named: &BTreeSet<PlantRow>,
) -> BTreeMap<Vec<String>, Vec<String>> {
    let mut codes: BTreeMap<Vec<String>, Vec<String>> = BTreeMap::new();
    let missing = registry.plants().filter(|plant| !named.contains(plant));
    for plant in missing.filter(|plant| registry.unseen(*plant).is_none()) {
        let cells = CELLS.iter().zip(plant_cells(registry, plant, today));
        let lasting = cells.filter(|(name, _)| is_in(LASTING, name));
        let key = lasting.map(|(_, cell)| plain(cell.as_deref().unwrap_or("")));
        let of_key = codes.entry(key.collect()).or_default();
        of_key.push(registry.code(plant));
    }
    codes
}
