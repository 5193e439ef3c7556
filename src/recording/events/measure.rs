//! Readings of many plants on one day: each plant gets a row in the sitting of its own page.

use super::sitting_page::{Circumstances, OnPage, first_cell, sitting_of};
use crate::observation::asked_columns::AskedColumn;
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::ending::{ended, one_ending};
use crate::recording::page::FieldChange;
use crate::recording::plants::{codes, here, single};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::Words;
use crate::recording::written::{RonRecord, lines, texts};
use crate::registry::{Column, CrossRow, PlantOrRamet, PlantRow, Registry};
use std::collections::BTreeMap;

/// Readings to be recorded.
#[derive(Clone, Debug, Default)]
pub struct Measure {
    /// What holds for all rows.
    pub circumstances: Circumstances,
    /// What was read.
    pub columns: Vec<AskedColumn>,
    /// The rows, in their order.
    pub rows: Vec<MeasuredRow>,
    /// Whether a row may take the place of one that is there.
    pub again: bool,
}

/// What was read on one plant.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct MeasuredRow {
    /// The plant's code.
    pub plant: String,
    /// A cell for each column; empty for what was not read.
    pub cells: Vec<String>,
    /// A remark.
    pub note: Option<String>,
    /// Whether it was found dead.
    pub dead: bool,
    /// What stood on record when it was read: a cell that is still the same was not touched.
    pub seen: Seen,
}

/// What a row was on record when it was shown, or read again from there.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Seen {
    /// A cell for each column; those that are missing were blank.
    pub cells: Vec<String>,
    /// The remark.
    pub note: Option<String>,
}

impl MeasuredRow {
    /// Whether it says anything that goes into the sitting.
    pub fn is_read(&self) -> bool {
        self.note.is_some() || self.cells.iter().any(|cell| !cell.is_empty())
    }

    /// Whether it says what was seen, and nothing else.
    pub fn is_untouched(&self) -> bool {
        !self.dead
            && self.note == self.seen.note
            && (0..self.cells.len()).all(|at| !self.touches(at))
    }

    fn touches(&self, at: usize) -> bool {
        self.read(at) != self.seen.cell(at)
    }

    fn read(&self, at: usize) -> &str {
        self.cells.get(at).map_or("", String::as_str)
    }

    /// Whether a cell that was touched holds another reading now, which was recorded since it was seen.
    fn is_overtaken(&self, at: usize, now: &str) -> bool {
        let is_new = !now.is_empty() && now != self.read(at);
        is_new && self.touches(at) && self.seen.is_changed(at, now)
    }

    /// What is written over a cell that holds this now: what was not touched stays, and so does what was recorded since.
    fn over<'c>(&'c self, at: usize, now: &'c str) -> &'c str {
        match self.touches(at) && !self.is_overtaken(at, now) {
            true => self.read(at),
            false => now,
        }
    }

    /// The same of a remark; one that was added to goes behind what stands there now.
    fn note_over(&self, now: &str) -> String {
        let before = self.seen.note.as_deref().unwrap_or_default();
        let Some(note) = self.note.as_deref().filter(|note| *note != before) else {
            return now.to_owned();
        };
        match now.is_empty() || now == before {
            true => note.to_owned(),
            false => {
                let added = note.strip_prefix(before).unwrap_or(note);
                format!("{now}; {}", added.trim_start_matches("; "))
            }
        }
    }
}

impl Seen {
    fn cell(&self, at: usize) -> &str {
        self.cells.get(at).map_or("", String::as_str)
    }

    /// Whether a cell holds another reading now, however that is spelt.
    pub fn is_changed(&self, at: usize, now: &str) -> bool {
        let number = |cell: &str| cell.trim().parse::<f64>().ok();
        let seen = self.cell(at);
        let is_same =
            seen.trim() == now.trim() || number(seen).is_some_and(|of| number(now) == Some(of));
        !is_same
    }
}

