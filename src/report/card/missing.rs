//! What a buyer would ask and the record cannot answer.

use super::answer::Card;
use crate::analysis::card::Question;
use crate::report::{Report, Sheet};
use serde::Serialize;

/// The list of one card.
#[derive(Clone, Debug, Serialize)]
pub struct Missing {
    /// Code of the plant.
    pub id: String,
    /// The questions that stay open.
    pub missing: Vec<&'static str>,
}

/// An open question in words.
pub fn question_words(of: Question) -> &'static str {
    match of {
        Question::Photo => "what does this very plant look like? (no photo of it)",
        Question::Made => "is it seed-grown, a cutting or a laboratory copy?",
        Question::Sown => "when was it sown?",
        Question::Size => "how large is it, read when and how?",
        Question::Pot => "in which pot does it stand, and since when?",
        Question::Sex => "which sex is it? (no flowers seen)",
        Question::Climate => "in which climate was it kept?",
        Question::Pests => "was it looked at for pests, and when?",
        Question::Treatment => "was it treated, and when?",
        Question::GrowthPoints => "how many growth points has it?",
        Question::Traits => "what do its pitchers look like? (no trait was read)",
        Question::WhichPiece => "which piece were the traits read on?",
        Question::Parents => "which plants exactly were its parents?",
    }
}

impl Card {
    /// Takes away a photo whose file cannot be shown: then nothing shows the plant.
    pub fn without_photo(&mut self) {
        self.photo = None;
        self.missing.insert(0, question_words(Question::Photo));
    }
}

/// The list alone.
pub fn missing(card: &Card) -> Missing {
    Missing {
        id: card.id.clone(),
        missing: card.missing.clone(),
    }
}

impl Report for Missing {
    fn sheet(&self) -> Sheet {
        let answer = match self.missing.len() {
            0 => format!(
                "The record of {} answers what a buyer usually asks",
                self.id
            ),
            n => format!(
                "The record of {} cannot answer {n} of the questions a buyer may ask",
                self.id
            ),
        };
        let mut sheet = Sheet::new(answer);
        sheet.lines(None, self.missing.iter().map(|of| (*of).to_owned()));
        sheet
    }
}
