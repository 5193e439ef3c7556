//! Whom to keep, sell or let go, by the rules the grower states: a proposal with the reason on every row.
//!
//! An index of weighted traits, independent levels and the front of plants no sibling beats stand side by side; the
//! proposal follows the levels first and then the index. A plant not read stays unread: it is never let go for that.
//! How choices are made is in `keep_choice`, room on the shelf in `shelf_room`, writing decisions in `keep_marks`.

use super::common_age::{age_words, latest_shared};
use super::keep_choice::{Choice, Chooser};
use super::series::{LeftOut, all_comparable};
use super::siblings::known_trait;
use super::standing::{Presence, presence};
use super::trait_unit::TraitUnit;
use super::tray::Scope;
use super::words::counted;
use crate::lineage::PlantRow;
use crate::record::{Day, KeepRules};
use crate::registry::Registry;
use crate::statistics::Confidence;
use crate::statistics::classes::{READING_SD, reading_error};
use crate::statistics::culling::{Level, Verdict, judge};
use crate::statistics::merit::{Score, Trait, ranking, scores};
use crate::statistics::next_reading::{Candidate, sitting};
use crate::statistics::pareto::layers;
use serde::Serialize;
use std::collections::BTreeMap;

/// What is asked besides the rules.
#[derive(Clone, Copy, Debug)]
pub struct KeepWish {
    /// The day that counts as today.
    pub today: Day,
    /// Minutes available for further readings.
    pub minutes: Option<f64>,
    /// Minutes one plant's reading takes.
    pub minutes_each: f64,
}

/// A proposal for several crosses.
#[derive(Clone, Debug, Serialize)]
pub struct KeepReport {
    /// What is weighed, in words.
    pub weighed: Vec<String>,
    /// What is a must, in words.
    pub needed: Vec<String>,
    /// Every cross.
    pub crosses: Vec<KeepCross>,
    /// Every plant here, cross by cross, best first.
    pub plants: Vec<KeepRow>,
    /// Shelves that what is kept takes, and shelves there are.
    pub shelves: Option<(f64, f64)>,
    /// Plants worth reading next.
    pub read_next: Vec<ReadNext>,
    /// Cautions.
    pub cautions: Vec<String>,
    /// Whether the decisions were written.
    pub applied: bool,
    #[serde(skip)]
    pub(super) minutes: Option<f64>,
}

/// One cross.
#[derive(Clone, Debug, Serialize)]
pub struct KeepCross {
    /// Code.
    pub id: String,
    /// Plants here today.
    pub here: usize,
    /// How many are to be kept by quota; `null` when none is stated.
    pub quota: Option<usize>,
    /// Proposed to keep.
    pub keep: usize,
    /// Proposed to sell.
    pub sell: usize,
    /// Proposed to let go.
    pub let_go: usize,
    /// To be read first.
    pub read_first: usize,
    /// Those among the best by index, as many as the quota, that also stand on the front.
    pub index_on_front: usize,
    /// Plants that reach every level.
    pub pass_levels: usize,
    /// Chance that those kept hold both sexes, 0 to 1.
    pub both_sexes: Option<f64>,
    /// Trait, age and days of what was read.
    pub read_at: Vec<String>,
}

/// What is proposed for a plant.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Proposal {
    /// Keep.
    Keep,
    /// Offer.
    Sell,
    /// Discard.
    LetGo,
    /// Cannot be judged before it is read.
    ReadFirst,
}

/// One plant.
#[derive(Clone, Debug, Serialize)]
pub struct KeepRow {
    /// Code.
    pub plant: String,
    /// Code of its cross.
    pub cross: String,
    /// Weighted sum of standardised traits; `null` when none was read.
    pub index: Option<f64>,
    /// Its 95 % limits.
    pub index_between: Option<(f64, f64)>,
    /// Place by index within the cross, 1 first.
    pub place: Option<usize>,
    /// `reached`, `missed …`, `… unread`; empty when no level is stated.
    pub levels: String,
    /// Layer of the front, 1 beaten by no sibling; `null` when a trait was not read.
    pub front: Option<usize>,
    /// What is proposed.
    pub proposal: Proposal,
    /// Why.
    pub reason: String,
    #[serde(skip)]
    pub(super) row: PlantRow,
    #[serde(skip)]
    pub(super) already_marked: bool,
}

