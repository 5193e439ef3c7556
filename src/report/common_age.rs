//! At which age may siblings be compared, and which readings lie there?
//!
//! Only readings at the same age are set side by side. Age counts from sowing; where no sowing is dated, only plants of
//! one sowing read on one day stand together. The age chosen is the latest that most siblings share. Sizes between two
//! sittings are not worked out here: a tray is described as it was read. Groups sown on different days are seldom read
//! at one age, so `growth` has a rule of its own that may interpolate; both are told in `docs/numbers.md`.

use super::series::{Comparable, LeftOut, Occasion, Run, TraitReadings, one_pitcher_class};
use super::words::{age, days};
use crate::lineage::PlantRow;
use crate::record::When;
use crate::registry::Registry;
use std::cmp::Ordering;
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
    /// The moment of an occasion.
    pub fn of(occasion: &Occasion) -> Moment {
        match occasion.age {
            Some((least, most)) => Moment::Age((least + most) / 2.0),
            None => Moment::Day {
                of: occasion.of,
                on: occasion.when,
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

    /// Days first, by date and sowing; then ages.
    fn order(&self, other: &Moment) -> Ordering {
        match (self, other) {
            (Moment::Age(a), Moment::Age(b)) => a.total_cmp(b),
            (Moment::Age(_), Moment::Day { .. }) => Ordering::Greater,
            (Moment::Day { .. }, Moment::Age(_)) => Ordering::Less,
            (Moment::Day { of, on }, Moment::Day { of: o, on: d }) => {
                on.first.cmp(&d.first).then((on, of).cmp(&(d, o)))
            }
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
    /// Readings left out at this age.
    pub left_out: LeftOut,
    /// Readings left out at other ages.
    pub left_out_elsewhere: LeftOut,
    /// Readings of the same trait at other ages.
    pub elsewhere: usize,
    /// How many other ages have readings.
    pub other_ages: usize,
}

/// The readings at the latest age that most siblings share; where no age is shared by more than half of those ever
/// read, the age most of them share. `None` when nothing can be compared.
pub fn latest_shared(
    registry: &Registry,
    of: &TraitReadings,
    is_of_pitcher: bool,
) -> Option<AtOneAge> {
    let mut ever = None;
    let mut best: Option<(Moment, usize)> = None;
    for (moment, plants) in Moments::of(of).latest_first() {
        // More than half of all asked for is more than half of those ever read, who need not be counted then.
        let most =
            2 * plants > of.asked() || 2 * plants > *ever.get_or_insert_with(|| of.plants_read());
        if most {
            best = Some((moment, plants));
            break;
        }
        if best.is_none_or(|(_, before)| plants > before) {
            best = Some((moment, plants));
        }
    }
    Some(at(registry, of, best?.0, is_of_pitcher))
}

/// Every moment with readings, latest first, and how many plants have one there.
pub fn shared(of: &TraitReadings) -> Vec<(Moment, usize)> {
    Moments::of(of).latest_first().collect()
}

/// The readings of a trait by their moments.
struct Moments<'r> {
    asked: usize,
    /// From the earliest on; one of several occasions, or of an occasion's several runs, has them all.
    all: Vec<(Moment, Vec<Run<'r>>)>,
}

impl<'r> Moments<'r> {
    fn of(readings: &'r TraitReadings) -> Moments<'r> {
        let mut runs: Vec<_> = readings
            .runs()
            .map(|(occasion, run)| (Moment::of(occasion), run))
            .collect();
        runs.sort_by(|a, b| a.0.order(&b.0));
        let mut all: Vec<(Moment, Vec<_>)> = Vec::new();
        for (moment, run) in runs {
            match all.last_mut().filter(|(last, _)| *last == moment) {
                Some((_, same)) => same.push(run),
                None => all.push((moment, vec![run])),
            }
        }
        let asked = readings.asked();
        Moments { asked, all }
    }

    /// Each moment and how many plants have a reading that matches it, from the latest down; ages that match lie side
    /// by side, so a window slides over them and each reading enters and leaves it once.
    fn latest_first(self) -> impl Iterator<Item = (Moment, usize)> {
        let mut window = Window {
            times_read: vec![0; self.asked],
            plants: 0,
            from: self.all.len(),
            until: self.all.len(),
        };
        (0..self.all.len()).rev().map(move |at| {
            window.slide(&self.all, at);
            (self.all[at].0, window.plants)
        })
    }
}

/// The moments that match one of them, and the plants read there.
struct Window {
    times_read: Vec<u32>,
    plants: usize,
    from: usize,
    until: usize,
}

impl Window {
    fn slide(&mut self, all: &[(Moment, Vec<Run>)], at: usize) {
        let one = all[at].0;
        while self.from > 0 && (self.from > at || one.matches(all[self.from - 1].0)) {
            self.from -= 1;
            for place in all[self.from].1.iter().flat_map(|run| run.places()) {
                self.plants += usize::from(self.times_read[place] == 0);
                self.times_read[place] += 1;
            }
        }
        while self.until > at + 1 && !one.matches(all[self.until - 1].0) {
            self.until -= 1;
            for place in all[self.until].1.iter().flat_map(|run| run.places()) {
                self.times_read[place] -= 1;
                self.plants -= usize::from(self.times_read[place] == 0);
            }
        }
    }
}

/// The readings at a moment: of a plant read twice the one nearest to it, one pitcher class and one method only.
pub fn at(
    registry: &Registry,
    of: &TraitReadings,
    moment: Moment,
    is_of_pitcher: bool,
) -> AtOneAge {
    let (mut left_out, mut left_out_elsewhere) = (LeftOut::default(), LeftOut::default());
    for (occasion, counted) in of.left_out_by_occasion() {
        match moment.matches(Moment::of(occasion)) {
            true => left_out.add(counted),
            false => left_out_elsewhere.add(counted),
        }
    }
    let mut here: Vec<Comparable> = Vec::new();
    let mut others: Vec<Moment> = Vec::new();
    for (occasion, run) in of.runs() {
        let other = Moment::of(occasion);
        if moment.matches(other) {
            here.extend(run.readings());
        } else {
            others.push(other);
        }
    }
    others.sort_by(Moment::order);
    others.dedup();
    let elsewhere = of.len() - here.len();
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
        left_out_elsewhere,
        elsewhere,
        other_ages: others.len(),
    }
}

/// Keeps the readings of the method with most of them, and those whose method nobody wrote down; returns how many were
/// left out.
fn one_method(registry: &Registry, readings: &mut Vec<Comparable>) -> usize {
    let method = |sitting: u32| {
        let head = &registry.readings.sittings()[sitting as usize];
        let method = head.sitting.method.as_deref();
        method.map(|method| method.trim().to_lowercase())
    };
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    let mut of_sitting: BTreeMap<u32, Option<String>> = BTreeMap::new();
    for same in readings.chunk_by(|a, b| a.sitting == b.sitting) {
        let sitting = same[0].sitting;
        let method = of_sitting.entry(sitting).or_insert_with(|| method(sitting));
        if let Some(method) = method {
            *counts.entry(method.clone()).or_default() += same.len();
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

/// The age of some readings, or their days where no age is known: `at 22.0 months`, `on 2024-06-01`.
pub fn moment_words(readings: &[Comparable]) -> String {
    match ages(readings) {
        Some(months) => format!("at {}", age(months)),
        None => format!("on {}", days_words(readings)),
    }
}

/// For each plant with readings of a trait but none at the age chosen, what was read instead, in words.
pub fn read_instead(name: &str, of: &TraitReadings, chosen: &AtOneAge) -> Vec<(PlantRow, String)> {
    let mut others: BTreeMap<PlantRow, Vec<Comparable>> = BTreeMap::new();
    if of.plants_read() == chosen.readings.len() {
        return Vec::new();
    }
    for reading in of.by_day() {
        let found = chosen
            .readings
            .binary_search_by_key(&reading.plant, |r| r.plant);
        if found.is_err() {
            others.entry(reading.plant).or_default().push(reading);
        }
    }
    let here = moment_words(&chosen.readings);
    let words = |readings: Vec<Comparable>| {
        let is_here = |reading: &Comparable| match (chosen.moment, reading.age) {
            (Moment::Age(_), Some((least, most))) => {
                chosen.moment.matches(Moment::Age((least + most) / 2.0))
            }
            (Moment::Day { on, .. }, None) => on == reading.when,
            _ => false,
        };
        if readings.iter().any(is_here) {
            return format!(
                "{name} read {here} on a pitcher of the other age class, or by another method"
            );
        }
        let mut told: Vec<String> = readings.iter().map(|one| moment_words(&[*one])).collect();
        told.dedup();
        format!("{name} read {} only, not {here}", told.join(" and "))
    };
    let others = others.into_iter();
    others
        .map(|(plant, readings)| (plant, words(readings)))
        .collect()
}

/// Least and greatest age of some readings, months; `None` when a sowing is not dated.
pub fn ages(readings: &[Comparable]) -> Option<(f64, f64)> {
    let ages: Option<Vec<(f64, f64)>> = readings.iter().map(|reading| reading.age).collect();
    ages?
        .into_iter()
        .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

/// The days of some readings in words: `2024-05-14`, `2024-05-14 to 2024-05-20`, `never`.
pub fn days_words(readings: &[Comparable]) -> String {
    let mut dates: Vec<When> = readings.iter().map(|reading| reading.when).collect();
    // Nearly all are of one day: looked at once.
    dates.dedup();
    dates.sort();
    dates.dedup();
    match dates[..] {
        [] => "never".to_owned(),
        [one] => days(one),
        [first, .., last] => format!("{} to {}", first.first, last.last),
    }
}

/// The age and the days of some readings in words: `20.0 months from sowing, read 2024-05-14`.
pub fn age_words(readings: &[Comparable]) -> String {
    if readings.is_empty() {
        return "never read".to_owned();
    }
    let read = format!("read {}", days_words(readings));
    match ages(readings) {
        Some(months) => format!("{} from sowing, {read}", age(months)),
        None => format!("age not known (sowing not dated), {read}"),
    }
}
