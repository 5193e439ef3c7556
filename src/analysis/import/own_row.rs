//! A row of podbook's own sheet, held against the plant on record that it is.

use super::answer::{CorrectedBy, Doubt, Why};
use super::cells::{RowReader, seen};
use super::chosen::chosen;
use super::dates::is_blank;
use super::differs::Held;
use super::facts::RowFacts;
use crate::record::{Choose, RowClass};
use crate::text::GridRow;

impl RowReader<'_, '_> {
    /// A row of podbook's own sheet whose plant is on record: it adds nothing, and what differs from the record is said. In
    /// the sheet of another registry a plant with the same code and another name is another plant.
    pub fn on_record(&self, row: &GridRow, facts: &RowFacts) -> Option<Vec<Doubt>> {
        let code = facts.code.as_deref().unwrap_or_default();
        let Some(plant) = self.registry.plant(code) else {
            return self.without_its_code(row, code);
        };
        let received = self.registry.founder(plant).map(|of| &*of.received);
        let received = received.filter(|name| !is_blank(name));
        let is_named = received.map(seen).as_deref().map(str::trim) == facts.label.as_deref();
        if !is_named && !self.own.is_of_this_registry {
            return None;
        }
        let held = Held {
            registry: self.registry,
            today: self.today,
            table: self.table,
            row,
            plant,
        };
        let differs = held.differences();
        if !differs.is_empty() {
            return Some(differs);
        }
        Some(vec![about_row(RowClass::OnRecord, code, Why::OwnSheet)])
    }

    /// A row of the sheet of this registry that has lost its code: it is a plant on record, and never a second one.
    fn without_its_code(&self, row: &GridRow, code: &str) -> Option<Vec<Doubt>> {
        let of = self.own.known_by_cells(self.table, row)?;
        let why = Why::Differs {
            recorded: Some(of.to_owned()),
            by: CorrectedBy::Code(of.to_owned()),
        };
        let doubt = about_row(RowClass::Differs, code, why);
        let column = "plant".to_owned();
        Some(vec![Doubt { column, ..doubt }])
    }

    /// A row of the sheet of this registry without a code: nothing says that it is a new plant.
    pub fn no_code(&self, row: &GridRow, facts: &RowFacts) -> Option<Doubt> {
        let has_code = facts.code.is_some() || !facts.codes.is_empty();
        let class = RowClass::NoPlant;
        let chosen = chosen(self.choices, class, &self.table.name, row.line);
        let doubt = about_row(class, "", Why::NoCode);
        (self.own.is_of_this_registry && !has_code).then_some(Doubt { chosen, ..doubt })
    }
}

/// A doubt about a whole row that leaves it out.
fn about_row(class: RowClass, found: &str, why: Why) -> Doubt {
    Doubt {
        class,
        column: String::new(),
        found: found.to_owned(),
        why,
        chosen: Choose::LeaveOut,
    }
}
