//! How many of a group's numbered plants lived on.
//!
//! Ages count from sowing. A plant that was sold, given away, let go by choice or lost sight of is followed until then
//! and not counted as a death, and so is one that the last stock-take did not find; one that is here without a fate is alive today and followed until today, as deaths are.
//! Were it followed only until it was last read, a death after that day would fall on few plants, and a group most of
//! which lives could be called dead. A death found between two visits is dated by the visit. A plant is followed from the day it got its number (late entry): seedlings
//! that died before had none and are in the counts of their sowing, not here. Where that day is not written down the
//! plant is taken as followed from sowing, which the answer says. A plant whose day of sowing is not known to a month has no
//! age, living or dead, and is not followed.

use crate::analysis::growth::group::Group;
use crate::lineage::PlantRow;
use crate::observation::last_entry::{last_entry, not_found_since};
use crate::observation::moment::is_within_a_month;
use crate::observation::months::MONTH;
use crate::observation::presence::{Presence, fate_by, presence};
use crate::observation::provenance::sown;
use crate::observation::series::last_read_days;
use crate::record::{Day, Fate, When};
use crate::registry::Registry;
use crate::statistics::Confidence;
use crate::statistics::proportion::wilson;
use crate::statistics::survival::{
    FEWEST_DEATHS, Followed, Step, kaplan_meier, log_rank, median_age,
};
use serde::Serialize;
use std::collections::BTreeMap;

/// From when until when one plant was followed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Lived {
    /// Age from which it was followed; 0 from sowing.
    pub from: f64,
    /// Age at death or when last seen.
    pub until: f64,
    /// Whether it died then.
    pub died: bool,
}

/// Survival of a group.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct SurvivalRow {
    /// Plants followed from a dated sowing.
    pub followed: usize,
    /// Deaths among them.
    pub deaths: usize,
    /// Alive and here today, followed or not.
    pub alive: usize,
    /// Died, followed or not.
    pub died: usize,
    /// The share alive of those that live or died, with 95 % limits (Wilson 1927), 0 to 1; those that left alive are in
    /// neither.
    pub alive_share: Option<(f64, (f64, f64))>,
    /// Of those alive today, how many have no entry of the last year: no reading, no flowers, no stock-take that found them.
    pub long_unseen: usize,
    /// Sold, given away, let go or lost sight of.
    pub left: usize,
    /// Here on record, but not found by the last stock-take: followed until their last entry.
    pub not_found: usize,
    /// Plants whose sowing is not dated, or that are dated no later than their number.
    pub undated: usize,
    /// Plants not followed because their day of sowing is not known to a month.
    pub too_vague: usize,
    /// The days of their sowings, each with its plants and how many of these died.
    #[serde(skip)]
    pub vague: BTreeMap<When, (usize, usize)>,
    /// Plants followed from sowing because nobody wrote down when they were numbered.
    pub taken_from_sowing: usize,
    /// Least and greatest age at which the others were numbered, months; `null` when there are none.
    pub numbered_at: Option<(f64, f64)>,
    /// Age of the plant followed longest, months.
    pub followed_until: f64,
    /// The curve; empty under five deaths.
    pub steps: Vec<SurvivalStep>,
    /// Age by which half were dead, months; `null` while more live.
    pub median_age: Option<f64>,
    /// Every plant followed, for the picture.
    #[serde(skip)]
    pub lives: Vec<Lived>,
}

/// One step of the curve.
#[derive(Clone, Copy, PartialEq, Debug, Serialize)]
pub struct SurvivalStep {
    /// Age in months.
    pub age: f64,
    /// Plants followed just before.
    pub at_risk: usize,
    /// Deaths.
    pub deaths: usize,
    /// Share alive after, 0 to 1.
    pub survival: f64,
    /// 95 % limits; `null` once no plant is left.
    pub interval: Option<(f64, f64)>,
}

/// A group's plants as they were followed.
#[derive(Default)]
pub struct Lives {
    /// Age and end of each plant.
    pub followed: Vec<Followed>,
    alive: usize,
    died: usize,
    long_unseen: usize,
    left: usize,
    not_found: usize,
    undated: usize,
    vague: BTreeMap<When, (usize, usize)>,
}

/// How a plant's life was followed to its end.
#[derive(Clone, Copy, PartialEq)]
enum End {
    Died,
    /// Here today; whether something was written of it in the last year.
    Alive {
        seen: bool,
    },
    /// Sold, given away, let go or lost sight of.
    Left,
    /// Not found by the last stock-take.
    NotFound,
}

/// Days without a word of a plant after which its being alive is called into question.
const LONG: i32 = 365;

impl Lives {
    /// The lives of a group's plants up to today.
    pub fn of(registry: &Registry, group: &Group, today: Day) -> Lives {
        let mut lives = Lives::default();
        let read = last_read_days(registry, &group.plants);
        for (&plant, read) in group.plants.iter().zip(read) {
            let (end, followed) = life(registry, plant, read, today);
            lives.alive += usize::from(matches!(end, End::Alive { .. }));
            lives.died += usize::from(end == End::Died);
            lives.long_unseen += usize::from(end == End::Alive { seen: false });
            lives.left += usize::from(end == End::Left);
            lives.not_found += usize::from(end == End::NotFound);
            let sown = sown(registry, plant);
            if is_vague(sown) {
                let (plants, died) = lives.vague.entry(sown).or_default();
                *plants += 1;
                *died += usize::from(end == End::Died);
                continue;
            }
            match followed {
                Some(followed) => lives.followed.push(followed),
                None => lives.undated += 1,
            }
        }
        lives
    }

