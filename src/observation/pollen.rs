//! The pollen in hand on a day, and how pollen of that place and age has set for this grower.
//!
//! Ages are ranges. Pollen of one known plant may be offered for a named cross; pollen of one of several plants, of a
//! mixture or of an unknown plant never is. A set rate is pods set over flowers treated in this grower's own
//! pollinations, with Wilson's interval: of one envelope by the pollinations that name it, and beside it, named as pooled,
//! of all pollen of that place and age; how long pollen lasts in general is not asserted, only what growers report.

use crate::lineage::PlantRow;
use crate::record::{Day, PollenLot, PollenPlace, PollenSource, Pollination, When};
use crate::registry::{PollenRow, Registry, Target};
use crate::statistics::Confidence;
use crate::statistics::proportion::wilson;
use crate::wording::counted;
use serde::Serialize;

/// Age classes of pollen, days from collection: from and to, both included.
const AGES: [(i32, i32); 5] = [(0, 14), (15, 90), (91, 180), (181, 365), (366, i32::MAX)];

/// Age of pollen in days, least and greatest; `None` where it may be of any age above the least.
pub type PollenAge = (i32, Option<i32>);

/// The age of the pollen of a lot on a day. `None` where it is not known.
pub fn age_on(registry: &Registry, lot: &PollenLot, on: When) -> Option<PollenAge> {
    let collected = registry.when(lot.collected?);
    if let Some((least, most)) = collected.days_until(on) {
        return Some((least.max(0), Some(most.max(0))));
    }
    let latest = When::on(collected.last);
    let (least, _) = latest
        .days_until(on)
        .filter(|_| collected.first == Day::FIRST)?;
    (least > 0).then_some((least, None))
}

/// One envelope in hand.
#[derive(Clone, Serialize)]
pub struct Envelope {
    /// Code of the lot.
    pub lot: String,
    /// Code of the plant, or words for a doubtful source.
    pub of: String,
    /// When it was collected, as a range of days.
    pub collected: Option<String>,
    /// Days since it was collected.
    pub age_days: Option<PollenAge>,
    /// Where it is kept.
    pub place: Option<&'static str>,
    /// How often it was thawed.
    pub thawed: usize,
    /// How much is left, as typed.
    pub left: Option<String>,
    /// Whether it may be offered for a named cross.
    pub for_a_named_cross: bool,
    /// Pods set with pollen of this envelope, by pollinations that name it.
    pub set_by_it: SetRate,
    /// Pods set with all pollen of this place and age, whatever the envelope.
    pub pooled: SetRate,
    /// Whether it is older than almost any pollen of its place that growers report to have set seed.
    pub beyond_reports: bool,
    /// What to think of.
    pub remark: Option<String>,
    /// The plant it is of.
    #[serde(skip)]
    pub plant: Option<PlantRow>,
    #[serde(skip)]
    pub(crate) order: (bool, i32, String),
}

/// Pods set over flowers treated.
#[derive(Clone, Copy, Default, PartialEq, Serialize)]
pub struct SetRate {
    /// Pollinations with both counts.
    pub pollinations: usize,
    /// Flowers treated.
    pub flowers: u64,
    /// Pods set.
    pub set: u64,
    /// Wilson's 95 % interval; `null` without flowers.
    pub interval: Option<(f64, f64)>,
}

impl SetRate {
    pub(crate) fn add(&mut self, flowers: u32, set: u32) {
        self.pollinations += 1;
        self.flowers += u64::from(flowers);
        self.set += u64::from(set.min(flowers));
        let interval = wilson(self.set, self.flowers, Confidence::P95).ok();
        self.interval = interval.map(|interval| (interval.low, interval.high));
    }

    /// `12 of 20 flowers (39–78 %), 2 pollinations`, or `none yet`.
    pub fn words(&self) -> String {
        match self.interval {
            None => self.share_words(),
            Some(_) => format!(
                "{}, {}",
                self.share_words(),
                counted(self.pollinations, "pollination", "pollinations")
            ),
        }
    }

    /// The same without the pollinations, for flowers that had none: `1 of 1 flower (21–100 %)`.
    pub fn share_words(&self) -> String {
        let Some((low, high)) = self.interval else {
            return "none yet".to_owned();
        };
        format!(
            "{} of {} ({:.0}–{:.0} %)",
            self.set,
            counted(self.flowers as usize, "flower", "flowers"),
            100.0 * low,
            100.0 * high
        )
    }
}

/// This grower's set rates.
pub struct OwnResults {
    by_place_and_age: Vec<((PollenPlace, usize), SetRate)>,
    /// For each pollen lot of the registry, the pollinations that name it.
    by_lot: Vec<SetRate>,
    /// All pollinations with both counts.
    pub all: SetRate,
    /// Flowers left alone to measure stray pollen.
    pub controls: SetRate,
}

