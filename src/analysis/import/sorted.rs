//! Rows sorted into classes, one after the other: what was brought in before, what is equal, what each row is, what of it is
//! not clear, and whether it comes in.

use super::answer::{Import, ImportRow, Kind, Why};
use super::cells::RowReader;
use super::columns::{ColumnReader, Headed};
use super::dittos::written_out;
use super::equal::Equal;
use super::facts::{InputTable, RowFacts};
use super::index::{Index, kind};
use super::labels::{Suppliers, Unread, suppliers};
use super::own_rows::OwnRows;
use super::said_before::SaidBefore;
use super::sorting::{Sorting, is_out};
use super::source::key;
use crate::naming::recorded::{vocabulary, words_for};
use crate::record::{Choose, Day, ImportChoices, RowClass};
use crate::registry::Registry;
use crate::text::GridRow;
use std::collections::BTreeSet;

/// Sorts tables out.
pub fn import(
    registry: &Registry,
    tables: &[InputTable],
    choices: &ImportChoices,
    today: Day,
) -> Import {
    let (own, _) = vocabulary(registry);
    let columns = ColumnReader {
        registry,
        vocabulary: &own,
        choices,
        today,
    };
    let tables: Vec<InputTable> = tables.iter().flat_map(|of| columns.parts(of)).collect();
    let headed = tables.iter().map(|table| columns.table(table));
    let mut headed: Vec<Headed> = headed.collect();
    let mut equal = Equal::default();
    let mut rows = Vec::new();
    for (at, of) in headed.iter_mut().enumerate() {
        let grid: Vec<&GridRow> = of.rows.iter().map(|&row| &tables[at].rows[row]).collect();
        let written_out = written_out(&mut of.table, &grid);
        let reader = RowReader {
            registry,
            choices,
            today,
            table: &of.table,
            own: &OwnRows::of(registry, today, &of.table, &grid),
        };
        rows.extend(grid.iter().enumerate().map(|(place, row)| {
            let read = written_out.as_ref().map_or(*row, |rows| &rows[place]);
            equal.row(at, &reader, row, read)
        }));
    }
    let (words, names) = words_for(registry, named(&rows));
    let sorting = Sorting {
        registry,
        choices,
        vocabulary: &words,
        today,
        tables: headed.into_iter().map(|of| of.table).collect(),
    };
    let rows = sorting.sorted(rows);
    Import {
        tables: sorting.tables,
        rows,
        names,
    }
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
    fn sorted(&self, mut rows: Vec<ImportRow>) -> Vec<ImportRow> {
        let mut before = SaidBefore::of(self.registry);
        for row in &mut rows {
            if before.take(&row.source) {
                row.doubts.clear();
                self.doubt(row, RowClass::OnRecord, "", Why::BroughtInBefore);
            }
        }
        let lost = before.without_code();
        for row in rows
            .iter_mut()
            .filter(|row| !is_out(row) && row.facts.code.is_none())
        {
            if let Some(&code) = key(&row.source).and_then(|key| lost.get(&key)) {
                self.doubt(row, RowClass::NoPlant, code, Why::LostCode(code.to_owned()));
            }
        }
        let mut index = self.index(&mut rows, before.edited());
        let suppliers = suppliers(&rows);
        let mut unread = Unread::default();
        // What a row about seed can add depends on every row that makes the cross.
        let (last, first): (Vec<usize>, Vec<usize>) =
            (0..rows.len()).partition(|&at| matches!(rows[at].kind, Kind::SeedOf(_)));
        for part in [first, last] {
            self.part(&mut index, &mut rows, (&suppliers, &mut unread), part);
            self.without_left_out(&mut rows);
        }
        rows
    }

    /// Sorts some of the rows, each by its place.
    fn part(
        &self,
        index: &mut Index,
        rows: &mut [ImportRow],
        (suppliers, unread): (&Suppliers, &mut Unread),
        part: Vec<usize>,
    ) {
        for at in part {
            let (done, rest) = rows.split_at_mut(at);
            let Some((row, later)) = rest.split_first_mut() else {
                break;
            };
            let other = |of: usize| done.get(of).or_else(|| later.get(of.checked_sub(at + 1)?));
            let comes = !is_out(row);
            if comes
                && !self.known_cross(index, (at, &mut *row), other)
                && !self.same_cross(index, (at, &mut *row), other)
            {
                self.known(index, done, at, row);
            }
            if !is_out(row) {
                self.of_row(index, at, row, unread);
                if let (false, Kind::SeedOf(cross)) = (is_out(row), row.kind.clone()) {
                    self.seed_of(index, row, &cross, other);
                }
                self.against_parents(index, (at, row), other);
                self.shared(index, suppliers, done, row);
            }
            // Also of a row that says nothing new otherwise.
            if comes {
                self.against_record(index, (at, row), other);
            }
            self.settle(row);
            index.note(at, row);
        }
    }

    /// What each row is, and what there is by code and name.
    fn index(&self, rows: &mut [ImportRow], edited: BTreeSet<(String, String)>) -> Index {
        let mut index = Index::of(self.registry);
        index.edited = edited;
        index.add_crosses(rows);
        for row in rows.iter_mut() {
            row.kind = match is_out(row) {
                true => Kind::Nothing,
                false => kind(&index, self.registry, &row.facts),
            };
        }
        index.add_plants(self, rows);
        index.add_shared(self, rows);
        index
    }

    fn of_row(&self, index: &Index, at: usize, row: &mut ImportRow, unread: &mut Unread) {
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
            Kind::Seedling { cross, .. } if self.is_plant(index, &cross) => {
                self.doubt(row, RowClass::CodeTaken, &cross, Why::CodeTaken);
                row.kind = Kind::Founder;
                row.facts.cross = None;
                row.facts.code = None;
            }
            Kind::SeedOf(cross) if self.is_plant(index, &cross) => {
                self.doubt(row, RowClass::CodeTaken, &cross, Why::CodeTaken);
                row.kind = Kind::Seed;
                (row.facts.cross, row.facts.code) = (None, None);
            }
            Kind::SeedOf(_) if row.facts.has_parents() => self.parents(index, at, row),
            Kind::Seedling { cross, .. } if !index.has_cross(self.registry, &cross) => {
                self.doubt(row, RowClass::CrossNotListed, &cross, Why::CrossNotListed);
            }
            Kind::Cross | Kind::SeedlingOf(_) => self.parents(index, at, row),
            Kind::Founder if row.facts.has_parents() => self.parents_of_founder(row),
            Kind::More(_) => return,
            _ => {}
        }
        let label = row.facts.label.clone();
        match label {
            Some(label) if !unread.is_unread(&label, self.vocabulary) => {}
            Some(label) => self.label_unread(row, &label, unread),
            None if row.kind == Kind::Founder => {
                self.doubt(row, RowClass::Other, "", Why::NoName);
            }
            None => {}
        }
    }

    /// Whether what a row names as its cross is the code or nickname of a plant.
    fn is_plant(&self, index: &Index, cross: &str) -> bool {
        let by_nickname =
            || index.nicknamed(cross).is_some() && !index.has_cross(self.registry, cross);
        index.codes.contains_key(cross) || self.registry.plant(cross).is_some() || by_nickname()
    }
}
