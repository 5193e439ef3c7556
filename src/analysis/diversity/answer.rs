//! The variety of a set: its figures, the ancestors behind it, its plants by what their death would cost.

use super::error::DiversityError;
use super::possible_parents::{possible_parents, sure_ancestors};
use crate::analysis::kinship::RestsOn;
use crate::context::Context;
use crate::kinship::{
    Diversity as OfSet, Kinship, MarginalAncestor, effective_ancestors, marginal_ancestors,
    representation, sole_lines,
};
use crate::lineage::{Pedigree, PlantRow};
use crate::observation::pieces::pieces_here;
use serde::Serialize;

/// Variety of a set.
pub struct Diversity {
    /// The set as a whole.
    pub figures: Figures,
    /// The ancestors that make up the effective number, the largest contribution first; as many as are needed to explain
    /// the set.
    pub ancestors: Vec<AncestorPart>,
    /// The plants of the set, those whose death costs most first; equal ones in the order of the set.
    pub plants: Vec<PlantPart>,
    /// Founders whose line hangs on one plant.
    pub sole_lines: Vec<SoleLine>,
    /// What the figures rest on.
    pub rests_on: RestsOn,
}

/// The figures of a set as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Figures {
    /// Plants in the set; ramets of one plant count once.
    pub plants: usize,
    /// Founders behind the set.
    pub founders: usize,
    /// Expected part of the set's genes that comes through unknown parents, 0 to 1.
    pub unknown: f64,
    /// 1 / Σ p² over founders' contributions.
    pub effective_founders: f64,
    /// 1 / Σ m² over ancestors' marginal contributions.
    pub effective_ancestors: f64,
    /// 1 / (2 × mean kinship).
    pub founder_genome_equivalents: f64,
    /// Mean kinship of the set, each plant with itself included.
    pub mean_kinship: f64,
    /// 1 − mean kinship.
    pub gene_diversity: f64,
    /// Mean inbreeding.
    pub mean_inbreeding: f64,
}

/// One ancestor, or plant of the set, that others descend from.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AncestorPart {
    /// The plant; `None` for a parent that is not recorded.
    #[serde(skip)]
    pub plant: Option<PlantRow>,
    /// Part of the set's genes that comes through it and through none before it, 0 to 1.
    pub contribution: f64,
    /// Part that comes through it and all before it, 0 to 1.
    #[serde(skip)]
    pub together: f64,
    /// Whether another would have explained as much at its place.
    pub tied: bool,
    /// Whether it is only one of several possible parents of something here, so that its part is an expected one.
    pub uncertain: bool,
    /// Whether none of the set descends from it for certain.
    pub only_possible: bool,
}

/// One plant of the set.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PlantPart {
    /// The plant.
    #[serde(skip)]
    pub plant: PlantRow,
    /// Its mean kinship with the set: low is rare.
    pub mean_kinship: f64,
    /// What gene diversity would lose by its death; below 0 when the rest would be more varied, `None` for a set of one.
    pub loss: Option<f64>,
    /// Pieces here.
    pub pieces: usize,
}

/// A founder's line that hangs on one plant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SoleLine {
    /// The founder.
    pub founder: PlantRow,
    /// The only plant of the set that carries it.
    pub carried_by: PlantRow,
}

/// Ancestors beyond the first few, as one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rest {
    /// How many they are.
    pub ancestors: usize,
    /// Part of the set's genes that comes through them and through none of the first, 0 to 1.
    pub contribution: f64,
}

