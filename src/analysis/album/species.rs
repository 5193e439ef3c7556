//! Which species are in which plants and crosses.

use crate::ancestry::Part;
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::numeric::Fraction;
use crate::registry::{CrossRow, PlantKind};
use std::collections::BTreeSet;

/// The species of a whole registry.
pub struct SpeciesIn {
    /// Epithets of species that are, or by a doubtful label may be, in any plant, in the order of the alphabet.
    pub present: Vec<String>,
    /// Species of every origin, by their number among those present.
    of_origins: Vec<Vec<usize>>,
}

impl SpeciesIn {
    /// Works out the species of every origin.
    pub fn of(context: &Context) -> SpeciesIn {
        let present = context.descent().species.iter();
        let mut present: Vec<String> = present.map(|name| undoubted(name).to_owned()).collect();
        present.sort_unstable();
        present.dedup();
        let numbers = |origin| {
            let shares = context.descent().shares_of_origin(origin);
            numbers(context, &present, &shares.unwrap_or_default())
        };
        SpeciesIn {
            of_origins: context.registry.origin_rows().map(numbers).collect(),
            present,
        }
    }

    /// Numbers of the species in the seedlings of a cross, also of those that are only possible.
    pub fn of_cross(&self, context: &Context, cross: CrossRow) -> &[usize] {
        &self.of_origins[context.registry[cross].origin.index()]
    }

    /// The same of a plant.
    pub fn of_plant(&self, context: &Context, plant: PlantRow) -> Vec<usize> {
        match context.registry.origin_of(plant) {
            Some(origin) => self.of_origins[origin.index()].clone(),
            None => {
                let shares = context.descent().shares_of(context.lineage(), plant);
                numbers(context, &self.present, &shares.unwrap_or_default())
            }
        }
    }

    /// Whether a species is, or may be, in a plant.
    pub fn may_have(&self, context: &Context, plant: PlantRow, epithet: &str) -> bool {
        let wanted = self.number_of(epithet);
        wanted.is_some_and(|wanted| self.of_plant(context, plant).contains(&wanted))
    }

    fn number_of(&self, epithet: &str) -> Option<usize> {
        let same = |of: &String| of.as_str().cmp(epithet);
        self.present.binary_search_by(same).ok()
    }

    /// Founders with a species in them, in the order of the registry.
    pub fn founders_with(&self, context: &Context, epithet: &str) -> Vec<PlantRow> {
        let Some(wanted) = self.number_of(epithet) else {
            return Vec::new();
        };
        let registry = context.registry;
        let founders = registry.plants();
        let founders = founders.filter(|plant| registry.kind(*plant) == PlantKind::Founder);
        founders
            .filter(|&plant| self.of_plant(context, plant).contains(&wanted))
            .collect()
    }

    /// Whether a species is in a plant for sure.
    pub fn is_surely_in(&self, context: &Context, plant: PlantRow, epithet: &str) -> bool {
        let shares = context.descent().shares_of(context.lineage(), plant);
        let named = |part: &Part| context.descent().part_name(*part) == epithet;
        shares.is_ok_and(|shares| shares.iter().any(|(part, _)| named(part)))
    }

    /// Crosses with a species in their seedlings, in the order of their codes.
    pub fn crosses_with(&self, context: &Context, epithet: &str) -> Vec<CrossRow> {
        let Some(wanted) = self.number_of(epithet) else {
            return Vec::new();
        };
        let all = context.registry.cross_rows();
        all.filter(|&cross| self.of_cross(context, cross).contains(&wanted))
            .collect()
    }

    /// The expected share of a species in the seedlings of a cross; `None` when it is only possible.
    pub fn share_in_cross(
        &self,
        context: &Context,
        cross: CrossRow,
        epithet: &str,
    ) -> Option<Fraction> {
        let origin = context.registry[cross].origin;
        let shares = context.descent().shares_of_origin(origin).ok()?;
        let named = |part: &Part| context.descent().part_name(*part) == epithet;
        let share = shares.into_iter().find(|(part, _)| named(part))?;
        Some(share.1)
    }
}

/// Numbers of the species among shares, also of those that are only possible.
fn numbers(context: &Context, present: &[String], shares: &[(Part, Fraction)]) -> Vec<usize> {
    let mut found = BTreeSet::new();
    let mut open: Vec<Part> = shares.iter().map(|(part, _)| *part).collect();
    while let Some(part) = open.pop() {
        match part {
            Part::Species(at) => {
                let epithet = undoubted(&context.descent().species[at as usize]);
                found.extend(present.binary_search_by(|of| of.as_str().cmp(epithet)).ok());
            }
            Part::OneOf(set) => open.extend(context.descent().shares.members(set)),
            Part::Unknown => {}
        }
    }
    found.into_iter().collect()
}

/// The species of which a label says, with a doubt, that it is in a plant: it is possible there.
fn undoubted(name: &str) -> &str {
    name.strip_suffix(" (?)").unwrap_or(name)
}
