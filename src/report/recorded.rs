//! What a recording has recorded, in words: one line of what happened, the codes to write down, and what to look at.

use super::sheet::{Report, Sheet};
use crate::recording::recorded::{Recorded, What};
use crate::wording::counted;
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

/// Words for a recording.
pub fn recorded(recorded: &Recorded) -> RecordedReport {
    let tags = recorded.tags.iter();
    RecordedReport {
        recorded: recorded.what.words(),
        about: recorded.about.clone(),
        write_down: tags
            .map(|tag| WriteDown {
                code: tag.code.clone(),
                on: tag.on,
            })
            .collect(),
        pages: Vec::new(),
        change: None,
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
        let tags = self.write_down.iter();
        sheet.lines(
            None,
            tags.map(|tag| format!("Write on the {}: {}", tag.on, tag.code))
                .collect(),
        );
        if let Some(difference) = &self.difference {
            sheet.lines(
                Some("Nothing was written. The change:"),
                difference.lines().map(str::to_owned).collect(),
            );
        }
        for warning in &self.warnings {
            sheet.caution(warning.clone());
        }
        sheet
    }
}

impl What {
    /// What happened, in one sentence.
    pub fn words(&self) -> String {
        match self {
            What::Arrived { code, name } => format!("{code}: {name}, added to the collection"),
            What::Pollinated {
                zone,
                seed,
                pollen,
                envelope,
                flowers,
                on,
                again,
            } => {
                let flowers = match flowers {
                    Some(flowers) => {
                        format!(", {}", counted(*flowers as usize, "flower", "flowers"))
                    }
                    None => String::new(),
                };
                let from = match envelope {
                    Some(envelope) => format!(" from {envelope}"),
                    None => String::new(),
                };
                let again = if *again { " again" } else { "" };
                format!("{zone}: {seed} pollinated{again} with {pollen}{from} on {on}{flowers}")
            }
            What::Gone { fate, plants, on } => {
                let word = match *fate {
                    "given" => "given away",
                    fate => fate,
                };
                format!("{}: {word} on {on}", several(plants))
            }
            What::Measured {
                plants,
                readings,
                dead,
                on,
            } => {
                let read = format!(
                    "{}: {} on {on}",
                    several(plants),
                    counted(*readings, "reading", "readings")
                );
                match (plants.is_empty(), dead.is_empty()) {
                    (true, _) => format!("{}: died on {on}", several(dead)),
                    (false, true) => read,
                    (false, false) => format!("{read}; died: {}", several(dead)),
                }
            }
            What::Undone { change, asked } => format!("Undid change {change}: podbook {asked}"),
            What::Kept { plants, before } => {
                let before = match before {
                    0 => String::new(),
                    1 => "; 1 more was marked already".to_owned(),
                    n => format!("; {n} more were marked already"),
                };
                format!("{}: marked to keep{before}", several(plants))
            }
        }
    }
}

/// Few codes by name, many by number and ends.
fn several(codes: &[String]) -> String {
    const NAMED: usize = 6;
    match codes {
        [] => "nothing".to_owned(),
        few if few.len() <= NAMED => few.join(", "),
        [first, .., last] => format!("{} plants, {first} to {last}", codes.len()),
        [one] => one.clone(),
    }
}
