//! What is known of the plants of one cross for a proposal: one reading a plant and trait at the latest age its sowing
//! shares, and from it index, levels and front.
//!
//! Sowings read at different ages are judged each within itself, since the older would win by its age.
//! Which traits count is in `keep_rules`, what follows for a plant in `keep_choice`.

use super::common_age::{AtOneAge, age_words, latest_shared, moment_words, read_instead};
use super::keep_rules::Counted;
use super::series::{Comparable, LeftOut, TraitReadings, readings_of_traits};
use super::standing::{Presence, presence};
use super::trait_unit::TraitUnit;
use super::tray::Scope;
use crate::lineage::PlantRow;
use crate::record::Day;
use crate::registry::Registry;
use crate::statistics::classes::{READING_SD, reading_error};
use crate::statistics::culling::{Level, Verdict, judge};
use crate::statistics::merit::{Score, Trait, ranking, scores};
use crate::statistics::pareto::layers;
use crate::statistics::{Confidence, Unanswered};
use std::collections::BTreeMap;

/// What is known of the plants of one cross.
pub(super) struct Known {
    pub scope: Scope,
    pub plants: Vec<PlantRow>,
    /// Plants read at one age, which alone are set beside each other.
    pub cohorts: Vec<Cohort>,
    /// For each trait one reading a plant, in the unit shown.
    pub readings: Vec<Vec<Option<f64>>>,
    /// For each trait and plant without a reading at its age what was read instead, in words.
    pub instead: Vec<Vec<Option<String>>>,
    pub read_at: Vec<String>,
    /// Readings left out at the ages judged, and at other ages.
    pub left_out: LeftOut,
    pub left_out_elsewhere: LeftOut,
    pub scores: Vec<Option<Score>>,
    /// Plants that have a score, best first.
    pub ranked: Vec<usize>,
    pub verdicts: Vec<Verdict>,
    pub fronts: Vec<Option<usize>>,
}

impl Known {
    /// The cohort of a plant, where there are several.
    pub fn cohort_of(&self, plant: usize) -> Option<&Cohort> {
        let mut cohorts = self.cohorts.iter();
        let several = self.cohorts.len() > 1;
        cohorts.find(|cohort| several && cohort.plants.binary_search(&plant).is_ok())
    }

    /// That sowings are judged apart, where they are.
    pub fn ages_apart(&self, code: &str) -> Option<String> {
        let labels: Vec<&str> = self.cohorts.iter().map(|of| of.label.as_str()).collect();
        (labels.len() > 1).then(|| {
            format!(
                "{code}: sowings of different ages, each judged within itself ({}): whether one sowing is better than another is not seen",
                labels.join("; ")
            )
        })
    }
}

/// Plants of one or more sowings read at one age.
pub(super) struct Cohort {
    /// `S2 at 22.0 months`.
    pub label: String,
    /// Places among the plants of the cross, rising.
    pub plants: Vec<usize>,
}

/// The plants of one sowing, and for each distinct trait that counts its readings and those at its latest shared age.
struct OfSowing {
    sowing: Option<usize>,
    plants: Vec<PlantRow>,
    read: Vec<(TraitReadings, Option<AtOneAge>)>,
}

impl OfSowing {
    /// Whether two sowings were read at the same ages, so that their plants may be set beside each other.
    fn is_as_old_as(&self, other: &OfSowing) -> bool {
        let moment = |read: &(TraitReadings, Option<AtOneAge>)| read.1.as_ref().map(|at| at.moment);
        let both = self
            .read
            .iter()
            .map(moment)
            .zip(other.read.iter().map(moment));
        both.filter_map(|(a, b)| a.zip(b))
            .all(|(a, b)| a.matches(b) && b.matches(a))
    }
}

