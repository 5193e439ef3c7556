//! What was read on a plant.

use crate::lineage::PlantRow;
use crate::observation::cell::{Misread, value};
use crate::observation::months::months;
use crate::observation::provenance::provenance;
use crate::observation::series::{Comparable, readings_of_traits};
use crate::observation::{pitcher_named, says_pest};
use crate::record::When;
use crate::registry::{Column, Registry, SittingRow, TraitRow};
use std::collections::BTreeSet;

/// One cell of a sitting.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadingSeen<'r> {
    /// When.
    pub when: When,
    /// Age from sowing in months, least and greatest.
    pub months_from_sowing: Option<(f64, f64)>,
    /// What was read.
    pub column: Column,
    /// As typed.
    pub cell: &'r str,
    /// Whether the plant was so small that day that the trait is doubtful on it.
    pub is_doubtful: bool,
    /// Whether it is words of the grower's own, and no reading: they may say anything.
    pub own_words: bool,
    /// The method, where the readings of the trait of that day differ in it.
    pub method: Option<&'r str>,
}

/// The readings of a plant, oldest first; those of one day in the order of the pages.
pub fn readings<'r>(registry: &'r Registry, plant: PlantRow) -> Vec<ReadingSeen<'r>> {
    let sown = provenance(registry, plant).sown;
    let doubtful = doubtful(registry, plant);
    let seen = registry.readings.of(plant).map(|reading| {
        let head = &registry[reading.sitting];
        let when = registry.when(head.sitting.on);
        let cell = registry.cell(reading);
        let column = head.columns[usize::from(reading.column)];
        ReadingSeen {
            when,
            months_from_sowing: months(sown, when),
            column,
            cell,
            is_doubtful: match column {
                Column::Trait { index, .. } => doubtful.contains(&(reading.sitting, index)),
                _ => false,
            },
            own_words: own_words(registry, column, cell),
            method: head.sitting.method.as_deref(),
        }
    });
    let mut seen: Vec<ReadingSeen> = seen.collect();
    seen.sort_by_key(|reading| reading.when);
    let differs = |of: &ReadingSeen| {
        let of_day = seen.iter().filter(|other| other.when == of.when);
        let mut same =
            of_day.filter(|other| trait_of(other).is_some_and(|it| trait_of(of) == Some(it)));
        same.any(|other| other.method != of.method)
    };
    let differ: Vec<bool> = seen.iter().map(differs).collect();
    for (of, differs) in seen.iter_mut().zip(differ) {
        of.method = of.method.filter(|_| differs);
    }
    seen
}

fn trait_of(of: &ReadingSeen) -> Option<TraitRow> {
    match of.column {
        Column::Trait { index, .. } => Some(index),
        _ => None,
    }
}

/// Sittings in which a trait was read that is doubtful on a plant so small, with the trait.
fn doubtful(registry: &Registry, plant: PlantRow) -> BTreeSet<(SittingRow, TraitRow)> {
    let wanted = vec![true; registry.settings.traits.len()];
    let read = readings_of_traits(registry, &[plant], wanted);
    let traits = registry.trait_rows().zip(read);
    let doubtful = traits.flat_map(|(index, of)| {
        let readings: Vec<Comparable> = of.by_day().filter(|of| of.doubtful).collect();
        readings.into_iter().map(move |of| (of.sitting, index))
    });
    doubtful.collect()
}

/// Whether a cell holds something else than its column is for.
fn own_words(registry: &Registry, column: Column, cell: &str) -> bool {
    match column {
        Column::Trait { index, unit } => {
            let read = value(&registry[index], cell, unit);
            !matches!(read, Ok(_) | Err(Misread::UnitUnknown))
        }
        Column::Pest => says_pest(cell) && !cell.trim().eq_ignore_ascii_case("yes"),
        Column::Pitcher => pitcher_named(cell).is_none(),
        Column::Note | Column::Unknown => true,
    }
}