impl OwnResults {
    /// Counts every pollination done by a day that has flowers and pods counted.
    pub fn of(registry: &Registry, on: Day) -> OwnResults {
        let mut results = OwnResults {
            by_place_and_age: Vec::new(),
            by_lot: vec![SetRate::default(); registry.pollen.len()],
            all: SetRate::default(),
            controls: SetRate::default(),
        };
        let pollinations = registry
            .own_crosses()
            .flat_map(|(_, cross)| &cross.page.pollinations);
        for pollination in pollinations {
            let done = dates(registry, pollination);
            if done.is_some_and(|done| done.first > on) {
                continue;
            }
            if let (Some(flowers), Some(set)) =
                (pollination.control_flowers, pollination.control_set)
            {
                results.controls.add(flowers, set);
            }
            let (Some(flowers), Some(set)) = (pollination.flowers, pollination.set) else {
                continue;
            };
            results.all.add(flowers, set);
            if let Some(lot) = pollination
                .pollen
                .and_then(|code| registry.pollen_lot(code))
            {
                results.by_lot[lot.index()].add(flowers, set);
            }
            if let Some(class) = class_then(registry, pollination, done) {
                results.rate_mut(class).add(flowers, set);
            }
        }
        results
    }

    fn rate_mut(&mut self, class: (PollenPlace, usize)) -> &mut SetRate {
        let at = match self
            .by_place_and_age
            .iter()
            .position(|(of, _)| *of == class)
        {
            Some(at) => at,
            None => {
                self.by_place_and_age.push((class, SetRate::default()));
                self.by_place_and_age.sort_by_key(|(class, _)| *class);
                self.by_place_and_age
                    .iter()
                    .position(|(of, _)| *of == class)
                    .unwrap_or(0)
            }
        };
        &mut self.by_place_and_age[at].1
    }

    /// Results with one pollen lot.
    pub fn by_lot(&self, lot: PollenRow) -> SetRate {
        self.by_lot[lot.index()]
    }

    /// Results with all pollen of a place and an age that lies within one class.
    pub fn with(&self, place: Option<PollenPlace>, age: Option<PollenAge>) -> SetRate {
        let class = place.zip(age.and_then(age_class));
        let found = self
            .by_place_and_age
            .iter()
            .find(|(of, _)| Some(*of) == class);
        found.map_or_else(SetRate::default, |(_, rate)| *rate)
    }

    /// Every place and age with results, in words: `fridge, 15–90 days`.
    pub fn rows(&self) -> Vec<(String, SetRate)> {
        let words = |(place, age): (PollenPlace, usize)| match AGES[age] {
            (_, i32::MAX) => format!("{}, over a year", place_words(place)),
            (from, to) => format!("{}, {from}–{to} days", place_words(place)),
        };
        self.by_place_and_age
            .iter()
            .map(|(class, rate)| (words(*class), *rate))
            .collect()
    }
}

/// From the first to the last day of a pollination.
fn dates(registry: &Registry, pollination: &Pollination) -> Option<When> {
    let days: Vec<When> = pollination.on.iter().map(|on| registry.when(on)).collect();
    let first = days.iter().map(|when| when.first).min()?;
    let last = days.iter().map(|when| when.last).max()?;
    Some(When { first, last })
}

/// Place and age class of the pollen when it was used; `None` when the age may be in several classes.
fn class_then(
    registry: &Registry,
    pollination: &Pollination,
    done: Option<When>,
) -> Option<(PollenPlace, usize)> {
    let lot = &registry[registry.pollen_lot(pollination.pollen?)?];
    Some((lot.stored?, age_class(age_on(registry, lot, done?)?)?))
}

fn age_class((least, most): PollenAge) -> Option<usize> {
    let class = |age: i32| {
        AGES.iter()
            .position(|(from, to)| (*from..=*to).contains(&age))
    };
    class(least).filter(|of| class(most.unwrap_or(i32::MAX)) == Some(*of))
}

/// A place in the grower's words.
pub fn place_words(place: PollenPlace) -> &'static str {
    match place {
        PollenPlace::Fresh => "fresh",
        PollenPlace::Room => "room",
        PollenPlace::Fridge => "fridge",
        PollenPlace::Freezer => "freezer",
    }
}

