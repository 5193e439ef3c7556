//! Index, levels and front of the plants of a cross, each among those of its age.

use crate::analysis::select::known::Known;
use crate::analysis::select::rules::Counted;
use crate::statistics::culling::{Level, judge};
use crate::statistics::merit::{Score, Trait, ranking, scores};
use crate::statistics::pareto::layers;
use crate::statistics::{Confidence, StatisticsError};
use std::collections::BTreeMap;

/// An index is kept to the billionth: sums of equal parts in another order differ in their last bits, and no reading tells
/// such plants apart.
const LAST_BITS: f64 = 1e9;

/// Index, levels and front of every plant, each among those of its age.
pub(crate) fn judge_all(known: &mut Known, traits: &[Counted]) -> Result<(), StatisticsError> {
    let plants = known.plants.len();
    let weighed: Vec<usize> = (0..traits.len())
        .filter(|&at| traits[at].weight != 0.0)
        .collect();
    for cohort in known.cohorts.iter().filter(|_| !weighed.is_empty()) {
        let standard: Vec<Trait> = weighed
            .iter()
            .map(|&at| Trait {
                weight: traits[at].weight,
                reading_sd: traits[at].unit.reading_sd(),
                readings: cohort
                    .plants
                    .iter()
                    .map(|&plant| known.readings[at][plant])
                    .collect(),
            })
            .collect();
        let scored = scores(&standard, Confidence::P95)?;
        for (&plant, score) in cohort.plants.iter().zip(scored) {
            known.scores[plant] = score.map(|score| Score {
                value: libm::round(score.value * LAST_BITS) / LAST_BITS,
                ..score
            });
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
) -> Result<Vec<(usize, usize)>, StatisticsError> {
    let sign = |of: &Counted| match of.level {
        _ if of.weight != 0.0 => of.weight.signum(),
        Some(Level::AtMost(_)) => -1.0,
        _ => 1.0,
    };
    let is_weighed =
        |of: &Counted| (traits.iter()).any(|other| other.row == of.row && other.weight != 0.0);
    // A second level of a trait that is weighed says nothing more of which way is better.
    let counts = |of: &Counted| of.weight != 0.0 || !is_weighed(of);
    let values = |plant: usize| -> Option<Vec<f64>> {
        let signed = known.readings.iter().zip(traits);
        signed
            .filter(|(_, of)| counts(of))
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
