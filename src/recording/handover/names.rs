//! The names of species and hybrids that a lineage needs, of all that its grower keeps.

use super::closure::Lineage;
use crate::naming::Vocabulary;
use crate::naming::recorded::vocabulary;
use crate::record::Parents;
use crate::registry::{KnownBy, PlantRow, Registry};
use std::collections::BTreeSet;

/// Words of a lineage's labels and the names they stand for, in small letters.
pub struct NamesOfLineage {
    labels: Vec<String>,
    words: BTreeSet<String>,
}

impl NamesOfLineage {
    /// Gathers the labels, and the species that parents are named by.
    pub fn of(registry: &Registry, lineage: &Lineage) -> NamesOfLineage {
        let mut labels: Vec<String> = Vec::new();
        for &plant in &lineage.plants {
            labels.extend(labels_of(registry, plant));
        }
        for &cross in &lineage.crosses {
            let page = &registry[cross].page;
            labels.extend(page.received.as_deref().map(str::to_lowercase));
            if let Parents::LabelOnly(label) = &page.parents {
                labels.push(label.to_lowercase());
            }
        }
        let mut names = NamesOfLineage {
            words: labels.iter().flat_map(|label| words(label)).collect(),
            labels,
        };
        let (vocabulary, _) = vocabulary(registry);
        names.resolve(&vocabulary);
        names
    }

    /// Adds what codes and other spellings stand for, then the parents of named hybrids.
    fn resolve(&mut self, vocabulary: &Vocabulary) {
        let meant = |word: &String| {
            let decoded = vocabulary
                .decoded(word)
                .or_else(|| vocabulary.accepted(word));
            decoded.map(str::to_lowercase)
        };
        let more: Vec<String> = self.words.iter().filter_map(meant).collect();
        self.words.extend(more);
        let hybrids = self
            .words
            .iter()
            .filter_map(|word| vocabulary.named_hybrid(word));
        let parents: Vec<String> = hybrids.flat_map(|row| row.parent_set.clone()).collect();
        self.words.extend(parents);
    }

    /// Whether the lineage uses a name, a code or a spelling.
    pub fn has(&self, name: &str) -> bool {
        let name = name.to_lowercase();
        self.words.contains(&name) || self.has_phrase(&name)
    }

    /// A name of several words, such as `sp. Palawan`, as labels hold it.
    fn has_phrase(&self, name: &str) -> bool {
        name.contains(' ') && self.labels.iter().any(|label| label.contains(name))
    }
}

fn labels_of(registry: &Registry, plant: PlantRow) -> Vec<String> {
    let received = registry
        .founder(plant)
        .map(|founder| founder.received.to_lowercase());
    let opinions = registry.identified(plant).iter();
    let opinions = opinions.map(|opinion| opinion.name.to_lowercase());
    let unseen = registry.unseen(plant).map(|unseen| unseen.known_by);
    let species = match unseen {
        Some(KnownBy::Species(epithet)) => Some(epithet.to_lowercase()),
        _ => None,
    };
    received
        .into_iter()
        .chain(opinions)
        .chain(species)
        .collect()
}

/// The words of a label, also without the letter that stands for a sign before them.
fn words(label: &str) -> Vec<String> {
    let words = label.split(|c: char| !(c.is_alphanumeric() || c == '-'));
    words
        .flat_map(|word| [Some(word), word.strip_prefix('x')])
        .flatten()
        .map(str::to_owned)
        .collect()
}
