//! The rows of a sorted sowing: place, class, ties across a boundary, growth since the reading before, last potting.

use crate::analysis::grade::told::Gone;
use crate::lineage::PlantRow;
use crate::observation::common_age::AtOneAge;
use crate::observation::moment::NEAR;
use crate::observation::months::MONTH;
use crate::observation::not_here::NotHere;
use crate::observation::pottings::last_pot;
use crate::observation::presence::{Presence, presence};
use crate::observation::series::{Comparable, TraitReadings, method_of};
use crate::observation::standing::fate_words;
use crate::observation::trait_unit::TraitUnit;
use crate::record::Day;
use crate::registry::Registry;
use crate::statistics::classes::{Standing, Third, Ties, thirds, ties};
use crate::statistics::growth::{Reading, growth_rate};
use crate::wording::typed_date;
use rayon::prelude::*;
use serde::Serialize;

/// One plant.
#[derive(Clone, Debug, Serialize)]
pub struct GradedPlant {
    /// Place from the largest, 1 first, shared by equal plants; `null` when not read or flagged for pests.
    pub place: Option<usize>,
    /// Code.
    pub plant: String,
    /// Size in the unit shown; `null` when not read.
    pub size: Option<f64>,
    /// `fast`, `medium`, `slow`, `not classed` or `unread`.
    pub class: Standing,
    /// Plants here of the next third that a second reading might swap it with: the nearest three on each side.
    pub tied_with: Vec<String>,
    /// How many there are besides.
    pub tied_with_more: usize,
    /// Growth since its reading before, part per month (difference of natural logarithms).
    pub growth_per_month: Option<f64>,
    /// Why a plant that was read has no size here; `null` of one that has one, or was never read.
    pub not_compared: Option<NotHere>,
    /// Last move into a pot.
    pub potted: Option<String>,
    /// Whether pests were seen on it that day: then it has a size, and no place or class.
    pub pest: bool,
    /// What became of a plant that is not here any more.
    pub gone: Option<Gone>,
}

impl GradedPlant {
    /// Whether its reading counts among its siblings'.
    pub(crate) fn counts(&self) -> bool {
        self.size.is_some() && !self.pest
    }
}

/// For each reading here the last sound one of the same plant surely before it.
pub(crate) fn readings_before(of: &TraitReadings, here: &AtOneAge) -> Vec<Option<Comparable>> {
    let mut before = vec![None; here.readings.len()];
    let mut at = 0;
    let readings = of.by_plant_and_day().0.into_iter();
    for reading in readings.filter(|reading| !reading.pest) {
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
        // A second look within half a month shows the error of a reading, not growth.
        let apart = here.readings[at]
            .when
            .first
            .0
            .saturating_sub(reading.when.last.0);
        if f64::from(apart) > NEAR * MONTH {
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
        let counted: Vec<Option<f64>> = order
            .iter()
            .map(|candidate| self.counted(candidate))
            .collect();
        let sound: Vec<f64> = counted.iter().flatten().copied().collect();
        // Readings are finite, so classing cannot fail.
        let classes = thirds(&counted).unwrap_or_default();
        let ends: Vec<Option<Gone>> = order
            .iter()
            .map(|candidate| self.gone(candidate.plant, today))
            .collect();
        // A plant that is gone cannot be read again, so it is tied with no other.
        let here = (0..order.len()).filter(|&place| ends[place].is_none());
        let classed = here.filter_map(|place| match classes.get(place)? {
            Standing::Classed(third) => Some((place, (counted[place]?, *third))),
            _ => None,
        });
        let (places, classed): (Vec<usize>, Vec<(f64, Third)>) = classed.unzip();
        let mut tied = vec![Ties::default(); order.len()];
        for (&place, mut of) in places.iter().zip(ties(&classed, self.tied_within)) {
            of.nearest
                .iter_mut()
                .for_each(|other| *other = places[*other]);
            tied[place] = of;
        }
        let code = |place: usize| self.registry.code(order[place].plant);
        let row = |(place, standing): (usize, Standing)| {
            let Candidate { plant, size, read } = order[place];
            let reading = read.map(|at| &self.here.readings[at]);
            let pest = reading.is_some_and(|reading| reading.pest);
            let not_compared = self.here.why_not(plant).filter(|_| size.is_none());
            GradedPlant {
                place: counted[place].map(|size| 1 + sound.partition_point(|other| *other > size)),
                plant: code(place),
                size,
                class: if pest || not_compared.is_some() {
                    Standing::Unclassed
                } else {
                    standing
                },
                not_compared,
                tied_with: tied[place]
                    .nearest
                    .iter()
                    .map(|&other| code(other))
                    .collect(),
                tied_with_more: tied[place].more,
                growth_per_month: read.and_then(|at| self.growth(at)),
                potted: self.potted(plant, reading),
                pest,
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

    /// The size of a plant whose reading counts among its siblings'.
    fn counted(&self, of: &Candidate) -> Option<f64> {
        let pest = of.read.is_some_and(|at| self.here.readings[at].pest);
        of.size.filter(|_| !pest)
    }

    /// What became of a plant that is not here today.
    fn gone(&self, plant: PlantRow, today: Day) -> Option<Gone> {
        let here = presence(self.registry, plant, today) == Presence::Here;
        let fate = self.registry.fate(plant).filter(|_| !here);
        fate.map(|fate| Gone::Fate(fate_words(fate)))
            .or_else(|| (!here).then_some(Gone::NotHere))
    }

    /// Whether the reading at a place and the one before it are by two methods: their difference may be that of the methods.
    fn is_by_other_method(&self, at: usize) -> bool {
        let method = |of: &Comparable| method_of(self.registry, of.sitting);
        let before = self.before[at].as_ref().and_then(method);
        let methods = before.zip(method(&self.here.readings[at]));
        methods.is_some_and(|(before, now)| before != now)
    }

    /// Of how many plants the growth is from a reading by another method.
    pub fn before_by_other_method(&self) -> usize {
        let places = 0..self.here.readings.len();
        let grown = places.filter(|at| self.growth(*at).is_some());
        grown.filter(|at| self.is_by_other_method(*at)).count()
    }

    /// Growth of a length from the plant's reading before to the reading at a place; counts do not grow by a part.
    fn growth(&self, at: usize) -> Option<f64> {
        if self.unit.unit.is_empty() {
            return None;
        }
        let to = &self.here.readings[at];
        let before = self.before[at].as_ref()?;
        if !(before.when.is_exact() && to.when.is_exact()) {
            // Days that are not known to the day allow a range of rates, which `growth` gives.
            return None;
        }
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
