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
}

impl MeasuredRow {
    /// Whether it says anything that goes into the sitting.
    pub fn is_read(&self) -> bool {
        self.note.is_some() || self.cells.iter().any(|cell| !cell.is_empty())
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

    /// Writes the rows, and the deaths; the date as written, and the codes of those that died.
    fn write(&self, draft: &mut Draft) -> Result<(String, Vec<String>), Slip> {
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
        for (page, rows) in pages {
            self.page(draft, page, &rows, &on)?;
        }
        let place = self.circumstances.place.as_deref();
        let dead = rows.iter().filter(|(_, row)| row.dead);
        let dead = dead.map(|(named, _)| found_dead(registry, *named, place));
        let dead: Vec<PlantOrRamet> = dead.collect::<Result<_, Slip>>()?;
        let fate = RonRecord::new().text("on", &on.text).named("died");
        let fates = dead.iter();
        let fates = fates.map(|&of| (of.plant, ended(registry, of, &fate, &fate)));
        draft.change_plants(fates.collect())?;
        Ok((on.text, codes(registry, &dead)))
    }

    fn page(
        &self,
        draft: &mut Draft,
        page: Option<CrossRow>,
        rows: &[(PlantRow, &MeasuredRow)],
        on: &Dated,
    ) -> Result<(), Slip> {
        let registry = draft.registry;
        let given = (on, &self.circumstances);
        let there = sitting_of(registry, rows[0].0, &self.columns, given);
        let changes = match &there {
            Some(there) => self.further(registry, there, rows, on)?,
            None => Vec::new(),
        };
        let text = draft.plants_of(page)?;
        match there {
            Some(there) => text.change_at("sittings", there.place, &changes)?,
            None => text.append("sittings", &[self.sitting(registry, rows, on)])?,
        }
        Ok(())
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

    /// A row: the plant, then a cell for each column of the sitting; what was not asked about stays as it is there.
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
            let Some(at) = asked else {
                let kept = || there(*column).unwrap_or_default().to_owned();
                let note = row.note.clone().filter(|_| *column == Column::Note);
                return note.unwrap_or_else(kept);
            };
            let read = row.cells.get(at).map_or("", String::as_str);
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

/// Writes sittings, each of its own day, as one change.
///
/// # Errors
/// As [`Measure::record`].
pub fn record_all(sittings: &[Measure], draft: &mut Draft) -> Result<Recorded, Slip> {
    let (mut days, mut dead) = (Vec::new(), Vec::new());
    for sitting in sittings {
        let (on, died) = sitting.write(draft)?;
        days.push(on);
        dead.extend(died);
    }
    let rows = || sittings.iter().flat_map(|of| &of.rows);
    let code = |row: &MeasuredRow| row.plant.clone();
    let cells = rows().flat_map(|row| &row.cells);
    let what = What::Measured {
        plants: rows().filter(|row| row.is_read()).map(code).collect(),
        readings: cells.filter(|cell| !cell.is_empty()).count(),
        dead,
    };
    Ok(Recorded::of(
        what,
        rows().map(code).collect(),
        days.join(" and "),
    ))
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
