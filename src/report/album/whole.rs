//! What all pages of an album share.

use super::door::Door;
use super::files::Files;
use super::shots::Shot;
use crate::analysis::album::SpeciesIn;
use crate::analysis::parentage::SharesAre;
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::registry::{CrossRow, Readers, Registry};
use crate::report::list::{CrossList, crosses};
use crate::report::names::{full_name, short_name};
use crate::report::shares_words::short;
use crate::wording::Name;
use std::collections::HashMap;

/// A registry to be looked at.
pub struct Album<'c, 'r, 't> {
    /// The registry made ready.
    pub context: &'c Context<'r, 't>,
    /// Who is to read it.
    pub readers: Readers,
    /// Where pages lie.
    pub files: Files,
    pub(super) crosses: CrossList,
    shots: HashMap<PlantRow, Vec<Shot>>,
    species: SpeciesIn,
}

impl<'c, 'r, 't> Album<'c, 'r, 't> {
    /// The album of a registry, without photos.
    pub fn of(context: &'c Context<'r, 't>, readers: Readers) -> Self {
        Album {
            context,
            readers,
            files: Files::of(context.registry, context.names()),
            crosses: crosses(context),
            shots: HashMap::new(),
            species: SpeciesIn::of(context),
        }
    }

    /// The same with photos that can be shown, the latest of each plant first.
    pub fn with_shots(mut self, shots: HashMap<PlantRow, Vec<Shot>>) -> Self {
        self.shots = shots;
        self
    }

    /// The registry.
    pub fn registry(&self) -> &'r Registry<'t> {
        self.context.registry
    }

    /// The door to the page of a plant.
    pub(super) fn door(&self, plant: PlantRow) -> Door {
        Door {
            id: self.registry().code(plant),
            path: self.files.plant(plant).to_owned(),
        }
    }

    /// The door to the page of a cross.
    pub(super) fn door_of_cross(&self, cross: CrossRow) -> Door {
        Door {
            id: self.registry()[cross].page.code.to_owned(),
            path: self.files.cross(cross).to_owned(),
        }
    }

    /// The number of a seedling and its page.
    pub(super) fn numbered(&self, plant: PlantRow) -> (String, String) {
        let number = self.registry().number(plant).unwrap_or_default();
        (number.to_owned(), self.files.plant(plant).to_owned())
    }

    pub(super) fn shots(&self, plant: PlantRow) -> &[Shot] {
        self.shots.get(&plant).map_or(&[], Vec::as_slice)
    }

    /// The name in full with its basis.
    pub(super) fn full_name(&self, unit: Unit) -> Name {
        full_name(self.context.evidence(), unit)
    }

    /// The formula alone.
    pub(super) fn short_name(&self, unit: Unit) -> Name {
        short_name(self.context.names(), unit)
    }

    /// Cultivar or nickname.
    pub(super) fn also(&self, plant: PlantRow) -> Option<String> {
        let registry = self.registry();
        let cultivar = registry.cultivar(plant);
        let cultivar = cultivar.map(|of| format!("'{}'", &*of.epithet));
        let nickname = registry.nickname(plant).map(|of| format!("“{of}”"));
        cultivar.or(nickname)
    }

    /// Species that are in any plant, by epithet.
    pub(super) fn species_present(&self) -> &[String] {
        &self.species.present
    }

    /// Those of them that are on the registry's list, with their pages.
    pub(super) fn species_with_pages(&self) -> Vec<(&str, &str)> {
        let present = self.species.present.iter();
        present
            .filter_map(|epithet| Some((epithet.as_str(), self.files.species(epithet)?)))
            .collect()
    }

    pub(super) fn species_of_cross(&self, cross: CrossRow) -> Vec<usize> {
        self.species.of_cross(self.context, cross).to_vec()
    }

    pub(super) fn species_of_plant(&self, plant: PlantRow) -> Vec<usize> {
        self.species.of_plant(self.context, plant)
    }

    pub(super) fn founders_with(&self, epithet: &str) -> Vec<PlantRow> {
        self.species.founders_with(self.context, epithet)
    }

    /// Whether a species is, or may be, in a plant.
    pub(super) fn may_have(&self, plant: PlantRow, epithet: &str) -> bool {
        self.species.may_have(self.context, plant, epithet)
    }

    pub(super) fn crosses_with(&self, epithet: &str) -> Vec<CrossRow> {
        self.species.crosses_with(self.context, epithet)
    }

    /// Whether a species is in a plant for sure.
    pub(super) fn is_surely_in(&self, plant: PlantRow, epithet: &str) -> bool {
        self.species.is_surely_in(self.context, plant, epithet)
    }

    /// The expected share of a species in the seedlings of a cross, in words; `None` when it is only possible.
    pub(super) fn share_in_cross(&self, cross: CrossRow, epithet: &str) -> Option<String> {
        let share = self.species.share_in_cross(self.context, cross, epithet)?;
        let are = SharesAre::of_unit(self.context, Unit::Cross(cross));
        Some(format!("{}{share}", short(are)))
    }
}
