//! Readings of a filled table that can be true but look like a slip, by the rule of the keyboard.

use super::rows::Filled;
use crate::observation::asked_columns::AskedColumn;
use crate::observation::cell::value;
use crate::observation::last_reading::last_reading;
use crate::record::{Day, When};
use crate::recording::events::measure::MeasuredRow;
use crate::recording::measuring::{Doubt, Judged, doubt};
use crate::recording::plants::single;
use crate::registry::Registry;

/// A reading to look at again.
#[derive(Debug)]
pub struct Doubted {
    /// The plant.
    pub plant: String,
    /// What was read.
    pub column: AskedColumn,
    /// As it stands in the table.
    pub written: String,
    /// Why.
    pub doubt: Doubt,
}

/// The readings in doubt, in the order of the sittings and their rows; siblings are compared by `check`, not here.
pub fn doubts(registry: &Registry, filled: &Filled, today: Day) -> Vec<Doubted> {
    let mut found = Vec::new();
    for sitting in &filled.sittings {
        let on = sitting.circumstances.on.as_deref();
        let on = on.map_or(When::on(today), |on| registry.when(on));
        for row in &sitting.rows {
            let columns = sitting.columns.iter().zip(&row.cells);
            found.extend(
                columns.filter_map(|(column, cell)| in_doubt(registry, row, (column, cell), on)),
            );
        }
    }
    found
}

fn in_doubt(
    registry: &Registry,
    row: &MeasuredRow,
    (column, cell): (&AskedColumn, &String),
    on: When,
) -> Option<Doubted> {
    let declared = column.declared(registry)?;
    let plant = single(registry, &row.plant).ok()?.plant;
    let last = last_reading(registry, plant, column, &[]);
    let doubt = doubt(&Judged {
        declared,
        value: value(declared, cell, column.unit()).ok()?,
        last: last.as_ref(),
        siblings: &[],
        on,
    })?;
    Some(Doubted {
        plant: row.plant.clone(),
        column: column.clone(),
        written: cell.clone(),
        doubt,
    })
}
