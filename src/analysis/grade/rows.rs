//! The rows of a sorted sowing: place, class, ties across a boundary, growth since the reading before, last potting.

use crate::analysis::grade::told::Gone;
use crate::lineage::PlantRow;
use crate::observation::common_age::AtOneAge;
use crate::observation::pottings::last_pot;
use crate::observation::presence::{Presence, presence};
use crate::observation::series::{Comparable, TraitReadings};
use crate::observation::standing::fate_words;
use crate::observation::trait_unit::TraitUnit;
use crate::record::Day;
use crate::registry::Registry;
use crate::statistics::classes::{Standing, thirds};
use crate::statistics::growth::{Reading, growth_rate};
use crate::wording::typed_date;
use rayon::prelude::*;
use serde::Serialize;

/// One plant.
#[derive(Clone, Debug, Serialize)]
pub struct GradedPlant {
    /// Place from the largest, 1 first, shared by equal plants; `null` when not read.
    pub place: Option<usize>,
    /// Code.
    pub plant: String,
    /// Size in the unit shown; `null` when not read.
    pub size: Option<f64>,
    /// `fast`, `medium`, `slow`, `not classed` or `unread`.
    pub class: Standing,
    /// Plants across the boundary that a second reading might swap it with.
    pub tied_with: Vec<String>,
    /// Whether a plant of the next third lies within the reading error of it.
    pub tied: bool,
    /// Growth since its reading before, part per month (difference of natural logarithms).
    pub growth_per_month: Option<f64>,
    /// Last move into a pot.
    pub potted: Option<String>,
    /// Whether pests were seen on it that day.
    pub pest: bool,
    /// What became of a plant that is not here any more.
    pub gone: Option<Gone>,
}

/// For each reading here the last sound one of the same plant surely before it.
pub(crate) fn readings_before(of: &TraitReadings, here: &AtOneAge) -> Vec<Option<Comparable>> {
    let mut before = vec![None; here.readings.len()];
    let mut at = 0;
    for reading in of.by_day().filter(|reading| !reading.pest) {
        // The rows of one sitting mostly stand in the order of the plants: the next one is looked at first.
        at += 1;
        if here
            .readings
            .get(at)
            .is_none_or(|r| r.plant != reading.plant)
        {
            let found = here
                .readings
                .binary_search_by_key(&reading.plant, |r| r.plant);
            let Ok(found) = found else { continue };
            at = found;
        }
        if reading.when.surely_before(here.readings[at].when) {
            before[at] = Some(reading);
        }
    }
    before
}

/// A plant to be sorted.
#[derive(Clone, Copy)]
struct Candidate {
    plant: PlantRow,
    /// In the unit shown.
    size: Option<f64>,
    /// The place of its reading among those here.
    read: Option<usize>,
}

/// What rows are made from.
pub(crate) struct Sorting<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub unit: &'a TraitUnit,
    /// For each reading here the one before it.
    pub before: &'a [Option<Comparable>],
    pub here: &'a AtOneAge,
    pub tied_within: f64,
}

impl Sorting<'_, '_> {
    /// Largest first, then the unread that are here.
    pub fn rows(&self, plants: &[PlantRow], today: Day) -> Vec<GradedPlant> {
        let order = self.by_size(plants, today);
        let sizes: Vec<Option<f64>> = order.iter().map(|candidate| candidate.size).collect();
        // Readings are finite and the tie zone is checked by the caller, so classing cannot fail.
        let classes = thirds(&sizes, self.tied_within).unwrap_or_default();
        let ends: Vec<Option<Gone>> = order
            .iter()
            .map(|candidate| self.gone(candidate.plant, today))
            .collect();
        // A plant that is gone is no partner: nobody can read it again.
        let here = |place: usize| ends[place].is_none();
        let partners = partners(&sizes, &classes, (self.tied_within, &here));
        let code = |place: usize| self.registry.code(order[place].plant);
        let row = |(place, standing): (usize, Standing)| {
            let Candidate { plant, size, read } = order[place];
            let reading = read.map(|at| &self.here.readings[at]);
            GradedPlant {
                place: size.map(|size| 1 + larger(&sizes, size)),
                plant: code(place),
                size,
                class: standing,
                tied: matches!(standing, Standing::Classed { tied: true, .. }),
                tied_with: partners[place].iter().map(|&other| code(other)).collect(),
                growth_per_month: read.and_then(|at| self.growth(at)),
                potted: self.potted(plant, reading),
                pest: reading.is_some_and(|reading| reading.pest),
                gone: ends[place].clone(),
            }
        };
        let rows: Vec<(usize, Standing)> = classes.into_iter().enumerate().collect();
        rows.into_par_iter().map(row).collect()
    }