/// Works out the variety of a set of different plants.
///
/// # Errors
/// When the set is empty or the pedigree too entangled.
pub fn diversity(context: &Context, set: &[PlantRow]) -> Result<Diversity, DiversityError> {
    if set.is_empty() {
        return Err(DiversityError::Empty);
    }
    let pedigree = &context.lineage().pedigree;
    let kinship = context.kinship().map_err(DiversityError::TooComplex)?;
    let of_set = kinship.diversity(set);
    let behind = representation(pedigree, set);
    let chosen = marginal_ancestors(pedigree, set, usize::MAX);
    let figures = Figures {
        plants: set.len(),
        founders: behind.founders.len(),
        unknown: behind.unknown,
        effective_founders: behind.effective_founders,
        effective_ancestors: effective_ancestors(&chosen),
        founder_genome_equivalents: of_set.genome_equivalents(),
        mean_kinship: of_set.mean_kinship,
        gene_diversity: of_set.gene_diversity(),
        mean_inbreeding: of_set.mean_inbreeding,
    };
    Ok(Diversity {
        figures,
        ancestors: ancestors(pedigree, set, &chosen),
        plants: plants(context, set, &of_set),
        sole_lines: lines(pedigree, set),
        rests_on: rests_on(context, &kinship, set),
    })
}

fn ancestors(
    pedigree: &Pedigree,
    set: &[PlantRow],
    chosen: &[MarginalAncestor],
) -> Vec<AncestorPart> {
    let maybe = possible_parents(pedigree, set);
    let sure = sure_ancestors(pedigree, set);
    let mut together = 0.0;
    let part = |of: &MarginalAncestor| {
        together += of.contribution;
        AncestorPart {
            plant: of.plant,
            contribution: of.contribution,
            together,
            tied: of.tied,
            uncertain: of.plant.is_some_and(|plant| maybe.contains(&plant)),
            only_possible: of.plant.is_some_and(|plant| {
                // A plant of the set holds its own genes, but may be no ancestor.
                let only_itself = set.contains(&plant) && !maybe.contains(&plant);
                !sure.contains(&plant) && !only_itself
            }),
        }
    };
    chosen.iter().map(part).collect()
}

fn plants(context: &Context, set: &[PlantRow], of_set: &OfSet) -> Vec<PlantPart> {
    let part = |(at, &plant): (usize, &PlantRow)| PlantPart {
        plant,
        mean_kinship: of_set.of_plants[at],
        loss: of_set.loss.get(at).copied(),
        pieces: pieces_here(context.registry, plant, context.today),
    };
    let mut plants: Vec<PlantPart> = set.iter().enumerate().map(part).collect();
    // Stable: equal losses stay in the order of the registry.
    plants.sort_by(|a, b| b.loss.unwrap_or(0.0).total_cmp(&a.loss.unwrap_or(0.0)));
    plants
}

fn lines(pedigree: &Pedigree, set: &[PlantRow]) -> Vec<SoleLine> {
    let sole = sole_lines(pedigree, set).into_iter();
    sole.map(|(founder, carried_by)| SoleLine {
        founder,
        carried_by,
    })
    .collect()
}

fn rests_on(context: &Context, kinship: &Kinship, set: &[PlantRow]) -> RestsOn {
    let pedigree = &context.lineage().pedigree;
    RestsOn::of((pedigree, kinship), context.founding(), set)
}

impl PlantPart {
    /// Whether it is the only piece of itself here and its death would cost variety.
    pub fn lacks_a_spare(&self) -> bool {
        self.pieces == 1 && self.loss.is_some_and(|loss| loss > 0.0)
    }

    /// Whether the rest would be more varied without it.
    pub fn holds_variety_down(&self) -> bool {
        self.loss.is_some_and(|loss| loss < 0.0)
    }
}

impl Diversity {
    /// The fewest ancestors through which half of the genes come, the largest contribution first.
    pub fn half(&self) -> &[AncestorPart] {
        let enough = |of: &AncestorPart| of.together >= 0.5 - 1e-12;
        let at = self.ancestors.iter().position(enough);
        let count = at.map_or(self.ancestors.len(), |at| at + 1);
        &self.ancestors[..count]
    }

    /// The ancestors beyond the first `listed`; none where there are no more.
    pub fn rest(&self, listed: usize) -> Option<Rest> {
        let ancestors = self.ancestors.len().checked_sub(listed)?;
        let before = listed
            .checked_sub(1)
            .map_or(0.0, |at| self.ancestors[at].together);
        (ancestors > 0).then_some(Rest {
            ancestors,
            contribution: 1.0 - before,
        })
    }
}
