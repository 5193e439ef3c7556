//! What a label leaves open: it cannot be read, or names several plants, or plants of two suppliers.

use super::answer::{ImportRow, Kind, Who, Why};
use super::index::folded;
use super::labels::{says_more, several};
use super::sorting::Sorting;
use crate::record::{Choose, RowClass};

impl Sorting<'_, '_> {
    /// A label that cannot be read: of several plants, or not readable at all.
    pub fn label_unread(&self, row: &mut ImportRow, label: &str) {
        let pieces = several(label);
        let are_several = pieces.len() > 1 && row.kind == Kind::Founder;
        if are_several && !pieces.iter().any(|piece| self.unread.contains(piece)) {
            self.doubt(row, RowClass::SeveralPlants, label, Why::Several);
            row.facts.labels = pieces;
        } else {
            self.doubt(row, RowClass::LabelUnread, label, Why::LabelUnread);
        }
    }

    /// A name that says more than a species and that two suppliers use.
    pub fn shared(&self, row: &mut ImportRow) {
        let (Kind::Founder, Some(label), Some(own)) =
            (&row.kind, row.facts.label.clone(), &row.facts.supplier)
        else {
            return;
        };
        let (name, own) = (folded(&label), folded(own));
        let Some(of_name) = self.suppliers.get(&name) else {
            return;
        };
        let supplier = |who: &Who| match who {
            Who::OnRecord(code) => {
                let founder = self.registry.founder(self.registry.plant(code)?)?;
                founder.from.as_deref().map(folded)
            }
            _ => None,
        };
        let recorded = self.index.labels.get(&name).into_iter().flatten();
        let mut all = recorded.filter_map(supplier).chain(of_name.keys().cloned());
        if !says_more(&label) || !all.any(|from| from != own) {
            return;
        }
        let chosen = self.doubt(row, RowClass::SharedName, &label, Why::NameOfTwo);
        let first = of_name.values().min().copied();
        if let (Choose::OnePlant, Some(first)) = (chosen, first)
            && self.rows[first].comes
        {
            row.kind = Kind::More(self.plant_of(first));
        }
    }
}