/// The envelopes in hand on a day: those for named crosses by age, the freshest first, then the others by code.
pub fn in_hand(registry: &Registry, on: Day, results: &OwnResults) -> Vec<Envelope> {
    let day = |text: &str| registry.when(text);
    let finished = |lot: &&PollenLot| lot.finished.is_none_or(|text| day(text).first > on);
    let collected = |lot: &&PollenLot| lot.collected.is_none_or(|text| day(text).first <= on);
    let here = PollenRow::all(registry.pollen.len()).zip(&registry.pollen);
    let here = here.filter(|(_, lot)| lot.told_by.is_none() && finished(lot) && collected(lot));
    let mut envelopes: Vec<Envelope> = here
        .map(|(at, lot)| Envelope {
            set_by_it: results.by_lot(at),
            ..envelope(registry, lot, on, results)
        })
        .collect();
    envelopes.sort_by(|a, b| a.order.cmp(&b.order));
    envelopes
}

fn envelope(registry: &Registry, lot: &PollenLot, on: Day, results: &OwnResults) -> Envelope {
    let collected = lot.collected.map(|text| registry.when(text));
    let age_days = age_on(registry, lot, When::on(on));
    let thawed = lot
        .thawed
        .iter()
        .filter(|text| registry.when(text).first <= on)
        .count();
    let plant = match &lot.from {
        PollenSource::Plant(code) => registry.target(code).and_then(Target::plant),
        _ => None,
    };
    Envelope {
        lot: lot.code.to_owned(),
        of: source_words(&lot.from),
        collected: collected.map(crate::wording::days),
        place: lot.stored.map(place_words),
        thawed,
        left: lot.left.as_deref().map(str::to_owned),
        for_a_named_cross: plant.is_some(),
        set_by_it: SetRate::default(),
        pooled: results.with(lot.stored, age_days),
        beyond_reports: beyond_reports(lot.stored, age_days),
        remark: remark(lot, plant.is_some(), age_days, thawed),
        order: (
            plant.is_none(),
            age_days.and_then(|(_, most)| most).unwrap_or(i32::MAX),
            lot.code.to_owned(),
        ),
        age_days,
        plant,
    }
}

fn source_words(source: &PollenSource) -> String {
    match source {
        PollenSource::Plant(code) => (*code).to_owned(),
        PollenSource::OneOf(codes) => format!("one of {}", codes.join(", ")),
        PollenSource::Mixed(codes) => format!("mixture of {}", codes.join(", ")),
        PollenSource::Unknown => "not known".to_owned(),
    }
}

/// The longest life growers report for dried pollen in a place, days, and in words. Reports, not tests; they disagree.
fn reported(place: PollenPlace) -> (i32, &'static str) {
    match place {
        PollenPlace::Fresh => (7, "days"),
        PollenPlace::Room => (21, "one to three weeks at room temperature"),
        PollenPlace::Fridge => (365, "several months to a year in the fridge"),
        PollenPlace::Freezer => (365, "about a year in the freezer, by some one to two years"),
    }
}

/// The longest life growers report for pollen in a place, days.
pub fn reported_days(place: PollenPlace) -> u32 {
    reported(place).0.unsigned_abs()
}

/// How long pollen in a place lasts by reports, in words, when it is surely older than that.
pub fn outlived(place: PollenPlace, least_days: i32) -> Option<&'static str> {
    let (longest, words) = reported(place);
    (least_days > longest).then_some(words)
}

/// The place whose pollen lasts longest by reports: what pollen of no place on record is held against.
pub const LASTS_LONGEST: PollenPlace = PollenPlace::Freezer;

/// Whether pollen of a place is older, on every reading of its dates, than growers report it to last.
fn beyond_reports(place: Option<PollenPlace>, age: Option<PollenAge>) -> bool {
    let place = place.unwrap_or(LASTS_LONGEST);
    age.is_some_and(|(least, _)| outlived(place, least).is_some())
}

/// What the age of pollen in a place means, beside what growers report; nothing while it is young.
pub fn life_words(place: Option<PollenPlace>, age: Option<PollenAge>) -> Option<String> {
    let (place, (least, most)) = (place.unwrap_or(LASTS_LONGEST), age?);
    let (longest, words) = reported(place);
    if outlived(place, least).is_some() {
        return Some(format!(
            "older than most pollen is reported to last ({words}): expect little, try a few flowers only"
        ));
    }
    let is_near = most.is_some_and(|most| 5 * most >= 4 * longest);
    let near = is_near && place != PollenPlace::Fresh;
    near.then(|| format!("near the longest life reported ({words})"))
}

fn remark(
    lot: &PollenLot,
    one_plant: bool,
    age: Option<PollenAge>,
    thawed: usize,
) -> Option<String> {
    if !one_plant {
        return Some("father not known for sure: not offered for a named cross".to_owned());
    }
    let mut told = Vec::new();
    told.extend(life_words(lot.stored, age));
    if age.is_none() {
        told.push("age not known".to_owned());
    }
    if thawed > 0 {
        told.push(format!(
            "thawed {}",
            match thawed {
                1 => "once".to_owned(),
                n => format!("{n} times"),
            }
        ));
    }
    (!told.is_empty()).then(|| told.join("; "))
}
