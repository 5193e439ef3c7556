//! The rows of a filled table: those that can be recorded, day by day, and those that cannot, each with its reason.

use super::headings::{Heading, Means, headings};
use crate::diagnostic::Finding;
use crate::observation::asked_columns::AskedColumn;
use crate::record::Day;
use crate::recording::dates::{Dated, dated};
use crate::recording::events::measure::{Measure, MeasuredRow, Seen};
use crate::recording::events::sitting_page::{Circumstances, OnPage, sitting_of};
use crate::recording::measuring::{cell, is_dead};
use crate::recording::plants::here;
use crate::recording::slip::Slip;
use crate::registry::{Column, CrossRow, PlantOrRamet, PlantRow, Registry};
use crate::text::GridRow;
use std::collections::{BTreeMap, BTreeSet};

/// What is wanted of a table.
pub struct Wanted<'a> {
    /// The cross that bare numbers belong to, when only one is asked for.
    pub cross: Option<&'a str>,
    /// The plants it may hold; none for any.
    pub plants: Option<&'a [PlantRow]>,
    /// The traits to take; empty for all.
    pub traits: &'a [AskedColumn],
    /// What holds for all rows.
    pub circumstances: &'a Circumstances,
    /// Whether a row may take the place of one that is there.
    pub again: bool,
    /// The day that counts as today.
    pub today: Day,
}

/// A table taken apart.
#[derive(Debug)]
pub struct Filled {
    /// What each column is.
    pub headings: Vec<Heading>,
    /// What can be recorded: one sitting for each day.
    pub sittings: Vec<Measure>,
    /// The rows and cells that do not fit, in the order of the table.
    pub bad: Vec<BadRow>,
    /// Rows of plants without any reading.
    pub not_read: usize,
}

/// A row that does not fit.
#[derive(Debug)]
pub struct BadRow {
    /// Its number in the table.
    pub line: usize,
    /// The plant as written.
    pub plant: String,
    /// The column, where it is one cell.
    pub column: Option<String>,
    /// Why.
    pub why: Why,
}

/// Why a row does not fit.
#[derive(Debug)]
pub enum Why {
    /// The cell is no reading.
    Cell(Box<Finding>),
    /// The plant or the date cannot be taken.
    Slip(Slip),
    /// The cell is a date, which a spreadsheet makes of `5-3`.
    MadeDate(String),
    /// Cells without a plant.
    NoPlant,
    /// The plant stands in the table twice.
    Twice,
    /// The plant is none of those asked for.
    NotAsked,
    /// The plant has a row in that sitting.
    HasRow,
}

/// Takes a table apart; its first row holds the headings.
///
/// # Errors
/// If its columns cannot be told apart, or it has no rows.
pub fn filled(registry: &Registry, grid: &[GridRow], wanted: &Wanted) -> Result<Filled, Slip> {
    let Some((head, rows)) = grid.split_first().filter(|(_, rows)| !rows.is_empty()) else {
        return Err(Slip::nothing(
            "the table has no rows under its headings\nfill in a row for each plant",
        ));
    };
    let headings = headings(registry, head, rows, wanted.traits)?;
    let mut taking = Taking {
        registry,
        wanted,
        columns: asked(&headings),
        headings: &headings,
        sittings: Vec::new(),
        seen: BTreeSet::new(),
        there: BTreeMap::new(),
        bad: Vec::new(),
        not_read: 0,
    };
    rows.iter().for_each(|row| taking.row(row));
    let Taking {
        sittings,
        bad,
        not_read,
        ..
    } = taking;
    Ok(Filled {
        headings,
        sittings: sittings.into_iter().map(|(_, sitting)| sitting).collect(),
        bad,
        not_read,
    })
}

/// The columns to be written; remarks are kept apart, so that they make a column only where there are some.
fn asked(headings: &[Heading]) -> Vec<AskedColumn> {
    let columns = headings.iter().filter_map(|heading| match &heading.means {
        Means::Asked(asked) if asked.column != Column::Note => Some(asked.clone()),
        _ => None,
    });
    columns.collect()
}

