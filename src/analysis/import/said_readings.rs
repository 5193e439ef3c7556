//! Readings of a plant that is known: those that are on record or in a row before are not new, and another value where there
//! is one already is no second reading but a difference, which is said.

use super::answer::{ImportRow, Who, Why};
use super::corrected_by;
use super::facts::{RowFacts, TraitCell};
use super::index::code_of;
use super::sorting::Sorting;
use crate::observation::last_reading::{LastReading, readings_of};
use crate::observation::plant_cells::day_cell;
use crate::observation::value;
use crate::record::When;
use crate::registry::PlantRow;

/// What a reading is beside those that are known.
enum Said {
    /// New.
    New,
    /// Known.
    Known,
    /// Another value where there is one.
    Other(Why),
}

impl Sorting<'_, '_> {
    /// Leaves a further row of a plant its new readings; cells with another value are given back with the place of their
    /// column and why they are none.
    pub fn new_readings(&self, row: &mut ImportRow, who: &Who) -> Vec<(usize, (String, Why))> {
        let mut others = Vec::new();
        for reading in std::mem::take(&mut row.facts.readings) {
            let said = match who {
                Who::OnRecord(code) => self.on_record(code, row, &reading),
                Who::Row(first) => self.in_rows(*first, row, &reading),
                Who::Species(_) => Said::New,
            };
            match said {
                Said::New => row.facts.readings.push(reading),
                Said::Known => {}
                Said::Other(why) => others.push((reading.column, (reading.cell, why))),
            }
        }
        others
    }

    fn on_record(&self, code: &str, row: &ImportRow, reading: &TraitCell) -> Said {
        let Some(plant) = self.registry.plant(code) else {
            return Said::New;
        };
        let on = self.when(&row.facts, reading);
        let all = readings_of(self.registry, plant, reading.of);
        let of_day = |of: &&LastReading| of.when == on;
        let mut may_be = all.iter().filter(|of| on == When::UNKNOWN || of_day(of));
        if may_be.any(|of| self.is_same(reading, &of.typed, of.value)) {
            return Said::Known;
        }
        match all.iter().rfind(of_day) {
            None => Said::New,
            Some(there) => Said::Other(self.corrected(plant, reading, there)),
        }
    }

    fn corrected(&self, plant: PlantRow, reading: &TraitCell, there: &LastReading) -> Why {
        let plant = self.registry.code(plant);
        let on = day_cell(there.when);
        let on = on.as_deref().unwrap_or("?");
        let of = self.registry[reading.of].code;
        Why::Differs {
            recorded: Some(there.typed.clone()),
            by: corrected_by::correct(&plant, of, &reading.cell, on),
        }
    }

    /// Of rows that come together two values of one day, or without one, may be a slip or two plants with one tag.
    fn in_rows(&self, first: usize, row: &ImportRow, reading: &TraitCell) -> Said {
        let on = self.when(&row.facts, reading);
        let all = self.rows_of(first);
        let all = all.flat_map(|of| of.facts.readings.iter().map(move |read| (of, read)));
        let of_day =
            all.filter(|(of, read)| read.of == reading.of && self.when(&of.facts, read) == on);
        let of_day: Vec<(&ImportRow, &TraitCell)> = of_day.collect();
        let same = |(_, read): &(&ImportRow, &TraitCell)| {
            let read_value = value(&self.registry[read.of], &read.cell, None).ok();
            self.is_same(reading, &read.cell, read_value)
        };
        match of_day.first() {
            Some(_) if of_day.iter().any(same) => Said::Known,
            Some((of, read)) => Said::Other(Why::DiffersFrom {
                row: self.place(of),
                there: Some(read.cell.clone()),
                by: corrected_by::measure(&code_in(row), self.registry[read.of].code),
            }),
            None => Said::New,
        }
    }

    /// The day of a reading, by its column or its row.
    fn when(&self, facts: &RowFacts, reading: &TraitCell) -> When {
        let on = reading.on.as_ref().or(facts.measured.as_ref());
        on.map_or(When::UNKNOWN, |on| self.registry.when(on))
    }

    /// Whether a reading is one that is known, written so or another way.
    fn is_same(&self, reading: &TraitCell, typed: &str, known: Option<f64>) -> bool {
        let bare = |cell: &str| cell.split_whitespace().collect::<String>().to_lowercase();
        let own = value(&self.registry[reading.of], &reading.cell, None).ok();
        let near = |one: f64, other: f64| (one - other).abs() <= 1e-9 * one.abs().max(1.0);
        let equal = own.zip(known).is_some_and(|(own, known)| near(own, known));
        equal || bare(&reading.cell) == bare(typed)
    }
}

/// The code by which a row names its plant, as far as its own cells have it.
pub(super) fn code_in(row: &ImportRow) -> String {
    let code = code_of(row).or_else(|| row.facts.code.clone());
    code.unwrap_or_else(|| "…".to_owned())
}
