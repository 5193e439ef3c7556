//! One walk over the sittings of some plants: every cell read once, judged, and put to its trait.
//!
//! A sitting's rows stand one after another in its file, so they are walked in that order, not plant by plant. What
//! many rows have in common is worked out once: the day of a sitting, the age of a sowing on that day, what a column
//! means.

use super::asked::{Asked, NOBODY};
use super::readings::{Occasion, Read, TraitReadings, Tray};
use super::span_trait;
use super::value::{NoValue, value};
use crate::lineage::PlantRow;
use crate::record::{PitcherType, Trait, When};
use crate::registry::{Column, Reading, Registry, SittingHead};
use crate::report::standing::pitcher_named;
use crate::report::words::months;
use std::rc::Rc;

/// What is wanted of a walk.
#[derive(Clone, Copy)]
pub(super) struct Wanted {
    /// One trait, or all.
    pub only: Option<u16>,
    /// Whether readings flagged for pests are kept, each marked so.
    pub pests_too: bool,
}

/// Readings of every declared trait, each list by day and then as on the page.
pub(super) fn walk(registry: &Registry, plants: &[PlantRow], wanted: Wanted) -> Vec<TraitReadings> {
    let asked = Asked::of(registry, plants);
    let mut walker = Walker {
        registry,
        wanted,
        span: span_trait(registry),
        occasions: Vec::new(),
        traits: vec![TraitReadings::default(); registry.settings.traits.len()],
        row: Row::default(),
    };
    for (at, when) in asked.sittings_by_day(registry) {
        walker.sitting(at, when, &asked);
    }
    let tray = Rc::new(Tray::new(asked.plants, walker.occasions));
    for of in &mut walker.traits {
        of.tray = Rc::clone(&tray);
    }
    walker.traits
}

struct Walker<'a, 't> {
    registry: &'a Registry<'t>,
    wanted: Wanted,
    span: Option<u16>,
    occasions: Vec<Occasion>,
    traits: Vec<TraitReadings>,
    row: Row,
}

/// What a row says.
#[derive(Default)]
struct Row {
    values: Vec<(u16, Result<f64, NoValue>)>,
    pest: bool,
    pitcher: Option<PitcherType>,
    span_cm: Option<f64>,
}

impl Walker<'_, '_> {
    fn sitting(&mut self, at: usize, when: When, asked: &Asked) {
        let head = &self.registry.readings.sittings()[at];
        // The occasion of each sowing in this sitting, once one of its plants was met.
        let mut occasion_of = vec![NOBODY; asked.sowings.len()];
        for (plant, cells) in head.rows() {
            let Some(place) = asked.place(plant) else {
                continue;
            };
            let sowing = asked.sowing_of[place as usize] as usize;
            if occasion_of[sowing] == NOBODY {
                occasion_of[sowing] = self.occasions.len() as u32;
                self.occasions.push(Occasion {
                    sitting: at as u32,
                    when,
                    of: asked.sowings[sowing].of,
                    age: months(asked.sowings[sowing].on, when),
                });
            }
            self.take_row(head, cells);
            self.judge_row(Read {
                plant: place,
                occasion: occasion_of[sowing],
                pitcher: self.row.pitcher.or(head.sitting.pitcher),
                pest: self.row.pest,
                value: 0.0,
            });
        }
    }

    /// Reads the cells of one plant in one sitting.
    fn take_row(&mut self, head: &SittingHead, cells: impl Iterator<Item = Reading>) {
        let row = &mut self.row;
        row.values.clear();
        (row.pest, row.pitcher, row.span_cm) = (false, None, None);
        let registry = self.registry;
        for cell in cells {
            let text = || head.text(registry.sources, &cell);
            match head.columns[usize::from(cell.column)] {
                Column::Trait { index, unit } => {
                    let is_span = self.span == Some(index);
                    if is_span || self.wanted.only.is_none_or(|only| only == index) {
                        let declared = &registry.settings.traits[usize::from(index)];
                        let value = value(declared, text(), unit);
                        row.values.push((index, value));
                        row.span_cm = value.ok().filter(|_| is_span).or(row.span_cm);
                    }
                }
                Column::Pest => row.pest |= !matches!(text().trim(), "" | "no" | "none" | "-"),
                Column::Pitcher => row.pitcher = pitcher_named(text()).or(row.pitcher),
                Column::Note | Column::Unknown => {}
            }
        }
    }

    /// Keeps the values of a row, or counts why they may not be compared.
    fn judge_row(&mut self, read: Read) {
        for &(index, value) in &self.row.values {
            if self.wanted.only.is_some_and(|only| only != index) {
                continue;
            }
            let declared = &self.registry.settings.traits[usize::from(index)];
            let of = &mut self.traits[usize::from(index)];
            let age = self.occasions[read.occasion as usize].age;
            let span_cm = self.row.span_cm.filter(|_| self.span != Some(index));
            match value {
                Err(NoValue::UnitUnknown) => of.left_out.unit_unknown += 1,
                Err(NoValue::NotAValue) => of.left_out.no_value += 1,
                Ok(_) if read.pest && !self.wanted.pests_too => of.left_out.pest += 1,
                Ok(_) if is_too_young(declared, age) => of.left_out.too_young += 1,
                Ok(_) if is_too_small(declared, span_cm) => of.left_out.too_small += 1,
                Ok(value) => of.push(Read { value, ..read }),
            }
        }
    }
}

fn is_too_young(declared: &Trait, age: Option<(f64, f64)>) -> bool {
    let surely_under = |from: f64| age.is_some_and(|(_, most)| most < from);
    declared.from_months.is_some_and(surely_under)
}

fn is_too_small(declared: &Trait, span_cm: Option<f64>) -> bool {
    let under = |least: f64| span_cm.is_some_and(|cm| cm < least);
    declared.from_span_cm.is_some_and(under)
}