impl Measure {
    /// Writes the rows, and the deaths.
    ///
    /// # Errors
    /// If a plant is unknown or gone, or has a row in the sitting already.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        record_all(std::slice::from_ref(self), draft)
    }

    /// Writes the rows, and the deaths; the date as written, the codes of those that died, and what was kept.
    fn write(&self, draft: &mut Draft) -> Result<Wrote, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.circumstances.on)?;
        let rows = self.rows.iter().map(|row| {
            let named = single(registry, &row.plant)?;
            here(registry, named, on.when.first)?;
            Ok((named, row))
        });
        let rows: Vec<(PlantOrRamet, &MeasuredRow)> = rows.collect::<Result<_, Slip>>()?;
        let mut pages: BTreeMap<Option<CrossRow>, Vec<(PlantRow, &MeasuredRow)>> = BTreeMap::new();
        for (named, row) in rows.iter().filter(|(_, row)| row.is_read()) {
            let of_page = pages.entry(registry.cross_of(named.plant)).or_default();
            of_page.push((named.plant, row));
        }
        let mut kept = Vec::new();
        for (page, rows) in pages {
            kept.extend(self.page(draft, page, &rows, &on)?);
        }
        let place = self.circumstances.place.as_deref();
        let dead = rows.iter().filter(|(_, row)| row.dead);
        let dead = dead.map(|(named, _)| found_dead(registry, *named, place));
        let dead: Vec<PlantOrRamet> = dead.collect::<Result<_, Slip>>()?;
        let fate = RonRecord::new().text("on", &on.text).named("died");
        let fates = dead.iter();
        let fates = fates.map(|&of| Ok((of.plant, ended(draft, of, &fate, &fate)?)));
        let fates = fates.collect::<Result<_, Slip>>()?;
        draft.change_plants(fates)?;
        Ok(Wrote {
            on: on.text,
            dead: codes(registry, &dead),
            kept,
        })
    }

    fn page(
        &self,
        draft: &mut Draft,
        page: Option<CrossRow>,
        rows: &[(PlantRow, &MeasuredRow)],
        on: &Dated,
    ) -> Result<Vec<String>, Slip> {
        let registry = draft.registry;
        let given = (on, &self.circumstances);
        let there = sitting_of(registry, rows[0].0, &self.columns, given);
        let kept = rows
            .iter()
            .flat_map(|row| self.kept(registry, there.as_ref(), *row, on))
            .collect();
        let changes = match &there {
            Some(there) => self.further(registry, there, rows, on)?,
            None => Vec::new(),
        };
        let text = draft.plants_of(page)?;
        match there {
            Some(there) => text.change_at("sittings", there.place, &changes)?,
            None => text.append("sittings", &[self.sitting(registry, rows, on)])?,
        }
        Ok(kept)
    }

    /// What was recorded of a row since it was seen and differs from what was read now: it is kept, and both are said.
    fn kept(
        &self,
        registry: &Registry,
        there: Option<&OnPage>,
        (plant, row): (PlantRow, &MeasuredRow),
        on: &Dated,
    ) -> Vec<String> {
        let columns = self.columns.iter().enumerate();
        let kept = columns.filter_map(|(at, asked)| {
            let now = there.and_then(|there| there.cell(registry, plant, asked.column));
            let (now, read) = (now.unwrap_or_default(), row.read(at));
            let yours = match read {
                "" => "took it away".to_owned(),
                read => format!("read {read}"),
            };
            let (plant, heading, on) = (registry.code(plant), &asked.heading, &on.text);
            let column = heading.split(' ').next().unwrap_or(heading);
            row.is_overtaken(at, now).then(|| {
                format!(
                    "{plant}, {heading}: {now} was recorded meanwhile and is kept; you {yours}. If yours is right: podbook correct {plant} {column} \"{read}\" --on \"{on}\""
                )
            })
        });
        kept.collect()
    }

    /// A new sitting, one row a line.
    fn sitting(
        &self,
        registry: &Registry,
        rows: &[(PlantRow, &MeasuredRow)],
        on: &Dated,
    ) -> String {
        let mut columns: Vec<Column> = self.columns.iter().map(|asked| asked.column).collect();
        let mut headings: Vec<&str> = self
            .columns
            .iter()
            .map(|asked| asked.heading.as_str())
            .collect();
        if rows.iter().any(|(_, row)| row.note.is_some()) && !columns.contains(&Column::Note) {
            columns.push(Column::Note);
            headings.push("note");
        }
        let rows = rows
            .iter()
            .map(|of| self.line(registry, *of, &columns, |_| None));
        let given = &self.circumstances;
        RonRecord::new()
            .text("on", &on.text)
            .text_if("place", given.place.as_ref().map(|place| place.trim()))
            .text_if("method", given.method.as_ref().map(|method| method.trim()))
            .text_if("by", given.by.as_ref().map(|by| by.trim()))
            .value_if("pitcher", given.pitcher)
            .text_if("light", given.light.as_ref().map(|light| light.trim()))
            .value("columns", texts(headings))
            .value("rows", lines(&rows.collect::<Vec<_>>()))
            .line()
    }

    /// What changes on a sitting that is there: new rows behind the last, rows read again in place of their own.
    fn further(
        &self,
        registry: &Registry,
        there: &OnPage,
        rows: &[(PlantRow, &MeasuredRow)],
        on: &Dated,
    ) -> Result<Vec<FieldChange>, Slip> {
        let mut columns = there.columns.clone();
        let mut changes = Vec::new();
        if rows.iter().any(|(_, row)| row.note.is_some()) && !columns.contains(&Column::Note) {
            columns.push(Column::Note);
            changes.push(FieldChange::Push("columns", "\"note\"".to_owned()));
            changes.push(FieldChange::PushEach("rows", "\"\"".to_owned()));
        }
        let is_there = |(plant, _): &(PlantRow, &MeasuredRow)| there.plants.contains(plant);
        let (again, new): (Vec<_>, Vec<_>) = rows.iter().copied().partition(is_there);
        if let (Some((_, row)), false) = (again.first(), self.again) {
            return Err(Slip::contradicts(
                format!("{} is to be read on {}", row.plant, on.text),
                "it has a row in that sitting",
                "add --again to put the new row in its place",
            ));
        }
        let anew = again.into_iter().map(|(plant, row)| {
            let there = |column| there.cell(registry, plant, column);
            let line = self.line(registry, (plant, row), &columns, there);
            (first_cell(registry, plant), line)
        });
        let anew: Vec<(String, String)> = anew.collect();
        if !anew.is_empty() {
            changes.push(FieldChange::Rows("rows", anew));
        }
        let mut new = new
            .iter()
            .map(|of| self.line(registry, *of, &columns, |_| None));
        changes.extend(new.next().map(|line| FieldChange::Push("rows", line)));
        let more: Vec<String> = new.collect();
        if !more.is_empty() {
            changes.push(FieldChange::PushMore("rows", more));
        }
        Ok(changes)
    }

    /// A row: the plant, then a cell for each column of the sitting; what was not asked about, or not touched, stays as it is
    /// there.
    fn line<'r>(
        &self,
        registry: &'r Registry,
        (plant, row): (PlantRow, &MeasuredRow),
        columns: &[Column],
        there: impl Fn(Column) -> Option<&'r str>,
    ) -> String {
        let cell = |column: &Column| {
            let asked = self
                .columns
                .iter()
                .position(|asked| asked.column == *column);
            let now = there(*column).unwrap_or_default();
            let Some(at) = asked else {
                return match column {
                    Column::Note => row.note_over(now),
                    _ => now.to_owned(),
                };
            };
            let read = row.over(at, now);
            match (column, &row.note) {
                (Column::Note, Some(note)) if read.is_empty() => note.clone(),
                (Column::Note, Some(note)) => format!("{read}; {note}"),
                _ => read.to_owned(),
            }
        };
        let first = first_cell(registry, plant);
        texts(std::iter::once(first).chain(columns.iter().map(cell)))
    }
}

