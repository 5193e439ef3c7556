//! How many pots, and how much of the shelves, a collection needs on a day to come.
//!
//! Every pot is counted as if its plant lived and stayed. What is known only as a range of days gives a range of pots:
//! the least counts what is needed on every reading of the dates, the most what is needed on some.

use super::windows::Between;

/// Mean days of a month (365.25 / 12), as for ages.
const MONTH: f64 = 30.4375;

/// Plants that need a pot each from some day on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Batch {
    /// How many pots, least and most.
    pub pots: (u64, u64),
    /// The day from which they are needed.
    pub from: Between,
    /// The day their seed was sown; `None` for plants that grow by no known age.
    pub sown: Option<Between>,
    /// Width of the pot on record, cm.
    pub pot_cm: Option<f64>,
}

/// The pot a seedling moves into from an age on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Age from sowing, months.
    pub from_months: f64,
    /// Width of the pot, cm.
    pub pot_cm: f64,
}

/// What is needed on one day.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Room {
    /// Pots, least and most.
    pub pots: (u64, u64),
    /// Part of all shelves they fill, least and most; 1 is full.
    pub share: (f64, f64),
    /// Pots of those whose width is not known; they are in `pots` and not in `share`.
    pub unplaced: u64,
    /// Pots of those too wide for every shelf, likewise.
    pub too_wide: u64,
}

/// What is needed on a day. `today` is the day the records were read: a pot on record is not outgrown before it.
/// `capacity` says how many pots of a width all shelves hold together.
pub fn room(
    (today, day): (i32, i32),
    batches: &[Batch],
    steps: &[Step],
    capacity: &dyn Fn(f64) -> u64,
) -> Room {
    let mut room = Room::default();
    for batch in batches {
        let held = |sown: Option<i32>| width(batch.pot_cm, sown, (today, day), steps).map(capacity);
        let share = |held: Option<u64>| held.filter(|&pots| pots > 0).map(|pots| 1.0 / pots as f64);
        if batch.from.latest <= day {
            room.pots.0 += batch.pots.0;
            let youngest = share(held(batch.sown.map(|sown| sown.latest)));
            room.share.0 += youngest.unwrap_or(0.0) * batch.pots.0 as f64;
        }
        if batch.from.earliest <= day {
            room.pots.1 += batch.pots.1;
            let held = held(batch.sown.map(|sown| sown.earliest));
            match (share(held), held) {
                (Some(share), _) => room.share.1 += share * batch.pots.1 as f64,
                (None, Some(_)) => room.too_wide += batch.pots.1,
                (None, None) => room.unplaced += batch.pots.1,
            }
        }
    }
    room
}

/// Width of the pot on a day, cm: the one on record until the plant reaches a later step, else the step of its age.
fn width(
    on_record: Option<f64>,
    sown: Option<i32>,
    (today, day): (i32, i32),
    steps: &[Step],
) -> Option<f64> {
    let reached = |step: &&Step| {
        sown.is_some_and(|sown| {
            let at = f64::from(sown) + step.from_months * MONTH;
            at <= f64::from(day) && (on_record.is_none() || at > f64::from(today))
        })
    };
    let by_age = steps.iter().filter(reached).map(|step| step.pot_cm);
    on_record.into_iter().chain(by_age).reduce(f64::max)
}
