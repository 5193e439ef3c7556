//! What a label leaves open: it cannot be read, or names several plants, or plants of two suppliers.

use super::answer::{ImportRow, Kind, Who, Why};
use super::index::{Index, folded};
use super::labels::{Suppliers, Unread, says_more, several};
use super::sorting::{Sorting, plant_of};
use crate::record::{Choose, RowClass};

impl Sorting<'_, '_> {
    /// A label that cannot be read: of several plants, or not readable at all.
    pub fn label_unread(&self, row: &mut ImportRow, label: &str, unread: &mut Unread) {
        let pieces = several(label);
        let named = pieces.len() > 1 && row.kind == Kind::Founder;
        if named
            && pieces
                .iter()
                .all(|piece| !unread.is_unread(piece, self.vocabulary))
        {
            self.doubt(row, RowClass::SeveralPlants, label, Why::Several);
            row.facts.labels = pieces;
        } else {
            self.doubt(row, RowClass::LabelUnread, label, Why::LabelUnread);
        }
    }

    /// A name that says more than a species and that two suppliers use.
    pub fn shared(
        &self,
        index: &Index,
        suppliers: &Suppliers,
        done: &[ImportRow],
        row: &mut ImportRow,
    ) {
        let (Kind::Founder, Some(label)) = (&row.kind, &row.facts.label) else {
            return;
        };
        let label = label.clone();
        let own = row.facts.supplier.as_deref().map(folded);
        let (Some(own), Some(of_name)) = (own, suppliers.get(&folded(&label))) else {
            return;
        };
        let recorded = index.labels.get(&folded(&label)).into_iter().flatten();
        let recorded = recorded.filter_map(|who| match who {
            Who::OnRecord(code) => self
                .registry
                .founder(self.registry.plant(code)?)?
                .from
                .as_deref(),
            _ => None,
        });
        let by_others = recorded.map(folded).chain(of_name.keys().cloned());
        if !says_more(&label) || !by_others.into_iter().any(|from| from != own) {
            return;
        }
        let chosen = self.doubt(row, RowClass::SharedName, &label, Why::NameOfTwo);
        let first = of_name.values().min().copied();
        if let (Choose::OnePlant, Some(first)) = (
            chosen,
            first.filter(|first| done.get(*first).is_some_and(|of| of.comes)),
        ) {
            row.kind = Kind::More(plant_of(done, first));
        }
    }
}
