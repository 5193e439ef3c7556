//! Cuttings to check, and plants of which one piece is on record.

use super::context::DueContext;
use super::row::{Basis, DueRow, Task};
use crate::lineage::{Lineage, PlantRow};
use crate::observation::parent_of::{ParentOf, parent_of};
use crate::observation::pieces::awaits_roots;
use crate::observation::{Presence, pieces_here, presence};
use crate::record::Ramet;
use crate::registry::PlantKind;

impl DueContext<'_, '_> {
    /// Cuttings that are not recorded as rooted.
    pub fn cuttings(&self) -> Vec<DueRow> {
        let here = |plant: &PlantRow| {
            !self.registry.ramets(*plant).is_empty()
                && presence(self.registry, *plant, self.today) == Presence::Here
        };
        let plants = self.registry.plants().filter(here);
        plants
            .flat_map(|plant| {
                let ramets = self.registry.ramets(plant).iter();
                ramets.filter_map(move |ramet| self.cutting(plant, ramet))
            })
            .collect()
    }

    fn cutting(&self, plant: PlantRow, ramet: &Ramet) -> Option<DueRow> {
        if !awaits_roots(ramet) || ramet.fate.is_some() {
            return None;
        }
        let cut = self.registry.when(ramet.cut?);
        let code = format!("{}-{}", self.registry.code(plant), ramet.code);
        self.after(code, Task::CheckCutting, cut, self.ranges.rooting)
            .filter(|_| cut.first <= self.today)
    }

    /// Founders, parents and plants to keep that are one piece.
    pub fn sole_pieces(&self, lineage: &Lineage) -> Vec<DueRow> {
        let one = |plant: PlantRow| {
            let of = parent_of(self.registry, lineage, plant, None);
            let is_parent = of != ParentOf::default();
            let kept = self.registry.is_kept(plant);
            let matters = kept || is_parent || self.registry.kind(plant) == PlantKind::Founder;
            if !matters
                || !self.is_sown(plant)
                || pieces_here(self.registry, plant, self.today) != 1
            {
                return None;
            }
            let task = Task::TakeCutting {
                crosses: of.sure,
                perhaps: of.perhaps,
                kept,
            };
            self.on(self.registry.code(plant), task, None, Basis::Record)
        };
        self.registry.plants().filter_map(one).collect()
    }
}
