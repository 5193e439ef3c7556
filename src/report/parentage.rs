//! What a plant is expected to descend from, and how far real seedlings stray from it.

use super::caution::{RankedCaution, Weight};
use super::cell::Cell;
use super::chart::{ParentageChart, SharesRow};
use super::pedigree::{DrawnEither, DrawnShare};
use super::shares_words::{heading, short, two_copies};
use super::sheet::{Report, Sheet};
use super::table::Table;
use crate::analysis::evidence::{EvidenceRow, evidence_row};
use crate::analysis::parentage::{
    self as analysis, Caution, Parentage, ParentageError, Share, SharesAre, parentage,
};
use crate::analysis::pedigree::PartShares;
use crate::analysis::title::titled;
use crate::ancestry::{Chromosomes, CrossKind};
use crate::context::{Context, Descent};
use crate::evidence::Unit;
use crate::wording::{joined, latin, listed, upright};
use serde::Serialize;
use std::collections::BTreeMap;

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
    /// What `parentage` is: `certain` parents, parents `by_name` of a hybrid alone, or with one pair or another `expected` (a
    /// mean over the pairs by their weights), `at_least` (what all pairs have in common; the rest is `A or B`) or, with pairs of
    /// both kinds, `expected_at_least`. Doubts further back count as the unit's own.
    #[serde(rename = "parentage_is")]
    pub shares_are: SharesAre,
    /// The shares under each possible pair of parents; where there is only one, under each possible pair of its ancestors',
    /// up to sixteen cases.
    pub possibilities: Vec<Possibility>,
    /// Crosses along the longest, the shortest and the average line to a founder.
    pub generation: GenerationRow,
    /// Chance that the two copies of a gene come from different species.
    pub heterozygosity: HeterozygosityRow,
    /// What the spread within the pod assumes; `null` when it cannot be told.
    pub spread_within_pod_assumes: Option<String>,
    /// Cautions.
    pub cautions: Vec<RankedCaution>,
    #[serde(skip)]
    drawn: SharesRow,
    #[serde(skip)]
    nothing_in_common: bool,
}

/// One possible pair of parents.
#[derive(Serialize)]
pub struct Possibility {
    /// The pair, seed parent first; for ancestors `X20-01-1 of Max1 × Ven1`, several joined by `; `.
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
    /// One standard deviation of a real seedling's share around the mean of its pod, 0 to 1; `null` where it cannot be told.
    pub spread_within_pod: Option<f64>,
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
    /// Unknown and provisional descent counted as different.
    pub at_most: f64,
    /// Whether both are means over several possible pairs of parents, here or further back.
    pub is_a_mean: bool,
}

/// What several plants or crosses descend from, as ribbons; species stand in the registry's order, which fixes their
/// colours.
pub fn parentage_chart(reports: &[ParentageReport], species: &[String]) -> ParentageChart {
    ParentageChart {
        title: upright("What they descend from"),
        species: species.iter().map(|name| latin(name)).collect(),
        rows: reports.iter().map(|report| report.drawn.clone()).collect(),
        notes: chart_notes(reports),
    }
}

/// The cautions of all, each once; of several plants or crosses with the codes of those it is of.
fn chart_notes(reports: &[ParentageReport]) -> Vec<String> {
    let mut of: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for report in reports {
        for caution in &report.cautions {
            of.entry(&caution.text).or_default().push(&report.id);
        }
    }
    let note = |(text, ids): (&str, Vec<&str>)| match ids.len() {
        _ if reports.len() == 1 => text.to_owned(),
        n if n == reports.len() => format!("each of them: {text}"),
        _ => format!("{}: {text}", listed(ids)),
    };
    of.into_iter().map(note).collect()
}

/// The shares of a plant or of a cross's seedlings.
///
/// # Errors
/// In words, when the line is too long for exact figures or the code names neither plant nor cross.
pub fn shares(context: &Context, id: &str) -> Result<ParentageReport, String> {
    let unit = context.registry.target(id).and_then(Unit::of);
    let unit = unit.ok_or_else(|| format!("`{id}` is neither a plant nor a cross"))?;
    let answer = parentage(context, unit).map_err(|error| match error {
        ParentageError::TooDeep(error) => error.to_string(),
        ParentageError::TooComplex(error) => error.to_string(),
        ParentageError::NoSeedlings => format!("`{id}` has no seedlings to speak of"),
    })?;
    Ok(ParentageReport::of(context, id, &answer))
}

