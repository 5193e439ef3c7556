//! What a plant is expected to descend from, and how far real seedlings stray from it.

use super::caution::{RankedCaution, Weight};
use super::cell::Cell;
use super::chart::{ParentageChart, SharesRow};
use super::pedigree::DrawnShare;
use super::sheet::{Report, Sheet};
use super::table::Table;
use crate::analysis::evidence::{EvidenceRow, evidence_row};
use crate::analysis::title::titled;
use crate::ancestry::{
    Chromosomes, CrossKind, CrossKinds, Generations, Heterozygosities, Part, share_deviation,
};
use crate::context::Context;
use crate::context::Descent;
use crate::evidence::{Strength, Unit};
use crate::lineage::{Donor, Lineage, Pair, PlantRow};
use crate::naming::recorded::TopOf;
use crate::numeric::{Fraction, nearest};
use crate::registry::OriginRow;
use crate::wording::upright;
use crate::wording::{Name, NameRun};
use serde::Serialize;

/// The shares of one plant or cross.
#[derive(Serialize)]
pub struct ParentageReport {
    /// Code asked for.
    pub id: String,
    /// Formula in breeder order with its basis.
    pub formula: Option<String>,
    /// What kind of cross it is.
    pub kind: String,
    /// How surely its descent is known.
    pub evidence: EvidenceRow,
    /// Shares, largest first, `unknown` last; they sum to 1.
    #[serde(rename = "parentage")]
    pub shares: Vec<ShareRow>,
    /// What `parentage` is: `certain` parents, parents `by_name` of a hybrid alone, or with one pair or another `expected` (a mean over the pairs by their
    /// weights) or `at_least` (what all pairs have in common; the rest is `A or B`).
    #[serde(rename = "parentage_is")]
    pub shares_are: &'static str,
    /// The shares under each possible pair of parents; empty when there is only one.
    pub possibilities: Vec<Possibility>,
    /// Crosses along the longest, the shortest and the average line to a founder.
    pub generation: GenerationRow,
    /// Chance that the two copies of a gene come from different species.
    pub heterozygosity: HeterozygosityRow,
    /// What the give-or-take rests on; `null` when it cannot be told.
    pub give_or_take_assumes: Option<String>,
    /// Cautions.
    pub cautions: Vec<RankedCaution>,
    #[serde(skip)]
    label: Name,
}

/// One possible pair of parents.
#[derive(Serialize)]
pub struct Possibility {
    /// The pair, seed parent first.
    pub parents: String,
    /// How likely, 0 to 1; `null` when no weights are stated.
    pub chance: Option<f64>,
    /// Shares of its seedlings, largest first.
    #[serde(rename = "parentage")]
    pub shares: Vec<ShareRow>,
}

/// One share.
#[derive(Serialize)]
pub struct ShareRow {
    /// Species, `A or B`, or `unknown`.
    pub of: String,
    /// Exact, such as `"3/8"`.
    pub share: String,
    /// The same as a number, 0 to 1.
    pub fraction: f64,
    /// One standard deviation of a real seedling's share, 0 to 1; `null` where it cannot be told.
    pub give_or_take: Option<f64>,
}

/// Generations from founders.
#[derive(Serialize)]
pub struct GenerationRow {
    /// Along the longest line.
    pub longest: u32,
    /// Along the shortest line.
    pub shortest: u32,
    /// On average.
    pub mean: f64,
}

/// Interspecific heterozygosity.
#[derive(Serialize)]
pub struct HeterozygosityRow {
    /// Both copies of known and different species.
    pub at_least: f64,
    /// Unknown descent counted as different.
    pub at_most: f64,
}

/// What several plants or crosses descend from, as ribbons; species stand in the registry's order, which fixes their
/// colours.
pub fn parentage_chart(reports: &[ParentageReport], species: &[String]) -> ParentageChart {
    let place = |of: &str| species.iter().position(|name| name == of);
    let row = |report: &ParentageReport| {
        let shares: Vec<DrawnShare> = report
            .shares
            .iter()
            .filter_map(|share| {
                Some(DrawnShare {
                    species: place(&share.of)?,
                    fraction: share.fraction,
                })
            })
            .collect();
        let known: f64 = shares.iter().map(|share| share.fraction).sum();
        SharesRow {
            label: report.label.clone(),
            shares,
            unknown_share: (1.0 - known).max(0.0),
        }
    };
    let notes = reports.iter().flat_map(|report| &report.cautions);
    let mut notes: Vec<String> = notes.map(|caution| caution.text.clone()).collect();
    notes.sort();
    notes.dedup();
    ParentageChart {
        title: upright("What they descend from"),
        species: species.iter().map(|name| latin(name)).collect(),
        rows: reports.iter().map(row).collect(),
        notes,
    }
}

