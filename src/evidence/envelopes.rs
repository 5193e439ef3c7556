//! Whose pollen was used, by the envelope and by the page of the cross: the page knows the father no better than the envelope.

use super::strength::Strength;
use crate::record::{Confidence, Parents, PollenLot, PollenSource, parents};
use crate::registry::{CrossRow, PollenRow, Registry, Who, ZoneRow};
use std::collections::BTreeSet;

/// What an envelope says beside the parents on the page of a cross.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum EnvelopeSays {
    /// Nothing that they do not.
    Agrees,
    /// Whose pollen it is, where they name no pollen parent.
    More,
    /// The pollen of none of the pollen parents.
    Other,
    /// It is less sure of the father than they are.
    Less(Contents),
}

/// An envelope that does not name one plant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Contents {
    /// It is of one of so many.
    OneOf(usize),
    /// It is of so many together.
    Mixed(usize),
    /// It is not known whose it is.
    Unknown,
}

impl Contents {
    /// How well the father is known by it.
    pub fn strength(self) -> Strength {
        match self {
            Contents::OneOf(_) => Strength::OneOfSeveral,
            Contents::Mixed(_) => Strength::Mixture,
            Contents::Unknown => Strength::Unknown,
        }
    }

    /// What the page of a cross says that goes without its envelope, and is no surer than it.
    pub fn confidence(self) -> Confidence {
        match self {
            Contents::OneOf(_) | Contents::Mixed(_) => Confidence::OneOfSeveral,
            Contents::Unknown => Confidence::Unknown,
        }
    }
}

/// What an envelope says that was used for a cross. What stands in for parents that could not be read, or are not on record,
/// contradicts no envelope.
pub fn envelope_says(registry: &Registry, cross: CrossRow, lot: &PollenLot) -> EnvelopeSays {
    let written = fathers(registry, cross);
    let fathers = named(registry, &written);
    if registry[cross].page.parents_misread || fathers.len() < written.len() {
        return EnvelopeSays::Agrees;
    }
    let is_unknown = matches!(lot.from, PollenSource::Unknown);
    let of_lot = named(registry, lot.from.codes());
    let fits = |one: &&Who| fathers.iter().any(|father| father.may_be(registry, **one));
    let among = of_lot.iter().filter(fits).count();
    match (fathers.is_empty(), is_unknown) {
        (true, true) => EnvelopeSays::Agrees,
        (true, false) => EnvelopeSays::More,
        (false, true) => EnvelopeSays::Less(Contents::Unknown),
        _ if of_lot.is_empty() => EnvelopeSays::Agrees,
        _ if among == 0 => EnvelopeSays::Other,
        // Pieces of one plant have the same pollen.
        _ if of_lot.len() == lot.from.codes().len() && of_lot.iter().all(|of| *of == of_lot[0]) => {
            EnvelopeSays::Agrees
        }
        _ => {
            let several_fathers = fathers.iter().any(|father| *father != fathers[0]);
            let is_mixed = matches!(registry[cross].page.parents, Parents::PollenMixed { .. });
            let all_among = among == of_lot.len();
            among_several(lot, (several_fathers && all_among, is_mixed && all_among))
        }
    }
}

/// The same of an envelope with a father in it, where the page names all of its plants as fathers, or as a mixture.
fn among_several(lot: &PollenLot, (all_named, all_mixed): (bool, bool)) -> EnvelopeSays {
    let codes: BTreeSet<&str> = lot.from.codes().iter().map(|code| code.trim()).collect();
    match (&lot.from, codes.len()) {
        (PollenSource::OneOf(_), 2..) if !all_named => {
            EnvelopeSays::Less(Contents::OneOf(codes.len()))
        }
        (PollenSource::Mixed(_), 2..) if !all_mixed => {
            EnvelopeSays::Less(Contents::Mixed(codes.len()))
        }
        _ => EnvelopeSays::Agrees,
    }
}

/// The envelope of a pollination, where it is less sure of the father than the page is.
pub fn unsure_envelope(registry: &Registry, zone: ZoneRow) -> Option<(PollenRow, Contents)> {
    let lot = registry.pollen_lot(registry[zone].pollen?)?;
    match envelope_says(registry, zone.cross, &registry[lot]) {
        EnvelopeSays::Less(contents) => Some((lot, contents)),
        _ => None,
    }
}

fn named<'t>(registry: &Registry, codes: &[&'t str]) -> Vec<Who<'t>> {
    let named = codes.iter().map(|code| Who::named(registry, code));
    named.flatten().collect()
}

/// The codes of the pollen parents; of parents whose direction is lost both.
fn fathers<'t>(registry: &Registry<'t>, cross: CrossRow) -> Vec<&'t str> {
    let page = &registry[cross].page;
    let either = matches!(page.parents, Parents::DirectionLost(_));
    let all = parents(page).into_iter();
    all.filter(|parent| either || !parent.bore_the_seed)
        .map(|parent| parent.code)
        .filter(|code| !matches!(code.trim(), "" | "?"))
        .collect()
}
