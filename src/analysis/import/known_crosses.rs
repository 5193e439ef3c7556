//! Rows of a cross or a packet of seed that is known: the row that was brought in, edited since, or the same cross in another
//! table or an earlier row. Of such a row only a remark comes in. What it says otherwise is said, with the command for it.

use super::answer::{ImportRow, Kind, RowParents, Who, Why};
use super::cross_cells::{OtherCell, begun_cells, cross_cells, is_of_sowing};
use super::index::folded;
use super::sorting::Sorting;
use crate::record::{Choose, RowClass};
use crate::registry::CrossRow;

impl Sorting<'_, '_> {
    /// Holds a row against the cross that it is, on record or of an earlier row; false where none is known.
    pub fn known_cross(&self, at: usize, row: &mut ImportRow) -> bool {
        if let Some((code, cross)) = self.recorded_cross(at, row) {
            let mut cells = cross_cells(self.registry, cross, &row.facts);
            let note = self.registry[cross].page.note.as_deref();
            let parents = self.other_parents(at, row, cross, note);
            cells.extend(parents.into_iter().map(|(holds, cell)| (Some(holds), cell)));
            self.remarks_of_cross(row, cross);
            self.only_remarks(row, &code, cells);
            row.kind = Kind::More(Who::OnRecord(code));
        } else if let Some((code, first)) = self.begun_before(at, row) {
            let before = self.rows_before(&code, first, row);
            let kept: Vec<&str> = before.iter().map(|of| of.source.as_str()).collect();
            row.new_remarks(&kept);
            let place = self.place(before[0]);
            let cells = begun_cells(self.registry, &code, &place, &before, &row.facts);
            self.only_remarks(row, &code, cells);
            row.kind = Kind::More(Who::Row(first));
        } else {
            return false;
        }
        true
    }

    /// Makes a row that repeats mother and father, and names a day on which no known sowing can have been, one more sowing of
    /// the cross; false where it is none. A row that was brought in and edited since may have its day put right.
    pub fn sown_again(&self, at: usize, row: &mut ImportRow) -> bool {
        let (code, cells) = match self.recorded_cross(at, row) {
            Some((code, _)) if self.is_edited(row, &code) => return false,
            Some((code, cross)) => (code, cross_cells(self.registry, cross, &row.facts)),
            None => match self.begun_before(at, row) {
                Some((code, first)) => {
                    let before = self.rows_before(&code, first, row);
                    let place = self.place(before[0]);
                    let cells = begun_cells(self.registry, &code, &place, &before, &row.facts);
                    (code, cells)
                }
                None => return false,
            },
        };
        if !self.is_another_sowing(&code, &row.facts) {
            return false;
        }
        for (holds, cell) in cells.into_iter().filter(|of| !is_of_sowing(of)) {
            let column = holds.and_then(|holds| self.table(row).holding(holds));
            self.differs(row, column, cell, Choose::Take);
        }
        row.kind = Kind::SeedOf(code);
        true
    }

    /// The rows before one that say something of its cross, those of the same sowing first.
    fn rows_before(&self, code: &str, first: usize, row: &ImportRow) -> Vec<&ImportRow> {
        let sown = self.index.of_seed.get(code).into_iter().flatten();
        let sown = sown.map(|at| &self.rows[*at]);
        let mut before: Vec<&ImportRow> = self.rows_of(first).chain(sown).collect();
        before.sort_by_key(|of| of.facts.sown != row.facts.sown);
        before
    }

    /// Says the cells that are not what is known; the row comes if it has a remark.
    fn only_remarks(&self, row: &mut ImportRow, code: &str, cells: Vec<OtherCell>) {
        let has_remarks = !row.remarks.is_empty();
        if cells.is_empty() && !has_remarks {
            self.doubt(row, RowClass::OnRecord, code, Why::CrossKnown);
        }
        let chosen = if has_remarks {
            Choose::Take
        } else {
            Choose::LeaveOut
        };
        for (holds, cell) in cells {
            let column = holds.and_then(|holds| self.table(row).holding(holds));
            self.differs(row, column, cell, chosen);
        }
    }

    /// The cross on record that a row is, with its code: the row was brought in, or says of the cross what the record does.
    fn recorded_cross(&self, at: usize, row: &ImportRow) -> Option<(String, CrossRow)> {
        let (code, cross) = self.cross_with_code(at, row)?;
        let agrees = || match row.kind {
            Kind::Cross => {
                let pairs = &self.registry[self.registry[cross].origin].pairs;
                let is_sure =
                    pairs.len() == 1 && pairs[0].seed.is_some() && pairs[0].pollen.is_some();
                let own = self.parents_of(at, &row.facts);
                is_sure && are_two(&own) && self.parents_against(at, row, cross).is_none()
            }
            _ => {
                let received = self.registry[cross].page.received.as_deref();
                let names = row.facts.label.as_deref().zip(received);
                names.is_some_and(|(own, received)| folded(own) == folded(received))
            }
        };
        (self.is_edited(row, &code) || agrees()).then_some((code, cross))
    }

    /// The cross on record with the code of a row, unless a row before it has that code and is not of the record.
    fn cross_with_code(&self, at: usize, row: &ImportRow) -> Option<(String, CrossRow)> {
        let is_cross = matches!(row.kind, Kind::Cross | Kind::Seed);
        let code = row.facts.code.clone().filter(|_| is_cross)?;
        let of_record = |of: &ImportRow| {
            let is_more = of.kind == Kind::More(Who::OnRecord(code.clone()));
            is_more || of.class == RowClass::OnRecord
        };
        let index = &self.index;
        let all = [&index.crosses, &index.seeds, &index.codes];
        let mut before = all.iter().filter_map(|codes| codes.get(&code));
        let is_first = before.all(|&first| first >= at || of_record(&self.rows[first]));
        let cross = self.registry.cross(&code).filter(|_| is_first)?;
        Some((code, cross))
    }

    /// The code of a row, and the earlier row that comes in with it and names the same mother and father.
    fn begun_before(&self, at: usize, row: &ImportRow) -> Option<(String, usize)> {
        let code = row.facts.code.clone()?;
        let first = *self.index.crosses.get(&code)?;
        let line = &self.rows[first];
        let is_cross = row.kind == Kind::Cross && !self.is_taken(row);
        if first >= at || !is_cross || !line.comes || line.kind != Kind::Cross {
            return None;
        }
        let own = self.parents_of(at, &row.facts);
        let there = self.parents_of(first, &line.facts);
        let same = own.seed == there.seed && own.pollen == there.pollen;
        (are_two(&own) && same).then_some((code, first))
    }
}

/// Whether one mother and one father are named.
fn are_two(parents: &RowParents) -> bool {
    parents.seed.len() == 1 && parents.pollen.len() == 1
}
