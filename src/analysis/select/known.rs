//! What is known of the plants of one cross for a proposal: one reading a plant and trait at the latest age its sowing
//! shares, and from it index, levels and front.
//!
//! Sowings read at different ages are judged each within itself, since the older would win by its age.
//! Which traits count is in `rules`, what follows for a plant in `choice`.

use crate::analysis::select::ages::{OfSowing, cohorts_of, sowings_of};
use crate::analysis::select::answer::SelectGone;
use crate::analysis::select::gone::gone_of;
use crate::analysis::select::reason::{Caution, Cohort, ReadAt};
use crate::analysis::select::rules::{Counted, distinct};
use crate::lineage::PlantRow;
use crate::observation::common_age::{age_words, moment_words, read_instead};
use crate::observation::doubtful::doubtful_readings;
use crate::observation::far_readings::{Sized, far_readings};
use crate::observation::last_reading;
use crate::observation::presence::{Presence, presence};
use crate::observation::scope::Scope;
use crate::observation::series::{Comparable, LeftOut, readings_of};
use crate::record::Day;
use crate::registry::Registry;
use crate::statistics::culling::Verdict;
use crate::statistics::merit::Score;

/// What is known of the plants of one cross.
pub(crate) struct Known {
    pub scope: Scope,
    pub plants: Vec<PlantRow>,
    /// Siblings no longer here.
    pub gone: Vec<SelectGone>,
    /// Plants read at one age, which alone are set beside each other.
    pub cohorts: Vec<Together>,
    /// For each trait one reading a plant, in the unit shown.
    pub readings: Vec<Vec<Option<f64>>>,
    /// For each trait and plant without a reading at its age what was read instead, in words.
    pub instead: Vec<Vec<Option<String>>>,
    pub read_at: Vec<ReadAt>,
    /// Readings that are doubtful or far from their siblings', in words.
    pub far: Vec<String>,
    /// Seedlings that may be of another sowing, pod or cross, here or not, which are not among the plants.
    pub mixed_up: usize,
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
    pub fn cohort_of(&self, plant: usize) -> Option<&Together> {
        let mut cohorts = self.cohorts.iter();
        let several = self.cohorts.len() > 1;
        cohorts.find(|cohort| several && cohort.plants.binary_search(&plant).is_ok())
    }

    /// The index of a plant.
    pub fn value(&self, plant: usize) -> Option<f64> {
        self.scores[plant].as_ref().map(|score| score.value)
    }

    /// Whether a plant reaches every level.
    pub fn passes(&self, plant: usize) -> bool {
        self.verdicts[plant] == Verdict::Passes
    }

    /// That readings were left out, and that sowings are judged apart, where they are.
    pub fn cautions(&self, id: String) -> Vec<Caution> {
        let (here, elsewhere) = (self.left_out, self.left_out_elsewhere);
        let n = self.mixed_up;
        let mixed_up = (n > 0).then(|| Caution::MixedUp { id: id.clone(), n });
        let left_out = (here.total() + elsewhere.total() > 0).then(|| Caution::LeftOut {
            id: id.clone(),
            here,
            elsewhere,
        });
        let apart = (self.cohorts.len() > 1).then(|| Caution::AgesApart {
            id,
            cohorts: self.cohorts.iter().map(|of| of.cohort.clone()).collect(),
        });
        let all = [mixed_up, left_out, apart].into_iter();
        all.flatten().collect()
    }
}

/// Plants of one or more sowings read at one age.
pub(crate) struct Together {
    /// Which sowings, and at which age.
    pub cohort: Cohort,
    /// Places among the plants of the cross, rising.
    pub plants: Vec<usize>,
}

/// The plants of a cross that are here today with their readings; `judged` puts them in order.
pub(crate) fn known_of(registry: &Registry, scope: Scope, traits: &[Counted], today: Day) -> Known {
    let (mut plants, mixed_up) = scope.seedlings(registry);
    plants.retain(|&plant| presence(registry, plant, today) == Presence::Here);
    let distinct: Vec<&Counted> = distinct(traits).map(|at| &traits[at]).collect();
    let sowings = sowings_of(registry, &plants, &distinct);
    let cohorts = cohorts_of(&sowings);
    let mut known = Known {
        gone: gone_of(registry, &scope, (&sowings, &distinct), today),
        scope,
        cohorts: Vec::new(),
        readings: Vec::new(),
        instead: Vec::new(),
        read_at: Vec::new(),
        far: Vec::new(),
        mixed_up,
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
        let mut of_plants = known.take_readings(&sowings, (place, of));
        known.say_left_out(registry, of, &mut of_plants);
        of_distinct.push(of_plants);
        let at = sowings
            .iter()
            .filter_map(|sowing| sowing.read[place].1.as_ref());
        let readings = at.flat_map(|at| &at.readings);
        let doubtful = doubtful_readings(&registry[of.row], readings.clone());
        known.far.extend(doubtful);
        let sizes = readings
            .map(|reading| Sized::of(reading, &of.unit))
            .collect();
        known.far.extend(far_readings(registry, &of.unit, sizes));
    }
    for of in traits {
        let same = distinct.iter().position(|known| known.row == of.row);
        let (values, instead) = of_distinct[same.unwrap_or(0)].clone();
        known.readings.push(values);
        known.instead.push(instead);
    }
    for cohort in &cohorts {
        let of: Vec<&OfSowing> = cohort.iter().map(|&at| &sowings[at]).collect();
        let cohort = known.note_ages(registry, &of, (&distinct, cohorts.len() > 1));
        let mut plants: Vec<usize> = of
            .iter()
            .flat_map(|sowing| &sowing.plants)
            .filter_map(|plant| known.plants.binary_search(plant).ok())
            .collect();
        plants.sort_unstable();
        known.cohorts.push(Together { cohort, plants });
    }
    known
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

    /// Says of plants that were read, and whose readings are all left out, why: they are not unread.
    fn say_left_out(&self, registry: &Registry, of: &Counted, (values, instead): &mut OfPlants) {
        for (row, &plant) in self.plants.iter().enumerate() {
            let is_open = values[row].is_none() && instead[row].is_none();
            if !is_open || last_reading::readings_of(registry, plant, of.row).is_empty() {
                continue;
            }
            let left_out = readings_of(registry, &[plant], of.row).left_out;
            instead[row] = left_out.instead(&of.unit.name);
        }
    }

    /// Writes down when each trait was read on some sowings; returns the sowings and their age.
    fn note_ages(
        &mut self,
        registry: &Registry,
        sowings: &[&OfSowing],
        (distinct, several): (&[&Counted], bool),
    ) -> Cohort {
        let code = |of: &&OfSowing| of.sowing.map(|sowing| registry[sowing].code.to_owned());
        let codes: Vec<Option<String>> = sowings.iter().map(code).collect();
        let mut first = None;
        for (place, of) in distinct.iter().enumerate() {
            let at = sowings
                .iter()
                .filter_map(|sowing| sowing.read[place].1.as_ref());
            let readings: Vec<Comparable> = at.flat_map(|at| at.readings.clone()).collect();
            if readings.is_empty() {
                continue;
            }
            self.read_at.push(ReadAt {
                sowings: if several { codes.clone() } else { Vec::new() },
                of: of.unit.name.clone(),
                at: age_words(&readings),
            });
            first.get_or_insert_with(|| moment_words(&readings));
        }
        Cohort {
            sowings: codes,
            read: first,
        }
    }
}
