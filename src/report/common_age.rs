//! At which age may siblings be compared, and which readings lie there?
//!
//! Only readings at the same age are set side by side. Age counts from sowing; where no sowing is dated, only plants of
//! one sowing read on one day stand together. The age chosen is the latest that most siblings share. Sizes between two
//! sittings are not worked out here; that is the question of growth.

use super::series::{Comparable, TraitReadings, one_pitcher_class};
use super::words::{age, days};
use crate::lineage::PlantRow;
use crate::record::{Day, When};
use crate::registry::Registry;
use std::collections::BTreeMap;

/// Ages no farther apart than this part of the age count as the same (a judgement: a seedling that doubles in six
/// months grows by a tenth in this part of a year).
pub const SAME_AGE_PART: f64 = 0.05;
/// Ages no farther apart than this many months count as the same, however young the plants.
pub const SAME_AGE_MONTHS: f64 = 0.5;

/// When a reading was taken in the life of the plant.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Moment {
    /// The middle of the age, months from sowing.
    Age(f64),
    /// The day only: the sowing is not dated.
    Day {
        /// Cross and sowing.
        of: (Option<u32>, Option<usize>),
        /// The day.
        on: When,
    },
}

impl Moment {
    /// The moment of a reading.
    pub fn of(registry: &Registry, reading: &Comparable) -> Moment {
        match reading.age {
            Some((least, most)) => Moment::Age((least + most) / 2.0),
            None => Moment::Day {
                of: (
                    registry.cross_of(reading.plant),
                    registry.road(reading.plant).0,
                ),
                on: reading.when,
            },
        }
    }

    /// Whether two readings may stand side by side.
    pub fn matches(self, other: Moment) -> bool {
        match (self, other) {
            (Moment::Age(a), Moment::Age(b)) => (a - b).abs() <= within(a),
            (one, other) => one == other,
        }
    }

    fn order(self) -> (bool, f64, Day) {
        match self {
            Moment::Age(months) => (true, months, Day::FIRST),
            Moment::Day { on, .. } => (false, 0.0, on.first),
        }
    }
}

/// How far an age may lie from the age chosen, months.
pub fn within(months: f64) -> f64 {
    (months * SAME_AGE_PART).max(SAME_AGE_MONTHS)
}

/// The readings of one trait at one age: each plant once.
#[derive(Clone, Debug)]
pub struct AtOneAge {
    /// The age asked for or chosen.
    pub moment: Moment,
    /// One reading a plant, by plant.
    pub readings: Vec<Comparable>,
    /// Readings left out, those at this age only where pitchers or methods differ.
    pub left_out: super::series::LeftOut,
    /// Readings of the same trait at other ages.
    pub elsewhere: usize,
    /// How many other ages have readings.
    pub other_ages: usize,
}

/// The readings at the latest age that most siblings share; where no age is shared by more than half of those ever
/// read, the age most of them share. `None` when nothing can be compared.
pub fn latest_shared(
    registry: &Registry,
    of: TraitReadings,
    is_of_pitcher: bool,
) -> Option<AtOneAge> {
    let counted = shared(registry, &of.readings);
    let ever = {
        let mut plants: Vec<PlantRow> = of.readings.iter().map(|r| r.plant).collect();
        plants.dedup();
        plants.len()
    };
    let most = counted.iter().filter(|(_, plants)| 2 * plants > ever);
    let moment = most
        .max_by(|(a, _), (b, _)| order(*a, *b))
        .or_else(|| {
            counted
                .iter()
                .max_by(|(a, m), (b, n)| m.cmp(n).then_with(|| order(*a, *b)))
        })?
        .0;
    Some(at(registry, of, moment, is_of_pitcher))
}

fn order(a: Moment, b: Moment) -> std::cmp::Ordering {
    let (a, b) = (a.order(), b.order());
    a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2))
}

