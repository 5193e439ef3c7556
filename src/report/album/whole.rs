//! What all pages of an album share.

use super::files::Files;
use super::shots::Shot;
use crate::analysis::evidence::probable_father;
use crate::ancestry::Part;
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::{Style, Writing, breeder, formula_only, runs};
use crate::numeric::Fraction;
use crate::registry::{CrossRow, PlantKind, Readers, Registry};
use crate::report::list::{CrossList, crosses};
use crate::wording::{Name, NameRun, upright};
use std::collections::{BTreeSet, HashMap};

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
    /// Epithets of species that are in any plant, in their order.
    present: Vec<String>,
    /// Species of every origin, by their number among those present.
    of_origins: Vec<Vec<usize>>,
}

impl<'c, 'r, 't> Album<'c, 'r, 't> {
    /// The album of a registry, without photos.
    pub fn of(context: &'c Context<'r, 't>, readers: Readers) -> Self {
        let registry = context.registry;
        let mut present = context.descent().species.clone();
        present.sort_unstable();
        let mut album = Album {
            context,
            readers,
            files: Files::of(registry, context.names()),
            crosses: crosses(context),
            shots: HashMap::new(),
            present,
            of_origins: Vec::new(),
        };
        let origins = registry.origin_rows();
        album.of_origins = origins
            .map(|origin| {
                let shares = context.descent().shares_of_origin(origin);
                album.numbers(&shares.unwrap_or_default())
            })
            .collect();
        album
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

    pub(super) fn shots(&self, plant: PlantRow) -> &[Shot] {
        self.shots.get(&plant).map_or(&[], Vec::as_slice)
    }

    /// The name in full with its basis.
    pub(super) fn full_name(&self, unit: Unit) -> Name {
        let names = self.context.names();
        let formula = names.formula(unit.top(), false);
        let text = breeder(&formula, &self.writing());
        match text {
            Ok(text) => in_runs(&(text + probable_father(self.context.evidence(), unit))),
            Err(long) => upright(long.to_string()),
        }
    }

    /// The formula alone.
    pub(super) fn short_name(&self, unit: Unit) -> Name {
        let formula = self.context.names().formula(unit.top(), false);
        match formula_only(&formula, &self.writing()) {
            Ok(text) => in_runs(&text),
            Err(long) => upright(long.to_string()),
        }
    }

    fn writing(&self) -> Writing<'_> {
        Writing {
            style: Style::Runs,
            ..Writing::plain(self.context.names().vocabulary())
        }
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
        &self.present
    }

    /// Those of them that are on the registry's list, with their pages.
    pub(super) fn species_with_pages(&self) -> Vec<(&str, &str)> {
        let present = self.present.iter();
        present
            .filter_map(|epithet| Some((epithet.as_str(), self.files.species(epithet)?)))
            .collect()
    }

    /// Numbers of the species among shares, also of those that are only possible.
    fn numbers(&self, shares: &[(Part, Fraction)]) -> Vec<usize> {
        let mut found = BTreeSet::new();
        let mut open: Vec<Part> = shares.iter().map(|(part, _)| *part).collect();
        while let Some(part) = open.pop() {
            match part {
                Part::Species(at) => {
                    let epithet = &self.context.descent().species[at as usize];
                    found.extend(self.present.binary_search(epithet).ok());
                }
                Part::OneOf(set) => open.extend(self.context.descent().shares.members(set)),
                Part::Unknown => {}
            }
        }
        found.into_iter().collect()
    }

    pub(super) fn species_of_cross(&self, cross: CrossRow) -> Vec<usize> {
        let origin = self.registry()[cross].origin;
        self.of_origins[origin.index()].clone()
    }

    pub(super) fn species_of_plant(&self, plant: PlantRow) -> Vec<usize> {
        match self.registry().origin_of(plant) {
            Some(origin) => self.of_origins[origin.index()].clone(),
            None => {
                let shares = self
                    .context
                    .descent()
                    .shares_of(self.context.lineage(), plant);
                self.numbers(&shares.unwrap_or_default())
            }
        }
    }

    fn number_of(&self, epithet: &str) -> Option<usize> {
        let same = |of: &String| of.as_str().cmp(epithet);
        self.present.binary_search_by(same).ok()
    }

    pub(super) fn founders_with(&self, epithet: &str) -> Vec<PlantRow> {
        let wanted = self.number_of(epithet);
        let registry = self.registry();
        let founders = registry.plants();
        let founders = founders.filter(|plant| registry.kind(*plant) == PlantKind::Founder);
        founders
            .filter(|plant| {
                self.species_of_plant(*plant)
                    .iter()
                    .any(|of| Some(*of) == wanted)
            })
            .collect()
    }

    pub(super) fn crosses_with(&self, epithet: &str) -> Vec<CrossRow> {
        let wanted = self.number_of(epithet);
        let all = self.registry().cross_rows();
        all.filter(|cross| {
            self.species_of_cross(*cross)
                .iter()
                .any(|of| Some(*of) == wanted)
        })
        .collect()
    }

    /// The expected share of a species in the seedlings of a cross, in words; `None` when it is only possible.
    pub(super) fn share_in_cross(&self, cross: CrossRow, epithet: &str) -> Option<String> {
        let origin = self.registry()[cross].origin;
        let shares = self.context.descent().shares_of_origin(origin).ok()?;
        let named = |part: &Part| self.context.descent().part_name(*part) == epithet;
        let share = shares.iter().find(|(part, _)| named(part))?;
        Some(share.1.to_string())
    }
}

fn in_runs(text: &str) -> Name {
    let run = |(text, italic)| NameRun { text, italic };
    runs(text).into_iter().map(run).collect()
}
