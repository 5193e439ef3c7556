//! The names of species and hybrids that a lineage needs, of all that its grower keeps.

use super::closure::Lineage;
use super::labels::Labels;
use crate::naming::Vocabulary;
use crate::naming::recorded::vocabulary;
use crate::registry::{KnownBy, Registry};

/// The labels of a lineage, and what the names and codes on them stand for.
pub struct NamesOfLineage(Labels);

impl NamesOfLineage {
    /// Gathers the labels, and the species that parents are named by.
    pub fn of(registry: &Registry, lineage: &Lineage) -> NamesOfLineage {
        let (plants, crosses) = (lineage.plants.iter(), lineage.crosses.iter());
        let mut labels = Labels::of(registry, plants.copied(), crosses.copied());
        for &plant in &lineage.plants {
            let unseen = registry.unseen(plant).map(|unseen| unseen.known_by);
            if let Some(KnownBy::Species(epithet)) = unseen {
                labels.add(epithet);
            }
        }
        let vocabulary = vocabulary(registry);
        let mut names = NamesOfLineage(labels);
        while names.resolve(registry, &vocabulary) {}
        names
    }

    /// Adds what names, codes and spellings stand for; whether that is anything new, which may bear names itself.
    fn resolve(&mut self, registry: &Registry, vocabulary: &Vocabulary) -> bool {
        let taxa = &registry.taxa;
        let words = self.0.words();
        let words = words.filter_map(|word| vocabulary.decoded(word).or(vocabulary.accepted(word)));
        let codes = taxa.codes.iter().map(|row| (row.code, row.means));
        let spellings = taxa.synonyms.iter().map(|row| (row.name, row.now));
        let written = codes.chain(spellings);
        let written = written.filter(|(name, _)| self.has(name));
        let hybrids = vocabulary.named_hybrids();
        let hybrids = hybrids.filter(|row| self.has(&row.epithet));
        let parents = hybrids.flat_map(|row| row.parent_set.iter().chain([&row.formula]));
        let cultivars = vocabulary.cultivars();
        let cultivars = cultivars.filter(|row| self.has(&row.epithet));
        let formulas = parents.chain(cultivars.filter_map(|row| row.formula.as_ref()));
        let stand_for = words.chain(written.map(|(_, means)| means));
        let stand_for = stand_for.chain(formulas.map(String::as_str));
        let stand_for: Vec<String> = stand_for.map(str::to_owned).collect();
        let new = stand_for.iter().filter(|name| self.0.add(name));
        new.count() > 0
    }

    /// Whether the lineage uses a name, a code or a spelling.
    pub fn has(&self, name: &str) -> bool {
        self.0.has(name)
    }
}
