//! A sheet of plants with their latest readings, for the grower's own use: suppliers, places and notes are in it.

use super::table::ExportTable;
use crate::analysis::export::Shared;
use crate::context::Context;
use crate::evidence::{Evidence, Unit};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::last_reading::{LastReading, last_readings};
use crate::observation::plant_cells::{CELLS, day_cell, plant_cells};
use crate::observation::trait_unit::TraitUnit;
use crate::report::cell::Cell;
use crate::wording::counted;

/// Columns that podbook works out, before those of the record.
const WORKED_OUT: [&str; 3] = ["plant", "name", "evidence"];

/// The sheet. A trait has three columns: its value in the unit of the heading, the cell as it was written with the unit it was
/// written in, and the day. A length without a unit has no value; what was written stands beside it.
pub fn plant_table<'c>(context: &'c Context, plants: Vec<PlantRow>) -> ExportTable<'c> {
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
    let shared = Shared::of(context.evidence(), &plants, WorkedOut::of);
    let said = format!(
        "{}; private: suppliers, buyers, prices, places and notes are in it",
        counted(plants.len(), "plant", "plants")
    );
    let row = move |plant| {
        let last = last_readings(registry, plant);
        let of_traits = units.iter().zip(&last);
        let of_traits = of_traits.flat_map(|(unit, last)| of_trait(unit, last.as_ref()));
        let recorded = plant_cells(registry, plant, context.today);
        let recorded = recorded.into_iter().map(Cell::from);
        let worked_out = shared.by(plant).cells(registry.code(plant));
        worked_out
            .into_iter()
            .chain(recorded)
            .chain(of_traits)
            .collect()
    };
    ExportTable::of(headings, plants, row).remarked(said)
}

/// What siblings of one pod have in common.
#[derive(Clone)]
struct WorkedOut {
    name: String,
    evidence: String,
}

impl WorkedOut {
    fn of(evidence: &Evidence, plant: PlantRow) -> Self {
        let names = evidence.names();
        let name = names.in_full(TopOf::Plant(plant));
        WorkedOut {
            name: name.unwrap_or_else(|long| long.to_string()),
            evidence: evidence.short(Unit::Plant(plant)),
        }
    }

    fn cells(&self, code: String) -> [Cell; 3] {
        [code.into(), (&self.name).into(), (&self.evidence).into()]
    }
}

/// So many decimals, at least, that the number is that of the reading: 3 5/8 in are 9.2075 cm. Six serve sixteenths of an inch.
fn decimals(shown: f64, least: u8) -> u8 {
    const MOST: u8 = 6;
    let is_whole = |decimals: &u8| {
        let scaled = shown * 10f64.powi(i32::from(*decimals));
        (scaled - scaled.round()).abs() < 1e-6 * scaled.abs().max(1.0)
    };
    (least..MOST).find(is_whole).unwrap_or(MOST)
}

fn of_trait(unit: &TraitUnit, last: Option<&LastReading>) -> [Cell; 3] {
    let Some(last) = last else {
        return [Cell::Missing, Cell::Missing, Cell::Missing];
    };
    let value = last.value.map(|value| unit.shown(value));
    let value = match (value, unit.is_measure() || unit.is_scale) {
        (None, _) => Cell::Missing,
        (Some(shown), true) => Cell::Number(shown, decimals(shown, unit.decimals)),
        (Some(kind), false) => unit.words(kind).into(),
    };
    [value, last.with_unit().into(), day_cell(last.when).into()]
}
