//! A plant's readings as they were typed, beside what they come to.

use crate::analysis::growth::grown::Grown;
use crate::lineage::PlantRow;
use crate::observation::cell::with_unit;
use crate::observation::months::months;
use crate::observation::provenance::sown;
use crate::observation::value;
use crate::registry::{Column, Registry, TraitRow};
use crate::wording::days;
use serde::Serialize;

/// One reading as typed.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct TypedRow {
    /// Code of the plant.
    pub id: String,
    /// The day, as a range in words.
    pub on: String,
    /// Age in months, least and greatest; `null` where it is not known.
    pub age: Option<(f64, f64)>,
    /// The cell, letter by letter, a bare number with the unit of its heading: `3.77 in`.
    pub typed: String,
    /// The size in the unit of the answer; `null` when the cell has no unit or no value.
    pub size: Option<f64>,
    /// Whether it is used: a reading flagged for pests or taken too early is not.
    pub used: bool,
}

/// All readings of a trait on one plant, by day.
///
/// `shown` is what a size as read is multiplied by.
pub fn typed(
    registry: &Registry,
    plant: PlantRow,
    (index, shown): (TraitRow, f64),
    grown: &[Grown],
) -> Vec<TypedRow> {
    let declared = &registry[index];
    let sown = sown(registry, plant);
    let points = || {
        let of = grown.iter().filter(|grown| grown.plant == plant);
        of.flat_map(|grown| &grown.points)
    };
    let mut rows = Vec::new();
    for reading in registry.readings.of(plant) {
        let head = &registry[reading.sitting];
        let Column::Trait { index: of, unit } = head.columns[usize::from(reading.column)] else {
            continue;
        };
        if of == index {
            let when = registry.when(head.sitting.on);
            let cell = registry.cell(reading);
            let row = TypedRow {
                id: registry.code(plant),
                on: days(when),
                age: months(sown, when),
                typed: with_unit(cell, unit),
                size: value(declared, cell, unit).ok().map(|size| size * shown),
                used: points().any(|point| point.is_made_of(reading.sitting, when)),
            };
            rows.push((when, row));
        }
    }
    rows.sort_by_key(|(when, _)| *when);
    rows.into_iter().map(|(_, row)| row).collect()
}
