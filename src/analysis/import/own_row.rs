//! A row of podbook's own sheet, held against the plant on record that it is.

use super::answer::{Doubt, Why};
use super::cells::RowReader;
use super::dates::is_blank;
use super::differs::Held;
use super::looks::seen;
use crate::record::{Choose, RowClass};
use crate::text::GridRow;

impl RowReader<'_, '_> {
    /// A row of podbook's own sheet whose plant is on record: it adds nothing, and what differs from the record is said. In
    /// the sheet of another registry a plant with the same code and another name is another plant.
    pub fn on_record(&self, row: &GridRow) -> Option<Vec<Doubt>> {
        let code = self.facts.code.as_deref().unwrap_or_default();
        let Some(plant) = self.of.registry.plant(code) else {
            return self.without_its_code(row, code);
        };
        let received = self.of.registry.founder(plant).map(|of| &*of.received);
        let received = received.filter(|name| !is_blank(name));
        let is_named = received.map(seen).as_deref().map(str::trim) == self.facts.label.as_deref();
        if !is_named && !self.of.own.is_of_this_registry {
            return None;
        }
        let held = Held {
            registry: self.of.registry,
            today: self.of.today,
            table: self.of.table,
            row,
            plant,
        };
        let differs = held.differences();
        if !differs.is_empty() {
            return Some(differs);
        }
        Some(vec![Doubt::of_row(
            RowClass::OnRecord,
            code,
            Why::OwnSheet,
            Choose::LeaveOut,
        )])
    }

    /// A row of the sheet of this registry that has lost its code: it is a plant on record, and never a second one.
    fn without_its_code(&self, row: &GridRow, code: &str) -> Option<Vec<Doubt>> {
        let of = self.of.own.known_by_cells(self.of.table, row)?;
        let why = Why::Differs {
            recorded: Some(of.to_owned()),
            by: format!("write {of} back into the cell"),
        };
        let doubt = Doubt::of_row(RowClass::Differs, code, why, Choose::LeaveOut);
        let column = "plant".to_owned();
        Some(vec![Doubt { column, ..doubt }])
    }

    /// A row of the sheet of this registry without a code: nothing says that it is a new plant.
    pub fn no_code(&mut self) {
        let has_code = self.facts.code.is_some() || !self.facts.codes.is_empty();
        if self.of.own.is_of_this_registry && !has_code {
            self.about_row(RowClass::NoPlant, Why::NoCode);
        }
    }
}
