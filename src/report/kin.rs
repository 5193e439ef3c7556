//! Who is related to whom, how closely, and through whom.

use super::alike_siblings::alike_siblings;
use super::descent::Descent;
use super::evidence::{EvidenceRow, evidence_row};
use super::founding::founding;
use super::rests_on::{RestsOn, probability};
use super::sheet::{Cell, Report, Sheet, Table};
use super::words::counted;
use crate::evidence::{Evidence, Unit};
use crate::kinship::{Kinship, Meeting, NamedPedigree, Path};
use crate::lineage::{Founding, Lineage, Pedigree, PlantRow};
use crate::registry::PlantKind;
use serde::Serialize;

/// Kinship of some plants.
#[derive(Serialize)]
pub struct KinReport {
    /// Pairs asked for; full precision.
    pub pairs: Vec<PairRow>,
    /// The lines of descent behind a single pair.
    pub paths: Vec<PathRow>,
    /// Whether every line is listed.
    pub paths_complete: bool,
    /// What the figures rest on.
    pub rests_on: RestsOn,
    /// How surely the descent of each plant is known; empty for a plain table.
    pub evidence: Vec<PlantEvidence>,
    #[serde(skip)]
    square: Vec<String>,
}

/// One pair.
#[derive(Serialize)]
pub struct PairRow {
    /// Code of one plant.
    pub a: String,
    /// Code of the other; the same code means two ramets of one plant.
    pub b: String,
    /// Kinship, at least; the inbreeding expected of their seedlings.
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
    /// The lines in words, from one plant to the other.
    pub path: String,
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
}

/// One plant.
#[derive(Serialize)]
pub struct InbreedingRow {
    /// Code.
    pub id: String,
    /// Inbreeding, at least.
    pub inbreeding: f64,
}

/// The plants figures are asked of: a registry's, or those of a plain table.
pub struct Kindred<'k> {
    pedigree: &'k Pedigree,
    code: Box<dyn Fn(PlantRow) -> String + 'k>,
    evidence: Box<dyn Fn(PlantRow) -> Option<EvidenceRow> + 'k>,
    founding: Founding,
    listed: Vec<PlantRow>,
}

impl<'k> Kindred<'k> {
    /// The plants of a registry.
    pub fn of_registry(evidence: &'k Evidence, lineage: &'k Lineage) -> Self {
        let (registry, names) = (evidence.registry(), evidence.names());
        let descent = Descent::of(registry, lineage, names);
        Kindred {
            pedigree: &lineage.pedigree,
            code: Box::new(|plant| registry.code(plant)),
            evidence: Box::new(|plant| Some(evidence_row(evidence, Unit::Plant(plant)))),
            founding: founding(registry, lineage, &descent),
            listed: registry
                .plants()
                .filter(|&plant| registry.kind(plant) != PlantKind::Unseen)
                .collect(),
        }
    }

    /// The plants of a table; all founders unrelated.
    pub fn of_table(table: &'k NamedPedigree) -> Self {
        Kindred {
            pedigree: &table.pedigree,
            code: Box::new(|plant| table.ids[plant.index()].clone()),
            evidence: Box::new(|_| None),
            founding: Founding::unrelated(),
            listed: table.as_written.clone(),
        }
    }

