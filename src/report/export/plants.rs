//! A sheet of plants with their latest readings, for the grower's own use: suppliers, places and notes are in it.

use super::table::ExportTable;
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::naming::{Writing, formula_only};
use crate::observation::last_reading::{LastReading, last_readings};
use crate::observation::places::places;
use crate::observation::presence::{Presence, presence};
use crate::observation::provenance::provenance;
use crate::observation::sex::sex_seen;
use crate::observation::standing::status_words;
use crate::observation::trait_unit::TraitUnit;
use crate::record::When;
use crate::registry::{OriginRow, Registry};
use crate::report::cell::Cell;
use crate::report::table::Table;
use crate::wording::{counted, days};
use std::collections::HashMap;

/// Columns before those of the traits.
const OF_A_PLANT: [&str; 15] = [
    "plant",
    "name",
    "evidence",
    "sex",
    "status",
    "kept",
    "place",
    "pot",
    "sown",
    "arrived",
    "received as",
    "from",
    "supplier's code",
    "nickname",
    "note",
];

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
    let headings: Vec<String> = OF_A_PLANT
        .iter()
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
        let founder = registry.founder(plant);
        let is_here = presence(registry, plant, self.context.today) == Presence::Here;
        let fate = registry.fate(plant).filter(|_| !is_here);
        let places = places(registry, plant, self.context.today);
        let last_pot = registry.pots(plant).iter();
        let last_pot = last_pot.max_by_key(|pot| registry.when(pot.on).first);
        let arrived = founder.and_then(|of| of.on).map(|on| registry.when(on));
        let text = |text: Option<&str>| Cell::from(text);
        vec![
            registry.code(plant).into(),
            self.name(plant).into(),
            self.context.evidence().short(Unit::Plant(plant)).into(),
            sex_seen(registry, plant).to_string().into(),
            status_words(fate, is_here).into(),
            Cell::from(registry.is_kept(plant).then_some("kept")),
            Cell::from((!places.is_empty()).then(|| places.join("; "))),
            text(last_pot.map(|pot| &*pot.pot)),
            dated(provenance(registry, plant).sown),
            arrived.map_or(Cell::Missing, dated),
            text(founder.map(|of| &*of.received)),
            text(founder.and_then(|of| of.from.as_deref())),
            text(founder.and_then(|of| of.supplier_code.as_deref())),
            text(registry.nickname(plant)),
            text(note(registry, plant)),
        ]
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

fn note<'r>(registry: &'r Registry, plant: PlantRow) -> Option<&'r str> {
    match registry.founder(plant) {
        Some(founder) => founder.note.as_deref(),
        None => registry.seedling(plant)?.note.as_deref(),
    }
}

fn dated(when: When) -> Cell {
    match when {
        When::UNKNOWN => Cell::Missing,
        when => days(when).into(),
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
    [value, last.typed.as_str().into(), dated(last.when)]
}
