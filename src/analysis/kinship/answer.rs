//! Who is related to whom, how closely, and through whom.

use crate::analysis::descent::Descent;
use crate::analysis::evidence::{EvidenceRow, evidence_row};
use crate::analysis::founding::founding;
use crate::analysis::kinship::lines::{DescentPath, DrawnParents};
use crate::analysis::kinship::possible::{Outcome, outcomes};
use crate::analysis::kinship::rests_on::RestsOn;
use crate::evidence::{Evidence, Unit};
use crate::kinship::{Kinship, NamedPedigree, possible_inbreeding, possible_kinship};
use crate::lineage::{Founding, Lineage, Pedigree, PedigreeTooComplex, PlantRow};
use crate::naming::recorded::TopOf;
use crate::registry::PlantKind;
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

/// The kinship of a pair if uncertain parents were these.
#[derive(Serialize)]
pub struct WayRow {
    /// The parents.
    pub parents: DrawnParents,
    /// Their chance, 0 to 1.
    pub chance: f64,
    /// Kinship, at least.
    pub kinship: f64,
}

/// How surely the descent of a plant is known.
#[derive(Serialize)]
pub struct PlantEvidence {
    /// Code.
    pub id: String,
    /// The evidence.
    pub evidence: EvidenceRow,
}

/// One pair of lines up to where they meet.
#[derive(Serialize)]
pub struct PathRow {
    /// The lines, from one plant to the other.
    pub path: DescentPath,
    /// What it adds to the kinship.
    pub kinship: f64,
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
}

/// Where plants have their codes and their evidence from.
enum Source<'k> {
    Registry(&'k Evidence<'k, 'k>),
    Table(&'k NamedPedigree),
}

impl Source<'_> {
    fn code(&self, plant: PlantRow) -> String {
        match self {
            Source::Registry(evidence) => evidence.registry().code(plant),
            Source::Table(table) => table.ids[plant.index()].clone(),
        }
    }

    fn evidence(&self, plant: PlantRow) -> Option<EvidenceRow> {
        match self {
            Source::Registry(evidence) => Some(evidence_row(evidence, Unit::Plant(plant))),
            Source::Table(_) => None,
        }
    }

    /// Doubts of the species behind some plants.
    fn doubts(&self, plants: &[PlantRow]) -> Vec<String> {
        let tops = plants.iter().copied().map(TopOf::Plant);
        match self {
            Source::Registry(evidence) => evidence.names().doubts(tops),
            Source::Table(_) => Vec::new(),
        }
    }
}

/// The plants figures are asked of: a registry's, or those of a plain table.
pub struct Kindred<'k> {
    pub(crate) pedigree: &'k Pedigree,
    source: Source<'k>,
    founding: Founding,
    listed: Vec<PlantRow>,
}

impl<'k> Kindred<'k> {
    /// The plants of a registry.
    pub fn of_registry(evidence: &'k Evidence, lineage: &'k Lineage) -> Self {
        let (registry, names) = (evidence.registry(), evidence.names());
        let descent = Descent::of(registry, lineage, names);
        let plants = registry.plants();
        Kindred {
            pedigree: &lineage.pedigree,
            source: Source::Registry(evidence),
            founding: founding(registry, lineage, &descent),
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

    fn solve(&self) -> Result<Kinship<'_>, PedigreeTooComplex> {
        Kinship::of(self.pedigree, &self.founding)
    }

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
                let kinship = table.get(a, b);
                // A mean of 0 is a mean of nothing but 0.
                let ways = match kinship > 0.0 && pair.iter().any(|of| uncertain(*of)) {
                    false => Some(Vec::new()),
                    true if plants.len() > GONE_THROUGH => None,
                    true => possible_kinship(self.pedigree, &self.founding, pair)?
                        .as_ref()
                        .map(outcomes),
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
            let possible = possible_kinship(self.pedigree, &self.founding, [*one, *other]);
            with_each = self.with_each(possible?);
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

    /// Whether parents above a plant are one of several.
    fn uncertain(&self) -> impl Fn(PlantRow) -> bool {
        let touched = self
            .pedigree
            .origins_touched(|origin| origin.pairs.len() > 1);
        move |plant| {
            let origin = self.pedigree.origin_index(plant);
            origin.is_some_and(|origin| touched[origin])
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

    /// Inbreeding of every plant.
    ///
    /// # Errors
    /// As [`Kindred::pairs`].
    pub fn inbreeding(&self) -> Result<InbreedingReport, PedigreeTooComplex> {
        let kinship = self.solve()?;
        let uncertain = self.uncertain();
        // Plants of one origin differ in what they are, not in what they may be.
        let mut of_origin: BTreeMap<Option<usize>, Vec<Outcome>> = BTreeMap::new();
        let mut rows = Vec::with_capacity(self.listed.len());
        for &plant in &self.listed {
            let (inbreeding, origin) =
                (kinship.inbreeding(plant), self.pedigree.origin_index(plant));
            let doubtful = inbreeding > 0.0 && uncertain(plant);
            if doubtful && !of_origin.contains_key(&origin) {
                of_origin.insert(origin, self.may_be(plant)?);
            }
            let may_be = of_origin.get(&origin).filter(|_| doubtful);
            rows.push(InbreedingRow {
                id: self.code(plant),
                may_be: may_be.cloned().unwrap_or_default(),
                inbreeding,
            });
        }
        Ok(InbreedingReport {
            rows,
            rests_on: self.rests_on(&kinship, &self.listed),
            cautions: self.source.doubts(&self.listed),
        })
    }

    fn may_be(&self, plant: PlantRow) -> Result<Vec<Outcome>, PedigreeTooComplex> {
        let possible = possible_inbreeding(self.pedigree, &self.founding, plant)?;
        Ok(possible.as_ref().map(outcomes).unwrap_or_default())
    }
}
