//! Which cells of podbook's own sheet are not what the record says, and what puts the record right.
//!
//! A sheet that is older than the record is no correction: a reading that is on record under its day differs in nothing,
//! however many were made since. Nothing is said of columns that podbook works out.

use super::answer::{ColumnTaken, Doubt, ImportTable, Why};
use super::corrected_by;
use super::cross_cells::page_of_cross;
use super::dates::{DateRead, date};
use super::looks::plain;
use super::own_sheet::{AS_WRITTEN, READ_ON};
use super::word_lists::is_in;
use crate::observation::last_reading::{LastReading, readings_of};
use crate::observation::plant_cells::{CELLS, day_cell, plant_cells};
use crate::observation::trait_unit::TraitUnit;
use crate::observation::value;
use crate::record::{Choose, Day, RowClass, When};
use crate::registry::{PlantRow, Registry, TraitRow};
use crate::text::GridRow;

/// A plant on record, and the row of the sheet that is held against it.
pub(super) struct Held<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub today: Day,
    pub table: &'a ImportTable,
    pub row: &'a GridRow,
    pub plant: PlantRow,
}

/// The three columns of a trait in the sheet.
struct Of<'a> {
    unit: TraitUnit,
    of: TraitRow,
    value: Option<&'a ColumnTaken>,
    written: &'a ColumnTaken,
    read_on: Option<&'a ColumnTaken>,
}

impl Held<'_, '_> {
    /// A doubt for each cell that differs.
    pub fn differences(&self) -> Vec<Doubt> {
        let mut doubts = Vec::new();
        for (column, recorded) in self.own_cells() {
            let cell = self.cell(column);
            if !self.is_same(column, recorded.as_deref()) {
                let by = self.by(&column.heading, cell, recorded.as_deref());
                doubts.push(self.doubt(column, recorded, by));
            }
        }
        let written = self.table.columns.iter().filter_map(|of| self.of(of));
        doubts.extend(written.flat_map(|of| self.reading(&of)));
        doubts
    }

    /// How many of some cells say what is recorded, and how many something else; cells of which neither says anything do
    /// not count.
    pub fn agreement(&self, headings: &str) -> (usize, usize) {
        let mut cells = self.own_cells();
        cells.retain(|(column, recorded)| {
            let says = !self.cell(column).is_empty() || recorded.is_some();
            says && is_in(headings, &column.heading)
        });
        let is_same = |(column, recorded): &&(&ColumnTaken, Option<String>)| {
            self.is_same(column, recorded.as_deref())
        };
        let same = cells.iter().filter(is_same).count();
        (same, cells.len() - same)
    }

    /// The columns that every such sheet has, with what the record has for each.
    fn own_cells(&self) -> Vec<(&ColumnTaken, Option<String>)> {
        let recorded = plant_cells(self.registry, self.plant, self.today);
        let columns = CELLS.iter().map(|heading| self.table.headed(heading));
        let cells = columns.zip(recorded);
        cells
            .filter_map(|(column, recorded)| Some((column?, recorded)))
            .collect()
    }

    fn cell(&self, column: &ColumnTaken) -> &str {
        column.cell(self.row)
    }

    fn doubt(&self, column: &ColumnTaken, recorded: Option<String>, by: String) -> Doubt {
        Doubt {
            class: RowClass::Differs,
            column: column.heading.clone(),
            found: plain(self.cell(column)),
            why: Why::Differs { recorded, by },
            chosen: Choose::LeaveOut,
        }
    }

    /// Whether a cell says what is recorded; a spreadsheet may have written its date another way.
    fn is_same(&self, column: &ColumnTaken, recorded: Option<&str>) -> bool {
        let (cell, recorded) = (self.cell(column), recorded.unwrap_or_default());
        let is_date = ["sown", "arrived"].contains(&column.heading.as_str());
        plain(cell) == plain(recorded) || is_date && self.is_day(cell, recorded)
    }

    /// Whether a cell can be read as a recorded date.
    fn is_day(&self, cell: &str, recorded: &str) -> bool {
        let hemisphere = self.registry.settings.hemisphere;
        let Ok(recorded) = When::read(recorded, hemisphere) else {
            return false;
        };
        match date(cell, hemisphere, self.today) {
            DateRead::Known(on) | DateRead::Counted(on) => {
                When::read(&on, hemisphere) == Ok(recorded)
            }
            DateRead::SeveralDays(days) => {
                days.each().into_iter().any(|on| When::on(on) == recorded)
            }
            _ => false,
        }
    }

    /// What puts the record right. What a command adds to is said only where it does not leave the old record beside it.
    fn by(&self, heading: &str, cell: &str, recorded: Option<&str>) -> String {
        let plant = &self.registry.code(self.plant);
        match heading {
            "sex" if recorded == Some("unsexed") => corrected_by::flower(plant),
            "status" if self.registry.fate(self.plant).is_none() => {
                format!("podbook gone {plant} …")
            }
            "kept" if cell.is_empty() => format!("podbook keep {plant} --no-longer"),
            "kept" => format!("podbook keep {plant} --why …"),
            "place" if !cell.is_empty() => corrected_by::moving(plant),
            "pot" if recorded.is_none() => corrected_by::pot(plant),
            "received as" if self.registry.founder(self.plant).is_some() && !cell.is_empty() => {
                corrected_by::name(plant)
            }
            _ => self.page(),
        }
    }

