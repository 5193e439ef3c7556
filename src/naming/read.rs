//! Reading a label: the formula, its texts, its shares, every assumption made; or why it was not read and what to choose from.

use super::formula::{
    Certainty, Direction, Formula, Leaf, Part, Relation, Structure, Unknown, leaves,
};
use super::notes::{Note, NoteCode, Notes, Refusal, RefusalCode};
use super::parse::{How, Nesting, Parsed, parse};
use super::shares::{ShareOf, Shares, shares};
use super::suggest::{NoName, Suggestion, suggest};
use super::token::cut;
use super::vocabulary::Vocabulary;
use super::write::{Writing, botanical, breeder, formula_only, purdy};

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
    /// Expected shares; empty when refused.
    pub shares: Shares,
    /// Hybrid names that fit the parent set, or why there is none.
    pub names: Result<Vec<Suggestion>, NoName>,
    /// Every assumption made and fact to heed, in order.
    pub notes: Vec<Note>,
    /// Why it was not read.
    pub refused: Option<Refusal>,
}

/// How long a label may be for its alternatives to be worked out, in bytes.
const OFFER_WITHIN: usize = 10_000;

/// How many alternatives are offered for one word.
const MOST_OFFERED: usize = 8;

/// Reads a label.
pub fn read(label: &str, vocabulary: &Vocabulary, options: ReadOptions) -> Reading {
    let nesting = match options.chains {
        Chains::Ask => Nesting::Ask,
        Chains::LeftToRight => Nesting::FromLeft,
    };
    match parsed(
        label,
        vocabulary,
        How {
            nesting,
            ..How::PLAIN
        },
    ) {
        Ok(Parsed { formula, notes }) => told(label, formula, vocabulary, notes),
        Err(refusal) => refused(label, offers(label, vocabulary, refusal)),
    }
}

/// What a formula built from records says, told as a reading; `received` is the label kept beside it, if any.
pub fn describe(formula: Formula, received: &str, vocabulary: &Vocabulary) -> Reading {
    told(received, formula, vocabulary, Notes::default())
}

fn parsed(label: &str, vocabulary: &Vocabulary, how: How) -> Result<Parsed, Refusal> {
    parse(cut(label, vocabulary)?, vocabulary, how)
}

fn refused(label: &str, refusal: Refusal) -> Reading {
    Reading {
        label: label.to_owned(),
        formula: None,
        breeder: None,
        botanical: None,
        purdy: None,
        shares: Shares::new(),
        names: Err(NoName::ParentsNotAllKnown),
        notes: Vec::new(),
        refused: Some(refusal),
    }
}

fn told(label: &str, formula: Formula, vocabulary: &Vocabulary, mut notes: Notes) -> Reading {
    let shares = shares(&formula).unwrap_or_else(|reason| {
        notes.say(NoteCode::SharesNotPossible, reason);
        Shares::new()
    });
    note_directions(&formula, &mut notes);
    note_parents(&formula, vocabulary, &mut notes);
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
            "Purdy notation cannot say an open direction or several possible fathers",
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
        shares,
        names,
        notes,
        refused: None,
    }
}

fn note_directions(formula: &Formula, notes: &mut Notes) {
    let of = |wanted: Direction| {
        formula.parts().any(|(_, part)| match part {
            Part::Cross(cross) => cross.relation == Relation::Plain && cross.direction == wanted,
            _ => false,
        })
    };
    if of(Direction::Assumed) {
        notes.say(
            NoteCode::SeedParentAssumedFirst,
            "the first parent is taken as the seed parent, as is the custom",
        );
    }
    if of(Direction::Unknown) {
        notes.say(
            NoteCode::DirectionUnknown,
            "of at least one cross it is not known which parent bore the seed",
        );
    }
}

fn note_parents(formula: &Formula, vocabulary: &Vocabulary, notes: &mut Notes) {
    for leaf in leaves(formula) {
        note_leaf(leaf, vocabulary, notes);
    }
    let structure = Structure::of(formula);
    for (id, part) in formula.parts() {
        match part {
            Part::OneOf(_) => notes.say(
                NoteCode::FatherOneOf,
                "a parent is one of several; it is not known which",
            ),
            Part::Mixed(_) => notes.say(
                NoteCode::MixedPollen,
                "pollen of several plants was used together; seedlings differ in father",
            ),
            Part::Cross(cross)
                if cross.relation == Relation::Plain && structure.only_taxon(id).is_none() =>
            {
                let crosses = matches!(formula.part(cross.seed), Part::Cross(_));
                if crosses
                    && cross.seed != cross.pollen
                    && structure.alike(cross.seed, cross.pollen)
                {
                    notes.say(NoteCode::SameCrossBothSides, "both parents are of the same formula, different parents; F2 only if they come from one cross");
                }
            }
            _ => {}
        }
        if formula.marks(id).certainty == Certainty::Claimed {
            notes.say(NoteCode::ParentClaimed, "a parent is only claimed");
        }
    }
}

