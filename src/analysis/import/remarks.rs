//! Remarks: cells of a row that only a note can keep. A further row of a plant or cross comes in with those that its note
//! does not have yet, so that none is lost.

use super::answer::{Doubt, ImportRow, ImportTable, Who, Why};
use super::dates::is_blank;
use super::sorting::Sorting;
use super::source::{key, named, sources_in};
use crate::record::{Choose, Holds, RowClass};
use crate::registry::CrossRow;
use crate::text::GridRow;

/// The cells of columns that nothing but a note keeps. What differs in a note of podbook's own sheet is said with the rest.
pub(super) fn remarks(table: &ImportTable, row: &GridRow) -> Vec<String> {
    if table.is_own_sheet {
        return Vec::new();
    }
    let kept = [Holds::Note, Holds::Price, Holds::NotRead];
    let columns = table.columns.iter().filter(|of| kept.contains(&of.holds));
    let filled = columns.filter_map(|column| {
        let cell = row.cells.get(column.at).filter(|cell| !is_blank(cell))?;
        Some(named(&column.heading, cell))
    });
    filled.collect()
}

impl ImportRow {
    /// Whether a further row of a plant adds anything: readings, its end, or a remark.
    pub(super) fn adds(&self) -> bool {
        !self.facts.readings.is_empty() || self.facts.fate.is_some() || !self.remarks.is_empty()
    }

    /// Leaves a further row the remarks that no words kept before have; cells that could not be read are remarks too.
    pub(super) fn new_remarks(&mut self, kept: &[&str]) {
        let unread = self.doubts.iter().filter(|of| is_unread(of));
        let unread = unread.map(|of| named(&of.column, &of.found));
        self.remarks.extend(unread);
        let kept = kept.iter().filter_map(|source| key(source));
        let kept: Vec<String> = kept.map(|(_, cells)| format!("; {cells}; ")).collect();
        let is_new = |remark: &String| {
            let remark = format!("; {remark}; ");
            !kept.iter().any(|cells| cells.contains(&remark))
        };
        self.remarks.retain(is_new);
    }
}

/// Whether the cell of a doubt stays in the note alone.
fn is_unread(doubt: &Doubt) -> bool {
    let read = matches!(doubt.why, Why::CodeChanged(_) | Why::CountedDays(_));
    let stays = doubt.class == RowClass::Other && doubt.chosen == Choose::Take;
    stays && !read && !doubt.column.is_empty()
}

impl Sorting<'_, '_> {
    /// Leaves a further row of a plant the remarks that are new.
    pub fn remarks_of_plant(&self, row: &mut ImportRow, who: &Who) {
        match who {
            Who::Row(first) => {
                let kept = self.rows_of(*first).map(|of| of.source.as_str());
                row.new_remarks(&kept.collect::<Vec<_>>());
            }
            Who::OnRecord(code) => {
                let plant = self.registry.plant(code);
                let founder = plant.and_then(|plant| self.registry.founder(plant));
                let seedling = plant.and_then(|plant| self.registry.seedling(plant));
                let note = founder.and_then(|of| of.note.as_deref());
                let note = note.or(seedling.as_ref().and_then(|of| of.note.as_deref()));
                row.new_remarks(&note.map(sources_in).unwrap_or_default());
            }
            Who::Species(_) => {}
        }
    }

    /// Leaves a row of a cross on record the remarks that are new.
    pub fn remarks_of_cross(&self, row: &mut ImportRow, cross: CrossRow) {
        let page = &self.registry[cross].page;
        let sown = page.sowings.iter().map(|of| of.note.as_deref());
        let notes = std::iter::once(page.note.as_deref()).chain(sown).flatten();
        let kept: Vec<&str> = notes.flat_map(sources_in).collect();
        row.new_remarks(&kept);
    }
}
