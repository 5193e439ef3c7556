//! The plants figures of kinship are asked of: those of a registry, or of a plain table.

use crate::analysis::evidence::{EvidenceRow, evidence_row};
use crate::analysis::siblings::Sibling;
use crate::context::Context;
use crate::evidence::{Evidence, Unit};
use crate::kinship::{Kinship, NamedPedigree};
use crate::lineage::{Founding, Pedigree, PedigreeTooComplex, PlantRow};
use crate::naming::recorded::TopOf;
use crate::observation::mixed_up::tags_in_doubt;
use crate::registry::{OriginRow, PlantKind};

/// Where plants have their codes and their evidence from.
pub(super) enum Source<'k, 'r, 't> {
    Registry(&'k Evidence<'r, 't>),
    Table(&'k NamedPedigree),
}

impl Source<'_, '_, '_> {
    pub(super) fn code(&self, plant: PlantRow) -> String {
        match self {
            Source::Registry(evidence) => evidence.registry().code(plant),
            Source::Table(table) => table.ids[plant.index()].clone(),
        }
    }

    /// The cross of an origin. A table has none: it records no mix-ups, which alone ask for it.
    pub(super) fn code_of_cross(&self, origin: OriginRow) -> String {
        match self {
            Source::Registry(evidence) => {
                let registry = evidence.registry();
                let cross = registry.cross_of_origin(origin);
                cross.map_or_else(String::new, |cross| registry[cross].page.code.to_owned())
            }
            Source::Table(_) => String::new(),
        }
    }

    pub(super) fn evidence(&self, plant: PlantRow) -> Option<EvidenceRow> {
        match self {
            Source::Registry(evidence) => Some(evidence_row(evidence, Unit::Plant(plant))),
            Source::Table(_) => None,
        }
    }

    /// How the crosses behind a plant are known, at worst; none for a founder or a plain table.
    pub(super) fn known(&self, plant: PlantRow) -> Option<&'static str> {
        match self {
            Source::Registry(evidence) => {
                evidence.registry().origin_of(plant)?;
                Some(evidence.strength(Unit::Plant(plant)).code())
            }
            Source::Table(_) => None,
        }
    }

    /// A plant as one of its cross; none in a plain table.
    pub(super) fn sibling(&self, plant: PlantRow) -> Option<Sibling> {
        match self {
            Source::Registry(evidence) => Sibling::of(evidence.registry(), plant),
            Source::Table(_) => None,
        }
    }

    /// Doubts of the species behind some plants.
    pub(super) fn doubts(&self, plants: &[PlantRow]) -> Vec<String> {
        let tops = plants.iter().copied().map(TopOf::Plant);
        match self {
            Source::Registry(evidence) => {
                let mut doubts = evidence.names().doubts(tops);
                doubts.extend(tags_in_doubt(evidence.registry(), plants.iter().copied()));
                doubts
            }
            Source::Table(_) => Vec::new(),
        }
    }
}

/// The plants figures are asked of: a registry's, or those of a plain table.
pub struct Kindred<'k, 'r, 't> {
    pub(crate) pedigree: &'k Pedigree,
    pub(super) source: Source<'k, 'r, 't>,
    pub(super) founding: Founding,
    pub(super) listed: Vec<PlantRow>,
}

impl<'k, 'r, 't> Kindred<'k, 'r, 't> {
    /// The plants of a registry.
    pub fn of_registry(context: &'k Context<'r, 't>) -> Self {
        let registry = context.registry;
        let plants = registry.plants();
        Kindred {
            pedigree: &context.lineage().pedigree,
            source: Source::Registry(context.evidence()),
            founding: context.founding().clone(),
            listed: plants
                .filter(|&plant| registry.kind(plant) != PlantKind::Unseen)
                .collect(),
        }
    }

    /// The plants of a table; all founders unrelated.
    pub fn of_table(table: &'k NamedPedigree) -> Self {
        Kindred {
            pedigree: &table.pedigree,
            source: Source::Table(table),
            founding: Founding::unrelated(),
            listed: table.as_written.clone(),
        }
    }

    pub(crate) fn code(&self, plant: PlantRow) -> String {
        self.source.code(plant)
    }

    pub(super) fn solve(&self) -> Result<Kinship<'_>, PedigreeTooComplex> {
        Kinship::of(self.pedigree, &self.founding)
    }
}
