//! Readings that may be compared: typed values of one trait, with what was left out and why.
//!
//! A reading is left out, and counted, when its unit is not known, its row was flagged for pests, the plant was surely
//! younger or smaller than the trait can be judged at, its pitcher is of the other age class, or its text is no value of
//! the trait. Nothing missing becomes zero. Which readings belong into one comparison is left to each report.

use super::road::road;
use super::standing::pitcher_named;
use super::words::months;
use crate::lineage::PlantRow;
use crate::record::{Length, LengthUnit, PitcherType, Reads, Trait, When};
use crate::registry::{Column, Reading, Registry};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// One comparable reading.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Comparable {
    /// The plant.
    pub plant: PlantRow,
    /// Index of the sitting.
    pub sitting: u32,
    /// The day of the sitting, as a range.
    pub when: When,
    /// Age from sowing in months, least and greatest; `None` when the sowing is not dated.
    pub age: Option<(f64, f64)>,
    /// Centimetres, a count, a plain number, a step from 1, or the index of a kind.
    pub value: f64,
    /// Which pitcher was read, for traits of the pitcher.
    pub pitcher: Option<PitcherType>,
}

/// How many readings were left out, and why.
#[derive(Clone, Copy, Default, PartialEq, Eq, Debug, Serialize)]
pub struct LeftOut {
    /// No unit, neither in the cell nor in the heading.
    pub unit_unknown: usize,
    /// Pests or damage were seen on the plant that day.
    pub pest: usize,
    /// Surely younger than the trait can be judged at.
    pub too_young: usize,
    /// Smaller, by the same day's leaf span, than the trait can be judged at.
    pub too_small: usize,
    /// A juvenile pitcher among adult ones, or the other way round.
    pub other_pitcher: usize,
    /// Read by another method.
    pub other_method: usize,
    /// Text that is no value of the trait.
    pub no_value: usize,
}

impl LeftOut {
    /// All together.
    pub fn total(&self) -> usize {
        self.unit_unknown
            + self.pest
            + self.too_young
            + self.too_small
            + self.other_pitcher
            + self.other_method
            + self.no_value
    }

    /// In words: `2 without a unit, 1 flagged for pests`; empty when nothing was left out.
    pub fn words(&self) -> String {
        let reasons = [
            (self.unit_unknown, "without a unit"),
            (self.pest, "flagged for pests"),
            (self.too_young, "too young for the trait"),
            (self.too_small, "too small for the trait"),
            (self.other_pitcher, "on a pitcher of the other age class"),
            (self.other_method, "by another method"),
            (self.no_value, "with no value of the trait"),
        ];
        let told: Vec<String> = reasons
            .iter()
            .filter(|(n, _)| *n > 0)
            .map(|(n, why)| format!("{n} {why}"))
            .collect();
        told.join(", ")
    }

    /// Adds another count.
    pub fn add(&mut self, other: &LeftOut) {
        self.unit_unknown += other.unit_unknown;
        self.pest += other.pest;
        self.too_young += other.too_young;
        self.too_small += other.too_small;
        self.other_pitcher += other.other_pitcher;
        self.other_method += other.other_method;
        self.no_value += other.no_value;
    }
}

/// A declared trait by its code or name, whatever its case.
pub fn trait_named(registry: &Registry, name: &str) -> Option<u16> {
    let traits = &registry.settings.traits;
    let same = |a: &str| a.eq_ignore_ascii_case(name.trim());
    traits
        .iter()
        .position(|t| same(t.code) || same(&t.name))
        .map(|at| at as u16)
}

/// The trait that is the leaf span: the one called so.
pub fn span_trait(registry: &Registry) -> Option<u16> {
    trait_named(registry, "span").or_else(|| trait_named(registry, "leaf span"))
}

/// All readings of one trait on some plants that may be compared at all, by plant and then by day.
pub fn comparable(
    registry: &Registry,
    plants: &[PlantRow],
    index: u16,
) -> (Vec<Comparable>, LeftOut) {
    let declared = &registry.settings.traits[usize::from(index)];
    let span = span_trait(registry).filter(|&span| span != index);
    let mut kept = Vec::new();
    let mut left_out = LeftOut::default();
    for &plant in plants {
        let sown = road(registry, plant).sown;
        let rows = Rows::of(registry, plant);
        for reading in registry.readings.of(plant) {
            let head = &registry.readings.sittings()[reading.sitting as usize];
            let Column::Trait { index: of, unit } = head.columns[usize::from(reading.column)]
            else {
                continue;
            };
            if of != index {
                continue;
            }
            let value = match value(declared, registry.cell(reading), unit) {
                Ok(value) => value,
                Err(NoValue::UnitUnknown) => {
                    left_out.unit_unknown += 1;
                    continue;
                }
                Err(NoValue::NotAValue) => {
                    left_out.no_value += 1;
                    continue;
                }
            };
            let when = registry.when(head.sitting.on);
            let age = months(sown, when);
            if rows.pest.contains(&reading.sitting) {
                left_out.pest += 1;
            } else if declared
                .from_months
                .is_some_and(|from| age.is_some_and(|(_, most)| most < from))
            {
                left_out.too_young += 1;
            } else if too_small(registry, declared, span, plant, reading.sitting) {
                left_out.too_small += 1;
            } else {
                let pitcher = rows
                    .pitcher
                    .get(&reading.sitting)
                    .copied()
                    .or(head.sitting.pitcher);
                kept.push(Comparable {
                    plant,
                    sitting: reading.sitting,
                    when,
                    age,
                    value,
                    pitcher,
                });
            }
        }
    }
    if declared.of_pitcher {
        left_out.other_pitcher += keep_one_pitcher_class(&mut kept);
    }
    kept.sort_by_key(|reading| (reading.plant, reading.when, reading.sitting));
    (kept, left_out)
}

