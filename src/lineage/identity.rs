//! A solved pedigree: inbreeding of every pod and plant, and what each node adds of its own.
//!
//! [`super::solving`] solves it.

use super::nodes::GeneticNodes;
use super::pedigree::{OriginRow, Pedigree, PlantRow};

/// The pedigree is both too deep for walks and too broad for a table of what is still in use.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PedigreeTooComplex;

impl std::fmt::Display for PedigreeTooComplex {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            out,
            "the pedigree is too deep and too broad at once for kinship of all plants; ask for fewer plants"
        )
    }
}

impl std::error::Error for PedigreeTooComplex {}

/// What an origin adds.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct PodIdentity {
    /// Inbreeding F of its plants, 0 to 1: the kinship of their parents, averaged over alternatives.
    pub inbreeding: f64,
    /// Variance each plant adds of its own, in units of A.
    pub mendelian_variance: f64,
}

/// Everything needed to answer questions about identity by descent.
#[derive(Clone, Debug)]
pub struct IbdSolution {
    pub(super) nodes: GeneticNodes,
    pub(super) mendelian_variance: Vec<f64>,
    pub(super) selves: Vec<f64>,
    pub(super) pods: Vec<PodIdentity>,
    /// The node of the stock that unknown parents belong to.
    pub(super) unknown: Option<u32>,
}

impl IbdSolution {
    /// Self-relationship of a parent; an unknown one counts as a founder that is not inbred beyond its stock.
    pub(super) fn self_of(&self, parent: Option<PlantRow>) -> f64 {
        match parent.and_then(|plant| self.nodes.of_plant(plant)) {
            Some(node) => self.selves[node as usize],
            None => 1.0 + self.background_of_unknown(),
        }
    }

    /// The node of the stock that unknown parents are stated to belong to.
    pub fn unknown_parents(&self) -> Option<u32> {
        self.unknown
    }

    /// Background kinship among unknown parents, 0 to 1.
    pub fn background_of_unknown(&self) -> f64 {
        self.unknown
            .map_or(0.0, |stock| 0.5 * self.selves[stock as usize])
    }

    /// The layout of nodes.
    pub fn nodes(&self) -> &GeneticNodes {
        &self.nodes
    }

    /// Variance a node adds of its own (the diagonal of D), in units of A.
    pub fn mendelian_variance(&self, node: u32) -> f64 {
        self.mendelian_variance[node as usize]
    }

    /// Relationship of a node with itself (the diagonal of A).
    pub fn self_relationship(&self, node: u32) -> f64 {
        self.selves[node as usize]
    }

    /// The node that stands for a plant among others: its own, or its pod's if it has no offspring.
    pub fn stem_of(&self, pedigree: &Pedigree, plant: PlantRow) -> u32 {
        let pod = || {
            pedigree
                .origin_row(plant)
                .map(|origin| self.nodes.of_pod(origin))
        };
        self.nodes
            .of_plant(plant)
            .or_else(pod)
            .expect("a plant without origin is a founder and has a node")
    }

    /// What the plants of an origin have: inbreeding and Mendelian variance.
    pub fn pod_identity(&self, origin: OriginRow) -> PodIdentity {
        self.pods[origin.index()]
    }

    /// Inbreeding F of a plant, 0 to 1; for a founder what its stock implies.
    pub fn inbreeding(&self, pedigree: &Pedigree, plant: PlantRow) -> f64 {
        match pedigree.origin_row(plant) {
            Some(origin) => self.pods[origin.index()].inbreeding,
            None => self.self_of(Some(plant)) - 1.0,
        }
    }
}