    /// The row; `None` when no plant could be followed, nor could have been had its sowing a day.
    pub fn row(&self) -> Option<SurvivalRow> {
        let deaths = self.followed.iter().filter(|plant| plant.died).count();
        let steps = match self.followed.is_empty() && !self.vague.is_empty() {
            true => Vec::new(),
            false => kaplan_meier(&self.followed, Confidence::P95).ok()?,
        };
        let enough = deaths >= FEWEST_DEATHS;
        let numbered = || self.followed.iter().filter_map(|plant| plant.entered);
        let least = numbered().reduce(f64::min);
        let judged = (self.alive as u64, (self.alive + self.died) as u64);
        let limits = wilson(judged.0, judged.1, Confidence::P95).ok();
        Some(SurvivalRow {
            alive: self.alive,
            died: self.died,
            alive_share: limits.map(|of| (judged.0 as f64 / judged.1 as f64, (of.low, of.high))),
            long_unseen: self.long_unseen,
            taken_from_sowing: self.followed.len() - numbered().count(),
            numbered_at: least.zip(numbered().reduce(f64::max)),
            followed: self.followed.len(),
            deaths,
            left: self.left,
            not_found: self.not_found,
            undated: self.undated,
            too_vague: self.vague.values().map(|(plants, _)| plants).sum(),
            vague: self.vague.clone(),
            followed_until: self.followed.iter().map(|f| f.age).fold(0.0, f64::max),
            median_age: if enough { median_age(&steps) } else { None },
            steps: steps.iter().filter(|_| enough).map(told).collect(),
            lives: self.followed.iter().map(lived).collect(),
        })
    }
}

fn told(step: &Step) -> SurvivalStep {
    SurvivalStep {
        age: step.age,
        at_risk: step.at_risk,
        deaths: step.deaths,
        survival: step.survival,
        interval: step.interval.map(|limits| (limits.low, limits.high)),
    }
}

fn lived(plant: &Followed) -> Lived {
    Lived {
        from: plant.entered.unwrap_or(0.0),
        until: plant.age,
        died: plant.died,
    }
}

/// The chance that groups so unlike in their deaths die alike; `None` under five deaths, for a single group, or
/// where no age of a group is known to a month.
pub fn alike(lives: &[Lives]) -> Option<f64> {
    let deaths = |lives: &Lives| lives.followed.iter().filter(|plant| plant.died).count();
    let all_vague = |of: &Lives| of.followed.is_empty() && !of.vague.is_empty();
    if lives.iter().map(deaths).sum::<usize>() < FEWEST_DEATHS || lives.iter().any(all_vague) {
        return None;
    }
    let groups: Vec<Vec<Followed>> = lives.iter().map(|lives| lives.followed.clone()).collect();
    log_rank(&groups).ok().map(|test| test.p)
}

/// Whether the days of a sowing, where there are any, leave ages open by more than a month.
fn is_vague(sown: When) -> bool {
    let months = (f64::from(sown.last.0) - f64::from(sown.first.0)) / MONTH;
    sown.is_bounded() && !is_within_a_month(months)
}

/// How a plant ended, and from when until when it was followed; not followed where that is not known.
fn life(
    registry: &Registry,
    plant: PlantRow,
    read: Option<When>,
    today: Day,
) -> (End, Option<Followed>) {
    let (end, until) = end(registry, plant, read, today);
    let sown = sown(registry, plant);
    let age = until.and_then(|until| age_at(sown, until.happened_by(today)));
    let numbered = registry.seedling(plant).and_then(|s| s.numbered);
    let numbered = numbered.map(|on| registry.when(on).happened_by(today));
    let followed = age.map(|age| {
        let age = age.max(0.0);
        let entered = numbered.and_then(|when| {
            let last = age_at(sown, when)?;
            // Whether it ended before the last of the days on which it may have got its number is not known.
            match last < age || when.is_exact() || when.first == Day::FIRST {
                true => Some(last),
                false => age_at(
                    sown,
                    When {
                        last: when.first,
                        ..when
                    },
                ),
            }
        });
        Followed {
            entered,
            age,
            died: end == End::Died,
        }
    });
    (end, followed.filter(Followed::is_followed))
}

/// How a plant ended and when, `None` where nothing says when.
fn end(
    registry: &Registry,
    plant: PlantRow,
    read: Option<When>,
    today: Day,
) -> (End, Option<When>) {
    let fate = fate_by(registry, plant, today);
    let is_here = presence(registry, plant, today) == Presence::Here;
    let seen = || last_entry(registry, plant, read, today);
    match fate {
        Some(fate @ Fate::Died { .. }) => (End::Died, Some(registry.when(fate.on()))),
        Some(fate) => (End::Left, Some(registry.when(fate.on()))),
        None if is_here && not_found_since(registry, plant, read, today).is_some() => {
            (End::NotFound, seen())
        }
        None if is_here => {
            let seen = seen().is_some_and(|when| today.0 - when.last.0 <= LONG);
            let until = When {
                first: today,
                last: today,
            };
            (End::Alive { seen }, Some(until))
        }
        None => (End::Left, seen()),
    }
}

/// Months from the middle of the sowing to the day by which it was seen.
fn age_at(sown: When, until: When) -> Option<f64> {
    let day = match (until.last == Day::LAST, until.first == Day::FIRST) {
        (false, _) => until.last,
        (true, false) => until.first,
        (true, true) => return None,
    };
    let middle = f64::from(sown.first.0) / 2.0 + f64::from(sown.last.0) / 2.0;
    sown.is_bounded()
        .then(|| (f64::from(day.0) - middle) / MONTH)
}
