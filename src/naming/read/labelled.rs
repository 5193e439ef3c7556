//! A label cut, cleared of what stands beside the name, and parsed.

use crate::naming::formula::Tag;
use crate::naming::notes::Refusal;
use crate::naming::parse::{How, Parsed, parse};
use crate::naming::sift::{LabelFacts, Sifted, sift};
use crate::naming::token::cut;
use crate::naming::vocabulary::Vocabulary;

/// A name read, and what the label says beside it.
pub(super) struct Labelled {
    pub parsed: Parsed,
    pub facts: LabelFacts,
}

pub(super) fn labelled(
    label: &str,
    vocabulary: &Vocabulary,
    how: How<'_>,
) -> Result<Labelled, Refusal> {
    let Sifted { cut, facts, notes } = sift(cut(label, vocabulary)?, vocabulary);
    let mut parsed = parse(cut, vocabulary, how)?;
    for note in notes {
        parsed.notes.say(note.code, note.text);
    }
    let facts = facts_of(&parsed, facts);
    Ok(Labelled { parsed, facts })
}

/// The clone, place and sex of the plant stand with its name.
fn facts_of(parsed: &Parsed, mut facts: LabelFacts) -> LabelFacts {
    let formula = &parsed.formula;
    for tag in &formula.marks(formula.top()).tags {
        match tag {
            Tag::Clone(clone) => facts.clone = facts.clone.or_else(|| Some(clone.clone())),
            Tag::Plant(code) => facts.stock_code = facts.stock_code.or_else(|| Some(code.clone())),
            Tag::Place(place) => facts.place = facts.place.or_else(|| Some(place.clone())),
            _ => {}
        }
    }
    facts.sex = parsed.sex;
    facts
}