impl ParentageReport {
    fn of(context: &Context, id: &str, answer: &Parentage) -> ParentageReport {
        let descent = context.descent();
        let rows = |shares: &[Share]| shares.iter().map(|share| row(descent, share)).collect();
        let possible = answer.possibilities.iter().map(|of| Possibility {
            parents: parents_words(context, of),
            chance: of.chance,
            shares: rows(&of.shares),
        });
        let generation = answer.generation;
        ParentageReport {
            id: id.to_owned(),
            formula: context.names().in_full(answer.unit.top()).ok(),
            kind: kind_words(answer, descent),
            evidence: evidence_row(context.evidence(), answer.unit),
            shares: rows(&answer.shares),
            shares_are: answer.shares_are,
            possibilities: possible.collect(),
            generation: GenerationRow {
                longest: generation.longest,
                shortest: generation.shortest,
                mean: generation.mean,
            },
            heterozygosity: HeterozygosityRow {
                at_least: answer.heterozygosity.certain,
                at_most: answer.heterozygosity.possible,
                is_a_mean: answer.heterozygosity_is_a_mean,
            },
            spread_within_pod_assumes: answer.assumed.map(assumed_words),
            cautions: cautions(context, answer),
            drawn: drawn(context, id, answer),
            nothing_in_common: answer.nothing_in_common,
        }
    }
}

fn row(descent: &Descent, share: &Share) -> ShareRow {
    ShareRow {
        of: descent.part_name(share.of),
        share: share.share.to_string(),
        fraction: share.fraction(),
        spread_within_pod: share.spread_within_pod,
    }
}

fn parents_words(context: &Context, of: &analysis::Possibility) -> String {
    if of.further_back.is_empty() {
        return of.parents.to_string();
    }
    let chosen = of.further_back.iter().map(|choice| {
        let ancestors = choice.of.iter().map(|&plant| context.registry.code(plant));
        let ancestors = listed(ancestors);
        format!("{ancestors} of {}", choice.parents)
    });
    joined(chosen, "; ")
}

fn assumed_words(chromosomes: Chromosomes) -> String {
    format!(
        "{} pairs of chromosomes of {} Morgan each, two copies pairing (assumed, not measured)",
        chromosomes.pairs, chromosomes.morgans
    )
}

fn drawn(context: &Context, id: &str, answer: &Parentage) -> SharesRow {
    let parts = answer.shares.iter();
    let parts = PartShares::of(parts.map(|share| (share.of, share.fraction())));
    let mut label = titled(context.names(), id, answer.unit.top(), false);
    if answer.shares_are != SharesAre::AsRecorded {
        label.extend(upright(format!(" ({})", short(answer.shares_are).trim())));
    }
    SharesRow {
        label,
        shares: DrawnShare::all(&parts),
        either: DrawnEither::all(&parts, context.descent()),
        unknown_share: parts.unknown,
    }
}

/// That shares are averages first, then doubts of names, then what the answer gives.
fn cautions(context: &Context, answer: &Parentage) -> Vec<RankedCaution> {
    let average = "expected parentage is an average over seedlings, not a test of this plant";
    let mut all = vec![RankedCaution::new(Weight::General, average)];
    let doubts = context.names().doubts([answer.unit.top()]);
    all.extend(RankedCaution::doubts(doubts));
    let own = answer.cautions.iter();
    all.extend(own.map(|&of| RankedCaution::new(weight(of), caution_words(of))));
    all
}

fn weight(caution: Caution) -> Weight {
    match caution {
        Caution::EqualChances => Weight::General,
        _ => Weight::Doubt,
    }
}

fn caution_words(caution: Caution) -> &'static str {
    match caution {
        Caution::UnknownPart => {
            "part of the descent is not known; it is counted as unknown and never spread over the rest"
        }
        Caution::NameAlone => {
            "a hybrid name alone gives its parents only if it is right; later generations and backcrosses bear the same name, so the true shares of one plant may be anything"
        }
        Caution::NameAloneBehind => {
            "a plant further back is known by a hybrid name alone; later generations and backcrosses bear the same name, so what comes from each of its species may be anything"
        }
        Caution::Provisional => {
            "a provisional name may turn out to be any species, also one named beside it; its share stands apart"
        }
        Caution::LessThanATag => {
            "the fractions hold only if the recorded parents are the true ones, and a record of them is less certain than a tag: see evidence"
        }
        Caution::NamesLessThanATag => {
            "the fractions hold only if every founder is what its name says, and at least one name is less certain than a tag: see evidence"
        }
        Caution::OnePairOfAPod => {
            "all seedlings of a pod have one and the same of these pairs as parents; the average of the pairs is expected of none of them"
        }
        Caution::OnePairOfThePlant => {
            "this plant has one of these pairs as parents; the average of the pairs is not expected of it"
        }
        Caution::OnePairOfEachSeed => {
            "each seedling has one of these pairs as parents, seed by seed; the average of the pairs is expected of none of them"
        }
        Caution::OnePairFurtherBack => {
            "a plant further back has one of several pairs as parents: see evidence; the average of the pairs is expected of no seedling"
        }
        Caution::EqualChances => {
            "several parents are possible without stated chances; heterozygosity takes them as equal"
        }
    }
}

