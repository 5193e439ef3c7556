//! What a buyer would ask and the record cannot answer.

use super::answer::Card;
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

/// Questions with the label of the fact that answers each, and for seedlings, founders or both.
const QUESTIONS: [(&str, &str); 9] = [
    (
        "photo of this plant",
        "what does this very plant look like? (no photo of it)",
    ),
    ("made", "is it seed-grown, a cutting or a laboratory copy?"),
    ("sown", "when was it sown?"),
    ("size", "how large is it, read when and how?"),
    ("pot", "in which pot does it stand, and since when?"),
    ("sex", "which sex is it? (no flowers seen)"),
    ("climate it was kept in", "in which climate was it kept?"),
    ("pests", "was it looked at for pests, and when?"),
    ("last treatment", "was it treated, and when?"),
];

/// The questions that a card leaves open.
pub fn open_questions(card: &Card, has_growth_points: bool) -> Vec<&'static str> {
    let answered = |label: &str| {
        if label == "photo of this plant" {
            return card.photo.is_some();
        }
        card.facts
            .iter()
            .chain(&card.kept)
            .any(|fact| fact.label == label)
    };
    // A plant that came from elsewhere is not asked when it was sown.
    let is_founder = card.evidence.parents.is_none();
    let asked = QUESTIONS
        .iter()
        .filter(|(label, _)| !(*label == "sown" && is_founder));
    let mut open: Vec<&'static str> = asked
        .filter(|(label, _)| !answered(label))
        .map(|(_, question)| *question)
        .collect();
    if !has_growth_points {
        open.push("how many growth points has it?");
    }
    if card.traits.is_empty() {
        open.push("what do its pitchers look like? (no trait was read)");
    }
    if card.traits_of_the_whole {
        open.push("which piece were the traits read on?");
    }
    if card
        .ancestors
        .iter()
        .any(|of| of.generation == 1 && of.doubtful)
    {
        open.push("which plants exactly were its parents?");
    }
    open
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
        sheet.lines(
            None,
            self.missing.iter().map(|of| (*of).to_owned()).collect(),
        );
        sheet
    }
}