fn note_leaf(leaf: &Leaf, vocabulary: &Vocabulary, notes: &mut Notes) {
    let name = leaf.name();
    match leaf {
        Leaf::Species {
            qualifier: Some(_), ..
        }
        | Leaf::Unnamed { .. } => {
            notes.say(
                NoteCode::Provisional,
                format!("{name} is provisional; no share of it counts as a named species"),
            );
        }
        Leaf::Species { epithet, .. } => {
            if let Some(doubt) = vocabulary
                .species(epithet)
                .and_then(|row| row.doubt.as_ref())
            {
                notes.say(NoteCode::SpeciesInDoubt, format!("{epithet}: {doubt}"));
            }
        }
        Leaf::NamedHybrid { .. } | Leaf::Quoted { .. } => {
            notes.say(
                NoteCode::ParentageOfNameUnknown,
                format!("the parents of {name} are not recorded; its descent counts as unknown"),
            );
        }
        Leaf::Unknown(Unknown::OpenPollinated) => notes.say(
            NoteCode::OpenPollinated,
            "open pollinated: the pollen parent is not known",
        ),
        Leaf::Unknown(Unknown::MixedPollen) => {
            notes.say(NoteCode::MixedPollen, "mixed pollen of plants not named")
        }
        Leaf::Unknown(Unknown::NotRecorded) => notes.say(
            NoteCode::UnknownParent,
            "a parent is not known; its part of the descent stays unknown",
        ),
    }
    if matches!(leaf, Leaf::Unknown(_) | Leaf::Quoted { .. }) {
        notes.say(NoteCode::DesignationOnly, "with a parent unknown or only labelled this is a designation, not a formula of the Code");
    }
}

/// Facts on Appendix I ancestors; what follows from them is for the authorities to say.
fn note_ancestors(formula: &Formula, vocabulary: &Vocabulary, shares: &Shares, notes: &mut Notes) {
    const ASK: &str =
        "ask your CITES management authority and plant-health service before it moves";
    for leaf in leaves(formula) {
        match leaf {
            Leaf::Species { epithet, .. }
                if vocabulary
                    .species(epithet)
                    .is_some_and(|row| row.appendix_one) =>
            {
                let share = shares.get(&ShareOf::Species(epithet.clone()));
                let share = share
                    .map(|share| format!(", expected share {share}"))
                    .unwrap_or_default();
                notes.say(
                    NoteCode::AppendixOneAncestor,
                    format!("has a CITES Appendix I ancestor: {epithet}{share}; {ASK}"),
                );
            }
            Leaf::NamedHybrid { epithet } => {
                let ancestor = vocabulary
                    .named_hybrid(epithet)
                    .and_then(|row| row.appendix_one_ancestor);
                if ancestor == Some(true) {
                    notes.say(
                        NoteCode::AppendixOneAncestor,
                        format!("×{epithet} is told to have a CITES Appendix I ancestor; {ASK}"),
                    );
                }
            }
            _ => {}
        }
    }
}

/// Turns what the parser could offer into readings of the whole label.
fn offers(label: &str, vocabulary: &Vocabulary, refusal: Refusal) -> Refusal {
    if label.len() > OFFER_WITHIN {
        return refusal.with_readings(Vec::new());
    }
    let readings = match refusal.code {
        RefusalCode::AmbiguousChain | RefusalCode::PurdyAmbiguous => nestings(label, vocabulary),
        RefusalCode::UndeclaredCode | RefusalCode::UnknownEpithet => {
            let words = refusal.readings.iter().take(MOST_OFFERED);
            words
                .map(|word| {
                    offered(
                        &replaced(label, vocabulary, refusal.column, word),
                        vocabulary,
                    )
                })
                .collect()
        }
        RefusalCode::SignMissing => {
            let at = refusal.column.saturating_sub(1);
            let before: String = label.chars().take(at).collect();
            let after: String = label.chars().skip(at).collect();
            vec![offered(
                &format!("{} × {after}", before.trim_end()),
                vocabulary,
            )]
        }
        RefusalCode::NameContradictsFormula => {
            let as_named = refusal
                .readings
                .iter()
                .map(|text| offered(text, vocabulary));
            written_as(
                label,
                vocabulary,
                How {
                    check_names: false,
                    ..How::PLAIN
                },
            )
            .into_iter()
            .chain(as_named)
            .collect()
        }
        _ => refusal
            .readings
            .iter()
            .map(|text| offered(text, vocabulary))
            .collect(),
    };
    refusal.with_readings(readings)
}

fn nestings(label: &str, vocabulary: &Vocabulary) -> Vec<String> {
    let nested = |nesting| {
        written_as(
            label,
            vocabulary,
            How {
                nesting,
                ..How::PLAIN
            },
        )
    };
    [Nesting::FromLeft, Nesting::FromRight]
        .into_iter()
        .filter_map(nested)
        .collect()
}

/// The canonical text of a label where it can be read, else the label itself.
fn offered(label: &str, vocabulary: &Vocabulary) -> String {
    written_as(label, vocabulary, How::PLAIN).unwrap_or_else(|| label.to_owned())
}

fn written_as(label: &str, vocabulary: &Vocabulary, how: How) -> Option<String> {
    let formula = parsed(label, vocabulary, how).ok()?.formula;
    formula_only(&formula, &Writing::plain(vocabulary)).ok()
}

/// The label with the word at a column replaced.
fn replaced(label: &str, vocabulary: &Vocabulary, column: usize, word: &str) -> String {
    let tokens = cut(label, vocabulary)
        .map(|cut| cut.tokens)
        .unwrap_or_default();
    let end = tokens
        .iter()
        .find(|token| token.column == column)
        .map_or(column, |token| token.end);
    let letters: Vec<char> = label.chars().collect();
    let before: String = letters[..column - 1].iter().collect();
    let after: String = letters[(end - 1).min(letters.len())..].iter().collect();
    format!("{before}{word}{after}")
}
