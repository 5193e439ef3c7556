//! Whether a label agrees with what is recorded of a plant.
//!
//! A label may say less than the record, or the record less than the label, without a contradiction. So each species' share
//! is taken as a range: at least what is sure, at most that and all that is unknown or open. Only ranges that do not
//! meet contradict one another.

use std::collections::BTreeSet;

use super::formula::{
    Cross, Direction, Formula, FormulaBuilder, Part, PartId, Relation, Structure,
};
use super::shares::{Share, ShareOf, Shares, shares};

/// How a label stands to the record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Agreement {
    /// Nothing in one speaks against the other.
    Agrees,
    /// The same parents, but the other one bore the seed.
    TurnedRound,
    /// These species cannot have the share the label gives them, or it cannot leave them out; in alphabetical order.
    Contradicts(Vec<String>),
}

/// Compares the formula of a label with the recorded one.
///
/// # Errors
/// Says why when one of them is too deep for exact shares.
pub fn agreement(label: &Formula, recorded: &Formula) -> Result<Agreement, String> {
    let (of_label, of_record) = (shares(label)?, shares(recorded)?);
    let species: BTreeSet<&String> = of_label
        .keys()
        .chain(of_record.keys())
        .filter_map(species)
        .collect();
    let apart = |name: &&&String| {
        let (label, record) = (range(&of_label, name), range(&of_record, name));
        label.0 > record.1 || record.0 > label.1
    };
    let contradicting: Vec<String> = species
        .iter()
        .filter(apart)
        .map(|name| (**name).clone())
        .collect();
    Ok(match contradicting.is_empty() {
        false => Agreement::Contradicts(contradicting),
        true if turned_round(label, recorded) => Agreement::TurnedRound,
        true => Agreement::Agrees,
    })
}

fn species(of: &ShareOf) -> Option<&String> {
    match of {
        ShareOf::Species(name) | ShareOf::Claimed(name) => Some(name),
        _ => None,
    }
}

/// The least and the most of a species.
fn range(shares: &Shares, name: &str) -> (Share, Share) {
    // What is only claimed is still what the label says.
    let of = [
        ShareOf::Species(name.to_owned()),
        ShareOf::Claimed(name.to_owned()),
    ];
    let sure = of.iter().filter_map(|of| shares.get(of).copied());
    let sure = sure.fold(Share::ZERO, Share::plus);
    let open = shares
        .iter()
        .filter(|(of, _)| may_be(of, name))
        .map(|(_, share)| *share);
    (sure, open.fold(sure, Share::plus))
}

/// Whether a share that is not surely of a species may be of it.
fn may_be(of: &ShareOf, name: &str) -> bool {
    match of {
        ShareOf::Species(_) | ShareOf::Claimed(_) => false,
        ShareOf::Provisional(_) | ShareOf::Unknown => true,
        ShareOf::OneOf(several) => several
            .iter()
            .any(|one| species(one).is_some_and(|one| one == name) || may_be(one, name)),
    }
}

/// Whether the last cross of both has the same two sides, each time the other one bearing the seed.
fn turned_round(label: &Formula, recorded: &Formula) -> bool {
    let mut builder = FormulaBuilder::new();
    let both = vec![builder.copy_of(label), builder.copy_of(recorded)];
    let top = builder.one_of(both);
    let both = builder.finish(top);
    let structure = Structure::of(&both);
    let Part::OneOf(sides) = both.part(both.top()) else {
        return false;
    };
    match (directed(&both, sides[0]), directed(&both, sides[1])) {
        (Some(label), Some(recorded)) => {
            structure.alike(label.seed, recorded.pollen)
                && structure.alike(label.pollen, recorded.seed)
                && !structure.alike(label.seed, recorded.seed)
        }
        _ => false,
    }
}

fn directed(formula: &Formula, part: PartId) -> Option<Cross> {
    match formula.part(part) {
        Part::Cross(cross)
            if cross.relation == Relation::Plain && cross.direction != Direction::Unknown =>
        {
            Some(*cross)
        }
        _ => None,
    }
}