/// A plant worth reading.
#[derive(Clone, Debug, Serialize)]
pub struct ReadNext {
    /// Code.
    pub plant: String,
    /// Minutes it takes.
    pub minutes: f64,
    /// Expected gain in the summed index of those kept.
    pub gain: f64,
}

/// A trait that counts.
pub(super) struct Counted {
    pub index: u16,
    pub unit: TraitUnit,
    pub weight: f64,
    pub level: Option<Level>,
}

/// What is known of the plants of one cross.
pub(super) struct Known {
    pub scope: Scope,
    pub plants: Vec<PlantRow>,
    /// For each trait one reading a plant, in the unit shown.
    pub readings: Vec<Vec<Option<f64>>>,
    pub read_at: Vec<String>,
    pub left_out: LeftOut,
    pub scores: Vec<Option<Score>>,
    /// Plants that have a score, best first.
    pub ranked: Vec<usize>,
    pub verdicts: Vec<Verdict>,
    pub fronts: Vec<Option<usize>>,
}

/// Proposes whom to keep.
///
/// # Errors
/// In words, when a code or trait names nothing, or no rule says what counts.
pub fn keep(
    registry: &Registry,
    ids: &[String],
    rules: &KeepRules,
    wish: KeepWish,
) -> Result<KeepReport, String> {
    let traits = counted_traits(registry, rules)?;
    for quota in &rules.quotas {
        if registry.cross(&quota.cross).is_none() {
            return Err(format!("the quota for `{}` names no cross", quota.cross));
        }
    }
    let mut cautions = Vec::new();
    let mut known = Vec::new();
    for id in ids {
        let scope = Scope::named(registry, id)?;
        known.push(known_of(registry, scope, &traits, wish.today)?);
    }
    let mut choice = Chooser {
        registry,
        rules,
        traits: &traits,
        today: wish.today,
    }
    .choose(&known);
    cautions.append(&mut choice.cautions);
    for of in &known {
        if of.left_out.total() > 0 {
            cautions.push(format!(
                "{}: left out {}",
                of.scope.code(registry),
                of.left_out.words()
            ));
        }
    }
    let read_next = match wish.minutes {
        Some(minutes) => read_next(
            registry,
            &known,
            &traits,
            &choice,
            (minutes, wish.minutes_each),
        )?,
        None => Vec::new(),
    };
    Ok(KeepReport {
        weighed: traits
            .iter()
            .filter(|of| of.weight != 0.0)
            .map(|of| format!("{} {}", of.unit.name, of.weight))
            .collect(),
        needed: traits.iter().filter_map(level_words).collect(),
        crosses: choice.crosses,
        plants: choice.rows,
        shelves: choice.shelves,
        read_next,
        cautions,
        applied: false,
        minutes: wish.minutes,
    })
}

fn level_words(of: &Counted) -> Option<String> {
    Some(match of.level? {
        Level::AtLeast(least) => format!("{} at least {least}", of.unit.name),
        Level::AtMost(most) => format!("{} at most {most}", of.unit.name),
    })
}

/// The traits the rules name, each once, in the order of the rules.
fn counted_traits(registry: &Registry, rules: &KeepRules) -> Result<Vec<Counted>, String> {
    let mut traits: Vec<Counted> = Vec::new();
    let mut add = |name: &str, weight: f64, level: Option<Level>| -> Result<(), String> {
        let index = known_trait(registry, name)?;
        let unit = TraitUnit::shown_in(registry, index);
        if !unit.is_measure() && !unit.is_scale {
            return Err(format!(
                "{} has kinds without order; it can be neither weighed nor given a level",
                unit.name
            ));
        }
        if !weight.is_finite() {
            return Err(format!("the weight of {} is not a number", unit.name));
        }
        match traits
            .iter_mut()
            .find(|of| of.index == index && (level.is_none() || of.level.is_none()))
        {
            Some(of) => {
                of.weight += weight;
                of.level = of.level.or(level);
            }
            None => traits.push(Counted {
                index,
                unit,
                weight,
                level,
            }),
        }
        Ok(())
    };
    for weight in &rules.weigh {
        add(&weight.of, weight.weight, None)?;
    }
    for need in &rules.need {
        if need.at_least.is_none() && need.at_most.is_none() {
            return Err(format!(
                "the level for `{}` says neither at_least nor at_most",
                need.of
            ));
        }
        for level in [
            need.at_least.map(Level::AtLeast),
            need.at_most.map(Level::AtMost),
        ] {
            if level.is_some() {
                add(&need.of, 0.0, level)?;
            }
        }
    }
    if traits.is_empty() {
        return Err("no rule says what counts\nstate one, such as --weigh span=1 or --need banding=3, or a file with --rules".to_owned());
    }
    Ok(traits)
}

