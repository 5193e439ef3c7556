//! What a row says of parents: who they are, and what speaks against it.

use super::answer::{ImportRow, Kind, Why};
use super::index::Index;
use super::parents::Parentage;
use super::sorting::Sorting;
use crate::record::RowClass;

impl Sorting<'_, '_> {
    /// The parents of a cross or of a seedling with no page.
    pub fn parents(&self, index: &Index, at: usize, row: &mut ImportRow) {
        let parentage = self.parentage(index);
        let (parents, unclear) = parentage.of(&row.facts, at);
        row.parents = parents;
        for (found, why) in unclear {
            self.doubt(row, RowClass::ParentUnknown, &found, why);
        }
    }

    /// A plant that came from a supplier has no parents on record: what the table says of them stays in the note.
    pub fn parents_of_founder(&self, row: &mut ImportRow) {
        let facts = &row.facts;
        let cells = [
            &facts.seed_parent,
            &facts.pollen_parent,
            &facts.both_parents,
        ];
        let said: Vec<&str> = cells.iter().filter_map(|cell| cell.as_deref()).collect();
        let said = said.join(" x ");
        self.doubt(row, RowClass::Other, &said, Why::ParentsOfAFounder);
    }

    fn parentage<'s>(&'s self, index: &'s Index) -> Parentage<'s, 's> {
        Parentage {
            registry: self.registry,
            index,
            vocabulary: self.vocabulary,
        }
    }

    /// What a row says against its parents: a label of one species where a parent is surely of another, or parents that
    /// are not those of its cross. `other` is another row by its place.
    pub fn against_parents<'r>(
        &self,
        index: &Index,
        (at, row): (usize, &mut ImportRow),
        other: impl Fn(usize) -> Option<&'r ImportRow>,
    ) {
        let parentage = self.parentage(index);
        let contradiction = match &row.kind {
            Kind::Cross | Kind::SeedlingOf(_) => parentage.label_against(row, other),
            Kind::Seedling { cross, .. } if row.facts.has_parents() => {
                let line = index.crosses.get(cross).copied();
                line.and_then(|line| Some((line, other(line)?)))
                    .and_then(|of| parentage.cross_against((at, row), of))
            }
            _ => None,
        };
        if let Some((found, against)) = contradiction {
            self.doubt(row, RowClass::Contradiction, &found, against);
        }
    }

    /// Parents that a row names and the registry has otherwise, unless the row contradicts itself already.
    pub fn against_record<'r>(
        &self,
        index: &Index,
        (at, row): (usize, &mut ImportRow),
        other: impl Fn(usize) -> Option<&'r ImportRow>,
    ) {
        let known = row
            .doubts
            .iter()
            .any(|of| of.class == RowClass::Contradiction);
        if known || !row.facts.has_parents() {
            return;
        }
        let against = self.parentage(index).recorded_against((at, row), other);
        if let Some((found, against)) = against {
            self.doubt(row, RowClass::Contradiction, &found, against);
        }
    }
}