/// The page of a cross, or that of the founders, and a day as typed.
type PageAndDay = (Option<CrossRow>, String);
/// A sitting and the plants with a row in it.
type WithPlants = (OnPage, BTreeSet<PlantRow>);

struct Taking<'a, 't> {
    registry: &'a Registry<'t>,
    wanted: &'a Wanted<'a>,
    headings: &'a [Heading],
    columns: Vec<AskedColumn>,
    sittings: Vec<(Dated, Measure)>,
    seen: BTreeSet<(PlantRow, Day)>,
    /// The sitting that goes on and the plants with a row in it, by page and day: to find it takes the whole page.
    there: BTreeMap<PageAndDay, Option<WithPlants>>,
    bad: Vec<BadRow>,
    not_read: usize,
}

impl Taking<'_, '_> {
    fn row(&mut self, row: &GridRow) {
        let plant = self.under(row, &Means::Plant).unwrap_or("").to_owned();
        let before = self.bad.len();
        let (read, dead) = self.cells(row, &plant);
        let note = self.note(row);
        if read.iter().all(String::is_empty) && note.is_none() && !dead && self.bad.len() == before
        {
            self.not_read += 1;
            return;
        }
        let (found, on) = match self.who_and_when(row, &plant) {
            Ok(known) => known,
            Err(why) => return self.refuse(row, &plant, None, why),
        };
        if self.bad.len() > before {
            return;
        }
        let measured = MeasuredRow {
            plant: self.registry.code_of(found),
            seen: self.seen((found.plant, &on), &read),
            cells: read,
            note,
            dead,
        };
        self.sitting(on).rows.push(measured);
    }

    /// The cells of what was read, and whether one says that the plant is dead.
    fn cells(&mut self, row: &GridRow, plant: &str) -> (Vec<String>, bool) {
        let (mut read, mut dead) = (Vec::new(), false);
        for (at, heading) in self.headings.iter().enumerate() {
            let Means::Asked(asked) = &heading.means else {
                continue;
            };
            if asked.column == Column::Note {
                continue;
            }
            let typed = row.cells.get(at).map_or("", String::as_str);
            if typed.is_empty() || is_dead(typed) {
                dead |= is_dead(typed);
                read.push(String::new());
                continue;
            }
            let why = match cell(self.registry, asked, typed) {
                Ok((written, _)) => {
                    read.push(written);
                    continue;
                }
                Err(_) if is_date(typed) => Why::MadeDate(typed.to_owned()),
                Err(finding) => Why::Cell(finding),
            };
            read.push(String::new());
            self.refuse(row, plant, Some(heading.words.clone()), why);
        }
        (read, dead)
    }

    fn note(&self, row: &GridRow) -> Option<String> {
        let is_note = |heading: &Heading| matches!(&heading.means, Means::Asked(of) if of.column == Column::Note);
        let at = self.headings.iter().position(is_note)?;
        row.cells.get(at).filter(|note| !note.is_empty()).cloned()
    }

    fn who_and_when(&mut self, row: &GridRow, plant: &str) -> Result<(PlantOrRamet, Dated), Why> {
        let registry = self.registry;
        let found = self.plant(plant)?;
        let typed = self
            .under(row, &Means::Date)
            .filter(|date| !date.is_empty());
        let given = self.wanted.circumstances.on.as_deref();
        let on =
            dated(registry, "the date", typed.or(given), self.wanted.today).map_err(Why::Slip)?;
        here(registry, found, on.when.first).map_err(Why::Slip)?;
        if !self.seen.insert((found.plant, on.when.first)) {
            return Err(Why::Twice);
        }
        match !self.wanted.again && self.there(found.plant, &on).is_some() {
            true => Err(Why::HasRow),
            false => Ok((found, on)),
        }
    }

