//! Traits as they were read last, beside what siblings of the same age showed.

use crate::lineage::PlantRow;
use crate::observation::cell::with_unit;
use crate::observation::common_age::last_with_others;
use crate::observation::scope::with_siblings;
use crate::observation::series::{Comparable, readings_of_traits};
use crate::observation::trait_unit::TraitUnit;
use crate::observation::value;
use crate::record::{Length, LengthUnit, Ramet};
use crate::registry::{Column, Registry, TraitRow};

/// One trait as read last.
#[derive(Clone, Debug)]
pub struct TraitSeen {
    /// The trait.
    pub index: TraitRow,
    /// How it is shown.
    pub unit: TraitUnit,
    /// The last comparable reading.
    pub last: Comparable,
    /// Its cell as typed, a bare number with the unit of its heading; `None` where the value is not that of one cell.
    pub typed: Option<Typed>,
    /// What siblings read on the same day at the same age showed; `None` where none was.
    pub siblings: Option<Siblings>,
}

/// A cell as typed.
#[derive(Clone, Debug, PartialEq)]
pub struct Typed {
    /// Its text.
    pub text: String,
    /// The unit of a length.
    pub unit: Option<LengthUnit>,
}

/// What siblings showed.
#[derive(Clone, Debug, PartialEq)]
pub enum Siblings {
    /// Of a measure or a scale.
    Range {
        /// How many siblings, at least 1.
        siblings: usize,
        /// The least value.
        least: f64,
        /// The greatest value.
        most: f64,
    },
    /// Of kinds.
    Kinds {
        /// How many siblings, at least 1.
        siblings: usize,
        /// The kinds seen, by their index, each with how many showed it.
        counts: Vec<(usize, usize)>,
    },
}

/// The last comparable reading of every declared trait, in the order of declaration. What was read after a piece had surely
/// come to its end was read of another one.
pub(super) fn traits(
    registry: &Registry,
    plant: PlantRow,
    piece: Option<&Ramet>,
) -> Vec<TraitSeen> {
    let end = piece.and_then(|piece| piece.fate.as_ref());
    let end = end.map(|fate| registry.when(fate.on()));
    let wanted = vec![true; registry.settings.traits.len()];
    let read = readings_of_traits(registry, &with_siblings(registry, plant), wanted);
    let seen = registry.trait_rows().zip(read).filter_map(|(index, of)| {
        let is_of_it = |of: &Comparable| {
            of.plant == plant && !end.is_some_and(|end| end.surely_before(of.when))
        };
        let unit = TraitUnit::shown_in(registry, index);
        let kind = (unit.of_pitcher, of.has_mean);
        let (last, alike) = last_with_others(registry, &of.by_plant(), is_of_it, kind)?;
        let alike: Vec<f64> = alike.iter().map(|of| of.value).collect();
        Some(TraitSeen {
            index,
            siblings: summary(&unit, &alike),
            typed: typed(registry, index, &last),
            last,
            unit,
        })
    });
    seen.collect()
}

/// The cell of a reading.
fn typed(registry: &Registry, index: TraitRow, last: &Comparable) -> Option<Typed> {
    let readings = registry.readings.of(last.plant);
    let mut cells = readings.filter(|reading| reading.sitting == last.sitting);
    cells.find_map(|reading| {
        let heading = registry[reading.sitting]
            .columns
            .get(usize::from(reading.column));
        let Some(&Column::Trait { index: of, unit }) = heading else {
            return None;
        };
        let cell = registry.cell(reading);
        let is_it = of == index && value(&registry[index], cell, unit) == Ok(last.value);
        is_it.then(|| Typed {
            text: with_unit(cell, unit).trim().to_owned(),
            unit: Length::read(cell).ok().and_then(|of| of.unit).or(unit),
        })
    })
}

/// What values of at least one sibling come to.
pub(crate) fn summary(unit: &TraitUnit, values: &[f64]) -> Option<Siblings> {
    let (&first, rest) = values.split_first()?;
    let siblings = values.len();
    if let Some(kinds) = unit.kinds.as_ref().filter(|_| !unit.is_scale) {
        let count = |at: usize| values.iter().filter(|value| **value as usize == at).count();
        let counts = (0..kinds.len()).map(|at| (at, count(at)));
        let counts = counts.filter(|(_, of)| *of > 0).collect();
        return Some(Siblings::Kinds { siblings, counts });
    }
    Some(Siblings::Range {
        siblings,
        least: rest.iter().copied().fold(first, f64::min),
        most: rest.iter().copied().fold(first, f64::max),
    })
}
