//! Seed arrives, bought or swapped: a cross page with the parents as the label claims.

use crate::recording::codes::{can_be_given, next_cross};
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::names::names_taken_in;
use crate::recording::recorded::{Recorded, Tag, What};
use crate::recording::slip::Slip;
use crate::recording::voice::Words;
use crate::recording::written::{RonRecord, lines, text};
use crate::registry::ids::is_new_code;

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
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let label = self.label.trim();
        if label.is_empty() {
            return Err(Slip::missing(
                "the label",
                "it in quotes, such as \"maxima x veitchii\"; write \"?\" when there was none",
            ));
        }
        if self.seeds == Some(0) {
            return Err(Slip::BadNumber(
                "--seeds",
                "0".to_owned(),
                "at least one seed; leave it out where they were not counted",
            ));
        }
        let code = match &self.code {
            Some(code) if !is_new_code(code) => {
                return Err(Slip::BadCode("cross", code.clone()));
            }
            Some(code) => can_be_given(registry, code).map(|()| code.clone())?,
            None => next_cross(registry, on.year(draft.today)),
        };
        let is_unknown = label == "?";
        let remarks = match is_unknown {
            true => Vec::new(),
            false => names_taken_in(draft, label)?,
        };
        draft.new_cross(&code, &self.page(&code, is_unknown, &on))?;
        Ok(Recorded {
            about: vec![code.clone()],
            tags: vec![Tag {
                code: format!("{code}.L1"),
                on: "seed envelope",
            }],
            remarks: Words::all(remarks),
            what: What::SeedArrived {
                cross: code,
                label: label.to_owned(),
                seeds: self.seeds,
                estimated: self.estimated,
            },
        })
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
            .text_if("stored", self.stored.as_ref())
            .text("note", &format!("came {}", on.text));
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
