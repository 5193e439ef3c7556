//! What a plant read last, trait by trait: what a new reading is held against.

use super::asked_columns::AskedColumn;
use super::cell::with_unit;
use super::value;
use crate::record::{Day, LengthUnit, When};
use crate::registry::{Column, PlantRow, Registry, SittingRow, TraitRow};

/// A reading of a trait on one plant.
#[derive(Clone, PartialEq, Debug)]
pub struct LastReading {
    /// The cell as typed.
    pub typed: String,
    /// The unit of its heading.
    pub heading: Option<LengthUnit>,
    /// The value as [`value`] gives it; none for a length without a unit or a cell that cannot be read.
    pub value: Option<f64>,
    /// The day of its sitting.
    pub when: When,
}

impl LastReading {
    /// The cell as typed, a bare number with the unit of its heading.
    pub fn with_unit(&self) -> String {
        with_unit(&self.typed, self.heading)
    }
}

/// The last reading of a column's trait that is not of a sitting left aside; none when there is none.
pub fn last_reading(
    registry: &Registry,
    plant: PlantRow,
    asked: &AskedColumn,
    aside: &[SittingRow],
) -> Option<LastReading> {
    let Column::Trait { index: wanted, .. } = asked.column else {
        return None;
    };
    let mut last = last_of_each(registry, plant, aside, |index| index == wanted);
    last.get_mut(wanted.index())?.take()
}

/// The last reading of every declared trait, in the order of the traits; none where it was never read.
pub fn last_readings(registry: &Registry, plant: PlantRow) -> Vec<Option<LastReading>> {
    last_of_each(registry, plant, &[], |_| true)
}

/// Every reading of a trait on one plant, in the order of the pages.
pub fn readings_of(registry: &Registry, plant: PlantRow, of: TraitRow) -> Vec<LastReading> {
    let readings = registry.readings.of(plant);
    let own = readings.filter_map(|reading| {
        let head = &registry[reading.sitting];
        match head.columns.get(usize::from(reading.column)) {
            Some(&Column::Trait { index, unit }) if index == of => {
                let cell = registry.cell(reading);
                Some(LastReading {
                    typed: cell.to_owned(),
                    heading: unit,
                    value: value(&registry[of], cell, unit).ok(),
                    when: registry.when(head.sitting.on),
                })
            }
            _ => None,
        }
    });
    own.collect()
}

fn last_of_each(
    registry: &Registry,
    plant: PlantRow,
    aside: &[SittingRow],
    is_wanted: impl Fn(TraitRow) -> bool,
) -> Vec<Option<LastReading>> {
    let traits = &registry.settings.traits;
    let mut last: Vec<Option<LastReading>> = vec![None; traits.len()];
    for reading in registry.readings.of(plant) {
        let head = &registry[reading.sitting];
        let column = head.columns.get(usize::from(reading.column));
        let Some(&Column::Trait { index, unit }) = column else {
            continue;
        };
        let of_trait = &mut last[index.index()];
        let when = registry.when(head.sitting.on);
        let is_later = |last: &LastReading| order(when) >= order(last.when);
        if !is_wanted(index)
            || aside.contains(&reading.sitting)
            || !of_trait.as_ref().is_none_or(is_later)
        {
            continue;
        }
        let cell = registry.cell(reading);
        *of_trait = Some(LastReading {
            typed: cell.to_owned(),
            heading: unit,
            value: value(&traits[index.index()], cell, unit).ok(),
            when,
        });
    }
    last
}

/// What days are put in order by: one without a known end comes before all others, since nothing says that it is later.
fn order(when: When) -> (bool, Day, Day) {
    (when.last != Day::LAST, when.last, when.first)
}

/// Centimetres as a number in a unit, rounded to what a ruler shows: tenths of a centimetre, hundredths of an inch.
pub fn in_unit(cm: f64, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Mm => format!("{:.0}", cm * 10.0),
        LengthUnit::Cm => format!("{cm:.1}"),
        LengthUnit::M => format!("{:.3}", cm / unit.cm()),
        LengthUnit::In => format!("{:.2}", cm / unit.cm()),
    }
}
