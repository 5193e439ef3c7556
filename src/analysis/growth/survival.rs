//! How many of a group's numbered plants lived on.
//!
//! Ages count from sowing. A plant that was sold, given away, let go by choice or lost sight of is followed until then
//! and not counted as a death, and so is one that the last stock-take did not find; one that is here without a fate is alive today and followed until today, as deaths are.
//! Were it followed only until it was last read, a death after that day would fall on few plants, and a group most of
//! which lives could be called dead. A death found between two visits is dated by the visit. A plant is followed from the day it got its number (late entry): seedlings
//! that died before had none and are in the counts of their sowing, not here. Where that day is not written down the
//! plant is taken as followed from sowing, which the answer says.

use crate::analysis::growth::group::Group;
use crate::lineage::PlantRow;
use crate::observation::last_entry::{last_entry, not_found_since};
use crate::observation::months::MONTH;
use crate::observation::presence::{Presence, presence};
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
    /// Alive and here today among them.
    pub alive: usize,
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
pub struct Lives {
    /// Age and end of each plant.
    pub followed: Vec<Followed>,
    alive: usize,
    long_unseen: usize,
    left: usize,
    not_found: usize,
    undated: usize,
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
        let mut lives = Lives {
            followed: Vec::new(),
            alive: 0,
            long_unseen: 0,
            left: 0,
            not_found: 0,
            undated: 0,
        };
        let read = last_read_days(registry, &group.plants);
        for (&plant, read) in group.plants.iter().zip(read) {
            match life(registry, plant, read, today) {
                Some((followed, end)) => {
                    lives.followed.push(followed);
                    lives.left += usize::from(end == End::Left);
                    lives.not_found += usize::from(end == End::NotFound);
                    lives.alive += usize::from(matches!(end, End::Alive { .. }));
                    lives.long_unseen += usize::from(end == End::Alive { seen: false });
                }
                None => lives.undated += 1,
            }
        }
        lives
    }

    /// The row; `None` when no plant could be followed.
    pub fn row(&self) -> Option<SurvivalRow> {
        let deaths = self.followed.iter().filter(|plant| plant.died).count();
        let steps = kaplan_meier(&self.followed, Confidence::P95).ok()?;
        let enough = deaths >= FEWEST_DEATHS;
        let numbered = || self.followed.iter().filter_map(|plant| plant.entered);
        let least = numbered().reduce(f64::min);
        let judged = (self.alive as u64, (self.alive + deaths) as u64);
        let limits = wilson(judged.0, judged.1, Confidence::P95).ok();
        Some(SurvivalRow {
            alive: self.alive,
            alive_share: limits.map(|of| (judged.0 as f64 / judged.1 as f64, (of.low, of.high))),
            long_unseen: self.long_unseen,
            taken_from_sowing: self.followed.len() - numbered().count(),
            numbered_at: least.zip(numbered().reduce(f64::max)),
            followed: self.followed.len(),
            deaths,
            left: self.left,
            not_found: self.not_found,
            undated: self.undated,
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

/// The chance that groups so unlike in their deaths die alike; `None` under five deaths or for a single group.
pub fn alike(lives: &[Lives]) -> Option<f64> {
    let deaths = |lives: &Lives| lives.followed.iter().filter(|plant| plant.died).count();
    if lives.iter().map(deaths).sum::<usize>() < FEWEST_DEATHS {
        return None;
    }
    let groups: Vec<Vec<Followed>> = lives.iter().map(|lives| lives.followed.clone()).collect();
    log_rank(&groups).ok().map(|test| test.p)
}

/// Age and end of one plant; `None` when it cannot be followed.
fn life(
    registry: &Registry,
    plant: PlantRow,
    read: Option<When>,
    today: Day,
) -> Option<(Followed, End)> {
    let sown = sown(registry, plant);
    let fate = registry
        .fate(plant)
        .filter(|fate| registry.when(fate.on()).first <= today);
    let is_here = presence(registry, plant, today) == Presence::Here;
    let seen = || last_entry(registry, plant, read, today);
    let is_missing = || not_found_since(registry, plant, read, today).is_some();
    let (until, end) = match fate {
        Some(fate @ Fate::Died { .. }) => (registry.when(fate.on()), End::Died),
        Some(fate) => (registry.when(fate.on()), End::Left),
        None if is_here && is_missing() => (seen()?, End::NotFound),
        None if is_here => {
            let seen = seen().is_some_and(|when| today.0 - when.last.0 <= LONG);
            (
                When {
                    first: today,
                    last: today,
                },
                End::Alive { seen },
            )
        }
        None => (seen()?, End::Left),
    };
    let age = age_at(sown, until)?.max(0.0);
    let numbered = registry.seedling(plant).and_then(|s| s.numbered);
    let entered = numbered.and_then(|on| age_at(sown, registry.when(on)));
    let plant = Followed {
        entered,
        age,
        died: end == End::Died,
    };
    plant.is_followed().then_some((plant, end))
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