/// What a plant's rows say besides values.
struct Rows {
    pest: BTreeSet<u32>,
    pitcher: BTreeMap<u32, PitcherType>,
}

impl Rows {
    fn of(registry: &Registry, plant: PlantRow) -> Rows {
        let mut rows = Rows {
            pest: BTreeSet::new(),
            pitcher: BTreeMap::new(),
        };
        for reading in registry.readings.of(plant) {
            let head = &registry.readings.sittings()[reading.sitting as usize];
            match head.columns[usize::from(reading.column)] {
                Column::Pest
                    if !matches!(registry.cell(reading).trim(), "" | "no" | "none" | "-") =>
                {
                    rows.pest.insert(reading.sitting);
                }
                Column::Pitcher => {
                    let named = pitcher_named(registry.cell(reading));
                    rows.pitcher
                        .extend(named.map(|pitcher| (reading.sitting, pitcher)));
                }
                _ => {}
            }
        }
        rows
    }
}

/// Whether the leaf span read in the same sitting lies under what the trait needs.
fn too_small(
    registry: &Registry,
    declared: &Trait,
    span: Option<u16>,
    plant: PlantRow,
    sitting: u32,
) -> bool {
    let (Some(least), Some(span)) = (declared.from_span_cm, span) else {
        return false;
    };
    let in_sitting = |reading: &Reading| reading.sitting == sitting;
    registry
        .readings
        .of(plant)
        .filter(in_sitting)
        .any(|reading| {
            let head = &registry.readings.sittings()[sitting as usize];
            match head.columns[usize::from(reading.column)] {
                Column::Trait { index, unit } if index == span => {
                    let declared = &registry.settings.traits[usize::from(span)];
                    value(declared, registry.cell(reading), unit).is_ok_and(|cm| cm < least)
                }
                _ => false,
            }
        })
}

/// Keeps the readings of the pitcher class, juvenile or adult, that has more of them (adult when even).
fn keep_one_pitcher_class(kept: &mut Vec<Comparable>) -> usize {
    let juvenile = |reading: &Comparable| reading.pitcher == Some(PitcherType::Juvenile);
    let young = kept.iter().filter(|reading| juvenile(reading)).count();
    let adult = kept.len() - young;
    let keep_young = young > adult;
    let before = kept.len();
    kept.retain(|reading| juvenile(reading) == keep_young);
    before - kept.len()
}

/// Why a cell gives no value.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoValue {
    /// A length without a unit.
    UnitUnknown,
    /// Not a value of the trait.
    NotAValue,
}

/// The value of a cell: centimetres, a count, a number, a step from 1, or the index of a kind.
///
/// # Errors
/// When the cell holds no value of the trait, or a length without a unit.
pub fn value(declared: &Trait, cell: &str, heading: Option<LengthUnit>) -> Result<f64, NoValue> {
    let cell = cell.trim();
    let plain = |text: &str| {
        text.replace(',', ".")
            .parse::<f64>()
            .ok()
            .filter(|number| number.is_finite())
    };
    match &declared.reads {
        Reads::Length(_) => {
            let length = Length::read(cell).map_err(|_| NoValue::NotAValue)?;
            let length = Length {
                unit: length.unit.or(heading),
                ..length
            };
            length.cm().ok_or(NoValue::UnitUnknown)
        }
        Reads::Count => plain(cell)
            .filter(|n| *n >= 0.0 && n.fract() == 0.0)
            .ok_or(NoValue::NotAValue),
        Reads::Number => plain(cell).ok_or(NoValue::NotAValue),
        Reads::Scale(anchors) => {
            let within =
                |step: &f64| step.fract() == 0.0 && (1.0..=anchors.len() as f64).contains(step);
            plain(cell).filter(within).ok_or(NoValue::NotAValue)
        }
        Reads::Kinds(kinds) => {
            let at = kinds
                .iter()
                .position(|kind| kind.eq_ignore_ascii_case(cell));
            at.map(|at| at as f64).ok_or(NoValue::NotAValue)
        }
    }
}
