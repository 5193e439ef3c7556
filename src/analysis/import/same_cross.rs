//! A further row of a cross that an earlier row of the tables begins: the same code, mother and father. As with a cross on
//! record nothing but a remark of it comes in, and what it says otherwise is said, with the command for it.

use super::answer::{CorrectedBy, Doubt, ImportRow, Kind, RowParents, Who, Why};
use super::facts::RowFacts;
use super::index::{Index, folded};
use super::sorting::Sorting;
use crate::record::{Choose, Holds, RowClass};

/// A cell of the row: what it holds, its words, those of the first row, and what records it.
type Cell = (Holds, String, Option<String>, CorrectedBy);

impl Sorting<'_, '_> {
    /// Holds a row against the earlier one of its cross; false where there is none. `other` is another row by its place.
    pub fn same_cross<'r>(
        &self,
        index: &Index,
        (at, row): (usize, &mut ImportRow),
        other: impl Fn(usize) -> Option<&'r ImportRow>,
    ) -> bool {
        let Some((code, first)) = self.begun_before(index, (at, row), &other) else {
            return false;
        };
        let further = index.further.get(&first).into_iter().flatten();
        let before = std::iter::once(&first).chain(further);
        let before: Vec<&ImportRow> = before.filter_map(|&at| other(at)).collect();
        let kept: Vec<&str> = before.iter().map(|of| of.source.as_str()).collect();
        row.new_remarks(&kept);
        let chosen = match row.remarks.is_empty() {
            true => Choose::LeaveOut,
            false => Choose::Take,
        };
        let cells = self.new_cells(&code, &before, &row.facts);
        if cells.is_empty() && row.remarks.is_empty() {
            self.doubt(row, RowClass::OnRecord, &code, Why::CrossKnown);
        }
        let line = (self.tables[before[0].table].name.clone(), before[0].line);
        for (holds, found, there, by) in cells {
            let mut columns = self.tables[row.table].columns.iter();
            let column = columns.find(|of| of.holds == holds);
            row.doubts.push(Doubt {
                class: RowClass::Differs,
                column: column.map(|of| of.heading.clone()).unwrap_or_default(),
                found,
                why: Why::DiffersFrom {
                    row: line.clone(),
                    there,
                    by,
                },
                chosen,
            });
        }
        row.kind = Kind::More(Who::Row(first));
        true
    }

    /// The code of a row, and the earlier row that comes in with it and names the same mother and father.
    fn begun_before<'r>(
        &self,
        index: &Index,
        (at, row): (usize, &ImportRow),
        other: impl Fn(usize) -> Option<&'r ImportRow>,
    ) -> Option<(String, usize)> {
        let code = row.facts.code.clone()?;
        let first = *index.crosses.get(&code).filter(|first| **first < at)?;
        let is_cross = row.kind == Kind::Cross && !self.is_taken(row);
        let line = other(first).filter(|of| is_cross && of.comes && of.kind == Kind::Cross)?;
        let (own, _) = self.parentage(index).of(&row.facts, at);
        let (there, _) = self.parentage(index).of(&line.facts, first);
        let both = |of: &RowParents| of.seed.len() == 1 && of.pollen.len() == 1;
        let same = own.seed == there.seed && own.pollen == there.pollen;
        (both(&own) && same).then_some((code, first))
    }

    /// The cells of a row that no row before it has.
    fn new_cells(&self, code: &str, before: &[&ImportRow], facts: &RowFacts) -> Vec<Cell> {
        let page = || CorrectedBy::Page(format!("crosses/{code}.ron"));
        let first = &before[0].facts;
        let words = |holds: Holds, of: fn(&RowFacts) -> Option<String>| -> Option<Cell> {
            let own = of(facts)?;
            let same = |there: String| match holds {
                Holds::Pollinated | Holds::Harvested | Holds::Sown => {
                    self.registry.when(&there) == self.registry.when(&own)
                }
                _ => folded(&there) == folded(&own),
            };
            let mut all = before.iter().filter_map(|row| of(&row.facts));
            (!all.any(same)).then(|| (holds, own.clone(), of(first), page()))
        };
        let seeds = |of: &RowFacts| of.seeds?.number.map(|number| number.to_string());
        let cells = [
            words(Holds::Pollinated, |of| of.pollinated.clone()),
            words(Holds::Pods, |of| of.pods.map(|pods| pods.to_string())),
            words(Holds::Harvested, |of| of.harvested.clone()),
            words(Holds::Seeds, seeds),
            words(Holds::Sown, |of| of.sown.clone()),
            words(Holds::Left, |of| of.left.clone()),
            words(Holds::Label, |of| of.label.clone()),
            words(Holds::Supplier, |of| of.supplier.clone()),
        ];
        let known: Vec<_> = before.iter().flat_map(|row| counts(&row.facts)).collect();
        let new = counts(facts).into_iter().filter(|of| !known.contains(of));
        let up = known.first().map(|(_, up)| up.to_string());
        let new = new.map(|(on, count)| {
            let of = code.to_owned();
            let by = CorrectedBy::Count { of, up: count, on };
            (Holds::Germinated, count.to_string(), up.clone(), by)
        });
        cells.into_iter().flatten().chain(new).collect()
    }
}

/// The counts of seedlings of a row, with their days.
fn counts(facts: &RowFacts) -> Vec<(Option<String>, u32)> {
    let own = facts.germinated.map(|up| (facts.counted.clone(), up));
    let dated = facts.counts.iter().map(|(on, up)| (Some(on.clone()), *up));
    own.into_iter().chain(dated).collect()
}
