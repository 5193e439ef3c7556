//! Rows of a cross or a packet of seed that is on record: the row that was brought in, edited since, or the same cross in
//! another table. Of such a row only a remark comes in. What it says otherwise than the record is said, with the command for it.

use super::answer::{CorrectedBy, Doubt, ImportRow, Kind, Who, Why};
use super::cross_cells::{CrossCell, cross_cells};
use super::index::{Index, folded};
use super::sorting::Sorting;
use crate::record::{Choose, Holds, RowClass};
use crate::registry::CrossRow;

impl Sorting<'_, '_> {
    /// Holds a row against the cross on record that it is; false where it is none that is known. `other` is another row by
    /// its place.
    pub fn known_cross<'r>(
        &self,
        index: &Index,
        (at, row): (usize, &mut ImportRow),
        other: impl Fn(usize) -> Option<&'r ImportRow>,
    ) -> bool {
        let Some((code, cross)) = self.cross_with_code(index, (at, row), &other) else {
            return false;
        };
        let parentage = self.parentage(index);
        let against = parentage.parents_against((at, row), cross, other);
        let is_edited = index.is_edited(row, &code);
        let agrees = match row.kind {
            Kind::Cross => against.is_none() && self.names_both(index, (at, row), cross),
            _ => self.has_label(row, cross),
        };
        if !is_edited && !agrees {
            return false;
        }
        let page = self.page_of_cross(cross);
        let cells = cross_cells(self.registry, cross, &row.facts, &page);
        let mut said: Vec<(Option<Holds>, String, Why)> = cells.into_iter().map(why).collect();
        said.extend(against.map(|(found, why)| (None, found, why)));
        self.remarks_of_cross(row, cross);
        let chosen = match row.remarks.is_empty() {
            true => Choose::LeaveOut,
            false => Choose::Take,
        };
        if said.is_empty() && row.remarks.is_empty() {
            self.doubt(row, RowClass::OnRecord, &code, Why::CrossKnown);
        }
        for (holds, found, why) in said {
            let mut columns = self.tables[row.table].columns.iter();
            let column = columns.find(|of| Some(of.holds) == holds);
            row.doubts.push(Doubt {
                class: RowClass::Differs,
                column: column.map(|of| of.heading.clone()).unwrap_or_default(),
                found,
                why,
                chosen,
            });
        }
        row.kind = Kind::More(Who::OnRecord(code));
        true
    }

    /// The cross on record with the code of a row, unless a row before it has that code and is not of the record.
    fn cross_with_code<'r>(
        &self,
        index: &Index,
        (at, row): (usize, &ImportRow),
        other: impl Fn(usize) -> Option<&'r ImportRow>,
    ) -> Option<(String, CrossRow)> {
        let is_cross = matches!(row.kind, Kind::Cross | Kind::Seed);
        let code = row.facts.code.clone().filter(|_| is_cross)?;
        let all = [&index.crosses, &index.seeds, &index.codes];
        let before = all.iter().filter_map(|codes| codes.get(&code));
        let of_record = |of: &ImportRow| {
            let is_more = of.kind == Kind::More(Who::OnRecord(code.clone()));
            is_more || of.class == RowClass::OnRecord
        };
        let is_first =
            (before.into_iter()).all(|&first| first >= at || other(first).is_some_and(of_record));
        let cross = self.registry.cross(&code).filter(|_| is_first)?;
        Some((code, cross))
    }

    /// Whether a row names one mother and one father, and the record of a cross too.
    fn names_both(&self, index: &Index, (at, row): (usize, &ImportRow), cross: CrossRow) -> bool {
        let (own, _) = self.parentage(index).of(&row.facts, at);
        let pairs = &self.registry[self.registry[cross].origin].pairs;
        let is_sure = pairs.len() == 1 && pairs[0].seed.is_some() && pairs[0].pollen.is_some();
        is_sure && own.seed.len() == 1 && own.pollen.len() == 1
    }

    fn has_label(&self, row: &ImportRow, cross: CrossRow) -> bool {
        let received = self.registry[cross].page.received.as_deref();
        let own = row.facts.label.as_deref();
        own.zip(received)
            .is_some_and(|(own, received)| folded(own) == folded(received))
    }

    fn page_of_cross(&self, cross: CrossRow) -> String {
        let file = self.registry[cross].file;
        self.registry.sources.get(file).path.clone()
    }
}

fn why(of: CrossCell) -> (Option<Holds>, String, Why) {
    let (recorded, by): (Option<String>, CorrectedBy) = (of.recorded, of.by);
    (Some(of.holds), of.found, Why::Differs { recorded, by })
}
