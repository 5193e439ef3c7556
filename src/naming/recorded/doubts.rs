//! Species whose names are in doubt, among the plants an answer is about. Every answer that prints names asks here.

use super::plants::{Names, Start, TopOf};
use crate::naming::formula::leaves;
use std::collections::BTreeSet;

impl Names<'_, '_> {
    /// Why names of species behind plants and crosses, or of the plants themselves, may not mean the species they name:
    /// one line a species, by its epithet. Linear in their ancestors; nothing is done where no species is in doubt.
    pub fn doubts(&self, of: impl IntoIterator<Item = TopOf>) -> Vec<String> {
        if !self.vocabulary().has_doubts() {
            return Vec::new();
        }
        let first = |top| self.first_plants(self.start(top));
        let start: Vec<_> = of.into_iter().flat_map(first).collect();
        let behind = self.lineage.pedigree.with_ancestors(&start).into_iter();
        let founders = behind.filter(|&plant| self.lineage.pedigree.origin_row(plant).is_none());
        let mut told = BTreeSet::new();
        for plant in founders {
            // A founder's formula needs no other plant.
            let formula = self.built(Start::Plant(plant), (&[plant], false));
            let species = leaves(&formula).filter_map(|leaf| leaf.sure_species());
            told.extend(species.filter_map(|epithet| self.vocabulary().doubt(epithet)));
        }
        told.into_iter().collect()
    }
}
