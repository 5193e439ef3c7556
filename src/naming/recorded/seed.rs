//! What is known of seed by the label it came with.

use super::labels::SeedLabel;
use super::plants::{Names, TopOf};
use crate::naming::{Formula, Note, Part, Relation};
use crate::record::Parents;
use crate::registry::{CrossRow, OriginRow, PlantRow};

impl Names<'_, '_> {
    /// How the parents of a cross are related, where its own label says so: `maxima self`, `(maxima x veitchii) F2`.
    pub(super) fn relation_on_label(&self, cross: CrossRow) -> Option<Relation> {
        let label = &self.seed_label(cross)?.formula;
        match label.part(label.top()) {
            Part::Cross(sides) if sides.relation != Relation::Plain => Some(sides.relation),
            _ => None,
        }
    }

    /// Whether the label of a cross says that its parents are sibs: `F2`, `sib cross`.
    pub fn is_of_sibs_by_label(&self, cross: CrossRow) -> bool {
        let relation = self.relation_on_label(cross);
        matches!(relation, Some(Relation::Filial | Relation::Sib))
    }

    /// The formula a cross's own label states.
    pub fn label_formula(&self, cross: CrossRow) -> &Formula {
        &self.label(cross).formula
    }

    /// The label that the seed of a cross came with, where that is all that is recorded of its parents.
    pub fn seed_label(&self, cross: CrossRow) -> Option<&SeedLabel> {
        let is_labelled = matches!(self.registry[cross].page.parents, Parents::LabelOnly(_));
        is_labelled.then(|| self.label(cross))
    }

    pub(super) fn label(&self, cross: CrossRow) -> &SeedLabel {
        let read = || match &self.registry[cross].page.parents {
            Parents::LabelOnly(label) => SeedLabel::read(label, self.vocabulary()),
            _ => SeedLabel::none(),
        };
        self.labels[cross.index()].get_or_init(read)
    }

    /// Whether a plant or its whole batch of seed came under a hybrid's Latin name and no more.
    pub fn is_by_name_alone(&self, plant: PlantRow) -> bool {
        match self.registry.origin_of(plant) {
            Some(origin) => self.is_origin_by_name_alone(origin),
            None => self.founder(plant).is_some_and(|of| of.hybrid_name_alone),
        }
    }

    /// The same of the seedlings of an origin.
    pub fn is_origin_by_name_alone(&self, origin: OriginRow) -> bool {
        let cross = self.cross_of_origin(origin);
        let label = cross.and_then(|cross| self.seed_label(cross));
        label.is_some_and(|label| label.alone.whole)
    }

    /// What was assumed of an F2 on the labels of a unit and of all behind it, each once.
    pub fn filial_by_label(&self, top: TopOf) -> Vec<Note> {
        let first = self.first_plants(self.start(top));
        let behind = self.lineage.pedigree.with_ancestors(&first);
        let mut notes: Vec<Note> = Vec::new();
        for plant in behind {
            let cross = self.registry.unseen(plant).map(|unseen| unseen.cross);
            let label = cross.and_then(|cross| self.seed_label(cross));
            let of_seed = label.and_then(|label| label.filial.as_ref());
            let of_founder = self.founder(plant).and_then(|of| of.filial.as_ref());
            let new = of_seed.or(of_founder).filter(|note| !notes.contains(note));
            notes.extend(new.cloned());
        }
        notes
    }
}
