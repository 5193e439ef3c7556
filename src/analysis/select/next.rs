//! Which plants to read next, given the minutes: those whose next reading is expected to change the choice most.

use crate::analysis::select::answer::{Proposal, ReadNext, SelectRow};
use crate::analysis::select::choice::Choice;
use crate::analysis::select::known::Known;
use crate::analysis::select::reason::Reason;
use crate::analysis::select::rules::Counted;
use crate::registry::Registry;
use crate::statistics::StatisticsError;
use crate::statistics::describe::sample_sd;
use crate::statistics::next_reading::{Candidate, Stands, worth};

/// The readings to take within the minutes, each cross with the border of its own choice, best first. A reading takes
/// `each` minutes.
pub(crate) fn read_next(
    registry: &Registry,
    known: &[Known],
    traits: &[Counted],
    choice: &Choice,
    (minutes, each): (f64, f64),
) -> Result<Vec<ReadNext>, StatisticsError> {
    let mut next = Vec::new();
    for of in known {
        let all = candidates(of, traits);
        let competing: Vec<(usize, Candidate)> = choice
            .rows
            .iter()
            .filter_map(|row| {
                let plant = of.plants.binary_search(&row.row).ok()?;
                let stands = stands(row)?;
                Some((
                    plant,
                    Candidate {
                        stands,
                        ..all[plant]
                    },
                ))
            })
            .collect();
        let candidates: Vec<Candidate> = competing.iter().map(|of| of.1).collect();
        let worth = worth(&candidates)?;
        let gains = worth.into_iter().filter(|worth| worth.gain > 0.0);
        next.extend(gains.map(|worth| ReadNext {
            plant: registry.code(of.plants[competing[worth.plant].0]),
            minutes: each,
            gain: worth.gain,
        }));
    }
    next.sort_by(|a, b| b.gain.total_cmp(&a.gain));
    next.truncate(libm::floor(minutes / each + 1e-9) as usize);
    Ok(next)
}

/// How a plant stands in the contest for a place; `None` for one that a mark, a level or a rule has already decided.
fn stands(row: &SelectRow) -> Option<Stands> {
    match (&row.reason, row.proposal) {
        (Reason::Standing { .. }, Proposal::Keep) => Some(Stands::Kept),
        (Reason::Standing { .. } | Reason::NoRoom(_), _) => Some(Stands::LeftOut),
        (Reason::LevelsUnread(_) | Reason::NoIndex(_), _) => Some(Stands::Waits),
        _ => None,
    }
}

/// Every plant as a candidate, as if each waited.
fn candidates(of: &Known, traits: &[Counted]) -> Vec<Candidate> {
    let whole: f64 = traits.iter().map(|of| of.weight * of.weight).sum();
    let mut reading_variance = vec![0.0; of.plants.len()];
    for cohort in &of.cohorts {
        let error = |at: usize| standardised_error(of, &cohort.plants, (&traits[at], at));
        let error: f64 = (0..traits.len()).map(error).sum();
        for &plant in &cohort.plants {
            reading_variance[plant] = error;
        }
    }
    let judged = of.scores.iter().map(|score| match score {
        Some(score) => {
            let half = (score.interval.high - score.interval.low) / (2.0 * 1.96);
            (score.value, half * half)
        }
        None => (0.0, whole),
    });
    judged
        .zip(&reading_variance)
        .map(|((merit, variance), &reading_variance)| Candidate {
            stands: Stands::Waits,
            merit,
            variance,
            reading_variance,
        })
        .collect()
}

/// The variance a reading's error adds to the index through one trait, among plants of one age.
fn standardised_error(known: &Known, plants: &[usize], (of, at): (&Counted, usize)) -> f64 {
    let read = plants.iter().filter_map(|&plant| known.readings[at][plant]);
    let values: Vec<f64> = read.collect();
    let sd = sample_sd(&values).unwrap_or(0.0);
    if sd > 0.0 {
        let part = of.weight * of.unit.reading_sd() / sd;
        part * part
    } else {
        0.0
    }
}
