//! What a further row of a plant says otherwise than the record, or than the row before it. Such a row changes nothing that
//! is on record, and what differs is said, with the command that records it.

use super::answer::{ImportRow, Kind, Who, Why};
use super::corrected_by;
use super::differs::page_of;
use super::facts::RowFacts;
use super::index::folded;
use super::said_readings::code_in;
use super::sorting::Sorting;
use crate::observation::plant_cells::{CELLS, plant_cells};
use crate::observation::standing::status_words;
use crate::record::{Choose, Holds, Sex};
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

/// A cell that is not what is known: what its column holds, the cell, and what is known.
type Changed = (Holds, (String, Why));

impl Sorting<'_, '_> {
    /// Notes what a further row of a plant says otherwise; the row comes if it has something new besides.
    pub fn changed(&self, row: &mut ImportRow, who: &Who) {
        let readings = self.new_readings(row, who);
        let end = self.new_end(row, who);
        let cells = match who {
            Who::OnRecord(code) => {
                let plant = self.registry.plant(code);
                plant.map(|plant| self.against(plant, row))
            }
            Who::Row(first) => Some(self.against_row(&self.rows[*first], row)),
            Who::Species(_) => None,
        };
        let chosen = if row.adds() {
            Choose::Take
        } else {
            Choose::LeaveOut
        };
        let table = self.table(row);
        for (holds, cell) in cells.unwrap_or_default() {
            self.differs(row, table.holding(holds), cell, chosen);
        }
        for (at, cell) in readings.into_iter().chain(end) {
            self.differs(row, table.column(|of| of.at == at), cell, chosen);
        }
    }

    /// The cells that are not what the record of a plant says.
    fn against(&self, plant: PlantRow, row: &ImportRow) -> Vec<Changed> {
        let recorded = plant_cells(self.registry, plant, self.today);
        let is_founder = self.registry.founder(plant).is_some();
        let (code, page) = (self.registry.code(plant), page_of(self.registry, plant));
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
                by: recorded_by(holds, &code, there.is_some(), &page),
            };
            (!is_same).then(|| (holds, (cell, why())))
        });
        differs.collect()
    }

    /// Whether a plant came on a day, as the record writes or covers it.
    fn is_day_of(&self, plant: PlantRow, cell: &str) -> bool {
        let on = self.registry.founder(plant).and_then(|of| of.on);
        on.is_some_and(|on| self.registry.when(on) == self.registry.when(cell))
    }

    /// The cells that are not what the first row of the plant says.
    fn against_row(&self, first: &ImportRow, row: &ImportRow) -> Vec<Changed> {
        let is_founder = first.kind == Kind::Founder;
        let there = held(&first.facts, is_founder);
        let code = code_in(first);
        let differs = held(&row.facts, is_founder)
            .into_iter()
            .filter_map(|(holds, _, cell)| {
                let there = there.iter().find(|of| of.0 == holds);
                let there = there.map(|of| of.2.as_str());
                let why = || Why::DiffersFrom {
                    row: self.place(first),
                    there: there.map(str::to_owned),
                    by: recorded_by(holds, &code, there.is_some(), "its page"),
                };
                (!is_same(holds, &cell, there)).then(|| (holds, (cell, why())))
            });
        differs.collect()
    }
}

/// What records a cell of a plant; where a command would leave the old record beside it, the page.
fn recorded_by(holds: Holds, code: &str, is_recorded: bool, page: &str) -> String {
    match holds {
        Holds::Place => corrected_by::moving(code),
        Holds::Sex if !is_recorded => corrected_by::flower(code),
        Holds::Pot if !is_recorded => corrected_by::pot(code),
        Holds::Label => corrected_by::name(code),
        _ => corrected_by::page(page),
    }
}

/// The cells of a row that are held against others, with what they hold and their heading in the sheet.
fn held(facts: &RowFacts, is_founder: bool) -> Vec<(Holds, &'static str, String)> {
    let cells = [
        facts.place.as_deref(),
        facts.sex.map(Sex::word),
        facts.pot.as_deref(),
        facts.label.as_deref(),
        facts.supplier.as_deref(),
        facts.supplier_code.as_deref(),
        facts.acquired.as_deref(),
    ];
    let count = if is_founder { HELD.len() } else { OF_SEEDLING };
    let named = HELD.into_iter().zip(cells).take(count);
    let said =
        named.filter_map(|((holds, heading), cell)| Some((holds, heading, cell?.to_owned())));
    said.collect()
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