    fn page(&self) -> String {
        corrected_by::page(&page_of(self.registry, self.plant))
    }

    /// The columns of a trait, by that of its cells as they were written.
    fn of<'c>(&'c self, written: &'c ColumnTaken) -> Option<Of<'c>> {
        let of = written.of_trait?;
        let name = written.heading.strip_suffix(AS_WRITTEN)?;
        Some(Of {
            unit: TraitUnit::shown_in(self.registry, of),
            of,
            value: self.table.column(|of| of.at + 1 == written.at),
            written,
            read_on: self.table.headed(&format!("{name}{READ_ON}")),
        })
    }

    /// What differs of a reading: from the one of its day, else from the last.
    fn reading(&self, of: &Of) -> Vec<Doubt> {
        let all = readings_of(self.registry, self.plant, of.of);
        let differs = |reading: &LastReading| self.differs(of, Some(reading));
        if all.iter().any(|reading| differs(reading).is_empty()) {
            return Vec::new();
        }
        let on_day = |reading: &&LastReading| {
            of.read_on
                .is_none_or(|column| self.is_on(self.cell(column), Some(reading)))
        };
        let last = || all.iter().max_by_key(|of| (of.when.last, of.when.first));
        let held = all.iter().rfind(on_day).or_else(last);
        self.differs(of, held)
    }

    fn is_on(&self, cell: &str, reading: Option<&LastReading>) -> bool {
        let on = reading.and_then(|reading| day_cell(reading.when));
        let on = on.unwrap_or_default();
        plain(cell) == on || self.is_day(cell, &on)
    }

    fn differs(&self, of: &Of, reading: Option<&LastReading>) -> Vec<Doubt> {
        let value = reading.and_then(|of| of.value);
        let shown = value.map(|value| of.unit.words(of.unit.shown(value)));
        let mut doubts = Vec::new();
        if let Some(column) = of.value
            && !self.is_value(of, self.cell(column), value)
        {
            let unit = if of.unit.is_measure() {
                of.unit.unit
            } else {
                ""
            };
            let typed = format!("{} {unit}", self.cell(column));
            doubts.push(self.doubt(column, shown, self.corrected(of, &typed, reading)));
        }
        let written = self.cell(of.written);
        // Sheets that were written before have a bare number without the unit of its heading.
        let recorded = reading.map(LastReading::with_unit);
        let typed = reading.map(|of| of.typed.clone());
        let is_same =
            |cell: &Option<String>| plain(written) == plain(cell.as_deref().unwrap_or_default());
        if ![&recorded, &typed].into_iter().any(is_same) && !self.is_equal(of, written, value) {
            let by = self.corrected(of, written, reading);
            doubts.push(self.doubt(of.written, recorded, by));
        }
        if let Some(column) = of.read_on
            && !self.is_on(self.cell(column), reading)
        {
            let on = reading.and_then(|reading| day_cell(reading.when));
            doubts.push(self.doubt(column, on, self.page()));
        }
        doubts
    }

    /// Whether the cell of a value is that of a reading, to the decimals it is shown with.
    fn is_value(&self, of: &Of, cell: &str, value: Option<f64>) -> bool {
        let Some(value) = value else {
            return cell.is_empty();
        };
        let shown = of.unit.shown(value);
        if !of.unit.is_measure() && !of.unit.is_scale {
            return plain(cell) == plain(&of.unit.words(shown));
        }
        let step = 10_f64.powi(-i32::from(of.unit.decimals));
        let read = cell.replace(',', ".").replace('−', "-").parse::<f64>();
        read.is_ok_and(|read| (read - shown).abs() <= step * 0.5001)
    }

    /// Whether a cell written another way reads as the value.
    fn is_equal(&self, of: &Of, cell: &str, recorded: Option<f64>) -> bool {
        let read = value(&self.registry[of.of], cell, None).ok();
        recorded.is_some() && read == recorded
    }

    fn corrected(&self, of: &Of, typed: &str, reading: Option<&LastReading>) -> String {
        let (plant, code) = (self.registry.code(self.plant), &of.unit.code);
        let Some(reading) = reading else {
            return corrected_by::measure(&plant, code);
        };
        let is_cleared = self.cell(of.written).is_empty();
        let typed = if is_cleared { "" } else { &plain(typed) };
        let on = day_cell(reading.when);
        corrected_by::correct(&plant, code, typed, on.as_deref().unwrap_or("?"))
    }
}

/// The page with the record of a plant.
pub(super) fn page_of(registry: &Registry, plant: PlantRow) -> String {
    match registry.cross_of(plant) {
        Some(cross) => page_of_cross(registry, cross),
        None => "clones.ron".to_owned(),
    }
}
