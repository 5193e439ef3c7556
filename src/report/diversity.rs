//! How much variety a set of plants holds, and what a death would cost.

use super::caution::Weight;
use super::cell::Cell;
use super::sheet::{Report, Sheet};
use super::table::Table;
use crate::analysis::kinship::RestsOn;
use crate::analysis::siblings::alike_siblings;
use crate::context::Context;
use crate::kinship::{effective_ancestors, marginal_ancestors, representation, sole_lines};
use crate::lineage::{Pair, Pedigree, PlantRow};
use crate::observation::pieces::pieces_here;
use crate::registry::OriginRow;
use crate::wording::{counted, listed};
use serde::Serialize;
use std::collections::BTreeSet;

/// Variety of a set.
#[derive(Serialize)]
pub struct DiversityReport {
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
    /// The ancestors that make up the effective number, the largest contribution first; as many as are needed to explain
    /// the set.
    pub ancestors: Vec<AncestorRow>,
    /// Plants, those whose death costs most first.
    pub rows: Vec<DiversityRow>,
    /// Founders whose line hangs on one plant.
    pub sole_lines: Vec<SoleLine>,
    /// What the figures rest on.
    pub rests_on: RestsOn,
    #[serde(skip)]
    filter: String,
}

/// One ancestor, or plant of the set, that others descend from.
#[derive(Serialize)]
pub struct AncestorRow {
    /// Code; `null` for a parent that is not recorded.
    pub id: Option<String>,
    /// Part of the set's genes that comes through it and through none before it, 0 to 1.
    pub contribution: f64,
    /// Whether another would have explained as much at its place.
    pub tied: bool,
    /// Whether it is only one of several possible parents of something here, so that its part is an expected one.
    pub uncertain: bool,
}

/// One plant of the set.
#[derive(Serialize)]
pub struct DiversityRow {
    /// Code.
    pub id: String,
    /// Its mean kinship with the set: low is rare.
    pub mean_kinship: f64,
    /// What gene diversity would lose by its death; below 0 when the rest would be more varied.
    pub loss: Option<f64>,
    /// Rooted pieces here.
    pub pieces: usize,
}

/// A founder's line that hangs on one plant.
#[derive(Serialize)]
pub struct SoleLine {
    /// The founder.
    pub founder: String,
    /// The only plant of the set that carries it.
    pub carried_by: String,
}

/// Works out the variety of a set.
///
/// # Errors
/// In words, when the set is empty or the pedigree too entangled.
pub fn diversity(
    context: &Context,
    set: &[PlantRow],
    filter: String,
) -> Result<DiversityReport, String> {
    if set.is_empty() {
        return Err("no plant matches the filter".into());
    }
    let (registry, lineage) = (context.registry, context.lineage());
    let kinship = context.kinship().map_err(|error| error.to_string())?;
    let figures = kinship.diversity(set);
    let behind = representation(&lineage.pedigree, set);
    let ancestors = marginal_ancestors(&lineage.pedigree, set, usize::MAX);
    let maybe = possible_parents(&lineage.pedigree, set);
    let mut rows: Vec<DiversityRow> = set
        .iter()
        .enumerate()
        .map(|(at, &plant)| DiversityRow {
            id: registry.code(plant),
            mean_kinship: figures.of_plants[at],
            loss: figures.loss.get(at).copied(),
            pieces: pieces_here(registry, plant, context.today),
        })
        .collect();
    // Stable: equal losses stay in the order of the registry.
    rows.sort_by(|a, b| b.loss.unwrap_or(0.0).total_cmp(&a.loss.unwrap_or(0.0)));
    Ok(DiversityReport {
        plants: set.len(),
        founders: behind.founders.len(),
        unknown: behind.unknown,
        effective_founders: behind.effective_founders,
        effective_ancestors: effective_ancestors(&ancestors),
        ancestors: ancestors
            .iter()
            .map(|of| AncestorRow {
                id: of.plant.map(|plant| registry.code(plant)),
                contribution: of.contribution,
                tied: of.tied,
                uncertain: of.plant.is_some_and(|plant| maybe.contains(&plant)),
            })
            .collect(),
        founder_genome_equivalents: figures.genome_equivalents(),
        mean_kinship: figures.mean_kinship,
        gene_diversity: figures.gene_diversity(),
        mean_inbreeding: figures.mean_inbreeding,
        rows,
        sole_lines: sole_lines(&lineage.pedigree, set)
            .into_iter()
            .map(|(founder, plant)| SoleLine {
                founder: registry.code(founder),
                carried_by: registry.code(plant),
            })
            .collect(),
        rests_on: RestsOn::of((&lineage.pedigree, &kinship), context.founding(), set),
        filter,
    })
}

