//! Seed arrives, bought or swapped: a cross page with the parents as the label claims.

use crate::recording::codes::{given_or, next_cross};
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::names::names_taken_in;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::written::{RonRecord, lines, text};

/// Seed that came with a label.
#[derive(Clone, Debug, Default)]
pub struct AddSeed {
    /// The label, letter by letter.
    pub label: String,
    /// The code of its cross; the next free one of the year if not given.
    pub code: Option<String>,
    /// Seeds.
    pub seeds: Option<u32>,
    /// Whether their number is a guess.
    pub estimated: bool,
    /// Whom it came from; private.
    pub from: Option<String>,
    /// How it is kept.
    pub stored: Option<String>,
    /// When it came; today if not given.
    pub on: Option<String>,
    /// Remarks.
    pub note: Option<String>,
}

impl AddSeed {
    /// Writes a page with one seed lot.
    ///
    /// # Errors
    /// If there is no label, no seed, or the code is taken.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let label = self.label.trim();
        if label.is_empty() {
            return Err(Slip::missing(
                "the label",
                "it in quotes, such as \"maxima x veitchii\"; write \"?\" when there was none",
            ));
        }
        if self.seeds == Some(0) {
            let needed = "at least one seed; leave it out where they were not counted";
            return Err(Slip::bad_number("--seeds", "0", needed));
        }
        let next = || next_cross(registry, on.year());
        let code = given_or(registry, ("cross", self.code.as_deref()), next)?;
        let is_unknown = label == "?";
        let remarks = match is_unknown {
            true => Vec::new(),
            false => names_taken_in(draft, label)?,
        };
        draft.new_cross(&code, &self.page(&code, is_unknown, &on))?;
        let (about, lot) = (vec![code.clone()], format!("{code}.L1"));
        let what = What::SeedArrived {
            cross: code,
            label: label.to_owned(),
            seeds: self.seeds,
            estimated: self.estimated,
        };
        let recorded = Recorded::of(what, about, on.text).tag(lot, "seed envelope");
        Ok(recorded.remarks(remarks))
    }

    /// The page, with the packet as a pod, so that seedlings mixed up with it can be said to be of it. The seeds are the lot's:
    /// how many pods they came from, and with how many seeds, is not known.
    fn page(&self, code: &str, is_unknown: bool, on: &Dated) -> RonRecord {
        let label = self.label.trim();
        let pod = RonRecord::new()
            .text("code", "P1")
            .text("note", "the packet as it came");
        let lot = RonRecord::new()
            .text("code", "L1")
            .text("pod", "P1")
            .value_if("seeds", self.seeds)
            .value_if("estimated", self.estimated.then_some("true"))
            .text("came", &on.text)
            .text_if("stored", self.stored.as_ref());
        let (parents, confidence) = match is_unknown {
            true => ("unknown".to_owned(), "unknown"),
            false => (format!("label_only({})", text(label)), "claim"),
        };
        RonRecord::new()
            .text("code", code)
            .value("parents", parents)
            .value("confidence", confidence)
            .text("received", label)
            .text_if("from", self.from.as_ref())
            .value("pods", lines(&[pod.line()]))
            .value("seed_lots", lines(&[lot.line()]))
            .text_if("note", self.note.as_ref())
    }
}
