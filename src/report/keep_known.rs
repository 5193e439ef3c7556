//! What is known of the plants of one cross for a proposal: one reading a plant and trait at the latest shared age, and
//! from it index, levels and front.
//!
//! Which traits count is in `keep_rules`, what follows for a plant in `keep_choice`.

use super::common_age::{age_words, latest_shared};
use super::keep_rules::Counted;
use super::series::{LeftOut, readings_of_traits};
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
    let mut wanted = vec![false; registry.settings.traits.len()];
    for of in traits {
        wanted[usize::from(of.index)] = true;
    }
    let mut all = readings_of_traits(registry, &plants, wanted);
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
fn judge_all(known: &mut Known, traits: &[Counted]) -> Result<(), Unanswered> {
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
fn fronts(known: &Known, traits: &[Counted]) -> Result<Vec<Option<usize>>, Unanswered> {
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