/// Every moment with readings, and how many plants have one there.
pub fn shared(registry: &Registry, readings: &[Comparable]) -> Vec<(Moment, usize)> {
    let mut moments: Vec<Moment> = Vec::new();
    let mut seen = BTreeMap::new();
    let mut at: Vec<(PlantRow, usize)> = Vec::with_capacity(readings.len());
    for reading in readings {
        let moment = Moment::of(registry, reading);
        let key = match moment {
            Moment::Age(months) => (months.to_bits(), None, When::UNKNOWN),
            Moment::Day { of, on } => (0, Some(of), on),
        };
        let place = *seen.entry(key).or_insert_with(|| {
            moments.push(moment);
            moments.len() - 1
        });
        at.push((reading.plant, place));
    }
    let matching: Vec<Vec<bool>> = moments
        .iter()
        .map(|one| moments.iter().map(|other| one.matches(*other)).collect())
        .collect();
    let mut plants = vec![0; moments.len()];
    for of_plant in at.chunk_by(|a, b| a.0 == b.0) {
        for (count, matching) in plants.iter_mut().zip(&matching) {
            *count += usize::from(of_plant.iter().any(|(_, place)| matching[*place]));
        }
    }
    moments.into_iter().zip(plants).collect()
}

/// The readings at a moment: of a plant read twice the one nearest to it, one pitcher class and one method only.
pub fn at(registry: &Registry, of: TraitReadings, moment: Moment, is_of_pitcher: bool) -> AtOneAge {
    let mut left_out = of.left_out;
    let all = of.readings.len();
    let moments = shared(registry, &of.readings);
    let mut here: Vec<Comparable> = of.readings;
    here.retain(|reading| moment.matches(Moment::of(registry, reading)));
    let elsewhere = all - here.len();
    if is_of_pitcher {
        left_out.other_pitcher += one_pitcher_class(&mut here);
    }
    left_out.other_method += one_method(registry, &mut here);
    let away = |reading: &Comparable| match (moment, reading.age) {
        (Moment::Age(months), Some((least, most))) => (months - (least + most) / 2.0).abs(),
        _ => 0.0,
    };
    here.sort_by(|a, b| {
        (a.plant.cmp(&b.plant))
            .then(away(a).total_cmp(&away(b)))
            .then(b.sitting.cmp(&a.sitting))
    });
    here.dedup_by_key(|reading| reading.plant);
    AtOneAge {
        moment,
        readings: here,
        left_out,
        elsewhere,
        other_ages: moments
            .iter()
            .filter(|(other, _)| !moment.matches(*other))
            .count(),
    }
}

/// Keeps the readings of the method with most of them, and those whose method nobody wrote down; returns how many were
/// left out.
fn one_method(registry: &Registry, readings: &mut Vec<Comparable>) -> usize {
    let method = |reading: &Comparable| {
        let head = &registry.readings.sittings()[reading.sitting as usize];
        head.sitting
            .method
            .as_deref()
            .map(|method| method.trim().to_lowercase())
    };
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    let mut of_sitting: BTreeMap<u32, Option<String>> = BTreeMap::new();
    for reading in readings.iter() {
        let method = of_sitting
            .entry(reading.sitting)
            .or_insert_with(|| method(reading));
        if let Some(method) = method {
            *counts.entry(method.clone()).or_default() += 1;
        }
    }
    if counts.len() < 2 {
        return 0;
    }
    let main = counts
        .iter()
        .max_by_key(|(_, n)| **n)
        .map(|(method, _)| method.clone());
    let before = readings.len();
    readings.retain(|reading| {
        let method = &of_sitting[&reading.sitting];
        method.is_none() || *method == main
    });
    before - readings.len()
}

/// Least and greatest age of some readings, months; `None` when a sowing is not dated.
pub fn ages(readings: &[Comparable]) -> Option<(f64, f64)> {
    let ages: Option<Vec<(f64, f64)>> = readings.iter().map(|reading| reading.age).collect();
    ages?
        .into_iter()
        .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

/// The age and the days of some readings in words: `20.0 months from sowing, read 2024-05-14`.
pub fn age_words(readings: &[Comparable]) -> String {
    let mut dates: Vec<When> = readings.iter().map(|reading| reading.when).collect();
    dates.sort();
    dates.dedup();
    let read = match dates[..] {
        [] => return "never read".to_owned(),
        [one] => format!("read {}", days(one)),
        [first, .., last] => format!("read {} to {}", first.first, last.last),
    };
    match ages(readings) {
        Some(months) => format!("{} from sowing, {read}", age(months)),
        None => format!("age not known (sowing not dated), {read}"),
    }
}
