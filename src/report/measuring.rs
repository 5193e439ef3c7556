//! The words of a sitting at the keyboard: what is asked, why an answer is refused or doubted, and how it ended.

use super::caution::Weight;
use super::sheet::{Report, Sheet};
use crate::analysis::bench_sheet::{column, last_words};
use crate::diagnostic::Finding;
use crate::observation::asked_columns::{AskedColumn, unit_word};
use crate::observation::last_reading::in_unit;
use crate::record::LengthUnit;
use crate::recording::measuring::{Doubt, Question};
use crate::registry::Registry;
use crate::wording::{counted, days, joined_if_any, led_by};
use serde::Serialize;

/// What is asked: the plant, how far along it is, the column, the last reading.
pub fn question_words(question: &Question) -> String {
    let (asked, (at, all)) = (question.asked, question.of);
    let last = question.last.map(|last| last_words(last, asked));
    let last = last.map(|last| format!(" [{last}]")).unwrap_or_default();
    format!("{} ({at}/{all}) {}{last}: ", question.plant, asked.heading)
}

/// How a column is read.
pub fn explanation(registry: &Registry, asked: &AskedColumn) -> String {
    format!(
        "{}\nEnter: not read · dead · ! remark · < back · - nothing here after all",
        column(registry, asked).words()
    )
}

/// Why an answer is no reading, in one line: what is wrong, what was found, what is needed.
pub fn refusal_words(finding: &Finding) -> String {
    let mut words = finding.title.clone();
    if !finding.found.is_empty() {
        words.push_str(&format!(": found {}", finding.found));
    }
    if !finding.needed.is_empty() {
        words.push_str(&format!("; needed {}", finding.needed));
    }
    for help in &finding.help {
        words.push_str(&format!("; {help}"));
    }
    words
}

/// Why a reading is in doubt, as a question.
pub fn doubt_words(plant: &str, asked: &AskedColumn, written: &str, doubt: &Doubt) -> String {
    let unit = asked.unit().unwrap_or(LengthUnit::Cm);
    let size = |cm: f64| format!("{} {}", in_unit(cm, unit), unit_word(unit));
    let now = match asked.unit() {
        Some(_)
            if written
                .chars()
                .all(|c| c.is_ascii_digit() || ".,".contains(c)) =>
        {
            format!("{written} {}", unit_word(unit))
        }
        _ => written.to_owned(),
    };
    match doubt {
        Doubt::Shrinks { before, when } | Doubt::Grows { before, when } => {
            format!(
                "{plant}: {} on {} → {now}: sure?",
                size(*before),
                days(*when)
            )
        }
        Doubt::Far { typical, siblings } => format!(
            "{plant}: {now}, but the median of its {siblings} siblings is {}: sure?",
            size(*typical)
        ),
        Doubt::Inches { converted } => format!(
            "{plant}: {now}, unlike its siblings; inches or centimetres mixed up? put right it would be {converted:.1} cm: sure?"
        ),
        Doubt::Unbelievable { least, most } => {
            format!(
                "{plant}: {now} is outside {least} to {most}, the range declared in registry.ron: sure?"
            )
        }
    }
}

/// How a sitting ended.
#[derive(Debug, Default, Serialize)]
pub struct MeasuringReport {
    /// Plants that got a row.
    pub read: Vec<String>,
    /// Plants found dead; of a plant with other pieces left the piece.
    pub dead: Vec<String>,
    /// Plants that had a row already and were not asked about.
    pub had_row: usize,
    /// Plants asked about or still to be asked about that have no row.
    pub not_read: usize,
    /// Warnings of `podbook check` that the rows bring.
    pub warnings: Vec<String>,
}

impl Report for MeasuringReport {
    fn sheet(&self) -> Sheet {
        let mut answer = match self.read.len() {
            0 => "No plant was read".to_owned(),
            n => format!("Recorded {}", counted(n, "plant", "plants")),
        };
        answer += &led_by("; died: ", joined_if_any(&self.dead, ", "));
        if self.not_read > 0 {
            answer.push_str(&format!("; {} not read", self.not_read));
        }
        if self.had_row > 0 {
            answer.push_str(&format!(
                "; {} had a row in this sitting already",
                self.had_row
            ));
        }
        let mut sheet = Sheet::new(answer);
        sheet.cautions(Weight::Answer, &self.warnings);
        if self.had_row > 0 && self.read.is_empty() && self.not_read == 0 {
            sheet.caution(Weight::General, "to read them again, add --again");
        }
        sheet
    }
}