/// What kind of cross, in the trade's words.
fn kind_words(answer: &Parentage, descent: &Descent) -> String {
    if answer.by_name_alone {
        return "hybrid by its name alone: parents if the name is right, generation unknown"
            .to_owned();
    }
    let name = |species: u32| descent.species[species as usize].as_str();
    // In the order of the alphabet, which says nothing of seed and pollen.
    let both = |species: [u32; 2]| {
        let mut names = species.map(name);
        names.sort_unstable();
        names.join(" and ")
    };
    match answer.kind {
        CrossKind::Species(species) => format!("species: {}", name(species)),
        CrossKind::Primary(species) => format!("primary hybrid (F1) of {}", both(species)),
        CrossKind::Filial {
            species,
            generation,
            one_family: Some(true),
        } => format!("F{generation} of {}", both(species)),
        CrossKind::Filial {
            species,
            generation,
            one_family: None,
        } if answer.of_sibs_by_label => {
            format!("F{generation} of {} by the label, a claim", both(species))
        }
        CrossKind::Filial {
            species,
            generation,
            one_family: None,
        } => format!(
            "hybrids of {} mated (generation {generation}; F{generation} only if both have the same parents, which is not recorded)",
            both(species)
        ),
        CrossKind::Filial {
            species,
            generation,
            one_family: Some(false),
        } => format!(
            "hybrids of {} mated, different parents (generation {generation}, not rightly F{generation})",
            both(species)
        ),
        CrossKind::Backcross { to, times: None } => {
            format!("backcross of a complex hybrid to {}", name(to))
        }
        CrossKind::Backcross {
            to,
            times: Some(times),
        } => {
            let plants = match answer.to_different_plants {
                true => ", different plants of it",
                false => "",
            };
            format!("backcross to {} (BC{times}){plants}", name(to))
        }
        CrossKind::Complex { species } => format!("complex hybrid of {species} species"),
        CrossKind::Uncertain if answer.cautions.contains(&Caution::Provisional) => {
            "open: a name in the parentage is provisional".to_owned()
        }
        CrossKind::Uncertain => "open: part of the parentage is not known".to_owned(),
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
                    joined(shares, ", ")
                }),
        );
        let heading = heading(self.shares_are, !self.possibilities.is_empty());
        let table = Table::of(&self.shares)
            .text(heading, |row| &row.of)
            .figure("share", |row| &row.share)
            .number("percent", 1, |row| row.fraction * 100.0)
            .number("spread within its pod", 1, |row| {
                row.spread_within_pod.map(|sd| sd * 100.0)
            });
        match self.nothing_in_common {
            true => {
                let cases = self.possibilities.len();
                sheet.lines(None, [format!("nothing is common to the {cases} cases")])
            }
            false => sheet.table(table),
        }
        let h = &self.heterozygosity;
        let h = two_copies((h.at_least, h.at_most), h.is_a_mean);
        let g = &self.generation;
        let (longest, shortest, mean) = (g.longest, g.shortest, g.mean);
        let generation = match longest == shortest {
            true => longest.to_string(),
            false => format!(
                "{longest} along the longest line, {shortest} along the shortest, {mean:.2} on average"
            ),
        };
        let basis = self.spread_within_pod_assumes.as_ref();
        let spread = basis.map(|basis| {
            format!(
                "one standard deviation, in percentage points, around the mean of the pod, which itself strays from the share where a parent does; {basis}"
            )
        });
        sheet.facts(
            None,
            [
                ("evidence", Some(self.evidence.words.clone())),
                ("kind of cross", Some(self.kind.clone())),
                ("crosses from founders", Some(generation)),
                ("genes with copies from two species", Some(h)),
                ("spread within its pod", spread),
            ],
        );
        sheet.ranked(&self.cautions);
        sheet
    }
}
