//! What rows are sorted with, the doubts raised on the way, and how they settle a row.

use super::answer::{Doubt, ImportRow, ImportTable, Kind, Who, Why};
use super::chosen::chosen;
use crate::naming::Vocabulary;
use crate::record::{Choose, Day, ImportChoices, RowClass};
use crate::registry::Registry;

/// What rows are sorted with.
pub(super) struct Sorting<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub choices: &'a ImportChoices,
    pub vocabulary: &'a Vocabulary,
    pub today: Day,
    pub tables: Vec<ImportTable>,
}

impl Sorting<'_, '_> {
    /// Notes a doubt about a row, and says what was chosen for such.
    pub fn doubt(&self, row: &mut ImportRow, class: RowClass, found: &str, why: Why) -> Choose {
        let chosen = chosen(self.choices, class, &self.tables[row.table].name, row.line);
        row.doubts.push(Doubt {
            class,
            column: String::new(),
            found: found.to_owned(),
            why,
            chosen,
        });
        chosen
    }

    /// Whether the grower leaves this one row out.
    pub fn is_left(&self, row: &ImportRow) -> bool {
        let name = &self.tables[row.table].name;
        let mut own = self.choices.rows.iter().rev();
        let own = own.find(|of| of.row == row.line && of.table == *name);
        own.is_some_and(|of| of.choose == Choose::LeaveOut)
    }

    /// Whether the grower takes this row as one more plant where another has its code.
    pub fn is_taken(&self, row: &ImportRow) -> bool {
        let name = &self.tables[row.table].name;
        chosen(self.choices, RowClass::CodeTaken, name, row.line) == Choose::Take
    }

    /// The class of a row, and whether it comes.
    pub fn settle(&self, row: &mut ImportRow) {
        row.doubts.sort_by_key(|doubt| doubt.class);
        row.class = row
            .doubts
            .first()
            .map_or(RowClass::Clean, |doubt| doubt.class);
        let clean = chosen(
            self.choices,
            RowClass::Clean,
            &self.tables[row.table].name,
            row.line,
        );
        let left = match row.class {
            RowClass::Clean => clean == Choose::LeaveOut,
            _ => is_out(row),
        };
        row.comes = !left && row.kind != Kind::Nothing;
    }
}

/// The plant of a row: its own, or the one that it says more about.
pub(super) fn plant_of(done: &[ImportRow], row: usize) -> Who {
    match &done[row].kind {
        Kind::More(who) => who.clone(),
        _ => Who::Row(row),
    }
}

/// Whether something about a row leaves it out.
pub(super) fn is_out(row: &ImportRow) -> bool {
    row.doubts
        .iter()
        .any(|doubt| doubt.chosen == Choose::LeaveOut)
}