fn latin(name: &str) -> Name {
    vec![NameRun {
        text: name.to_owned(),
        italic: true,
    }]
}

/// Works out the shares of a plant or of a cross's seedlings.
///
/// # Errors
/// In words, when the line is too long for exact figures or the code names neither plant nor cross.
pub fn shares(context: &Context, id: &str) -> Result<ParentageReport, String> {
    let (registry, names) = (context.registry, context.names());
    let (lineage, descent) = (context.lineage(), context.descent());
    let evidence = context.evidence();
    let unit = registry.target(id).and_then(Unit::of);
    let unit = unit.ok_or_else(|| format!("`{id}` is neither a plant nor a cross"))?;
    let (top, origin) = (unit.top(), unit.origin(registry));
    let parts = match (top, origin) {
        (_, Some(origin)) => descent.shares_of_origin(origin),
        (TopOf::Plant(plant), None) => descent.shares_of(lineage, plant),
        (TopOf::Cross(_) | TopOf::Pot(..), None) => Ok(Vec::new()),
    }
    .map_err(|error| error.to_string())?;
    let pair = origin.and_then(|origin| certain_pair(lineage, origin));
    let chromosomes = Chromosomes {
        pairs: registry.settings.chromosome_pairs,
        morgans: registry.settings.map_length_morgans,
    };
    let rows: Vec<ShareRow> = parts
        .iter()
        .map(|(part, share)| ShareRow {
            of: descent.part_name(*part),
            share: share.to_string(),
            fraction: nearest(share),
            give_or_take: match (part, pair) {
                (Part::Species(_), Some(pair)) => Some(share_deviation(
                    &lineage.pedigree,
                    &descent.founders,
                    pair,
                    *part,
                    chromosomes,
                )),
                _ => None,
            },
        })
        .collect();
    let heterozygosities = Heterozygosities::of(&lineage.pedigree, &descent.founders)
        .map_err(|error| error.to_string())?;
    let kinds = CrossKinds::of(&lineage.pedigree, &descent.founders, &descent.shares);
    let generations = Generations::of(&lineage.pedigree);
    let (h, generation, kind) = match (origin, top) {
        (Some(origin), _) => (
            heterozygosities.heterozygosity_of_origin(origin),
            generations.generation_of_origin(origin),
            kinds.kind_of_origin(origin),
        ),
        (None, TopOf::Plant(plant)) => (
            heterozygosities.heterozygosity(&lineage.pedigree, &descent.founders, plant),
            generations.generation(&lineage.pedigree, plant),
            kinds.kind(&lineage.pedigree, &descent.founders, plant),
        ),
        (None, TopOf::Cross(_) | TopOf::Pot(..)) => {
            return Err(format!("`{id}` has no seedlings to speak of"));
        }
    };
    let possibilities = match origin {
        Some(origin) => possibilities(context, origin)?,
        None => Vec::new(),
    };
    let reading = names.formula(top, false);
    let writing = crate::naming::Writing::plain(names.vocabulary());
    let general = |words: &str| RankedCaution::new(Weight::General, words);
    let doubt = |words: &str| RankedCaution::new(Weight::Doubt, words);
    let mut cautions = vec![general(
        "expected parentage is an average over seedlings, not a test of this plant",
    )];
    cautions.extend(RankedCaution::doubts(names.doubts([top])));
    if rows.iter().any(|row| row.of == "unknown") {
        cautions.push(doubt(
            "part of the descent is not known; it is counted as unknown and never spread over the rest",
        ));
    }
    let name_alone = match unit {
        Unit::Plant(plant) => names
            .founder(plant)
            .is_some_and(|founder| founder.hybrid_name_alone),
        _ => false,
    };
    if name_alone {
        cautions.push(doubt(
            "a hybrid name alone gives its parents only if it is right; later generations and backcrosses bear the same name, so the true shares of one plant may be anything",
        ));
    }
    if evidence.strength(unit) > Strength::OnTag {
        cautions.push(doubt(
            "the fractions hold only if the recorded parents are the true ones, and something further back is less certain than a tag: see evidence",
        ));
    }
    if let (Some(origin), false) = (origin, possibilities.is_empty()) {
        cautions.push(doubt(&possibilities_words(
            unit,
            &lineage.pedigree[origin].donor,
        )));
    }
    if h.assumes_equal_chances {
        cautions.push(general(
            "several parents are possible without stated chances; heterozygosity takes them as equal",
        ));
    }
    Ok(ParentageReport {
        id: id.to_owned(),
        label: titled(names, id, top, false),
        formula: crate::naming::breeder(&reading, &writing).ok(),
        kind: match name_alone {
            true => "hybrid by its name alone: parents if the name is right, generation unknown".to_owned(),
            false => kind_words(kind, descent),
        },
        evidence: evidence_row(evidence, unit),
        shares_are: match (possibilities.is_empty(), possibilities.iter().all(|of| of.chance.is_some())) {
            (true, _) if name_alone => "by_name",
            (true, _) => "certain",
            (false, true) => "expected",
            (false, false) => "at_least",
        },
        possibilities,
        give_or_take_assumes: rows.iter().any(|row| row.give_or_take.is_some_and(|sd| sd > 0.0)).then(|| {
            format!(
                "{} pairs of chromosomes of {} Morgan each, two copies pairing (assumed, not measured)",
                chromosomes.pairs, chromosomes.morgans
            )
        }),
        shares: rows,
        generation: GenerationRow {
            longest: generation.longest,
            shortest: generation.shortest,
            mean: generation.mean,
        },
        heterozygosity: HeterozygosityRow { at_least: h.certain, at_most: h.possible },
        cautions,
    })
}

