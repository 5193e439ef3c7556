//! Who is related to whom, how closely, and through whom.

use crate::analysis::evidence::EvidenceRow;
use crate::analysis::kinship::kindred::Kindred;
use crate::analysis::kinship::lines::{PathRow, WayRow};
use crate::analysis::kinship::possible::{Outcome, outcomes};
use crate::analysis::kinship::rests_on::RestsOn;
use crate::analysis::kinship::swapped::{apart, mean};
use crate::analysis::siblings::Sibling;
use crate::kinship::{Kinship, Possible, possible_inbreeding, possible_kinship};
use crate::lineage::{PedigreeTooComplex, PlantRow};
use crate::registry::{Origin, OriginRow};
use serde::Serialize;
use std::collections::BTreeMap;

/// Plants asked for beyond which the ways they may be related are not gone through pair by pair.
const GONE_THROUGH: usize = 40;

/// Kinship of some plants.
#[derive(Serialize)]
pub struct KinReport {
    /// Pairs asked for; full precision.
    pub pairs: Vec<PairRow>,
    /// Of a single pair the kinship with each possible pair of parents, where parents are one of several.
    pub with_each: Vec<WayRow>,
    /// The lines of descent behind a single pair.
    pub paths: Vec<PathRow>,
    /// Whether every line is listed.
    pub paths_complete: bool,
    /// What the figures rest on.
    pub rests_on: RestsOn,
    /// How surely the descent of each plant is known; empty for a plain table.
    pub evidence: Vec<PlantEvidence>,
    /// Species behind the plants whose names are in doubt, one line each.
    pub cautions: Vec<String>,
    #[serde(skip)]
    pub(crate) square: Vec<String>,
}

/// One pair.
#[derive(Serialize)]
pub struct PairRow {
    /// Code of one plant.
    pub a: String,
    /// Code of the other; the same code means two ramets of one plant.
    pub b: String,
    /// Kinship, at least; expected, where parents are one of several. The inbreeding expected of their seedlings.
    pub kinship: f64,
    /// What it may be, ascending, where parents are one of several; empty when that makes no difference.
    pub may_be: Vec<Outcome>,
    /// Whether what it may be was worked out; the ways may be too many.
    pub ways_known: bool,
}

/// How surely the descent of a plant is known.
#[derive(Serialize)]
pub struct PlantEvidence {
    /// Code.
    pub id: String,
    /// The evidence.
    pub evidence: EvidenceRow,
}

/// Inbreeding of all plants.
#[derive(Serialize)]
pub struct InbreedingReport {
    /// Rows in the order of the registry, or of the table and then those named only as parents.
    pub rows: Vec<InbreedingRow>,
    /// What the figures rest on.
    pub rests_on: RestsOn,
    /// Species behind the plants whose names are in doubt, one line each.
    pub cautions: Vec<String>,
    /// Whether the plants were asked for by code, not all there are.
    #[serde(skip)]
    pub(crate) asked: bool,
}

/// One plant.
#[derive(Serialize)]
pub struct InbreedingRow {
    /// Code.
    pub id: String,
    /// Inbreeding, at least; expected, where parents are one of several.
    pub inbreeding: f64,
    /// What it may be, ascending, where parents are one of several; empty when that makes no difference.
    pub may_be: Vec<Outcome>,
    /// How the crosses behind it are known, at worst; `null` for a founder, and for a plain table.
    pub known: Option<&'static str>,
    /// As one of its cross; `None` for a plain table.
    #[serde(skip)]
    pub(crate) sibling: Option<Sibling>,
}