/// Reads and judges the plants of a cross that are here today.
///
/// # Errors
/// In words, when a figure cannot be worked out.
pub(super) fn known_of(
    registry: &Registry,
    scope: Scope,
    traits: &[Counted],
    today: Day,
) -> Result<Known, String> {
    let (mut plants, _) = scope.seedlings(registry);
    plants.retain(|&plant| presence(registry, plant, today) == Presence::Here);
    // Each trait once, though it may have two levels.
    let mut distinct: Vec<&Counted> = Vec::new();
    for of in traits {
        if !distinct.iter().any(|known| known.index == of.index) {
            distinct.push(of);
        }
    }
    let sowings = sowings_of(registry, &plants, &distinct);
    let cohorts = cohorts_of(&sowings);
    let mut known = Known {
        scope,
        cohorts: Vec::new(),
        readings: Vec::new(),
        instead: Vec::new(),
        read_at: Vec::new(),
        left_out: LeftOut::default(),
        left_out_elsewhere: LeftOut::default(),
        scores: vec![None; plants.len()],
        ranked: Vec::new(),
        verdicts: Vec::new(),
        fronts: Vec::new(),
        plants,
    };
    let mut of_distinct = Vec::new();
    for (place, of) in distinct.iter().enumerate() {
        of_distinct.push(known.take_readings(&sowings, (place, of)));
    }
    for of in traits {
        let same = distinct.iter().position(|known| known.index == of.index);
        let (values, instead) = of_distinct[same.unwrap_or(0)].clone();
        known.readings.push(values);
        known.instead.push(instead);
    }
    for cohort in &cohorts {
        let of: Vec<&OfSowing> = cohort.iter().map(|&at| &sowings[at]).collect();
        let label = known.tell_ages(registry, &of, (&distinct, cohorts.len() > 1));
        let mut plants: Vec<usize> = of
            .iter()
            .flat_map(|sowing| &sowing.plants)
            .filter_map(|plant| known.plants.binary_search(plant).ok())
            .collect();
        plants.sort_unstable();
        known.cohorts.push(Cohort { label, plants });
    }
    judge_all(&mut known, traits).map_err(|why| why.to_string())?;
    Ok(known)
}

/// The plants sowing by sowing, each with its readings.
fn sowings_of(registry: &Registry, plants: &[PlantRow], distinct: &[&Counted]) -> Vec<OfSowing> {
    let mut wanted = vec![false; registry.settings.traits.len()];
    for of in distinct {
        wanted[usize::from(of.index)] = true;
    }
    let mut by_sowing: BTreeMap<Option<usize>, Vec<PlantRow>> = BTreeMap::new();
    for &plant in plants {
        let sowing = registry.road(plant).0;
        by_sowing.entry(sowing).or_default().push(plant);
    }
    let sowings = by_sowing.into_iter();
    sowings
        .map(|(sowing, plants)| {
            let mut all = readings_of_traits(registry, &plants, wanted.clone());
            let read = distinct.iter().map(|of| {
                let readings = std::mem::take(&mut all[usize::from(of.index)]);
                let at = latest_shared(registry, &readings, of.unit.of_pitcher);
                (readings, at)
            });
            OfSowing {
                sowing,
                read: read.collect(),
                plants,
            }
        })
        .collect()
}

/// Which sowings may be set beside each other: those read at the same ages as the first of them.
fn cohorts_of(sowings: &[OfSowing]) -> Vec<Vec<usize>> {
    let mut cohorts: Vec<Vec<usize>> = Vec::new();
    for (at, sowing) in sowings.iter().enumerate() {
        let same = |cohort: &&mut Vec<usize>| {
            let mut all = cohort.iter();
            all.all(|&other| sowing.is_as_old_as(&sowings[other]))
        };
        match cohorts.iter_mut().find(same) {
            Some(cohort) => cohort.push(at),
            None => cohorts.push(vec![at]),
        }
    }
    cohorts
}

/// Values in the unit shown, and what was read instead where there is none.
type OfPlants = (Vec<Option<f64>>, Vec<Option<String>>);

impl Known {
    /// One trait's readings of every plant.
    fn take_readings(&mut self, sowings: &[OfSowing], (place, of): (usize, &Counted)) -> OfPlants {
        let mut values = vec![None; self.plants.len()];
        let mut instead = vec![None; self.plants.len()];
        for sowing in sowings {
            let (readings, at) = &sowing.read[place];
            let Some(at) = at else {
                self.left_out.add(&readings.left_out);
                continue;
            };
            self.left_out.add(&at.left_out);
            self.left_out_elsewhere.add(&at.left_out_elsewhere);
            for reading in &at.readings {
                if let Ok(row) = self.plants.binary_search(&reading.plant) {
                    values[row] = Some(of.unit.shown(reading.value));
                }
            }
            for (plant, words) in read_instead(&of.unit.name, readings, at) {
                if let Ok(row) = self.plants.binary_search(&plant) {
                    instead[row] = Some(words);
                }
            }
        }
        (values, instead)
    }

