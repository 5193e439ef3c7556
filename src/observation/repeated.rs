//! How well the grower reads a trait: plants read twice or more within a week, anywhere in the registry.
//!
//! The sittings of a plant that are dated to the day fall into weeks, each from the first sitting that no earlier week
//! holds. Plants read in the very same sittings of a week make a table. What all of them grew in between is not counted as
//! error, what some grew more than others is, so the error comes out rather too large than too small. Readings left out of
//! comparisons are left out here.

use crate::lineage::PlantRow;
use crate::observation::series::{Comparable, readings_of};
use crate::observation::trait_unit::{OwnReadings, TraitUnit};
use crate::record::Day;
use crate::registry::{Column, Registry, SittingHead, SittingRow, TraitRow};
use crate::statistics::repeatability::repeatability;
use crate::statistics::{Confidence, StatisticsError};
use std::collections::BTreeMap;

/// Days within which further readings of a plant are of the same size (ours).
const SOON: i32 = 7;

impl TraitUnit {
    /// The same with how well the grower reads the trait, from plants read twice or more.
    pub fn with_own_readings(self, registry: &Registry, index: TraitRow) -> TraitUnit {
        let own = own_readings(registry, index, &self);
        TraitUnit { own, ..self }
    }
}

/// How well a trait is read; `None` where too few plants were read again, and of kinds, which have no distance.
fn own_readings(registry: &Registry, index: TraitRow, unit: &TraitUnit) -> Option<OwnReadings> {
    if !unit.is_measure() && !unit.is_scale {
        return None;
    }
    let readings = readings_of(registry, &read_again(registry, index), index).by_plant();
    let tables = tables(&readings);
    let mut plants: Vec<PlantRow> = tables.iter().flatten().map(|row| row[0].plant).collect();
    plants.sort_unstable();
    plants.dedup();
    let values = |row: &Vec<&Comparable>| row.iter().map(|of| unit.shown(of.value)).collect();
    let values: Vec<Vec<Vec<f64>>> = tables
        .iter()
        .map(|table| table.iter().map(values).collect())
        .collect();
    let error = match repeatability(&values, Confidence::P95) {
        Ok(error) => Some(error),
        Err(StatisticsError::NoSpread) => None,
        Err(_) => return None,
    };
    Some(OwnReadings {
        plants: plants.len(),
        readings: values.iter().flatten().map(Vec::len).sum(),
        error,
    })
}

/// The plants in two sittings of a trait at most a week apart, in the order of the registry: one pass over the rows of all
/// sittings.
fn read_again(registry: &Registry, index: TraitRow) -> Vec<PlantRow> {
    let has_trait = |head: &SittingHead| {
        let mut columns = head.columns.iter();
        columns.any(|column| matches!(column, Column::Trait { index: of, .. } if *of == index))
    };
    let all = registry.all_sittings();
    let mut dated: Vec<(Day, SittingRow)> = all
        .filter(|(_, head)| has_trait(head))
        .filter_map(|(at, head)| {
            let when = registry.when(head.sitting.on);
            when.is_exact().then_some((when.first, at))
        })
        .collect();
    dated.sort_unstable();
    let mut last: Vec<Option<(Day, SittingRow)>> = vec![None; registry.plants().len()];
    let mut again = vec![false; last.len()];
    for (day, sitting) in dated {
        for plant in registry[sitting].row_plants() {
            let before = last[plant.index()].replace((day, sitting));
            again[plant.index()] |=
                before.is_some_and(|(of, other)| day.0 - of.0 <= SOON && other != sitting);
        }
    }
    let found = (0..again.len()).filter(|&at| again[at]);
    found.map(PlantRow::new).collect()
}

/// Tables of plants by readings, each of the plants that were read in the same sittings of a week, pitchers of one kind; a
/// plant alone with its sittings makes none. Readings come by plant and then by day.
fn tables(readings: &[Comparable]) -> Vec<Vec<Vec<&Comparable>>> {
    let of_kind = |of: &Comparable| (of.plant, of.pitcher.map(|pitcher| pitcher as u8));
    let mut exact: Vec<&Comparable> = readings.iter().filter(|of| of.when.is_exact()).collect();
    exact.sort_by_key(|of| of_kind(of));
    let mut tables: BTreeMap<_, Vec<Vec<&Comparable>>> = BTreeMap::new();
    for same in exact.chunk_by(|a, b| of_kind(a) == of_kind(b)) {
        for week in weeks(same) {
            let sittings: Vec<SittingRow> = week.iter().map(|of| of.sitting).collect();
            let (_, pitcher) = of_kind(week[0]);
            tables.entry((sittings, pitcher)).or_default().push(week);
        }
    }
    let of_several = tables.into_values().filter(|table| table.len() > 1);
    of_several.collect()
}

/// The readings of a plant, by day, in weeks of two or more; of two in one sitting the first.
fn weeks<'r>(readings: &[&'r Comparable]) -> Vec<Vec<&'r Comparable>> {
    let mut weeks: Vec<Vec<&Comparable>> = Vec::new();
    for &reading in readings {
        match weeks.last_mut() {
            Some(week) if week.iter().any(|of| of.sitting == reading.sitting) => {}
            Some(week) if reading.when.first.0 - week[0].when.first.0 <= SOON => week.push(reading),
            _ => weeks.push(vec![reading]),
        }
    }
    weeks.retain(|week| week.len() > 1);
    weeks
}
