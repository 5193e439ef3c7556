//! One walk over the sittings of some plants: every cell read once, judged, and put to its trait.
//!
//! A sitting's rows stand one after another in its file, so they are walked in that order, not plant by plant. What
//! many rows have in common is worked out once: the day of a sitting, the age of a sowing on that day, what a column
//! means.

use crate::observation::months::months;
use crate::observation::series::asked::{Asked, NOBODY};
use crate::observation::series::readings::{Occasion, Page, Read, TraitReadings, Tray};
use crate::observation::{
    Misread, is_doubtful, is_too_small, is_too_young, pitcher_named, says_pest, span_trait, value,
};
use crate::record::{LengthUnit, PitcherType, Trait, When};
use crate::registry::{Column, Registry, SittingHead, SittingRow, TraitRow};
use rayon::prelude::*;
use std::sync::Arc;

/// What is wanted of a walk.
#[derive(Clone)]
pub(crate) struct Wanted {
    /// For each declared trait whether its readings are wanted.
    pub traits: Vec<bool>,
    /// Whether readings flagged for pests are kept, each marked so.
    pub pests_too: bool,
}

/// Readings of every declared trait, each list by day and then as on the page; empty for one not wanted.
pub(crate) fn walk(registry: &Registry, asked: Asked, wanted: &Wanted) -> Vec<TraitReadings> {
    let by_day = asked.sittings_by_day(registry);
    let walked: Vec<Walked> = by_day
        .into_par_iter()
        .map(|(at, when)| Walked::of(registry, &asked, wanted, (at, when)))
        .collect();
    let mut occasions: Vec<Occasion> = Vec::new();
    let mut pages: Vec<Vec<(u32, Page)>> = vec![Vec::new(); wanted.traits.len()];
    for sitting in walked {
        let first = occasions.len() as u32;
        occasions.extend(sitting.occasions);
        for (of, page) in pages.iter_mut().zip(sitting.pages) {
            of.push((first, page));
        }
    }
    let tray = Arc::new(Tray::new(asked.plants, occasions));
    let readings = pages.into_iter().zip(registry.trait_rows());
    readings
        .map(|(pages, index)| {
            let has_mean = registry[index].reads.has_mean();
            TraitReadings::of(pages, has_mean, Arc::clone(&tray))
        })
        .collect()
}

/// What one sitting says of the plants asked for.
struct Walked {
    occasions: Vec<Occasion>,
    /// For each declared trait.
    pages: Vec<Page>,
}

impl Walked {
    fn of(
        registry: &Registry,
        asked: &Asked,
        wanted: &Wanted,
        (at, when): (SittingRow, When),
    ) -> Walked {
        let head = &registry[at];
        let mut columns = Columns::of(registry, head, wanted);
        columns.rows = columns.rows.min(asked.plants.len());
        let mut walked = Walked {
            occasions: Vec::new(),
            pages: vec![Page::default(); wanted.traits.len()],
        };
        // The occasion of each sowing in this sitting, once one of its plants was met.
        let mut occasion_of = vec![NOBODY; asked.sowings.len()];
        for (row, plant) in head.row_plants().enumerate() {
            let Some(place) = asked.place(plant) else {
                continue;
            };
            let sowing = asked.sowing_of[place as usize] as usize;
            if occasion_of[sowing] == NOBODY {
                occasion_of[sowing] = walked.occasions.len() as u32;
                walked.occasions.push(Occasion {
                    sitting: at,
                    when,
                    of: asked.sowings[sowing].of,
                    age: months(asked.sowings[sowing].on, when),
                });
            }
            let marks = columns.marks(row);
            let read = Read {
                plant: place,
                pitcher: marks.pitcher.or(head.sitting.pitcher),
                pest: marks.pest,
                doubtful: false,
                value: 0.0,
            };
            walked.judge(&columns, row, (occasion_of[sowing], read), marks.span_cm);
        }
        walked
    }