/// What a sitting wrote.
struct Wrote {
    /// Its day, as written.
    on: String,
    /// The codes of those that died.
    dead: Vec<String>,
    /// What was kept that had changed meanwhile, in words.
    kept: Vec<String>,
}

/// Writes sittings, each of its own day, as one change.
///
/// # Errors
/// As [`Measure::record`].
pub fn record_all(sittings: &[Measure], draft: &mut Draft) -> Result<Recorded, Slip> {
    let (mut days, mut dead, mut kept) = (Vec::new(), Vec::new(), Vec::new());
    for sitting in sittings {
        let wrote = sitting.write(draft)?;
        days.push(wrote.on);
        dead.extend(wrote.dead);
        kept.extend(wrote.kept);
    }
    let rows = || sittings.iter().flat_map(|of| &of.rows);
    let code = |row: &MeasuredRow| row.plant.clone();
    let cells = rows().flat_map(|row| &row.cells);
    let what = What::Measured {
        plants: rows().filter(|row| row.is_read()).map(code).collect(),
        readings: cells.filter(|cell| !cell.is_empty()).count(),
        dead,
    };
    let about = rows().map(code).collect();
    Ok(Recorded::of(what, about, days.join(" and ")).remarks(kept))
}

/// What is dead where a plant was found so: a piece of it, or the whole plant when no other piece is left.
///
/// # Errors
/// If the code and the place leave more than one piece open.
pub fn found_dead(
    registry: &Registry,
    of: PlantOrRamet,
    place: Option<&str>,
) -> Result<PlantOrRamet, Slip> {
    let help = Words::or(
        "name the dead one: podbook gone PIECE --died, or --all-pieces if all of them died",
        "record the dead one under “Gone” on the page of the plant",
    );
    one_ending(registry, of, place, help)
}
