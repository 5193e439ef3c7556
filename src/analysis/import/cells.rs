//! The cells of one row, read as what their columns hold; what cannot be read so is a doubt.

use super::answer::{ColumnTaken, Doubt, ImportTable, Why};
use super::cell_words::{form, is_no_place, is_own, is_piece_of, left_words, sex};
use super::dates::is_blank;
use super::dittos::{is_ditto, is_read};
use super::ends::{End, Gone};
use super::facts::{CodesOf, RowFacts, TraitCell};
use super::looks::{is_code_like, seen};
use super::no_plants::no_plant;
use super::own_rows::OwnRows;
use super::own_sheet;
use crate::record::{Choose, Day, Holds, ImportChoices, LengthUnit, RowClass};
use crate::registry::Registry;
use crate::text::GridRow;
use std::collections::BTreeMap;

/// What the rows of a table are read with.
#[derive(Clone, Copy)]
pub(super) struct TableReader<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub choices: &'a ImportChoices,
    pub today: Day,
    pub table: &'a ImportTable,
    /// What the rows of podbook's own sheet say together; nothing of any other table.
    pub own: &'a OwnRows,
}

/// A row that is being read.
pub(super) struct RowReader<'a, 't> {
    pub of: TableReader<'a, 't>,
    line: usize,
    pub facts: RowFacts,
    pub doubts: Vec<Doubt>,
    pub ends: Vec<End<'a>>,
    /// The day it went, where a column says it of every end.
    pub gone: Option<Gone<'a>>,
    /// The cell of who has it, and the day in it.
    pub receiver: Option<Gone<'a>>,
    /// Whether the day of sowing has words that are no day.
    pub sown_unread: bool,
    /// Whether the day of sowing has words that it was not sown.
    pub not_sown: bool,
    /// Days of columns of readings, by place.
    pub days: BTreeMap<usize, String>,
    /// Units of columns of sizes that another column has, by place; none where its cell is no unit.
    pub units: BTreeMap<usize, Option<LengthUnit>>,
}

impl TableReader<'_, '_> {
    /// What a row says, and what of it is not clear.
    pub fn read(&self, row: &GridRow) -> (RowFacts, Vec<Doubt>) {
        let mut reader = RowReader {
            of: *self,
            line: row.line,
            facts: RowFacts::default(),
            doubts: Vec::new(),
            ends: Vec::new(),
            gone: None,
            receiver: None,
            sown_unread: false,
            not_sown: false,
            days: BTreeMap::new(),
            units: BTreeMap::new(),
        };
        let why = no_plant(self.table, row).map(|why| reader.about_row(RowClass::NoPlant, why));
        if why != Some(Choose::LeaveOut) {
            reader.read(row);
        }
        (reader.facts, reader.doubts)
    }
}