    /// The sitting of a day that goes on, if a plant has a row in it.
    fn there(&mut self, plant: PlantRow, on: &Dated) -> Option<&OnPage> {
        let (registry, given) = (self.registry, (on, self.wanted.circumstances));
        let of_page = || {
            let there = sitting_of(registry, plant, &self.columns, given)?;
            let plants = there.plants.iter().copied().collect();
            Some((there, plants))
        };
        let page = (registry.cross_of(plant), on.text.clone());
        let there = self.there.entry(page).or_insert_with(of_page).as_ref();
        let there = there.filter(|(_, plants): &&WithPlants| plants.contains(&plant));
        there.map(|(there, _)| there)
    }

    /// What stood in the row that a row of the table takes the place of; a blank cell of the table touches nothing.
    fn seen(&mut self, (plant, on): (PlantRow, &Dated), read: &[String]) -> Seen {
        let (registry, columns) = (self.registry, self.columns.clone());
        let Some(there) = self.there(plant, on) else {
            return Seen::default();
        };
        let of_sitting = |column| there.cell(registry, plant, column).unwrap_or_default();
        let cells = read
            .iter()
            .zip(&columns)
            .map(|(read, asked)| match read.is_empty() {
                true => String::new(),
                false => of_sitting(asked.column).to_owned(),
            });
        let note = of_sitting(Column::Note);
        Seen {
            cells: cells.collect(),
            note: (!note.is_empty()).then(|| note.to_owned()),
        }
    }

    /// The plant or piece meant: a code, or a number of the one cross asked for.
    fn plant(&self, plant: &str) -> Result<PlantOrRamet, Why> {
        if plant.is_empty() {
            return Err(Why::NoPlant);
        }
        let of_cross = || {
            let cross = self.wanted.cross?;
            self.named(&format!("{cross}-{plant}"))
        };
        let found = of_cross().or_else(|| self.named(plant));
        let found = found.ok_or_else(|| {
            let near = self.registry.near(plant);
            Why::Slip(Slip::unknown(self.registry, "plant", plant, near))
        })?;
        if self
            .wanted
            .plants
            .is_none_or(|asked| asked.contains(&found.plant))
        {
            return Ok(found);
        }
        // What became of it says more than that it was not asked for.
        here(self.registry, found, self.wanted.today).map_err(Why::Slip)?;
        Err(Why::NotAsked)
    }

    fn named(&self, code: &str) -> Option<PlantOrRamet> {
        self.registry.target(code)?.plant_or_ramet()
    }

    /// The sitting of a day.
    fn sitting(&mut self, on: Dated) -> &mut Measure {
        let there = self.sittings.iter().position(|(day, _)| *day == on);
        let at = there.unwrap_or_else(|| {
            let circumstances = Circumstances {
                on: Some(on.text.clone()),
                ..self.wanted.circumstances.clone()
            };
            let sitting = Measure {
                circumstances,
                columns: self.columns.clone(),
                rows: Vec::new(),
                again: self.wanted.again,
            };
            self.sittings.push((on, sitting));
            self.sittings.len() - 1
        });
        &mut self.sittings[at].1
    }

    fn under<'r>(&self, row: &'r GridRow, means: &Means) -> Option<&'r str> {
        let at = self.headings.iter().position(|of| of.means == *means)?;
        row.cells.get(at).map(String::as_str)
    }

    fn refuse(&mut self, row: &GridRow, plant: &str, column: Option<String>, why: Why) {
        self.bad.push(BadRow {
            line: row.line,
            plant: plant.to_owned(),
            column,
            why,
        });
    }
}

/// `2024-05-03`, as spreadsheets hand on a date.
fn is_date(typed: &str) -> bool {
    let mut parts = typed.split('-').map(|part| {
        let digits = part.bytes().all(|byte| byte.is_ascii_digit());
        digits.then_some(part.len())
    });
    [Some(4), Some(2), Some(2), None] == std::array::from_fn(|_| parts.next().flatten())
}
