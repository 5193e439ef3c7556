//! What a recording has recorded: one line of what happened, the codes to write down, and what to look at.

use super::caution::Weight;
use super::sheet::{Report, Sheet};
use crate::recording::recorded::Recorded;
use crate::recording::voice::Voice;
use serde::Serialize;

/// A recording that was made, or would be.
#[derive(Serialize)]
pub struct RecordedReport {
    /// What was recorded, in one sentence.
    pub recorded: String,
    /// Codes that were recorded on.
    pub about: Vec<String>,
    /// Codes to write on tags, envelopes and pots.
    pub write_down: Vec<WriteDown>,
    /// Pages that were changed, or would be.
    pub pages: Vec<String>,
    /// Number of the change in the journal; none when nothing was written.
    pub change: Option<u32>,
    /// What to look at.
    pub remarks: Vec<String>,
    /// Warnings of `podbook check` that the change brings.
    pub warnings: Vec<String>,
    /// The change as lines taken out and put in; only when nothing was written.
    pub difference: Option<String>,
}

/// A code to write down.
#[derive(Serialize)]
pub struct WriteDown {
    /// The code.
    pub code: String,
    /// On what.
    pub on: &'static str,
}

/// Words for a recording, with remarks as they are read there.
pub fn recorded(recorded: &Recorded, voice: Voice) -> RecordedReport {
    let tags = recorded.tags.iter();
    let remarks = recorded.remarks.iter();
    RecordedReport {
        recorded: recorded.words(),
        about: recorded.about.clone(),
        write_down: tags
            .map(|tag| WriteDown {
                code: tag.code.clone(),
                on: tag.on,
            })
            .collect(),
        pages: Vec::new(),
        change: None,
        remarks: remarks.map(|of| of.said(voice).to_owned()).collect(),
        warnings: Vec::new(),
        difference: None,
    }
}

impl Report for RecordedReport {
    fn sheet(&self) -> Sheet {
        let answer = match self.difference {
            None => self.recorded.clone(),
            Some(_) => format!("Would record: {}", self.recorded),
        };
        let mut sheet = Sheet::new(answer);
        sheet.is_said_once = self.change.is_some();
        let tags = self.write_down.iter();
        sheet.lines(
            None,
            tags.map(|tag| format!("Write on the {}: {}", tag.on, tag.code)),
        );
        if let Some(difference) = &self.difference {
            sheet.lines(
                Some("Nothing was written. The change:"),
                difference.lines().map(str::to_owned),
            );
        }
        sheet.cautions(Weight::Answer, self.remarks.iter().chain(&self.warnings));
        sheet
    }
}
