//! At which age may siblings be compared, and which readings lie there?
//!
//! Only readings of one age are set side by side; what one age is stands in `moment`. The age chosen is the latest at
//! which more than half of every sowing was read; where there is none, the latest that most siblings share, and the
//! other sowings are not compared. Sizes between two sittings are not worked out here: a tray is described as it was
//! read. Groups sown on different days are seldom read at one age, so `growth` may interpolate; both rules are in
//! `docs/numbers.md`.

use crate::lineage::PlantRow;
pub use crate::observation::moment::Moment;
use crate::observation::moment::{Moments, Present};
use crate::observation::no_age::Undated;
use crate::observation::not_here::{Lost, NotHere};
use crate::observation::series::{
    Comparable, LeftOut, TraitReadings, one_a_day, one_method, one_method_of, one_pitcher_class,
};
use crate::record::When;
use crate::registry::Registry;
use crate::wording::{age, days};
use std::collections::BTreeMap;
use std::slice::from_ref;

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
    /// Plants with a reading, but none among those compared, and why; by plant.
    pub not_here: Vec<(PlantRow, NotHere)>,
}

impl AtOneAge {
    /// Why a plant that was read is not among those compared; `None` of one that is, or was never read.
    pub fn why_not(&self, plant: PlantRow) -> Option<NotHere> {
        let found = self.not_here.binary_search_by_key(&plant, |of| of.0);
        found.ok().map(|at| self.not_here[at].1)
    }
}

/// Part of all plants ever read below which a sowing does not decide at which age the others are described.
const DECIDES: f64 = 0.1;

/// The readings at the age of [`shared_moment`]. `None` when nothing can be compared.
pub fn latest_shared(
    registry: &Registry,
    of: &TraitReadings,
    is_of_pitcher: bool,
) -> Option<AtOneAge> {
    let moment = shared_moment(from_ref(of))?;
    Some(at(registry, of, moment, is_of_pitcher))
}

/// The latest age at which more than half of every sowing was read; where no such age is, the latest that more than half of
/// all ever read share; else the age that most of them share. Of several groups that are set side by side, each by its own
/// plants, with the age that most of the least read group share, and only known ages at which all of them were read. `None`
/// when there is none.
pub fn shared_moment(groups: &[TraitReadings]) -> Option<Moment> {
    let moments = Moments::of(groups);
    let (ever, group_of) = (moments.ever.clone(), moments.groups.clone());
    let by_group = |of_sowings: &[usize]| {
        let mut sums = vec![0; groups.len()];
        for (n, &group) in of_sowings.iter().zip(&group_of) {
            sums[group] += n;
        }
        sums
    };
    let all = by_group(&ever);
    let of_each = |present: &Present| {
        let sowings = present.of_sowings.iter().zip(&ever).zip(&group_of);
        let mut large =
            sowings.filter(|((_, ever), group)| **ever as f64 >= DECIDES * all[**group] as f64);
        large.all(|((n, ever), _)| 2 * n > *ever)
    };
    let mut most: Option<Moment> = None;
    let mut best: Option<(usize, Moment)> = None;
    for present in moments.latest_first() {
        let here = by_group(&present.of_sowings);
        let least = here.iter().copied().min().unwrap_or(0);
        if groups.len() > 1 && (least == 0 || present.moment.sure_age().is_none()) {
            continue;
        }
        if of_each(&present) {
            return Some(present.moment);
        }
        if here.iter().zip(&all).all(|(n, all)| 2 * n > *all) {
            most.get_or_insert(present.moment);
        } else if best.is_none_or(|(before, _)| least > before) {
            best = Some((least, present.moment));
        }
    }
    most.or(best.map(|(_, moment)| moment))
}

/// Every moment with readings, latest first, and how many plants have one there.
pub fn shared(of: &TraitReadings) -> Vec<(Moment, usize)> {
    let moments = Moments::of(from_ref(of)).latest_first();
    moments
        .map(|present| (present.moment, present.plants))
        .collect()
}