/// The shares under each possible pair of parents, when there are several.
fn possibilities(context: &Context, origin: OriginRow) -> Result<Vec<Possibility>, String> {
    let (lineage, descent) = (context.lineage(), context.descent());
    let of = &lineage.pedigree[origin];
    if of.pairs.len() < 2 {
        return Ok(Vec::new());
    }
    let chances = of.weights().map(|_| of.chances());
    let code = |plant: Option<PlantRow>| {
        plant.map_or_else(|| "?".to_owned(), |plant| context.registry.code(plant))
    };
    let possible = of.pairs.iter().enumerate().map(|(at, pair)| {
        let parts = descent
            .shares_of_pair(lineage, pair)
            .map_err(|error| error.to_string())?;
        let row = |(part, share): &(Part, Fraction)| ShareRow {
            of: descent.part_name(*part),
            share: share.to_string(),
            fraction: nearest(share),
            give_or_take: None,
        };
        Ok(Possibility {
            parents: format!("{} × {}", code(pair.seed), code(pair.pollen)),
            chance: chances.as_ref().map(|chances| chances[at]),
            shares: parts.iter().map(row).collect(),
        })
    });
    possible.collect()
}

fn possibilities_words(unit: Unit, donor: &Donor) -> String {
    match (unit, donor) {
        (_, Donor::WholePod) => "all seedlings of a pod have one and the same of these pairs as parents; none of them expects the average of several".to_owned(),
        (Unit::Plant(_), Donor::EachSeed) => "this plant has one of these pairs as parents; it does not expect the average of several".to_owned(),
        (_, Donor::EachSeed) => "each seedling has one of these pairs as parents, seed by seed; none of them expects the average of several".to_owned(),
    }
}

/// Both parents, when they are certain.
fn certain_pair(lineage: &Lineage, origin: OriginRow) -> Option<[PlantRow; 2]> {
    match lineage.pedigree[origin].pairs[..] {
        [
            Pair {
                seed: Some(seed),
                pollen: Some(pollen),
                ..
            },
        ] => Some([seed, pollen]),
        _ => None,
    }
}

