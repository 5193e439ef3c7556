//! What a list is of, in words.

use crate::analysis::list::{PlantFilter, UnknownSpecies};
use crate::registry::Registry;
use crate::wording::{did_you_mean, joined};

/// The conditions of a filter in words.
pub fn filter_words(registry: &Registry, filter: &PlantFilter) -> String {
    let said = |holds: bool, words: &str| holds.then(|| words.to_owned());
    let species = filter.species.as_ref();
    let cross = filter.cross.map(|cross| registry[cross].page.code);
    let words = [
        said(filter.alive, "in the collection"),
        said(filter.gone, "no longer in the collection"),
        said(filter.kept, "kept"),
        said(filter.founders, "founders"),
        filter.sex.map(|sex| sex.word().to_owned()),
        said(filter.unsexed, "unsexed"),
        species.map(|species| format!("surely or perhaps descended from {species}")),
        cross.map(|code| format!("of {code}")),
        filter
            .unread_since
            .map(|since| format!("not read since {since}")),
        filter.place.as_ref().map(|place| format!("on {place}")),
    ];
    joined(words.into_iter().flatten(), ", ")
}

/// Why no plant descends from a species, in words.
pub fn unknown_species(error: UnknownSpecies) -> String {
    let hint = did_you_mean("; ", &error.near);
    format!("`{}` is not in species.ron{hint}", error.typed)
}
