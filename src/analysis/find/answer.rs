//! Everything in a registry that holds the words, codes first.

use super::searched::{Hit, RecordKind, Searched};
use crate::context::Context;
use crate::naming::recorded::{Names, TopOf};
use crate::registry::{Registry, Target, natural_order};
use serde::Serialize;

/// Where words stand.
#[derive(Serialize)]
pub struct FindReport {
    /// The words looked for; each must be in a record.
    pub words: Vec<String>,
    /// Records looked at.
    pub records: usize,
    /// Records that hold them: codes first, then names, then the rest.
    pub hits: Vec<Hit>,
    /// Codes near to the words, where nothing holds them.
    pub near: Vec<String>,
    /// What could not be read and may hold the words, where nothing else holds them; each with why.
    pub unread: Vec<String>,
    /// Species whose names are in doubt among what was found, one line each.
    pub cautions: Vec<String>,
}

/// Looks for words in every record. Capitals and accents do not count.
pub fn find(context: &Context, words: &[String]) -> FindReport {
    let (registry, names) = (context.registry, context.names());
    let words: Vec<String> = words
        .iter()
        .flat_map(|word| word.split_whitespace())
        .map(str::to_owned)
        .collect();
    let mut searched = Searched::new(&words);
    searched.plants(registry, names);
    searched.crosses(registry, names);
    searched.pollen(registry);
    searched.sittings(registry);
    searched.species(registry);
    searched.places(registry);
    let mut hits = searched.hits;
    hits.sort_by(|a, b| {
        a.rank
            .cmp(&b.rank)
            .then_with(|| natural_order(&a.code, &b.code))
    });
    let (near, unread) = match hits.is_empty() {
        true => (
            registry.near(&words.join("-")),
            registry.may_be_on(&words.join(" ")),
        ),
        false => Default::default(),
    };
    FindReport {
        cautions: doubts(registry, names, &hits),
        records: searched.records,
        words,
        hits,
        near,
        unread,
    }
}

/// The doubts on species behind the plants and crosses found, and on the species found.
fn doubts(registry: &Registry, names: &Names, hits: &[Hit]) -> Vec<String> {
    let of = |hit: &Hit| match hit.record {
        RecordKind::Cross => registry.cross(&hit.code).map(TopOf::Cross),
        _ => match registry.target(&hit.code)? {
            Target::Plant(plant) | Target::Ramet(plant, _) => Some(TopOf::Plant(plant)),
            _ => None,
        },
    };
    let mut told = names.doubts(hits.iter().filter_map(of));
    let species = hits.iter().filter(|hit| hit.record == RecordKind::Species);
    told.extend(species.filter_map(|hit| names.vocabulary().doubt(&hit.code)));
    told.sort();
    told.dedup();
    told
}