fn known_of(
    registry: &Registry,
    scope: Scope,
    traits: &[Counted],
    today: Day,
) -> Result<Known, String> {
    let (mut plants, _) = scope.seedlings(registry);
    let mut all = all_comparable(registry, &plants);
    plants.retain(|&plant| presence(registry, plant, today) == Presence::Here);
    let mut known = Known {
        scope,
        readings: Vec::new(),
        read_at: Vec::new(),
        left_out: LeftOut::default(),
        scores: vec![None; plants.len()],
        ranked: Vec::new(),
        verdicts: Vec::new(),
        fronts: Vec::new(),
        plants,
    };
    let mut taken: BTreeMap<u16, usize> = BTreeMap::new();
    for (place, of) in traits.iter().enumerate() {
        if let Some(&same) = taken.get(&of.index) {
            known.readings.push(known.readings[same].clone());
            continue;
        }
        taken.insert(of.index, place);
        let readings = std::mem::take(&mut all[usize::from(of.index)]);
        let mut values = vec![None; known.plants.len()];
        known.left_out.add(&readings.left_out);
        let before = readings.left_out;
        if let Some(at) = latest_shared(registry, &readings, of.unit.of_pitcher) {
            known.left_out.other_pitcher += at.left_out.other_pitcher - before.other_pitcher;
            known.left_out.other_method += at.left_out.other_method - before.other_method;
            for reading in &at.readings {
                if let Ok(row) = known.plants.binary_search(&reading.plant) {
                    values[row] = Some(of.unit.shown(reading.value));
                }
            }
            known
                .read_at
                .push(format!("{}: {}", of.unit.name, age_words(&at.readings)));
        }
        known.readings.push(values);
    }
    judge_all(&mut known, traits).map_err(|why| why.to_string())?;
    Ok(known)
}

/// Index, levels and front of every plant.
fn judge_all(known: &mut Known, traits: &[Counted]) -> Result<(), crate::statistics::Unanswered> {
    let plants = known.plants.len();
    let weighed: Vec<usize> = (0..traits.len())
        .filter(|&at| traits[at].weight != 0.0)
        .collect();
    if !weighed.is_empty() {
        let standard: Vec<Trait> = weighed
            .iter()
            .map(|&at| Trait {
                weight: traits[at].weight,
                reading_sd: reading_sd(&traits[at].unit),
                readings: known.readings[at].clone(),
            })
            .collect();
        known.scores = scores(&standard, Confidence::P95)?;
        known.ranked = ranking(&known.scores);
    }
    let levels: Vec<Option<Level>> = traits.iter().map(|of| of.level).collect();
    let of_plant = |plant: usize| -> Vec<Option<f64>> {
        known
            .readings
            .iter()
            .map(|readings| readings[plant])
            .collect()
    };
    known.verdicts = (0..plants)
        .map(|plant| judge(&of_plant(plant), &levels))
        .collect();
    known.fronts = fronts(known, traits)?;
    Ok(())
}

