//! Species whose names are in doubt, and plants that may be their own descendants, among the plants an answer is about.
//! Every answer that prints names asks here.

use super::plants::{Names, Start, TopOf};
use crate::naming::formula::leaves;
use std::collections::BTreeSet;

impl Names<'_, '_> {
    /// Why names of species behind plants and crosses, or of the plants themselves, may not mean the species they name:
    /// one line a species, by its epithet. Then the plants among them that were mixed up with their own descendants, whose
    /// descent is that of the parent. Linear in their ancestors; nothing is walked where no species is in doubt.
    pub fn doubts(&self, of: impl IntoIterator<Item = TopOf>) -> Vec<String> {
        let of: Vec<TopOf> = of.into_iter().collect();
        let mut told = self.of_species(&of);
        told.extend(self.mixed_up_with_descendants(&of));
        told
    }

    /// Those among some plants that were mixed up with their own descendants, a line each.
    pub fn mixed_up_with_descendants(&self, of: &[TopOf]) -> BTreeSet<String> {
        let mixed_up = of.iter().filter_map(|&top| self.since_mixed_up(top));
        mixed_up.collect()
    }

    fn since_mixed_up(&self, top: TopOf) -> Option<String> {
        let TopOf::Plant(plant) = top else {
            return None;
        };
        let crosses = self.registry.descendants_it_may_be_of(plant).into_iter();
        let codes: Vec<&str> = crosses
            .map(|cross| self.registry[cross].page.code)
            .collect();
        (!codes.is_empty()).then(|| {
            format!(
                "{} may be a seedling of {} since it was mixed up; its descent is given as that of the parent it was before",
                self.registry.code(plant),
                codes.join(" or ")
            )
        })
    }

    fn of_species(&self, of: &[TopOf]) -> Vec<String> {
        if !self.vocabulary().has_doubts() {
            return Vec::new();
        }
        let first = |&top| self.first_plants(self.start(top));
        let start: Vec<_> = of.iter().flat_map(first).collect();
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
