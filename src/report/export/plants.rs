//! A sheet of plants with their latest readings, for the grower's own use: suppliers, places and notes are in it.

use super::table::ExportTable;
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::naming::{Writing, formula_only};
use crate::observation::last_reading::{LastReading, last_readings};
use crate::observation::plant_cells::{CELLS, day_cell, plant_cells};
use crate::observation::trait_unit::TraitUnit;
use crate::registry::OriginRow;
use crate::report::cell::Cell;
use crate::report::table::Table;
use crate::wording::counted;
use std::collections::HashMap;

/// Columns that podbook works out, before those of the record.
const WORKED_OUT: [&str; 3] = ["plant", "name", "evidence"];

/// The sheet. A trait has three columns: its value in the unit of the heading, the cell as it was written, and the day.
/// A length without a unit has no value; what was written stands beside it.
pub fn plant_table(context: &Context, plants: &[PlantRow]) -> ExportTable {
    let registry = context.registry;
    let traits = registry.trait_rows();
    let units: Vec<TraitUnit> = traits.map(|at| TraitUnit::shown_in(registry, at)).collect();
    let of_traits = units.iter().flat_map(|unit| {
        let beside = |what: &str| format!("{}, {what}", unit.name);
        [unit.heading(), beside("as written"), beside("read on")]
    });
    let headings: Vec<String> = WORKED_OUT
        .iter()
        .chain(&CELLS)
        .map(|of| (*of).to_owned())
        .chain(of_traits)
        .collect();
    let mut sheet = PlantSheet {
        context,
        shared: HashMap::new(),
    };
    let rows = plants.iter().map(|&plant| {
        let last = last_readings(registry, plant);
        let of_traits = units.iter().zip(&last);
        let of_traits = of_traits.flat_map(|(unit, last)| of_trait(unit, last.as_ref()));
        sheet.of_plant(plant).into_iter().chain(of_traits).collect()
    });
    let table = Table::plain(headings, rows);
    ExportTable {
        table,
        remarks: vec![format!(
            "{}; private: suppliers, places and notes are in it",
            counted(plants.len(), "plant", "plants")
        )],
    }
}

struct PlantSheet<'e, 'r, 't> {
    context: &'e Context<'r, 't>,
    /// Name of the plants of one origin.
    shared: HashMap<OriginRow, String>,
}

impl PlantSheet<'_, '_, '_> {
    fn of_plant(&mut self, plant: PlantRow) -> Vec<Cell> {
        let registry = self.context.registry;
        let worked_out = [
            registry.code(plant).into(),
            self.name(plant).into(),
            self.context.evidence().short(Unit::Plant(plant)).into(),
        ];
        let recorded = plant_cells(registry, plant, self.context.today);
        let recorded = recorded.into_iter().map(Cell::from);
        worked_out.into_iter().chain(recorded).collect()
    }

    fn name(&mut self, plant: PlantRow) -> String {
        let names = self.context.names();
        let write = || {
            let formula = names.formula(TopOf::Plant(plant), false);
            formula_only(&formula, &Writing::plain(names.vocabulary()))
                .unwrap_or_else(|long| long.to_string())
        };
        match self.context.registry.origin_of(plant) {
            None => write(),
            Some(origin) => self.shared.entry(origin).or_insert_with(write).clone(),
        }
    }
}

fn of_trait(unit: &TraitUnit, last: Option<&LastReading>) -> [Cell; 3] {
    let Some(last) = last else {
        return [Cell::Missing, Cell::Missing, Cell::Missing];
    };
    let value = last.value.map(|value| unit.shown(value));
    let value = match (value, unit.is_measure() || unit.is_scale) {
        (None, _) => Cell::Missing,
        (Some(shown), true) => Cell::Number(shown, unit.decimals),
        (Some(kind), false) => unit.words(kind).into(),
    };
    [
        value,
        last.typed.as_str().into(),
        day_cell(last.when).into(),
    ]
}