/// The readings at a moment: of a plant read twice the one nearest to it, of two as near the later, of one day their mean; one
/// pitcher class and one method only.
pub fn at(
    registry: &Registry,
    of: &TraitReadings,
    moment: Moment,
    is_of_pitcher: bool,
) -> AtOneAge {
    let (mut left_out, mut left_out_elsewhere) = (LeftOut::default(), LeftOut::default());
    for (occasion, counted) in of.left_out_by_occasion() {
        match moment.matches(&Moment::of(occasion)) {
            true => left_out.add(counted),
            false => left_out_elsewhere.add(counted),
        }
    }
    let mut here: Vec<Comparable> = Vec::new();
    let mut others: Vec<Moment> = Vec::new();
    for (occasion, run) in of.runs() {
        let other = Moment::of(occasion);
        if moment.matches(&other) {
            here.extend(run.readings());
        } else {
            others.push(other);
        }
    }
    others.sort_by(Moment::order);
    others.dedup_by(|a, b| match (a.middle(), b.middle()) {
        (Some(a), Some(b)) => a == b,
        _ => a == b,
    });
    let elsewhere = of.len() - here.len();
    let mut lost = Lost::default();
    if is_of_pitcher {
        left_out.other_pitcher += lost.step(&mut here, NotHere::OtherPitcher, one_pitcher_class);
    }
    left_out.other_method += lost.step(&mut here, NotHere::OtherMethod, |here| {
        one_method(registry, here, |_| ())
    });
    let away = |reading: &Comparable| match (moment.middle(), reading.age) {
        (Some(months), Some((least, most))) => (months - (least + most) / 2.0).abs(),
        _ => 0.0,
    };
    here.sort_by(|a, b| {
        (a.plant.cmp(&b.plant))
            .then(away(a).total_cmp(&away(b)))
            .then(b.when.cmp(&a.when))
    });
    let nearest = here.chunk_by(|a, b| a.plant == b.plant);
    let nearest = nearest.flat_map(|same| same.iter().filter(|of| of.when == same[0].when));
    let mut here: Vec<Comparable> = nearest.copied().collect();
    left_out.unlike_that_day += lost.step(&mut here, NotHere::Contradicted, |here| {
        one_a_day(here, of.has_mean)
    });
    let not_here = not_among(of, &here).into_iter();
    AtOneAge {
        moment,
        not_here: not_here.map(|plant| (plant, lost.why(plant))).collect(),
        readings: here,
        left_out,
        left_out_elsewhere,
        elsewhere,
        other_ages: others.len(),
    }
}

/// The last reading of a plant, and those of others that are read alike: on the same day at the same age and, of a trait of the
/// pitcher, on the same kind of pitcher; by one method, of those by which the plant was read that day. Of each plant one.
/// Readings come by plant and then by day. `None` where the plant has none, or where its sittings of every day are unlike.
pub fn last_with_others(
    registry: &Registry,
    of: &[Comparable],
    is_it: impl Fn(&Comparable) -> bool,
    (is_of_pitcher, has_mean): (bool, bool),
) -> Option<(Comparable, Vec<Comparable>)> {
    let mut own = of.iter().rev().filter(|of| is_it(of));
    own.find_map(|last| {
        let is_like = |of: &&Comparable| {
            of.when == last.when
                && of.age == last.age
                && (!is_of_pitcher || of.pitcher == last.pitcher)
        };
        let mut alike: Vec<Comparable> = of.iter().filter(is_like).copied().collect();
        one_method_of(registry, last.plant, &mut alike);
        one_a_day(&mut alike, has_mean);
        let at = alike.iter().position(|of| of.plant == last.plant)?;
        Some((alike.remove(at), alike))
    })
}

/// The plants with a reading that are not among some readings, by plant.
fn not_among(of: &TraitReadings, here: &[Comparable]) -> Vec<PlantRow> {
    if of.plants_read() == here.len() {
        return Vec::new();
    }
    let is_here = |plant: &PlantRow| here.binary_search_by_key(plant, |of| of.plant).is_ok();
    let mut plants: Vec<PlantRow> = of.by_day().map(|reading| reading.plant).collect();
    plants.sort_unstable();
    plants.dedup();
    plants.retain(|plant| !is_here(plant));
    plants
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
    if chosen.not_here.is_empty() {
        return Vec::new();
    }
    for reading in of.by_day() {
        if chosen.why_not(reading.plant).is_some() {
            others.entry(reading.plant).or_default().push(reading);
        }
    }
    let here = moment_words(&chosen.readings);
    let words = |why: NotHere, readings: Vec<Comparable>| {
        if why != NotHere::OtherAge {
            return format!("{name} read {here} {}", why.words());
        }
        let told = readings.iter().map(|one| moment_words(&[*one]));
        let mut told: Vec<String> = told.collect();
        told.dedup();
        let dated = ages(&chosen.readings).is_some();
        if dated && readings.iter().all(|one| one.age.is_none()) {
            return format!("{name} read {}, its age then not known", told.join(" and "));
        }
        format!("{name} read {} only, not {here}", told.join(" and "))
    };
    let others = others.into_iter();
    let told = others.filter_map(|(plant, of)| Some((plant, words(chosen.why_not(plant)?, of))));
    told.collect()
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
        None => {
            let ageless = readings.iter().filter(|reading| reading.age.is_none());
            let undated = Undated::of(ageless.map(|reading| reading.when));
            format!("age not known ({undated} not dated), {read}")
        }
    }
}
