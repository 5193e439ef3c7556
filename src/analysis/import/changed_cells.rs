//! What a further row of a plant says otherwise than the record, or than the row before it. Such a row changes nothing that
//! is on record, and what differs is said, with the command that records it.

use super::answer::{ImportRow, Kind, Who, Why};
use super::corrected_by;
use super::differs::page_of;
use super::facts::RowFacts;
use super::index::folded;
use super::said_readings::code_in;
use super::sorting::Sorting;
use crate::observation::pieces::pot_here;
use crate::observation::plant_cells::{CELLS, plant_cells};
use crate::observation::provenance::provenance;
use crate::observation::standing::status_words;
use crate::record::{Choose, Holds, Sex, word_of};
use crate::registry::PlantRow;

/// The cells that are held against each other: a founder has no day of sowing, and a seedling the first only.
const HELD: [Holds; 11] = [
    Holds::Sown,
    Holds::Place,
    Holds::Sex,
    Holds::Pot,
    Holds::Potted,
    Holds::Label,
    Holds::Supplier,
    Holds::SupplierCode,
    Holds::Acquired,
    Holds::Form,
    Holds::Locality,
];
/// How many of them a seedling has.
const OF_SEEDLING: usize = 5;

/// A cell that is not what is known: what its column holds, the cell, and what is known.
type Changed = (Holds, (String, Why));

impl Sorting<'_, '_> {
    /// Notes what a further row of a plant says otherwise; the row comes if it has something new besides.
    pub fn changed(&self, at: usize, row: &mut ImportRow, who: &Who) {
        let readings = self.new_readings(row, who);
        let end = self.new_end(row, who);
        let plant = match who {
            Who::OnRecord(code) => self.registry.plant(code),
            _ => None,
        };
        let cells = match who {
            Who::Row(first) => self.against_row(&self.rows[*first], row),
            _ => plant.map_or_else(Vec::new, |plant| self.against(plant, row)),
        };
        let parents = plant.map_or_else(Vec::new, |plant| self.other_parents_of(at, row, plant));
        let chosen = if row.adds() {
            Choose::Take
        } else {
            Choose::LeaveOut
        };
        let table = self.table(row);
        for (holds, cell) in cells.into_iter().chain(parents) {
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
        let differs = own.into_iter().filter_map(|(holds, cell)| {
            let there = self.recorded_cell(plant, holds, &recorded);
            let there = there.filter(|there| there != "unsexed" && there != "?");
            let there = there.as_deref();
            // Where a plant stood before it went is no place it has.
            let is_gone = || recorded[1].as_deref() != Some(status_words(None, true).as_str());
            let is_same = match holds {
                Holds::Place | Holds::Pot | Holds::Potted if there.is_none() && is_gone() => true,
                Holds::Acquired => self.is_day_of(plant, &cell),
                Holds::Sown => there.is_some() && !self.is_sown_apart(plant, &cell),
                Holds::Potted => there.is_some_and(|there| self.is_one_day(there, &cell)),
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

    /// What the record of a plant says of what a column holds; `cells` are those of the sheet of plants.
    fn recorded_cell(
        &self,
        plant: PlantRow,
        holds: Holds,
        cells: &[Option<String>],
    ) -> Option<String> {
        let founder = self.registry.founder(plant);
        let heading = match holds {
            Holds::Potted => return pot_here(self.registry, plant).map(|pot| pot.on.to_owned()),
            Holds::Form => return founder?.form.map(word_of),
            Holds::Locality => return founder?.locality.as_deref().map(str::to_owned),
            Holds::Sown => "sown",
            Holds::Place => "place",
            Holds::Sex => "sex",
            Holds::Pot => "pot",
            Holds::Label => "received as",
            Holds::Supplier => "from",
            Holds::SupplierCode => "supplier's code",
            Holds::Acquired => "arrived",
            _ => return None,
        };
        let at = CELLS.iter().position(|of| *of == heading)?;
        cells[at].clone()
    }

    /// Whether a plant came on a day, as the record writes or covers it.
    fn is_day_of(&self, plant: PlantRow, cell: &str) -> bool {
        let on = self.registry.founder(plant).and_then(|of| of.on);
        on.is_some_and(|on| self.is_one_day(on, cell))
    }

    /// Whether a plant was surely sown on another day than a cell says: a list may say no more than the year.
    fn is_sown_apart(&self, plant: PlantRow, cell: &str) -> bool {
        let (sown, own) = (
            provenance(self.registry, plant).sown,
            self.registry.when(cell),
        );
        sown.surely_before(own) || own.surely_before(sown)
    }

    fn is_one_day(&self, one: &str, other: &str) -> bool {
        self.registry.when(one) == self.registry.when(other)
    }

    /// The cells that are not what the first row of the plant says.
    fn against_row(&self, first: &ImportRow, row: &ImportRow) -> Vec<Changed> {
        let is_founder = first.kind == Kind::Founder;
        let there = held(&first.facts, is_founder);
        let code = code_in(first);
        let differs = held(&row.facts, is_founder)
            .into_iter()
            .filter_map(|(holds, cell)| {
                let there = there.iter().find(|of| of.0 == holds);
                let there = there.map(|of| of.1.as_str());
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
        Holds::Pot | Holds::Potted if !is_recorded => corrected_by::pot(code),
        Holds::Label => corrected_by::name(code),
        _ => corrected_by::page(page),
    }
}

/// The cells of a row that are held against others.
fn held(facts: &RowFacts, is_founder: bool) -> Vec<(Holds, String)> {
    let cells = [
        facts.sown.as_deref(),
        facts.place.as_deref(),
        facts.sex.map(Sex::word),
        facts.pot.as_deref(),
        facts.potted.as_deref(),
        facts.label.as_deref(),
        facts.supplier.as_deref(),
        facts.supplier_code.as_deref(),
        facts.acquired.as_deref(),
        facts.form,
        facts.locality.as_deref(),
    ];
    let (first, count) = match is_founder {
        true => (1, HELD.len()),
        false => (0, OF_SEEDLING),
    };
    let all = HELD.into_iter().zip(cells).take(count).skip(first);
    let said = all.filter_map(|(holds, cell)| Some((holds, cell?.to_owned())));
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
