//! Inbreeding of plants and kinship of pairs.
//!
//! Kinship Φ of two plants is the chance that a gene copy drawn from each is the same by descent (Wright 1922;
//! Malécot 1948); inbreeding F of a plant is the kinship of its parents. Both are lower bounds, because founders and
//! unknown parents may be related; how many stand behind a figure is told by [`super::unknowns`].

use crate::lineage::{Founding, IbdSolution, OriginRow, Pedigree, PedigreeTooComplex, PlantRow};

/// Kinship and inbreeding in one pedigree.
#[derive(Clone, Debug)]
pub struct Kinship<'a> {
    pedigree: &'a Pedigree,
    identity: IbdSolution,
    assumed: Vec<bool>,
}

impl<'a> Kinship<'a> {
    /// Solves a pedigree under assumptions about its founders: inbreeding of all plants, once per pod.
    ///
    /// # Errors
    /// [`PedigreeTooComplex`] for very many generations with very many parents in use at once.
    pub fn of(pedigree: &'a Pedigree, founding: &Founding) -> Result<Self, PedigreeTooComplex> {
        let identity = IbdSolution::solve(pedigree, founding)?;
        let assumed = pedigree.origins_touched(|origin| origin.weights().is_none());
        Ok(Self {
            pedigree,
            identity,
            assumed,
        })
    }

    /// Inbreeding F of a plant, 0 to 1.
    pub fn inbreeding(&self, plant: PlantRow) -> f64 {
        self.identity.inbreeding(self.pedigree, plant)
    }

    /// Inbreeding F of the plants of an origin, also of one that has only seeds so far.
    pub fn inbreeding_of_origin(&self, origin: OriginRow) -> f64 {
        self.identity.pod_identity(origin).inbreeding
    }

    /// Kinship of two plants, 0 to 1; of a plant with itself, as of two ramets of it, ½ (1 + F). It is the expected
    /// inbreeding of their seedlings.
    pub fn pair(&self, one: PlantRow, other: PlantRow) -> f64 {
        self.table_between(&[one], &[other]).get(0, 0)
    }

    /// Whether a figure of the plant rests on equal chances for alternatives whose weights nobody stated.
    pub fn assumes_equal_chances(&self, plant: PlantRow) -> bool {
        self.pedigree
            .origin_row(plant)
            .is_some_and(|origin| self.assumed[origin.index()])
    }

    /// The pedigree solved.
    pub fn pedigree(&self) -> &'a Pedigree {
        self.pedigree
    }

    /// The solved identity by descent.
    pub fn identity(&self) -> &IbdSolution {
        &self.identity
    }
}