    /// Writes down when each trait was read on some sowings; returns the sowings and their age in words.
    fn tell_ages(
        &mut self,
        registry: &Registry,
        sowings: &[&OfSowing],
        (distinct, several): (&[&Counted], bool),
    ) -> String {
        let page = &registry.crosses[self.scope.cross as usize].page;
        let code = |of: &&OfSowing| match of.sowing {
            Some(at) => page.sowings[at].code.to_owned(),
            None => "no known sowing".to_owned(),
        };
        let codes: Vec<String> = sowings.iter().map(code).collect();
        let codes = codes.join(", ");
        let mut first = None;
        for (place, of) in distinct.iter().enumerate() {
            let at = sowings
                .iter()
                .filter_map(|sowing| sowing.read[place].1.as_ref());
            let readings: Vec<Comparable> = at.flat_map(|at| at.readings.clone()).collect();
            if readings.is_empty() {
                continue;
            }
            let which = if several {
                format!("{codes}, ")
            } else {
                String::new()
            };
            let told = format!("{which}{}: {}", of.unit.name, age_words(&readings));
            self.read_at.push(told);
            first.get_or_insert_with(|| moment_words(&readings));
        }
        match first {
            Some(age) => format!("{codes} {age}"),
            None => format!("{codes} never read"),
        }
    }
}

/// Index, levels and front of every plant, each among those of its age.
fn judge_all(known: &mut Known, traits: &[Counted]) -> Result<(), Unanswered> {
    let plants = known.plants.len();
    let weighed: Vec<usize> = (0..traits.len())
        .filter(|&at| traits[at].weight != 0.0)
        .collect();
    for cohort in known.cohorts.iter().filter(|_| !weighed.is_empty()) {
        let standard: Vec<Trait> = weighed
            .iter()
            .map(|&at| Trait {
                weight: traits[at].weight,
                reading_sd: reading_sd(&traits[at].unit),
                readings: cohort
                    .plants
                    .iter()
                    .map(|&plant| known.readings[at][plant])
                    .collect(),
            })
            .collect();
        let scored = scores(&standard, Confidence::P95)?;
        for (&plant, score) in cohort.plants.iter().zip(scored) {
            known.scores[plant] = score;
        }
    }
    if !weighed.is_empty() {
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
    let mut fronts = vec![None; plants];
    for cohort in &known.cohorts {
        for (plant, layer) in front(known, traits, &cohort.plants)? {
            fronts[plant] = Some(layer);
        }
    }
    known.fronts = fronts;
    Ok(())
}

/// The front's layer, from 1, of those of some plants of one age that were read in every trait that counts.
fn front(
    known: &Known,
    traits: &[Counted],
    among: &[usize],
) -> Result<Vec<(usize, usize)>, Unanswered> {
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
    for &plant in among {
        let Some(values) = values(plant) else {
            continue;
        };
        let key = values.iter().map(|value| value.to_bits()).collect();
        let of = alike.entry(key).or_insert_with(|| (values, Vec::new()));
        of.1.push(plant);
    }
    let (values, plants): (Vec<Vec<f64>>, Vec<Vec<usize>>) = alike.into_values().unzip();
    if values.is_empty() {
        return Ok(Vec::new());
    }
    let layered = plants.into_iter().zip(layers(&values)?);
    let each =
        layered.flat_map(|(plants, layer)| plants.into_iter().map(move |at| (at, layer + 1)));
    Ok(each.collect())
}

/// Standard deviation of one reading in the unit shown, from the distance within which plants are tied.
pub(super) fn reading_sd(unit: &TraitUnit) -> f64 {
    tied_within(unit).map_or(0.0, |tied| tied / reading_error(1.0))
}

/// The distance, in the unit shown, within which two plants are tied: the one stated, for leaf span else our own
/// judgement; `None` where nobody said how well the trait is read.
pub(super) fn tied_within(unit: &TraitUnit) -> Option<f64> {
    let of_span = || (unit.code == "span").then(|| unit.shown(reading_error(READING_SD)));
    unit.tied_within.or_else(of_span)
}