/// The front's layer of each plant read in every trait that counts, from 1.
fn fronts(
    known: &Known,
    traits: &[Counted],
) -> Result<Vec<Option<usize>>, crate::statistics::Unanswered> {
    let sign = |of: &Counted| match of.level {
        _ if of.weight != 0.0 => of.weight.signum(),
        Some(Level::AtMost(_)) => -1.0,
        _ => 1.0,
    };
    let values = |plant: usize| -> Option<Vec<f64>> {
        let signed = known.readings.iter().zip(traits);
        signed
            .map(|(readings, of)| Some(readings[plant]? * sign(of)))
            .collect()
    };
    // Plants alike in everything share a layer, so each kind of plant is judged once.
    let mut alike: BTreeMap<Vec<u64>, (Vec<f64>, Vec<usize>)> = BTreeMap::new();
    for plant in 0..known.plants.len() {
        let Some(values) = values(plant) else {
            continue;
        };
        let key = values.iter().map(|value| value.to_bits()).collect();
        let of = alike.entry(key).or_insert_with(|| (values, Vec::new()));
        of.1.push(plant);
    }
    let (values, plants): (Vec<Vec<f64>>, Vec<Vec<usize>>) = alike.into_values().unzip();
    let mut fronts = vec![None; known.plants.len()];
    if !values.is_empty() {
        for (plants, layer) in plants.into_iter().zip(layers(&values)?) {
            for plant in plants {
                fronts[plant] = Some(layer + 1);
            }
        }
    }
    Ok(fronts)
}

/// Standard deviation of one reading in the unit shown, from the distance within which plants are tied.
pub(super) fn reading_sd(unit: &TraitUnit) -> f64 {
    match unit.tied_within {
        Some(tied) => tied / reading_error(1.0),
        None if unit.code == "span" => unit.shown(READING_SD),
        None => 0.0,
    }
}

/// The readings to take within the minutes available, over all crosses.
fn read_next(
    registry: &Registry,
    known: &[Known],
    traits: &[Counted],
    choice: &Choice,
    (minutes, each): (f64, f64),
) -> Result<Vec<ReadNext>, String> {
    let (mut candidates, mut plants) = (Vec::new(), Vec::new());
    let whole: f64 = traits.iter().map(|of| of.weight * of.weight).sum();
    for of in known {
        let error: f64 = (0..traits.len())
            .map(|at| standardised_error(of, traits, at))
            .sum();
        for (row, &plant) in of.plants.iter().enumerate() {
            let (merit, variance) = match &of.scores[row] {
                Some(score) => {
                    let half = (score.interval.high - score.interval.low) / (2.0 * 1.96);
                    (score.value, half * half)
                }
                None => (0.0, whole),
            };
            plants.push(plant);
            candidates.push(Candidate {
                merit,
                variance,
                reading_variance: error,
                minutes: each,
            });
        }
    }
    let kept = choice
        .rows
        .iter()
        .filter(|row| row.proposal == Proposal::Keep)
        .count();
    let worth = sitting(&candidates, kept, minutes).map_err(|why| why.to_string())?;
    Ok(worth
        .into_iter()
        .map(|worth| ReadNext {
            plant: registry.code(plants[worth.plant]),
            minutes: each,
            gain: worth.gain,
        })
        .collect())
}

/// The variance a reading's error adds to the index through one trait.
fn standardised_error(known: &Known, traits: &[Counted], at: usize) -> f64 {
    let values: Vec<f64> = known.readings[at].iter().flatten().copied().collect();
    let sd = crate::statistics::describe::sample_sd(&values).unwrap_or(0.0);
    if sd > 0.0 {
        let part = traits[at].weight * reading_sd(&traits[at].unit) / sd;
        part * part
    } else {
        0.0
    }
}

/// `3 to keep, 5 to sell` of a cross in words.
pub(super) fn tally_words(cross: &KeepCross) -> String {
    let parts = [
        (cross.keep, "keep"),
        (cross.sell, "sell"),
        (cross.let_go, "let go"),
        (cross.read_first, "read first"),
    ];
    let told: Vec<String> = parts
        .iter()
        .filter(|(n, _)| *n > 0)
        .map(|(n, what)| format!("{what} {n}"))
        .collect();
    let told = if told.is_empty() {
        "nothing to decide".to_owned()
    } else {
        told.join(", ")
    };
    format!(
        "{}: {told} of {}",
        cross.id,
        counted(cross.here, "plant", "plants")
    )
}