    /// Keeps the values of a row, or counts why they may not be compared.
    fn judge(
        &mut self,
        columns: &Columns,
        row: usize,
        (occasion, read): (u32, Read),
        span_cm: Option<f64>,
    ) {
        let age = self.occasions[occasion as usize].age;
        for cell in columns.head.row(row) {
            let Meaning::Value(of) = &columns.meanings[usize::from(cell.column)] else {
                continue;
            };
            if !of.is_wanted {
                continue;
            }
            let page = &mut self.pages[of.index.index()];
            let span_cm = span_cm.filter(|_| !of.is_span);
            match of.value(columns.head.text(columns.registry.sources, &cell)) {
                Err(Misread::UnitUnknown) => page.left_out_on(occasion).unit_unknown += 1,
                Err(_) => page.left_out_on(occasion).no_value += 1,
                Ok(_) if read.pest && !columns.pests_too => page.left_out_on(occasion).pest += 1,
                Ok(_) if is_too_young(of.declared, age) => {
                    page.left_out_on(occasion).too_young += 1
                }
                Ok(_) if is_too_small(of.declared, span_cm) => {
                    page.left_out_on(occasion).too_small += 1
                }
                Ok(value) => {
                    let doubtful = is_doubtful(of.declared, span_cm);
                    let read = Read {
                        value,
                        doubtful,
                        ..read
                    };
                    page.push(occasion, read, columns.rows)
                }
            }
        }
    }
}

/// What the columns of a sitting mean for a walk.
struct Columns<'a, 't> {
    registry: &'a Registry<'t>,
    head: &'a SittingHead<'t>,
    rows: usize,
    meanings: Vec<Meaning<'a>>,
    /// Whether a row says more than values: pests, its pitcher, or a size that other traits depend on.
    has_marks: bool,
    pests_too: bool,
}

enum Meaning<'a> {
    Value(Measured<'a>),
    Pest,
    Pitcher,
    Other,
}

/// A column of a declared trait.
struct Measured<'a> {
    index: TraitRow,
    declared: &'a Trait<'a>,
    unit: Option<LengthUnit>,
    is_span: bool,
    is_wanted: bool,
}

impl Measured<'_> {
    fn depends_on_span(&self) -> bool {
        let declared = self.declared;
        declared.from_span_cm.is_some() || declared.doubtful_under_span_cm.is_some()
    }

    fn value(&self, cell: &str) -> Result<f64, Misread> {
        value(self.declared, cell, self.unit)
    }
}

/// What a row says beside its values.
#[derive(Default)]
struct Marks {
    pest: bool,
    pitcher: Option<PitcherType>,
    span_cm: Option<f64>,
}

impl<'a, 't> Columns<'a, 't> {
    fn of(
        registry: &'a Registry<'t>,
        head: &'a SittingHead<'t>,
        wanted: &Wanted,
    ) -> Columns<'a, 't> {
        let span = span_trait(registry);
        let meaning = |column: &Column| match *column {
            Column::Trait { index, unit } => Meaning::Value(Measured {
                index,
                declared: &registry[index],
                unit,
                is_span: span == Some(index),
                is_wanted: wanted.traits[index.index()],
            }),
            Column::Pest => Meaning::Pest,
            Column::Pitcher => Meaning::Pitcher,
            Column::Note | Column::Unknown => Meaning::Other,
        };
        let meanings: Vec<Meaning> = head.columns.iter().map(meaning).collect();
        let marks = |meaning: &Meaning| match meaning {
            Meaning::Value(of) => of.is_wanted && of.depends_on_span(),
            Meaning::Pest | Meaning::Pitcher => true,
            Meaning::Other => false,
        };
        Columns {
            registry,
            head,
            rows: head.row_plants().len(),
            has_marks: meanings.iter().any(marks),
            meanings,
            pests_too: wanted.pests_too,
        }
    }

    fn marks(&self, row: usize) -> Marks {
        let mut marks = Marks::default();
        if !self.has_marks {
            return marks;
        }
        for cell in self.head.row(row) {
            let text = || self.head.text(self.registry.sources, &cell);
            match &self.meanings[usize::from(cell.column)] {
                Meaning::Value(of) if of.is_span => {
                    marks.span_cm = of.value(text()).ok().or(marks.span_cm);
                }
                Meaning::Pest => marks.pest |= says_pest(text()),
                Meaning::Pitcher => marks.pitcher = pitcher_named(text()).or(marks.pitcher),
                Meaning::Value(_) | Meaning::Other => {}
            }
        }
        marks
    }
}
