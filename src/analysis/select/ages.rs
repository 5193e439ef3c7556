//! Which sowings of a cross may be judged together: those read at the same ages.
//!
//! Older sowings would win by their age, so each stands at the latest age most of its own plants share.

use crate::analysis::select::rules::Counted;
use crate::lineage::PlantRow;
use crate::observation::common_age::{AtOneAge, latest_shared};
use crate::observation::series::{TraitReadings, readings_of_traits};
use crate::registry::{Registry, SowingRow};
use std::collections::BTreeMap;

/// The plants of one sowing, and for each distinct trait that counts its readings and those at its latest shared age.
pub(crate) struct OfSowing {
    pub sowing: Option<SowingRow>,
    pub plants: Vec<PlantRow>,
    pub read: Vec<(TraitReadings, Option<AtOneAge>)>,
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
            .all(|(a, b)| a.matches(&b))
    }
}

/// The plants sowing by sowing, each with its readings.
pub(crate) fn sowings_of(
    registry: &Registry,
    plants: &[PlantRow],
    distinct: &[&Counted],
) -> Vec<OfSowing> {
    let mut wanted = vec![false; registry.settings.traits.len()];
    for of in distinct {
        wanted[of.row.index()] = true;
    }
    let mut by_sowing: BTreeMap<Option<SowingRow>, Vec<PlantRow>> = BTreeMap::new();
    for &plant in plants {
        let sowing = registry.road(plant).0;
        by_sowing.entry(sowing).or_default().push(plant);
    }
    let sowings = by_sowing.into_iter();
    sowings
        .map(|(sowing, plants)| {
            let mut all = readings_of_traits(registry, &plants, wanted.clone());
            let read = distinct.iter().map(|of| {
                let readings = std::mem::take(&mut all[of.row.index()]);
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
pub(crate) fn cohorts_of(sowings: &[OfSowing]) -> Vec<Vec<usize>> {
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
