//! A label as read, and how it comes about.

use crate::naming::formula::Formula;
use crate::naming::notes::{Note, NoteCode, Notes, Refusal};
use crate::naming::parse::{How, Nesting};
use crate::naming::shares::{Shares, shares};
use crate::naming::sift::{LabelFacts, sift};
use crate::naming::suggest::{NoName, Suggestion, suggest};
use crate::naming::token::cut;
use crate::naming::vocabulary::Vocabulary;
use crate::naming::write::{Writing, botanical, breeder, purdy};

use super::labelled::{Labelled, labelled};
use super::offers::{Offer, offers};
use super::remarks::{Source, note_ancestors, note_directions, note_parents};

/// What to do with a chain of crosses without brackets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Chains {
    /// Refuse it and offer both nestings.
    #[default]
    Ask,
    /// Read it from left to right and say so.
    LeftToRight,
}

/// How a label is read.
#[derive(Clone, Copy, Debug, Default)]
pub struct ReadOptions {
    /// What to do with a chain of crosses without brackets.
    pub chains: Chains,
}

/// A label as read.
#[derive(Clone, Debug)]
pub struct Reading {
    /// The label as received, byte for byte.
    pub label: String,
    /// Who was crossed with whom; `None` when refused.
    pub formula: Option<Formula>,
    /// Breeder order with its basis; `None` when refused or too long.
    pub breeder: Option<String>,
    /// Botanical order; `None` when refused or too long.
    pub botanical: Option<String>,
    /// Purdy notation; `None` when it cannot say this.
    pub purdy: Option<String>,
    /// What the label says beside the name: stock code, clone, size and the like; when refused, what stands around the
    /// name and whatever every reading offered has.
    pub facts: LabelFacts,
    /// Expected shares; empty when refused.
    pub shares: Shares,
    /// Hybrid names that fit the parent set, or why there is none.
    pub names: Result<Vec<Suggestion>, NoName>,
    /// Every assumption made and fact to heed, in order.
    pub notes: Vec<Note>,
    /// Why it was not read.
    pub refused: Option<Refusal>,
}

/// Reads a label.
pub fn read(label: &str, vocabulary: &Vocabulary, options: ReadOptions) -> Reading {
    let nesting = match options.chains {
        Chains::Ask => Nesting::Ask,
        Chains::LeftToRight => Nesting::FromLeft,
    };
    let how = How {
        nesting,
        ..How::PLAIN
    };
    match labelled(label, vocabulary, how) {
        Ok(Labelled { parsed, facts }) => {
            let read = told(
                (label, Source::Label),
                parsed.formula,
                vocabulary,
                parsed.notes,
            );
            Reading { facts, ..read }
        }
        Err(refusal) => {
            let offers = offers(label, vocabulary, how, &refusal);
            refused(label, vocabulary, refusal, offers)
        }
    }
}

/// The formula of a label in which hybrid names and epithets stay names; none where it cannot be read so.
pub fn as_written(label: &str, vocabulary: &Vocabulary) -> Option<Formula> {
    let how = How {
        expand: false,
        ..How::PLAIN
    };
    labelled(label, vocabulary, how)
        .ok()
        .map(|read| read.parsed.formula)
}

/// What a formula built from records says, told as a reading; `received` is the label kept beside it, if any.
pub fn describe(formula: Formula, received: &str, vocabulary: &Vocabulary) -> Reading {
    told(
        (received, Source::Records),
        formula,
        vocabulary,
        Notes::default(),
    )
}

/// What stands around the name of a label that was not read.
fn around(label: &str, vocabulary: &Vocabulary) -> LabelFacts {
    let cut = cut(label, vocabulary);
    cut.map_or_else(|_| LabelFacts::default(), |cut| sift(cut, vocabulary).facts)
}

fn refused(
    label: &str,
    vocabulary: &Vocabulary,
    mut refusal: Refusal,
    offers: Vec<Offer>,
) -> Reading {
    let each = offers.iter().map(|offer| offer.facts.clone());
    let facts = each.reduce(|one, other| one.shared(&other));
    refusal.readings = offers.into_iter().map(|offer| offer.text).collect();
    Reading {
        label: label.to_owned(),
        formula: None,
        breeder: None,
        botanical: None,
        purdy: None,
        facts: facts.unwrap_or_else(|| around(label, vocabulary)),
        shares: Shares::new(),
        names: Err(NoName::ParentsNotAllKnown),
        notes: Vec::new(),
        refused: Some(refusal),
    }
}

fn told(
    (label, source): (&str, Source),
    formula: Formula,
    vocabulary: &Vocabulary,
    mut notes: Notes,
) -> Reading {
    let shares = shares(&formula).unwrap_or_else(|reason| {
        notes.say(NoteCode::SharesNotPossible, reason);
        Shares::new()
    });
    note_directions(&formula, &mut notes);
    note_parents(&formula, source, vocabulary, &mut notes);
    note_ancestors(&formula, vocabulary, &shares, &mut notes);
    let writing = Writing::plain(vocabulary);
    let breeder = breeder(&formula, &writing)
        .map_err(|long| notes.say(NoteCode::TextTooLong, long.to_string()))
        .ok();
    let botanical = breeder
        .is_some()
        .then(|| botanical(&formula, &writing).ok())
        .flatten();
    let purdy = purdy(&formula);
    if purdy.is_none() {
        notes.say(
            NoteCode::PurdyNotPossible,
            "Purdy notation cannot express a doubt, an unknown direction, several possible fathers, a reported selfing or a label with special characters",
        );
    }
    let names = suggest(&formula, vocabulary);
    if names == Err(NoName::OneSpecies) && formula.generations() > 0 {
        notes.say(
            NoteCode::OneSpecies,
            "all parents are of one species: the plant is that species, not a hybrid",
        );
    }
    let notes = notes.into_vec();
    Reading {
        label: label.to_owned(),
        formula: Some(formula),
        breeder,
        botanical,
        purdy,
        facts: LabelFacts::default(),
        shares,
        names,
        notes,
        refused: None,
    }
}