/// Plants that are a parent of something behind a set under some of its possible pairs of parents, not under all.
fn possible_parents(pedigree: &Pedigree, set: &[PlantRow]) -> BTreeSet<PlantRow> {
    let behind = pedigree.with_ancestors(set).into_iter();
    let origins: BTreeSet<OriginRow> = behind
        .filter_map(|plant| pedigree.origin_row(plant))
        .collect();
    let mut maybe = BTreeSet::new();
    for origin in origins {
        let pairs = &pedigree[origin].pairs;
        let of = |pair: &Pair| [pair.seed, pair.pollen];
        let parents = pairs.iter().flat_map(of).flatten();
        maybe.extend(
            parents.filter(|plant| !pairs.iter().all(|pair| of(pair).contains(&Some(*plant)))),
        );
    }
    maybe
}

impl Report for DiversityReport {
    fn sheet(&self) -> Sheet {
        let together = |a: &DiversityRow, b: &DiversityRow| printed(a) == printed(b);
        // More variety without a plant is no cost: a screen says so in words.
        self.told(together, |loss| match loss < 0.0 {
            true => "none".into(),
            false => Cell::Number(loss * 1000.0, 2),
        })
    }

    fn spreadsheet(&self) -> Sheet {
        self.told(|_, _| false, |loss| Cell::Number(loss * 1000.0, 2))
    }
}

/// What a row prints. Sums in another order differ in their last bits; rows are alike when they are printed alike.
fn printed(row: &DiversityRow) -> (String, Option<String>, usize) {
    let loss = row.loss.map(|loss| format!("{:.2}", loss * 1000.0));
    (format!("{:.4}", row.mean_kinship), loss, row.pieces)
}

/// Ancestors listed one by one.
const ANCESTORS: usize = 12;

impl AncestorRow {
    fn name(&self) -> String {
        let unknown = || "an unknown parent".to_owned();
        self.id.clone().unwrap_or_else(unknown)
    }

    fn remarks(&self) -> String {
        let perhaps = self.uncertain.then_some("one of several possible parents");
        let tied = self.tied.then_some("another adds as much");
        let remarks: Vec<&str> = [perhaps, tied].into_iter().flatten().collect();
        remarks.join("; ")
    }
}

impl DiversityReport {
    /// The fewest ancestors through which half of the genes come.
    fn half_from(&self) -> String {
        let mut sum = 0.0;
        let mut names = Vec::new();
        for of in &self.ancestors {
            names.push(match of.uncertain {
                true => format!("perhaps {} (one of several possible parents)", of.name()),
                false => of.name(),
            });
            sum += of.contribution;
            if sum >= 0.5 - 1e-12 {
                break;
            }
        }
        let through = match names.len() {
            n if n > ANCESTORS => counted(n, "ancestor", "ancestors"),
            _ => listed(&names),
        };
        format!("half of their genes come through {through}")
    }

    /// The plants without a spare piece whose loss would cost most, at most three, or the plant hardest to replace.
    fn back_up_first(&self) -> String {
        let alone = self.rows.iter().filter(|row| row.pieces == 1);
        let alone = alone.filter(|row| row.loss.is_some_and(|loss| loss > 0.0));
        let alone: Vec<&DiversityRow> = alone.collect();
        let alike = |a: &&DiversityRow, b: &&DiversityRow| printed(a) == printed(b);
        let groups = alike_siblings(&alone, |row| &row.id, alike);
        let first: Vec<String> = groups.into_iter().take(3).map(|(codes, _)| codes).collect();
        match (&first[..], self.rows.first()) {
            ([], Some(row)) => format!("{} is the hardest to replace", row.id),
            ([], None) => "Nothing to back up".to_owned(),
            (first, _) => format!("No spare piece, back up first: {}", first.join("; ")),
        }
    }