/// What kind of cross, in the trade's words.
pub fn kind_words(kind: CrossKind, descent: &Descent) -> String {
    let name = |species: u32| descent.species[species as usize].as_str();
    match kind {
        CrossKind::Species(species) => format!("species: {}", name(species)),
        CrossKind::Primary([a, b]) => format!("primary hybrid (F1) of {} and {}", name(a), name(b)),
        CrossKind::Filial {
            species: [a, b],
            generation,
            one_family: true,
        } => {
            format!("F{generation} of {} and {}", name(a), name(b))
        }
        CrossKind::Filial {
            species: [a, b],
            generation,
            one_family: false,
        } => format!(
            "hybrids of {} and {} mated, different parents (generation {generation}, not rightly F{generation})",
            name(a),
            name(b)
        ),
        CrossKind::Backcross {
            to,
            times,
            one_plant,
        } => {
            let plant = if one_plant || times == 1 {
                ""
            } else {
                ", different plants of it"
            };
            format!("backcross to {} (BC{times}){plant}", name(to))
        }
        CrossKind::Complex { species } => format!("complex hybrid of {species} species"),
        CrossKind::Uncertain => "open: part of the parentage is not known".to_owned(),
    }
}

impl ParentageReport {
    /// Whether no species has a share whichever the parents are.
    fn nothing_in_common(&self) -> bool {
        let has = |of: &Possibility, row: &ShareRow| of.shares.iter().any(|one| one.of == row.of);
        let in_each = |row: &ShareRow| self.possibilities.iter().all(|of| has(of, row));
        self.shares_are == "at_least"
            && !self
                .possibilities
                .iter()
                .any(|of| of.shares.iter().any(in_each))
    }
}

impl Report for ParentageReport {
    fn sheet(&self) -> Sheet {
        let formula = self
            .formula
            .clone()
            .unwrap_or_else(|| "formula too long to write out".into());
        let mut sheet = Sheet::new(format!("{}: {formula}", self.id));
        sheet.table_if_any(
            Table::of(&self.possibilities)
                .text("if the parents are", |of| &of.parents)
                .figure("chance", |of| match of.chance {
                    Some(chance) => Cell::Number(chance, 2),
                    None => "not stated".into(),
                })
                .text("expected shares", |of| {
                    let shares = of.shares.iter();
                    let shares = shares.map(|row| format!("{} {}", row.of, row.share));
                    shares.collect::<Vec<_>>().join(", ")
                }),
        );
        let heading = match self.shares_are {
            "expected" => "mean over these, expected share of",
            "at_least" => "whichever it is, at least",
            "by_name" => "if the name is right, share of",
            _ => "expected share of",
        };
        let table = Table::of(&self.shares)
            .text(heading, |row| &row.of)
            .figure("share", |row| &row.share)
            .number("percent", 1, |row| row.fraction * 100.0)
            .number("give or take", 1, |row| {
                row.give_or_take.map(|sd| sd * 100.0)
            });
        match self.nothing_in_common() {
            true => sheet.lines(
                None,
                vec![format!(
                    "nothing is common to the {} cases",
                    self.possibilities.len()
                )],
            ),
            false => sheet.table(table),
        }
        let h = &self.heterozygosity;
        let percent = |value: f64| format!("{:.1} %", value * 100.0);
        let h = if h.at_least == h.at_most {
            percent(h.at_least)
        } else {
            format!("{} to {}", percent(h.at_least), percent(h.at_most))
        };
        let g = &self.generation;
        let generation = if g.longest == g.shortest {
            g.longest.to_string()
        } else {
            format!(
                "{} along the longest line, {} along the shortest, {:.2} on average",
                g.longest, g.shortest, g.mean
            )
        };
        sheet.facts(
            None,
            vec![
                ("evidence", Some(self.evidence.words.clone())),
                ("kind of cross", Some(self.kind.clone())),
                ("crosses from founders", Some(generation)),
                ("two copies of different species", Some(h)),
                (
                    "give or take",
                    self.give_or_take_assumes.as_ref().map(|basis| {
                        format!("one standard deviation in percentage points; {basis}")
                    }),
                ),
            ],
        );
        self.cautions
            .iter()
            .for_each(|caution| sheet.rank(caution.clone()));
        sheet
    }
}