    fn solve(&self) -> Result<Kinship<'_>, String> {
        Kinship::of(self.pedigree, &self.founding).map_err(|error| error.to_string())
    }

    fn rests_on(&self, kinship: &Kinship, plants: &[PlantRow]) -> RestsOn {
        RestsOn::of((self.pedigree, kinship), &self.founding, plants)
    }

    /// Kinship of a pair with its paths, or of all pairs of several plants.
    ///
    /// # Errors
    /// In words, when the pedigree is too entangled to be solved.
    pub fn pairs(&self, plants: &[PlantRow]) -> Result<KinReport, String> {
        let kinship = self.solve()?;
        let table = kinship.table(plants);
        let mut pairs = Vec::new();
        let diagonal = usize::from(plants.len() == 2);
        for a in 0..plants.len() {
            for b in a + diagonal..plants.len() {
                let (one, other) = ((self.code)(plants[a]), (self.code)(plants[b]));
                pairs.push(PairRow {
                    a: one,
                    b: other,
                    kinship: table.get(a, b),
                });
            }
        }
        let mut paths = Vec::new();
        let mut paths_complete = true;
        if let [one, other] = plants {
            let found = kinship.paths(*one, *other, 12);
            paths_complete = found.complete;
            paths = self.told_apart(&found.paths, (*one, *other));
        }
        Ok(KinReport {
            pairs,
            paths,
            paths_complete,
            rests_on: self.rests_on(&kinship, plants),
            evidence: self.evidence_of(plants),
            square: plants.iter().map(|&plant| (self.code)(plant)).collect(),
        })
    }

    fn evidence_of(&self, plants: &[PlantRow]) -> Vec<PlantEvidence> {
        let mut each = plants.to_vec();
        each.dedup();
        let known = |plant| {
            let evidence = (self.evidence)(plant)?;
            Some(PlantEvidence {
                id: (self.code)(plant),
                evidence,
            })
        };
        each.into_iter().filter_map(known).collect()
    }

    /// Lines in words; lines of the same plants are told apart by the parents they take.
    fn told_apart(&self, paths: &[Path], (one, other): (PlantRow, PlantRow)) -> Vec<PathRow> {
        let mut rows: Vec<PathRow> = paths
            .iter()
            .map(|path| self.path(one, other, path))
            .collect();
        let words: Vec<String> = rows.iter().map(|row| row.path.clone()).collect();
        for (at, row) in rows.iter_mut().enumerate() {
            let alike = |of: &[String]| of.contains(&words[at]);
            if let (true, Meeting::Batch(_)) = (alike(&words[..at]), paths[at].meeting) {
                row.path = row.path.replacen("[unseen", "[the other unseen", 1);
            } else if alike(&words[..at]) || alike(&words[at + 1..]) {
                let taking: Vec<String> = paths[at]
                    .taking
                    .iter()
                    .map(|&(origin, place)| self.pair_words(origin, place))
                    .collect();
                if !taking.is_empty() {
                    row.path
                        .push_str(&format!(", if of {}", taking.join(" and ")));
                }
            }
        }
        rows
    }

    /// `X15-02-3 × X13-01-2`: one of several possible pairs of parents.
    fn pair_words(&self, origin: usize, place: usize) -> String {
        let pair = &self.pedigree.origins()[origin].pairs[place];
        let code = |plant: Option<PlantRow>| {
            plant.map_or("unknown".to_owned(), |plant| (self.code)(plant))
        };
        format!("{} × {}", code(pair.seed), code(pair.pollen))
    }

    fn path(&self, one: PlantRow, other: PlantRow, path: &Path) -> PathRow {
        let mut steps: Vec<String> = path
            .from_one
            .iter()
            .map(|&plant| (self.code)(plant))
            .collect();
        if path.from_one.is_empty() && path.meeting != Meeting::Plant(one) {
            steps.push((self.code)(one));
        }
        steps.push(match path.meeting {
            Meeting::Plant(plant) => format!("[{}]", (self.code)(plant)),
            Meeting::UnknownParent(_) => "[an unknown parent of both]".to_owned(),
            Meeting::Background(_) => "[background of the species]".to_owned(),
            Meeting::Batch(first) => {
                format!("[unseen parent of the batch of {}]", (self.code)(first))
            }
        });
        steps.extend(
            path.from_other
                .iter()
                .rev()
                .map(|&plant| (self.code)(plant)),
        );
        if path.from_other.is_empty() && path.meeting != Meeting::Plant(other) {
            steps.push((self.code)(other));
        }
        PathRow {
            path: steps.join(" – "),
            kinship: path.kinship,
        }
    }

    /// Inbreeding of every plant.
    ///
    /// # Errors
    /// As [`Kindred::pairs`].
    pub fn inbreeding(&self) -> Result<InbreedingReport, String> {
        let kinship = self.solve()?;
        let row = |&plant: &PlantRow| InbreedingRow {
            id: (self.code)(plant),
            inbreeding: kinship.inbreeding(plant),
        };
        Ok(InbreedingReport {
            rows: self.listed.iter().map(row).collect(),
            rests_on: self.rests_on(&kinship, &self.listed),
        })
    }
}

impl Report for KinReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = match &self.pairs[..] {
            [pair] => {
                let of = format!("{} and {}", pair.a, pair.b);
                let kinship = probability(pair.kinship);
                Sheet::new(format!(
                    "kinship of {of}: at least {kinship}; seedlings of the two would be inbred by at least as much"
                ))
            }
            pairs => Sheet::new(format!(
                "kinship of {}",
                counted(pairs.len(), "pair", "pairs")
            )),
        };
        if self.square.len() > 2 {
            sheet.table(self.square());
        }
        if !self.paths.is_empty() {
            let mut table = Table::new(&[">adds", "through (meeting in brackets)"]);
            for path in &self.paths {
                table.row(vec![
                    Cell::Number(path.kinship, 4),
                    path.path.clone().into(),
                ]);
            }
            sheet.table(table);
            if !self.paths_complete {
                sheet.lines(None, vec!["further lines are not listed".into()]);
            }
        }
        let evidence = self.evidence.iter();
        let evidence = evidence.map(|of| format!("{}: {}", of.id, of.evidence.words));
        sheet.lines(Some("Evidence"), evidence.collect());
        sheet.cautions = self.rests_on.cautions();
        sheet
    }
}

impl KinReport {
    /// A square of all pairs; the diagonal is a plant with itself.
    fn square(&self) -> Table {
        let mut headings = vec!["plant".to_owned()];
        headings.extend(self.square.iter().map(|code| format!(">{code}")));
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table = Table::new(&headings);
        let count = self.square.len();
        let at = |a: usize, b: usize| {
            let (a, b) = (a.min(b), a.max(b));
            // Pairs run row by row from the diagonal.
            self.pairs[a * count - a * a.saturating_sub(1) / 2 + (b - a)].kinship
        };
        for (row, code) in self.square.iter().enumerate() {
            let mut cells: Vec<Cell> = vec![code.clone().into()];
            cells.extend((0..count).map(|column| Cell::Number(at(row, column), 4)));
            table.row(cells);
        }
        table
    }
}

impl Report for InbreedingReport {
    fn sheet(&self) -> Sheet {
        self.told(|a, b| a.inbreeding == b.inbreeding)
    }

    fn spreadsheet(&self) -> Sheet {
        self.told(|_, _| false)
    }
}

impl InbreedingReport {
    fn told(&self, together: impl Fn(&InbreedingRow, &InbreedingRow) -> bool) -> Sheet {
        let inbred = self.rows.iter().filter(|row| row.inbreeding > 0.0).count();
        let mut sheet = Sheet::new(format!(
            "{} of {} surely inbred",
            inbred,
            counted(self.rows.len(), "plant is", "plants are")
        ));
        let mut table = Table::new(&["plant", ">inbreeding, at least"]);
        for (plants, rows) in alike_siblings(&self.rows, |row| &row.id, together) {
            table.row(vec![plants.into(), Cell::Number(rows[0].inbreeding, 4)]);
        }
        sheet.table(table);
        sheet.cautions = self.rests_on.cautions();
        sheet
    }
}