impl<'a> RowReader<'a, '_> {
    fn read(&mut self, row: &GridRow) {
        let table = self.of.table;
        self.facts.codes_of = table.codes_of();
        self.days(row);
        self.units(row);
        for column in &table.columns {
            let own = table.is_own_sheet && column.holds == Holds::Reading;
            let with_unit = own.then(|| own_sheet::with_unit(table, column, row));
            let cell = with_unit
                .flatten()
                .unwrap_or_else(|| column.cell(row).to_owned());
            if !cell.is_empty() {
                self.cell(column, &seen(&cell));
            }
        }
        if table.is_own_sheet {
            own_sheet::seedling(&mut self.facts);
            if let Some(doubts) = self.on_record(row) {
                self.doubts = doubts;
                return;
            }
            self.no_code();
        }
        self.of_seed();
        self.of_no_plant();
        self.went();
        self.on_day();
        self.ended();
        self.in_order();
        own_sheet::left_with(table, row, &mut self.facts);
    }

    /// What a packet, or words under the day of sowing, say of seed.
    fn of_seed(&mut self) {
        if self.facts.is_of_plant() {
            return;
        }
        // A packet is seed, however little is said of it.
        if self.facts.codes_of == CodesOf::Packets {
            self.facts.seeds.get_or_insert_default();
        }
        // Seed with words under the day of sowing was sown, on a day that is not known. Of seedlings nothing says that one
        // sowing is that of another.
        if self.not_sown && self.facts.germinated == Some(0) {
            self.facts.germinated = None;
        }
        if self.sown_unread && self.facts.seeds.is_some() {
            self.facts.sown.get_or_insert_with(|| "?".to_owned());
        }
    }

    fn cell(&mut self, column: &'a ColumnTaken, cell: &str) {
        let words = || (!is_blank(cell)).then(|| cell.to_owned());
        let is_parent = matches!(column.holds, Holds::SeedParent | Holds::PollenParent);
        if is_ditto(cell) && is_read(column) {
            if column.holds == Holds::Cross {
                return self.left_out(column, cell, Why::Ditto);
            }
            self.other(column, cell, Why::Ditto);
            if !is_parent {
                return;
            }
        }
        match column.holds {
            Holds::Code => self.code(column, cell),
            Holds::Label => first(&mut self.facts.label, words()),
            Holds::Supplier if is_own(cell) => {}
            Holds::Supplier => first(&mut self.facts.supplier, words()),
            Holds::SupplierCode => first(&mut self.facts.supplier_code, words()),
            Holds::Form => self.facts.form = self.facts.form.or(form(cell)),
            Holds::Cross => self.cross(column, cell),
            // A parent of which it is written that it is not known is not one that was left blank.
            Holds::SeedParent => first(&mut self.facts.seed_parent, Some(cell.to_owned())),
            Holds::PollenParent => first(&mut self.facts.pollen_parent, Some(cell.to_owned())),
            // A column of formulas that is headed `Cross` may have a code among them.
            Holds::Parents if column.is_headed_cross() && is_code_like(cell) => {
                first(&mut self.facts.cross, words());
            }
            Holds::Parents => first(&mut self.facts.both_parents, words()),
            Holds::Place if !self.of.table.is_own_sheet && is_no_place(cell) => {
                self.other(column, cell, Why::NoPlace);
            }
            Holds::Place => first(&mut self.facts.place, words()),
            Holds::To => self.receiver(column, cell),
            Holds::Locality => first(&mut self.facts.locality, words()),
            Holds::Sex => self.sex(column, cell),
            Holds::Reading => self.reading(column, cell),
            Holds::Pot => self.pot(column, cell),
            Holds::Seeds => self.seeds(column, cell),
            Holds::Pods => {
                let pods = self.count(column, cell);
                self.facts.pods = self.facts.pods.or(pods);
            }
            Holds::Germinated => {
                let up = self.count(column, cell);
                match self.days.get(&column.at).cloned().zip(up) {
                    Some(dated) => self.facts.counts.push(dated),
                    None => self.facts.germinated = self.facts.germinated.or(up),
                }
            }
            Holds::Left => self.facts.left = left_words(cell),
            Holds::Status => self.status(column, cell),
            Holds::Gone => {
                let on = self.date(column, cell);
                let cell = cell.to_owned();
                self.gone = on.map(|on| Gone { column, cell, on });
            }
            Holds::Died => self.left(column, "died", cell),
            Holds::Sold => self.left(column, "sold", cell),
            Holds::Given => self.left(column, "given", cell),
            Holds::Acquired
            | Holds::Measured
            | Holds::Potted
            | Holds::Pollinated
            | Holds::Harvested
            | Holds::Sown
            | Holds::Counted => self.day(column, cell),
            Holds::NotRead if is_blank(cell) => {}
            Holds::NotRead if is_piece_of(&column.heading) => {
                self.other(column, cell, Why::PieceOf(cell.to_owned()));
            }
            Holds::NotRead if !column.may_be.is_empty() => {
                self.other(column, cell, Why::DateOf(column.may_be));
            }
            Holds::NotRead => self.under_one_heading(column, cell),
            Holds::Unit | Holds::Price | Holds::Note => {}
        }
    }

    /// What only a plant has is not taken in from the row of a cross and its seed.
    fn of_no_plant(&mut self) {
        if self.facts.codes_of != CodesOf::Sowings {
            return;
        }
        let table = self.of.table;
        for TraitCell { column, cell, .. } in std::mem::take(&mut self.facts.readings) {
            if let Some(column) = table.column(|of| of.at == column) {
                self.other(column, &cell, Why::OfNoPlant);
            }
        }
        for End { column, cell, fate } in std::mem::take(&mut self.ends) {
            if fate.is_some() {
                self.other(column, &cell, Why::OfNoPlant);
            }
        }
        (self.gone, self.receiver, self.facts.to) = (None, None, None);
    }

    /// Notes a doubt about a cell, and says what was chosen for such.
    pub fn doubt(&mut self, class: RowClass, column: &ColumnTaken, cell: &str, why: Why) -> Choose {
        let chosen = self.chosen(class);
        self.doubts.push(Doubt {
            class,
            column: column.heading.clone(),
            found: cell.to_owned(),
            why,
            chosen,
        });
        chosen
    }

    /// Notes that a cell cannot be read as what its column holds.
    pub fn other(&mut self, column: &ColumnTaken, cell: &str, why: Why) {
        self.doubt(RowClass::Other, column, cell, why);
    }

    /// Notes a doubt about the whole row, and says what was chosen for such.
    pub fn about_row(&mut self, class: RowClass, why: Why) -> Choose {
        let chosen = self.chosen(class);
        self.doubts.push(Doubt::of_row(class, "", why, chosen));
        chosen
    }

    fn chosen(&self, class: RowClass) -> Choose {
        let table = &self.of.table.name;
        self.of.choices.chosen(class, table, self.line)
    }

    /// Leaves out a row for a cell in the place of its cross or code, whatever was chosen.
    pub fn left_out(&mut self, column: &ColumnTaken, cell: &str, why: Why) {
        self.doubt(RowClass::NoPlant, column, cell, why);
        if let Some(doubt) = self.doubts.last_mut() {
            doubt.chosen = Choose::LeaveOut;
        }
    }

    fn sex(&mut self, column: &ColumnTaken, cell: &str) {
        // `male, claimed by the supplier`: how it is known stays in the note.
        let cell = match cell.split_once(", ") {
            Some((word, _)) if self.of.table.is_own_sheet => word,
            _ if self.of.table.is_own_sheet && cell == "unsexed" => return,
            _ => cell,
        };
        match sex(cell) {
            Some(sex) => self.facts.sex = Some(sex),
            None if is_blank(cell) => {}
            None => self.other(column, cell, Why::NoSex),
        }
    }

    /// A number that would stand in the note alone, although its heading says what it is.
    fn under_one_heading(&mut self, column: &ColumnTaken, cell: &str) {
        if let Some(heading) = &column.under {
            self.other(column, cell, Why::UnderOneHeading(heading.clone()));
        }
    }
}

/// The first of two columns of one kind counts; the note holds both.
pub(super) fn first(field: &mut Option<String>, words: Option<String>) {
    if field.is_none() {
        *field = words;
    }
}