    fn ancestor_table(&self) -> Table {
        let percent = |value: f64| format!("{:.1} %", value * 100.0);
        let mut sum = 0.0;
        let named = self.ancestors.iter().take(ANCESTORS).map(|of| {
            sum += of.contribution;
            (of.name(), of.contribution, sum, of.remarks())
        });
        let mut rows: Vec<_> = named.collect();
        if self.ancestors.len() > ANCESTORS {
            let more = format!("{} more", self.ancestors.len() - ANCESTORS);
            rows.push((more, 1.0 - sum, 1.0, String::new()));
        }
        Table::of(&rows)
            .titled("Ancestors that make up the effective number")
            .text("ancestor", |row| &row.0)
            .figure("adds", |row| percent(row.1))
            .figure("together", |row| percent(row.2))
            .text("", |row| &row.3)
            .into()
    }

    fn told(
        &self,
        together: impl Fn(&DiversityRow, &DiversityRow) -> bool,
        cost: impl Fn(f64) -> Cell,
    ) -> Sheet {
        let filter = if self.filter.is_empty() {
            String::new()
        } else {
            format!(" ({})", self.filter)
        };
        let mut sheet = Sheet::new(format!(
            "{}. {}{filter} hold as much variety as {:.1} unrelated founders; {}",
            self.back_up_first(),
            counted(self.plants, "plant", "plants"),
            self.founder_genome_equivalents,
            self.half_from()
        ));
        let groups = alike_siblings(&self.rows, |row| &row.id, together);
        let rows = groups.iter().map(|(plants, rows)| (plants, &rows[0]));
        sheet.table(
            Table::of(rows)
                .titled("Hardest to replace (gene diversity lost with the plant, in thousandths)")
                .text("plant", |(plants, _)| plants)
                .number("mean kinship", 4, |(_, row)| row.mean_kinship)
                .figure("lost with it", |(_, row)| row.loss.map(&cost))
                .figure("pieces here", |(_, row)| row.pieces)
                .text("spare", |(_, row)| match row.pieces {
                    1 => "none: take a cutting",
                    _ => "",
                }),
        );
        let lines = self.sole_lines.iter();
        sheet.lines(
            Some("Founders whose line only one plant carries"),
            lines
                .map(|line| format!("{}: only {}", line.founder, line.carried_by))
                .collect(),
        );
        let percent = |value: f64| format!("{:.1} %", value * 100.0);
        sheet.facts(
            None,
            vec![
                ("founders behind them", Some(self.founders.to_string())),
                (
                    "gene diversity",
                    Some(format!("at most {:.3}", self.gene_diversity)),
                ),
                (
                    "effective founders",
                    Some(format!("{:.2} (Lacy 1989)", self.effective_founders)),
                ),
                (
                    "effective ancestors",
                    Some(format!(
                        "{:.2} (Boichard, Maignel & Verrier 1997)",
                        self.effective_ancestors
                    )),
                ),
                (
                    "founder genome equivalents",
                    Some(format!(
                        "{:.2} (from mean kinship)",
                        self.founder_genome_equivalents
                    )),
                ),
                (
                    "mean kinship",
                    Some(format!("at least {:.4}", self.mean_kinship)),
                ),
                (
                    "mean inbreeding",
                    Some(format!("at least {:.4}", self.mean_inbreeding)),
                ),
                (
                    "through unknown parents",
                    (self.unknown > 0.0).then(|| percent(self.unknown)),
                ),
            ],
        );
        sheet.table(self.ancestor_table());
        sheet.cautions_of(&self.rests_on.assumptions());
        sheet.caution(Weight::General, "plants stand in the order of the variety lost with them; `podbook due` asks for cuttings of founders, parents and plants marked to keep, whatever they add to the variety");
        if self
            .rows
            .iter()
            .any(|row| row.loss.is_some_and(|loss| loss < 0.0))
        {
            sheet.caution(Weight::General, "none lost, or below 0: the others would be more varied without the plant; it may still be worth keeping");
        }
        sheet
    }
}
