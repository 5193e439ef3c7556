//! What rows are sorted with, the doubts raised on the way, and how they settle a row.

use super::answer::{ColumnTaken, Doubt, ImportRow, ImportTable, Kind, Who, Why};
use super::index::{Index, Suppliers};
use crate::naming::Vocabulary;
use crate::record::{Choose, Day, ImportChoices, RowClass};
use crate::registry::Registry;
use std::collections::BTreeSet;

/// What rows are sorted with.
pub(super) struct Sorting<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub choices: &'a ImportChoices,
    pub vocabulary: &'a Vocabulary,
    pub today: Day,
    pub tables: Vec<ImportTable>,
    /// All rows in their order. The place of the one that is being sorted is empty meanwhile.
    pub rows: Vec<ImportRow>,
    pub index: Index,
    /// Labels that cannot be read.
    pub unread: BTreeSet<String>,
    pub suppliers: Suppliers,
}

impl Sorting<'_, '_> {
    /// Does something to a row that is taken out meanwhile, so that it can be held against all others.
    pub fn with_row<T>(&mut self, at: usize, f: impl FnOnce(&Self, &mut ImportRow) -> T) -> T {
        let mut row = std::mem::take(&mut self.rows[at]);
        let of_row = f(self, &mut row);
        self.rows[at] = row;
        of_row
    }

    /// The table of a row.
    pub fn table(&self, row: &ImportRow) -> &ImportTable {
        &self.tables[row.table]
    }

    /// Table and line of a row.
    pub fn place(&self, row: &ImportRow) -> (String, usize) {
        (self.table(row).name.clone(), row.line)
    }

    /// Notes a doubt about a row, and says what was chosen for such.
    pub fn doubt(&self, row: &mut ImportRow, class: RowClass, found: &str, why: Why) -> Choose {
        let chosen = self.chosen(row, class);
        row.doubts.push(Doubt::of_row(class, found, why, chosen));
        chosen
    }

    /// Notes a cell that is not what is known already.
    pub fn differs(
        &self,
        row: &mut ImportRow,
        column: Option<&ColumnTaken>,
        (found, why): (String, Why),
        chosen: Choose,
    ) {
        row.doubts.push(Doubt {
            class: RowClass::Differs,
            column: column.map(|of| of.heading.clone()).unwrap_or_default(),
            found,
            why,
            chosen,
        });
    }

    fn chosen(&self, row: &ImportRow, class: RowClass) -> Choose {
        let table = &self.table(row).name;
        self.choices.chosen(class, table, row.line)
    }

    /// Whether the grower leaves this one row out.
    pub fn is_left(&self, row: &ImportRow) -> bool {
        let table = &self.table(row).name;
        self.choices.of_row(table, row.line).next() == Some(Choose::LeaveOut)
    }

    /// Whether the grower takes this row as one more plant where another has its code.
    pub fn is_taken(&self, row: &ImportRow) -> bool {
        self.chosen(row, RowClass::CodeTaken) == Choose::Take
    }

    /// The class of a row, and whether it comes.
    pub fn settle(&self, row: &mut ImportRow) {
        row.doubts.sort_by_key(|doubt| doubt.class);
        let weightiest = row.doubts.first();
        row.class = weightiest.map_or(RowClass::Clean, |doubt| doubt.class);
        let left = match row.class {
            RowClass::Clean => self.chosen(row, RowClass::Clean) == Choose::LeaveOut,
            _ => is_out(row),
        };
        row.comes = !left && row.kind != Kind::Nothing;
    }

    /// The plant of a row: its own, or the one that it says more about.
    pub fn plant_of(&self, row: usize) -> Who {
        match &self.rows[row].kind {
            Kind::More(who) => who.clone(),
            _ => Who::Row(row),
        }
    }

    /// A row and those before that say more about its plant or cross, as far as they are sorted.
    pub fn rows_of(&self, first: usize) -> impl Iterator<Item = &ImportRow> {
        let further = self.index.further.get(&first).into_iter().flatten();
        let rows = std::iter::once(first).chain(further.copied());
        rows.map(|at| &self.rows[at])
    }

    /// The name a founder on record came with; a row without a name came in as "?", which is none.
    pub fn received(&self, code: &str) -> Option<&str> {
        let founder = self.registry.founder(self.registry.plant(code)?)?;
        Some(&*founder.received).filter(|name| *name != "?")
    }
}

/// Whether something about a row leaves it out.
pub(super) fn is_out(row: &ImportRow) -> bool {
    let mut doubts = row.doubts.iter();
    doubts.any(|doubt| doubt.chosen == Choose::LeaveOut)
}

/// Leaves out a row with several plants in one cell, whatever was chosen: no plant is made for each.
pub(super) fn left_out_as_several(row: &mut ImportRow, why: &Why) {
    let several = |doubt: &&mut Doubt| doubt.class == RowClass::SeveralPlants;
    for doubt in row.doubts.iter_mut().filter(several) {
        (doubt.why, doubt.chosen) = (why.clone(), Choose::LeaveOut);
    }
}
