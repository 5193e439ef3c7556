//! Rows sorted into classes, one after the other: what was brought in before, what is equal, what each row is, what of it is
//! not clear, and whether it comes in.

use super::answer::{Import, ImportRow, ImportTable, Kind, Why};
use super::cells::TableReader;
use super::columns::ColumnReader;
use super::dittos::written_out;
use super::equal::Equal;
use super::facts::{InputTable, RowFacts};
use super::index::{Index, Suppliers};
use super::labels::{suppliers, unread};
use super::own_rows::OwnRows;
use super::said_before::SaidBefore;
use super::sorting::{Sorting, is_out};
use crate::naming::recorded::{vocabulary, words_for};
use crate::record::{Choose, Day, ImportChoices, RowClass};
use crate::registry::Registry;

/// Sorts tables out.
pub fn import(
    registry: &Registry,
    tables: &[InputTable],
    choices: &ImportChoices,
    today: Day,
) -> Import {
    let own = vocabulary(registry);
    let columns = ColumnReader {
        registry,
        vocabulary: &own,
        choices,
        today,
    };
    let parts: Vec<InputTable> = tables.iter().flat_map(|of| columns.parts(of)).collect();
    let (tables, rows) = read(&columns, &parts);
    let (words, names) = words_for(registry, named(&rows));
    let mut sorting = Sorting {
        registry,
        choices,
        vocabulary: &words,
        today,
        tables,
        index: Index::of(registry),
        unread: unread(&rows, &words),
        rows,
        suppliers: Suppliers::new(),
    };
    sorting.sort();
    Import {
        tables: sorting.tables,
        rows: sorting.rows,
        names,
    }
}

/// The tables with what their columns are taken for, and their rows as their own cells have them.
fn read(columns: &ColumnReader, tables: &[InputTable]) -> (Vec<ImportTable>, Vec<ImportRow>) {
    let ColumnReader {
        registry,
        choices,
        today,
        ..
    } = *columns;
    let mut equal = Equal::default();
    let (mut taken, mut rows) = (Vec::new(), Vec::new());
    for table in tables {
        let headed = columns.table(table);
        let (mut table, below) = (headed.table, headed.rows);
        let written_out = written_out(&mut table, &below);
        let reader = TableReader {
            registry,
            choices,
            today,
            table: &table,
            own: &OwnRows::of(registry, today, &table, &below),
        };
        rows.extend(below.iter().enumerate().map(|(place, row)| {
            let read = written_out.as_ref().map_or(*row, |rows| &rows[place]);
            equal.row(taken.len(), &reader, row, read)
        }));
        taken.push(table);
    }
    (taken, rows)
}

/// Every label and parent of the rows.
fn named(rows: &[ImportRow]) -> impl Iterator<Item = &str> {
    rows.iter().flat_map(|row| {
        let facts = &row.facts;
        let all = [
            &facts.label,
            &facts.seed_parent,
            &facts.pollen_parent,
            &facts.both_parents,
            &facts.cross,
        ];
        all.into_iter().filter_map(|words| words.as_deref())
    })
}

impl Sorting<'_, '_> {
    fn sort(&mut self) {
        self.said_before();
        self.index_rows();
        self.suppliers = suppliers(&self.rows);
        // What a row about seed can add depends on every row that makes the cross.
        let is_of_seed = |at: &usize| matches!(self.rows[*at].kind, Kind::SeedOf(_));
        let (last, first): (Vec<usize>, Vec<usize>) = (0..self.rows.len()).partition(is_of_seed);
        for part in [first, last] {
            for at in part {
                self.with_row(at, |sorting, row| sorting.sort_row(at, row));
                self.index.note(at, &self.rows[at]);
            }
            self.without_left_out();
        }
    }

    /// Rows that were brought in before, and those without a code that look like one of them.
    fn said_before(&mut self) {
        let mut before = SaidBefore::of(self.registry);
        let mut rows = std::mem::take(&mut self.rows);
        for row in &mut rows {
            if before.take(&row.source) {
                row.doubts.clear();
                self.doubt(row, RowClass::OnRecord, "", Why::BroughtInBefore);
            }
        }
        let lost = before.lost(&rows);
        // What a row about the seed of a cross may repeat is looked for among its sowings.
        let is_bare = |row: &&mut ImportRow| {
            let has_code = row.facts.code.is_some() || !row.facts.codes.is_empty();
            !is_out(row) && !has_code && self.of_seed(&row.facts).is_none()
        };
        for row in rows.iter_mut().filter(is_bare) {
            if let Some(code) = lost.looks_like(&row.source) {
                self.doubt(
                    row,
                    RowClass::NoPlant,
                    code,
                    Why::LooksLike(code.to_owned()),
                );
            }
        }
        self.rows = rows;
        self.index.edited = before.edited();
    }

    /// Sorts one row, by its place.
    fn sort_row(&self, at: usize, row: &mut ImportRow) {
        let comes = !is_out(row);
        let sown_again = comes && self.sown_again(at, row);
        if comes && !sown_again && !self.known_cross(at, row) {
            self.known(at, row);
        }
        if !sown_again && !is_out(row) {
            self.of_row(at, row);
            if let (false, Kind::SeedOf(cross)) = (is_out(row), row.kind.clone()) {
                self.seed_of(row, &cross);
            }
            self.against_parents(at, row);
            self.shared(row);
        }
        // Also of a row that says nothing new otherwise.
        if comes {
            self.against_record(at, row);
        }
        self.settle(row);
    }

    fn of_row(&self, at: usize, row: &mut ImportRow) {
        match row.kind.clone() {
            Kind::Nothing => {
                let of_table = RowFacts {
                    codes_of: row.facts.codes_of,
                    ..RowFacts::default()
                };
                let why = match row.facts == of_table {
                    true => Why::NoPlant,
                    false => Why::NoPlantSaid,
                };
                if self.doubt(row, RowClass::NoPlant, "", why) == Choose::Take {
                    row.kind = Kind::Founder;
                }
                return;
            }
            Kind::Seedling { cross, .. } | Kind::SeedOf(cross) if self.is_plant(&cross) => {
                self.doubt(row, RowClass::CodeTaken, &cross, Why::CodeTaken);
                row.kind = match row.kind {
                    Kind::SeedOf(_) => Kind::Seed,
                    _ => Kind::Founder,
                };
                (row.facts.cross, row.facts.code) = (None, None);
            }
            Kind::SeedOf(_) if row.facts.has_parents() => self.parents(at, row),
            Kind::Seedling { cross, .. } if !self.has_cross(&cross) => {
                self.doubt(row, RowClass::CrossNotListed, &cross, Why::CrossNotListed);
            }
            Kind::Cross | Kind::SeedlingOf(_) => self.parents(at, row),
            Kind::Founder if row.facts.has_parents() => self.parents_of_founder(row),
            Kind::More(_) => return,
            _ => {}
        }
        match row.facts.label.clone() {
            Some(label) if self.unread.contains(&label) => self.label_unread(row, &label),
            None if row.kind == Kind::Founder => {
                self.doubt(row, RowClass::Other, "", Why::NoName);
            }
            _ => {}
        }
    }

    /// Whether what a row names as its cross is the code or nickname of a plant.
    fn is_plant(&self, cross: &str) -> bool {
        let by_nickname = || self.index.nicknamed(cross).is_some() && !self.has_cross(cross);
        let in_rows = self.index.codes.contains_key(cross);
        in_rows || self.registry.plant(cross).is_some() || by_nickname()
    }
}