impl Kindred<'_, '_, '_> {
    fn rests_on(&self, kinship: &Kinship, plants: &[PlantRow]) -> RestsOn {
        RestsOn::of((self.pedigree, kinship), &self.founding, plants)
    }

    /// Kinship of a pair with its paths, or of all pairs of several plants.
    ///
    /// # Errors
    /// [`PedigreeTooComplex`] when the pedigree cannot be solved.
    pub fn pairs(&self, plants: &[PlantRow]) -> Result<KinReport, PedigreeTooComplex> {
        let kinship = self.solve()?;
        let table = kinship.table(plants);
        let mut pairs = Vec::new();
        let diagonal = usize::from(plants.len() == 2);
        let uncertain = self.uncertain();
        for a in 0..plants.len() {
            for b in a + diagonal..plants.len() {
                let pair = [plants[a], plants[b]];
                let mut kinship = table.get(a, b);
                let swapped = self.swapped(pair);
                // A mean of 0 is a mean of nothing but 0.
                let ways = match kinship > 0.0 && pair.iter().any(|of| uncertain(*of)) {
                    false => Some(Vec::new()),
                    true if plants.len() > GONE_THROUGH => None,
                    true => self.possible(pair)?.map(|possible| {
                        if swapped {
                            kinship = mean(&possible);
                        }
                        outcomes(&possible)
                    }),
                };
                pairs.push(PairRow {
                    a: self.code(plants[a]),
                    b: self.code(plants[b]),
                    kinship,
                    ways_known: ways.is_some(),
                    may_be: ways.unwrap_or_default(),
                });
            }
        }
        let (mut paths, mut with_each) = (Vec::new(), Vec::new());
        let mut paths_complete = true;
        if let [one, other] = plants {
            with_each = self.with_each(self.possible([*one, *other])?);
            let found = kinship.paths(*one, *other, 12);
            paths_complete = found.complete;
            paths = self.told_apart(&found.paths, (*one, *other));
        }
        Ok(KinReport {
            pairs,
            with_each,
            paths,
            paths_complete,
            rests_on: self.rests_on(&kinship, plants),
            evidence: self.evidence_of(plants),
            cautions: self.source.doubts(plants),
            square: plants.iter().map(|&plant| self.code(plant)).collect(),
        })
    }

    /// What the kinship of two plants may be; of two whose labels were swapped, never both of one cross.
    fn possible(&self, pair: [PlantRow; 2]) -> Result<Option<Possible>, PedigreeTooComplex> {
        let possible = possible_kinship(self.pedigree, &self.founding, pair)?;
        Ok(possible.map(|possible| match self.swapped(pair) {
            true => apart(possible, pair),
            false => possible,
        }))
    }

    /// Whether parents above a plant are one of several.
    fn uncertain(&self) -> impl Fn(PlantRow) -> bool {
        let touched = self.pedigree.origins_touched(Origin::is_one_of_several);
        move |plant| {
            let origin = self.pedigree.origin_row(plant);
            origin.is_some_and(|origin| touched[origin.index()])
        }
    }

    fn evidence_of(&self, plants: &[PlantRow]) -> Vec<PlantEvidence> {
        let mut each = plants.to_vec();
        each.dedup();
        let known = |plant| {
            let evidence = self.source.evidence(plant)?;
            Some(PlantEvidence {
                id: self.code(plant),
                evidence,
            })
        };
        each.into_iter().filter_map(known).collect()
    }

    /// Inbreeding of some plants, or of every plant where none is named.
    ///
    /// # Errors
    /// As [`Kindred::pairs`].
    pub fn inbreeding(&self, asked: &[PlantRow]) -> Result<InbreedingReport, PedigreeTooComplex> {
        let kinship = self.solve()?;
        let uncertain = self.uncertain();
        // Plants of one origin differ in what they are, not in what they may be.
        let mut of_origin: BTreeMap<Option<OriginRow>, Vec<Outcome>> = BTreeMap::new();
        let plants = if asked.is_empty() {
            &self.listed
        } else {
            asked
        };
        let mut rows = Vec::with_capacity(plants.len());
        for &plant in plants {
            let (inbreeding, origin) = (kinship.inbreeding(plant), self.pedigree.origin_row(plant));
            let doubtful = inbreeding > 0.0 && uncertain(plant);
            if doubtful && !of_origin.contains_key(&origin) {
                of_origin.insert(origin, self.may_be(plant)?);
            }
            let may_be = of_origin.get(&origin).filter(|_| doubtful);
            rows.push(InbreedingRow {
                id: self.code(plant),
                may_be: may_be.cloned().unwrap_or_default(),
                known: self.source.known(plant),
                sibling: self.source.sibling(plant),
                inbreeding,
            });
        }
        Ok(InbreedingReport {
            rows,
            rests_on: self.rests_on(&kinship, plants),
            cautions: self.source.doubts(plants),
            asked: !asked.is_empty(),
        })
    }

    fn may_be(&self, plant: PlantRow) -> Result<Vec<Outcome>, PedigreeTooComplex> {
        let possible = possible_inbreeding(self.pedigree, &self.founding, plant)?;
        Ok(possible.as_ref().map(outcomes).unwrap_or_default())
    }
}
