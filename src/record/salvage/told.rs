//! The findings about one file: faults of shape, folded after twenty of a kind, and of all others the first five thousand.
//!
//! A file of ten million brackets or a million broken records gives a few findings that say how many more there
//! are, so that the report never outgrows the file.

use crate::diagnostic::{Code, Finding};
use crate::text::FileId;
use crate::text::outline::{FaultKind, Outline};
use std::collections::BTreeMap;

/// How many faults of shape of one kind are reported for a file.
const SHAPE_FAULTS: usize = 20;
/// How many of one kind are reported; a habit of the whole file is reported once.
fn most_told(code: Code) -> usize {
    match code.0 {
        "inch-mark" | "single-quotes" => 1,
        _ => SHAPE_FAULTS,
    }
}

/// How many other faults are reported for a file.
const OTHER_FAULTS: usize = 5000;

/// The findings of one file in the making.
#[derive(Default)]
pub(super) struct Told {
    /// Faults of shape, each with its number in the outline, ascending.
    shape: Vec<(usize, Finding)>,
    /// Of each kind of them how many there are, and the last told.
    kinds: BTreeMap<Code, (usize, usize)>,
    others: Vec<Finding>,
    /// How many others are not told.
    more: usize,
}

impl Told {
    /// The faults of shape, but names that no field has: the typed parse says which was meant.
    pub fn of_shape(outline: &Outline, file: FileId) -> Told {
        let mut told = Told::default();
        let faults = outline.faults().iter().enumerate();
        for (at, fault) in faults.filter(|(_, fault)| fault.kind != FaultKind::SplitName) {
            let code = Finding::code_of_shape(fault.kind);
            let (count, last) = told.kinds.entry(code).or_default();
            *count += 1;
            if *count <= most_told(code) {
                *last = told.shape.len();
                let finding = Finding::of_shape(fault, file, outline.text());
                told.shape.push((at, finding));
            }
        }
        told
    }

    /// The finding of a fault of shape by its number in the outline, if it is reported.
    pub fn shape_mut(&mut self, fault: usize) -> Option<&mut Finding> {
        let at = self
            .shape
            .binary_search_by_key(&fault, |(at, _)| *at)
            .ok()?;
        Some(&mut self.shape[at].1)
    }

    /// Tells more. Records are tried from the last to the first; the first in the file are those told.
    pub fn extend(&mut self, findings: impl IntoIterator<Item = Finding>) {
        self.others.extend(findings);
        if self.others.len() >= 2 * OTHER_FAULTS {
            self.cut();
        }
    }

    fn cut(&mut self) {
        self.others.sort_by_key(|finding| finding.place);
        self.more += self.others.len().saturating_sub(OTHER_FAULTS);
        self.others.truncate(OTHER_FAULTS);
    }

    /// All findings, with how many more there are.
    pub fn into_vec(mut self) -> Vec<Finding> {
        if self.others.len() + self.more > OTHER_FAULTS {
            self.cut();
        }
        for (code, (count, last)) in self.kinds {
            let more = count.saturating_sub(most_told(code));
            if more > 0 {
                let words = format!("and {more} more of the same kind in this file");
                self.shape[last].1.help.push(words);
            }
        }
        if let Some(last) = self.others.last_mut().filter(|_| self.more > 0) {
            let words = format!("and {} more faults after this one in this file", self.more);
            last.help.push(words);
        }
        let shape = self.shape.into_iter().map(|(_, finding)| finding);
        shape.chain(self.others).collect()
    }
}
