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
use std::collections::BTreeMap;

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
    /// Whether pests or damage were seen on the plant that day; such readings are left out unless asked for.
    pub pest: bool,
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
    /// An age not known, where ages are compared.
    pub age_unknown: usize,
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
            + self.age_unknown
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
            (self.age_unknown, "of unknown age"),
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
        self.age_unknown += other.age_unknown;
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

/// Readings of one trait that may be compared, and what was left out.
#[derive(Clone, Default, Debug)]
pub struct TraitReadings {
    /// By plant and then by day.
    pub readings: Vec<Comparable>,
    /// What may not be compared.
    pub left_out: LeftOut,
}

/// All readings of one trait on some plants that may be compared at all, by plant and then by day; of a trait of the
/// pitcher only the age class, juvenile or adult, with more readings.
pub fn comparable(
    registry: &Registry,
    plants: &[PlantRow],
    index: u16,
) -> (Vec<Comparable>, LeftOut) {
    let mut of = readings_of(registry, plants, |trait_index| trait_index == index, false);
    let TraitReadings {
        mut readings,
        mut left_out,
    } = std::mem::take(&mut of[usize::from(index)]);
    if registry.settings.traits[usize::from(index)].of_pitcher {
        left_out.other_pitcher += one_pitcher_class(&mut readings);
    }
    (readings, left_out)
}

/// The readings of every declared trait on some plants, in the order of the traits, in one pass over the plants'
/// rows. Pitchers of both age classes are still among them: see [`one_pitcher_class`].
pub fn all_comparable(registry: &Registry, plants: &[PlantRow]) -> Vec<TraitReadings> {
    readings_of(registry, plants, |_| true, false)
}

/// The readings of one trait with those flagged for pests among them, each marked so.
pub fn with_pests(registry: &Registry, plants: &[PlantRow], index: u16) -> TraitReadings {
    let mut of = readings_of(registry, plants, |trait_index| trait_index == index, true);
    std::mem::take(&mut of[usize::from(index)])
}

fn readings_of(
    registry: &Registry,
    plants: &[PlantRow],
    wanted: impl Fn(u16) -> bool,
    pests_too: bool,
) -> Vec<TraitReadings> {
    let mut reader = Reader {
        registry,
        pests_too,
        span: span_trait(registry),
        dates: vec![None; registry.readings.sittings().len()],
        sown: BTreeMap::new(),
        traits: vec![TraitReadings::default(); registry.settings.traits.len()],
    };
    let mut rows = Vec::new();
    for &plant in plants {
        rows.clear();
        rows.extend(registry.readings.of(plant));
        for row in rows.chunk_by(|a, b| a.sitting == b.sitting) {
            reader.row(plant, row, &wanted);
        }
    }
    for of in &mut reader.traits {
        of.readings
            .sort_by_key(|reading| (reading.plant, reading.when, reading.sitting));
    }
    reader.traits
}

/// Reads rows; a date is read once for all rows of its sitting, a sowing once for all its seedlings.
struct Reader<'a, 't> {
    registry: &'a Registry<'t>,
    pests_too: bool,
    span: Option<u16>,
    dates: Vec<Option<When>>,
    sown: BTreeMap<(Option<u32>, Option<usize>), When>,
    traits: Vec<TraitReadings>,
}

impl Reader<'_, '_> {
    /// The cells of one plant in one sitting.
    fn row(&mut self, plant: PlantRow, cells: &[Reading], wanted: &impl Fn(u16) -> bool) {
        let registry = self.registry;
        let sitting = cells[0].sitting;
        let head = &registry.readings.sittings()[sitting as usize];
        let when =
            *self.dates[sitting as usize].get_or_insert_with(|| registry.when(head.sitting.on));
        let of = (registry.cross_of(plant), registry.road(plant).0);
        let sown = *self
            .sown
            .entry(of)
            .or_insert_with(|| road(registry, plant).sown);
        let says = Says::of(registry, cells, self.span);
        let comparable = Comparable {
            plant,
            sitting,
            when,
            age: months(sown, when),
            value: 0.0,
            pitcher: says.pitcher.or(head.sitting.pitcher),
            pest: says.pest,
        };
        for cell in cells {
            if let Column::Trait { index, unit } = head.columns[usize::from(cell.column)]
                && wanted(index)
            {
                let value = value(
                    &registry.settings.traits[usize::from(index)],
                    registry.cell(cell),
                    unit,
                );
                self.judge(index, value, &says, comparable);
            }
        }
    }

    /// Keeps a value, or counts why it may not be compared.
    fn judge(&mut self, index: u16, value: Result<f64, NoValue>, says: &Says, row: Comparable) {
        let declared = &self.registry.settings.traits[usize::from(index)];
        let TraitReadings { readings, left_out } = &mut self.traits[usize::from(index)];
        let too_young = |from: f64| row.age.is_some_and(|(_, most)| most < from);
        let too_small = |least: f64| says.span_cm.is_some_and(|cm| cm < least);
        match value {
            Err(NoValue::UnitUnknown) => left_out.unit_unknown += 1,
            Err(NoValue::NotAValue) => left_out.no_value += 1,
            Ok(_) if says.pest && !self.pests_too => left_out.pest += 1,
            Ok(_) if declared.from_months.is_some_and(too_young) => left_out.too_young += 1,
            Ok(_) if self.span != Some(index) && declared.from_span_cm.is_some_and(too_small) => {
                left_out.too_small += 1;
            }
            Ok(value) => readings.push(Comparable { value, ..row }),
        }
    }
}

/// What a row says besides values.
struct Says {
    pest: bool,
    pitcher: Option<PitcherType>,
    span_cm: Option<f64>,
}

impl Says {
    fn of(registry: &Registry, cells: &[Reading], span: Option<u16>) -> Says {
        let mut says = Says {
            pest: false,
            pitcher: None,
            span_cm: None,
        };
        for cell in cells {
            let head = &registry.readings.sittings()[cell.sitting as usize];
            let text = || registry.cell(cell).trim();
            match head.columns[usize::from(cell.column)] {
                Column::Pest => says.pest |= !matches!(text(), "" | "no" | "none" | "-"),
                Column::Pitcher => says.pitcher = pitcher_named(text()).or(says.pitcher),
                Column::Trait { index, unit } if Some(index) == span => {
                    let declared = &registry.settings.traits[usize::from(index)];
                    says.span_cm = value(declared, text(), unit).ok().or(says.span_cm);
                }
                _ => {}
            }
        }
        says
    }
}

/// Keeps the readings of the pitcher class, juvenile or adult, that has more of them (adult when even); returns how many
/// were left out.
pub fn one_pitcher_class(kept: &mut Vec<Comparable>) -> usize {
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
