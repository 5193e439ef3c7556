//! What a further row of a plant says otherwise than the record, or than the row before it. Such a row changes nothing that
//! is on record, and what differs is said, with the command that records it.

use super::answer::{ColumnTaken, CorrectedBy, Doubt, ImportRow, Kind, Who, Why};
use super::differs::page_of;
use super::facts::RowFacts;
use super::index::{Index, folded};
use super::said_readings::code_in;
use super::sorting::Sorting;
use crate::observation::plant_cells::{CELLS, plant_cells};
use crate::observation::standing::status_words;
use crate::record::{Choose, Holds, RowClass};
use crate::registry::PlantRow;

/// The cells that are held against each other, with their headings in the sheet of plants; a seedling has the first only.
const HELD: [(Holds, &str); 7] = [
    (Holds::Place, "place"),
    (Holds::Sex, "sex"),
    (Holds::Pot, "pot"),
    (Holds::Label, "received as"),
    (Holds::Supplier, "from"),
    (Holds::SupplierCode, "supplier's code"),
    (Holds::Acquired, "arrived"),
];
/// How many of them a seedling has.
const OF_SEEDLING: usize = 3;

impl Sorting<'_, '_> {
    /// Notes what a further row of a plant says otherwise; the row comes if it has something new besides.
    pub fn changed(&self, index: &Index, done: &[ImportRow], row: &mut ImportRow, who: &Who) {
        let readings = self.new_readings(index, done, row, who);
        let cells = match who {
            Who::OnRecord(code) => self
                .registry
                .plant(code)
                .map(|plant| self.against(plant, row)),
            Who::Row(first) => Some(self.against_row(&done[*first], row)),
            Who::Species(_) => None,
        };
        let is_new = row.adds();
        let columns = &self.tables[row.table].columns;
        let heading = |is: &dyn Fn(&ColumnTaken) -> bool| {
            let column = columns.iter().find(|of| is(of));
            column.map(|of| of.heading.clone()).unwrap_or_default()
        };
        let cells = cells.unwrap_or_default().into_iter();
        let cells = cells.map(|(holds, found, why)| (heading(&|of| of.holds == holds), found, why));
        let readings = readings.into_iter();
        let readings = readings.map(|(at, found, why)| (heading(&|of| of.at == at), found, why));
        for (column, found, why) in cells.chain(readings) {
            let chosen = if is_new {
                Choose::Take
            } else {
                Choose::LeaveOut
            };
            row.doubts.push(Doubt {
                class: RowClass::Differs,
                column,
                found,
                why,
                chosen,
            });
        }
    }

    /// The cells that are not what the record of a plant says.
    fn against(&self, plant: PlantRow, row: &ImportRow) -> Vec<(Holds, String, Why)> {
        let recorded = plant_cells(self.registry, plant, self.today);
        let is_founder = self.registry.founder(plant).is_some();
        let own = held(&row.facts, is_founder);
        let differs = own.into_iter().filter_map(|(holds, heading, cell)| {
            let at = CELLS.iter().position(|of| *of == heading)?;
            let there = recorded[at].as_deref();
            let there = there.filter(|there| *there != "unsexed" && *there != "?");
            // Where a plant stood before it went is no place it has.
            let is_gone = || recorded[1].as_deref() != Some(status_words(None, true).as_str());
            let is_same = match holds {
                Holds::Place if there.is_none() && is_gone() => true,
                Holds::Acquired => self.is_day_of(plant, &cell),
                _ => is_same(holds, &cell, there),
            };
            let why = || Why::Differs {
                recorded: there.map(str::to_owned),
                by: self.by(plant, holds, there.is_some()),
            };
            (!is_same).then(|| (holds, cell, why()))
        });
        differs.collect()
    }

    /// Whether a plant came on a day, as the record writes or covers it.
    fn is_day_of(&self, plant: PlantRow, cell: &str) -> bool {
        let on = self.registry.founder(plant).and_then(|of| of.on);
        on.is_some_and(|on| self.registry.when(on) == self.registry.when(cell))
    }

    /// What records a cell; where a command would leave the old record beside it, the page.
    fn by(&self, plant: PlantRow, holds: Holds, is_recorded: bool) -> CorrectedBy {
        let code = self.registry.code(plant);
        match holds {
            Holds::Place => CorrectedBy::Move(code),
            Holds::Sex if !is_recorded => CorrectedBy::Flower(code),
            Holds::Pot if !is_recorded => CorrectedBy::Pot(code),
            Holds::Label => CorrectedBy::Name(code),
            _ => CorrectedBy::Page(page_of(self.registry, plant)),
        }
    }

    /// The cells that are not what the first row of the plant says.
    fn against_row(&self, first: &ImportRow, row: &ImportRow) -> Vec<(Holds, String, Why)> {
        let is_founder = first.kind == Kind::Founder;
        let there = held(&first.facts, is_founder);
        let code = code_in(first);
        let differs = held(&row.facts, is_founder)
            .into_iter()
            .filter_map(|(holds, _, cell)| {
                let there = there.iter().find(|of| of.0 == holds);
                let there = there.map(|of| of.2.as_str());
                let by = match holds {
                    Holds::Place => CorrectedBy::Move(code.clone()),
                    Holds::Sex if there.is_none() => CorrectedBy::Flower(code.clone()),
                    Holds::Pot if there.is_none() => CorrectedBy::Pot(code.clone()),
                    Holds::Label => CorrectedBy::Name(code.clone()),
                    _ => CorrectedBy::Page("its page".to_owned()),
                };
                let why = || Why::DiffersFrom {
                    row: (self.tables[first.table].name.clone(), first.line),
                    there: there.map(str::to_owned),
                    by,
                };
                (!is_same(holds, &cell, there)).then(|| (holds, cell, why()))
            });
        differs.collect()
    }
}

/// The cells of a row that are held against others, with what they hold and their heading in the sheet.
fn held(facts: &RowFacts, is_founder: bool) -> Vec<(Holds, &'static str, String)> {
    let own = |words: &Option<String>| words.clone();
    let cells = [
        own(&facts.place),
        facts.sex.map(|sex| sex.word().to_owned()),
        own(&facts.pot),
        own(&facts.label),
        own(&facts.supplier),
        own(&facts.supplier_code),
        own(&facts.acquired),
    ];
    let count = if is_founder { HELD.len() } else { OF_SEEDLING };
    let named = HELD.iter().zip(cells).take(count);
    named
        .filter_map(|((holds, heading), cell)| Some((*holds, *heading, cell?)))
        .collect()
}

/// Whether a cell says what is recorded: one of several places, a sex without how it is known, any words in other capitals.
fn is_same(holds: Holds, cell: &str, there: Option<&str>) -> bool {
    let Some(there) = there else { return false };
    let (cell, there) = (folded(cell), folded(there));
    match holds {
        Holds::Place => cell == there || there.split("; ").any(|place| place == cell),
        Holds::Sex => there.split(", ").next() == Some(cell.as_str()),
        Holds::Pot => cell.replace(' ', "") == there.replace(' ', ""),
        _ => cell == there,
    }
}