    /// The plants read here and those that are here, largest first, each with the place of its reading.
    fn by_size(&self, plants: &[PlantRow], today: Day) -> Vec<Candidate> {
        let readings = &self.here.readings;
        let mut next = 0;
        let mut candidates = Vec::with_capacity(plants.len());
        for &plant in plants {
            // Plants and readings mostly stand in one order: the next reading is looked at first.
            let read = match readings.get(next) {
                Some(reading) if reading.plant == plant => Some(next),
                _ => readings.binary_search_by_key(&plant, |r| r.plant).ok(),
            };
            next = read.map_or(next, |at| at + 1);
            if read.is_some() || presence(self.registry, plant, today) == Presence::Here {
                let size = read.map(|at| self.unit.shown(readings[at].value));
                candidates.push(Candidate { plant, size, read });
            }
        }
        candidates.sort_unstable_by(|a, b| {
            let key = |of: &Candidate| of.size.unwrap_or(f64::NEG_INFINITY);
            key(b).total_cmp(&key(a)).then(a.plant.cmp(&b.plant))
        });
        candidates
    }

    /// What became of a plant that is not here today.
    fn gone(&self, plant: PlantRow, today: Day) -> Option<Gone> {
        let here = presence(self.registry, plant, today) == Presence::Here;
        let fate = self.registry.fate(plant).filter(|_| !here);
        fate.map(|fate| Gone::Fate(fate_words(fate)))
            .or_else(|| (!here).then_some(Gone::NotHere))
    }

    /// Growth of a length from the plant's reading before to the reading at a place; counts do not grow by a part.
    fn growth(&self, at: usize) -> Option<f64> {
        if self.unit.unit.is_empty() {
            return None;
        }
        let to = &self.here.readings[at];
        let before = self.before[at].as_ref()?;
        let middle = |(least, most): (f64, f64)| (least + most) / 2.0;
        let reading = |r: &Comparable| {
            Some(Reading {
                age: middle(r.age?),
                size: r.value,
            })
        };
        growth_rate(reading(before)?, reading(to)?).ok()
    }

    /// The last move into a pot that was not after the reading.
    fn potted(&self, plant: PlantRow, read: Option<&Comparable>) -> Option<String> {
        let day = read.map_or(Day::LAST, |read| read.when.last);
        let last = last_pot(self.registry, plant, day)?;
        let on = typed_date(last.on, self.registry.when(last.on));
        Some(format!("{} {on}", &*last.pot))
    }
}

/// How many plants are larger; sizes stand largest first, so equal plants share a place.
fn larger(sizes: &[Option<f64>], size: f64) -> usize {
    sizes.partition_point(|other| other.is_some_and(|other| other > size))
}

/// How many plants on each side of a boundary are told of each other by name.
const NAMED: usize = 3;

/// For each place the places across a boundary that lie within the reading error; of a long row of equal plants only
/// those next to the boundary are named.
fn partners(
    sizes: &[Option<f64>],
    classes: &[Standing],
    (error, here): (f64, &dyn Fn(usize) -> bool),
) -> Vec<Vec<usize>> {
    let third = |at: usize| match classes.get(at) {
        Some(Standing::Classed { third, tied: true }) => Some(*third),
        _ => None,
    };
    let close = |a: usize, b: usize| match (sizes[a], sizes[b]) {
        (Some(a), Some(b)) => (a - b).abs() <= error + 1e-9,
        _ => false,
    };
    let tied = (0..sizes.len()).filter(|&at| third(at).is_some() && here(at));
    let tied: Vec<usize> = tied.collect();
    let sides: Vec<&[usize]> = tied.chunk_by(|&a, &b| third(a) == third(b)).collect();
    let mut partners = vec![Vec::new(); sizes.len()];
    for boundary in sides.windows(2) {
        let (above, below) = (boundary[0], boundary[1]);
        for &a in above.iter().rev().take(NAMED).rev() {
            for &b in below.iter().take(NAMED).filter(|&&b| close(a, b)) {
                partners[a].push(b);
                partners[b].push(a);
            }
        }
    }
    partners
}
