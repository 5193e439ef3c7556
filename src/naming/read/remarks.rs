//! What a formula has to tell beside its texts: directions assumed, parents unknown or doubtful, ancestors to heed.

use crate::naming::formula::{
    Certainty, Direction, Formula, Leaf, Part, Relation, Structure, Unknown, leaves,
};
use crate::naming::notes::{NoteCode, Notes};
use crate::naming::shares::{ShareOf, Shares};
use crate::naming::vocabulary::Vocabulary;

pub(super) fn note_directions(formula: &Formula, notes: &mut Notes) {
    let of = |wanted: Direction| {
        formula.parts().any(|(_, part)| match part {
            Part::Cross(cross) => cross.is_written_out() && cross.direction == wanted,
            _ => false,
        })
    };
    if of(Direction::Assumed) {
        let text = if of(Direction::Known) {
            "where a cross is not marked ♀ and ♂, the first parent is assumed to be the seed parent, as is usual"
        } else {
            "the first parent is taken as the seed parent, as is the custom"
        };
        notes.say(NoteCode::SeedParentAssumedFirst, text);
    }
    if of(Direction::Unknown) {
        notes.say(
            NoteCode::DirectionUnknown,
            "which parent bore the seed is not known for at least one cross",
        );
    }
}

/// Where a formula was taken from.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Source {
    /// A label, on which two parents of one formula may be of one cross.
    Label,
    /// Records, where the parents of a sib cross make a later generation and no cross.
    Records,
}

pub(super) fn note_parents(
    formula: &Formula,
    source: Source,
    vocabulary: &Vocabulary,
    notes: &mut Notes,
) {
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
                    let is_whole = id == formula.top();
                    notes.say(NoteCode::SameCrossBothSides, same_formula(is_whole, source));
                }
            }
            _ => {}
        }
        if formula.marks(id).certainty == Certainty::Claimed {
            notes.say(NoteCode::ParentClaimed, "a parent is only claimed");
        }
    }
}

/// That two plants of one formula were crossed; `is_whole` where they are the parents of the plant itself.
fn same_formula(is_whole: bool, source: Source) -> String {
    let who = match is_whole {
        true => "both parents are of the same formula",
        false => "further back, both parents of a cross are of the same formula",
    };
    match source {
        Source::Label => format!("{who}, different parents; F2 only if they come from one cross"),
        Source::Records => {
            format!("{who}, but not recorded as full siblings, so their offspring is not called F2")
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
            if let Some(doubt) = vocabulary.doubt(epithet) {
                notes.say(NoteCode::SpeciesInDoubt, doubt);
            }
        }
        Leaf::NamedHybrid { .. } | Leaf::Quoted { .. } | Leaf::Label { .. } => {
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
    if matches!(
        leaf,
        Leaf::Unknown(_) | Leaf::Quoted { .. } | Leaf::Label { .. }
    ) {
        notes.say(NoteCode::DesignationOnly, "with a parent unknown or only labelled this is a designation, not a formula of the Code");
    }
}

/// Facts on Appendix I ancestors; what follows from them is for the authorities to say.
pub(super) fn note_ancestors(
    formula: &Formula,
    vocabulary: &Vocabulary,
    shares: &Shares,
    notes: &mut Notes,
) {
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
                    format!(
                        "by the list used, an ancestor stands in CITES Appendix I: {epithet}{share}; {ASK}"
                    ),
                );
            }
            Leaf::NamedHybrid { epithet } => {
                let ancestor = vocabulary
                    .named_hybrid(epithet)
                    .and_then(|row| row.appendix_one_ancestor);
                if ancestor == Some(true) {
                    notes.say(
                        NoteCode::AppendixOneAncestor,
                        format!(
                            "by the list used, ×{epithet} has an ancestor in CITES Appendix I; {ASK}"
                        ),
                    );
                }
            }
            _ => {}
        }
    }
}
