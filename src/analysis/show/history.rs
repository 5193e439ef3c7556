//! From pollination to this pot: the days of each step and the time between them.

use crate::observation::months::months;
use crate::observation::provenance::Provenance;
use crate::record::When;

/// The road from flower to pot.
#[derive(Clone, Debug, PartialEq)]
pub struct History {
    /// Steps on record, the first one first.
    pub steps: Vec<Step>,
    /// Age from sowing in months, least and greatest; `None` where a day is not known.
    pub from_sowing: Option<(f64, f64)>,
    /// Age from germination in months.
    pub from_germination: Option<(f64, f64)>,
    /// Whether the ages are those at the end of the plant; else they are today's.
    pub ended: bool,
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What happened.
    pub what: StepKind,
    /// When, or when else: at least one, the earliest first.
    pub one_of: Vec<When>,
    /// Days since the step before, least and greatest; `None` for the first one, or where a day is open.
    pub took: Option<(i32, i32)>,
}

/// What happened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepKind {
    /// Flowers were dusted.
    Pollinated,
    /// The pod was taken.
    Harvested,
    /// Seed was sown.
    Sown,
    /// Seedlings came up.
    Germinated,
}

/// The history by its dates, with ages on the day it `ended` or else `today`.
pub fn history(road: Provenance, ended: Option<When>, today: When) -> History {
    history_of_one((road, &[road]), ended, today)
}

/// The history of a plant that has one of some provenances, its dates covering all of them: a time between two steps is that
/// within one provenance, never from a step of one to a step of another.
pub fn history_of_one(
    (road, possible): (Provenance, &[Provenance]),
    ended: Option<When>,
    today: When,
) -> History {
    let until = ended.unwrap_or(today);
    History {
        steps: steps(road, possible),
        from_sowing: months(road.sown, until),
        from_germination: months(road.germinated, until),
        ended: ended.is_some(),
    }
}

/// The steps with their days.
fn dated(road: &Provenance) -> [(StepKind, When); 4] {
    [
        (StepKind::Pollinated, road.pollinated),
        (StepKind::Harvested, road.harvested),
        (StepKind::Sown, road.sown),
        (StepKind::Germinated, road.germinated),
    ]
}

fn steps(road: Provenance, possible: &[Provenance]) -> Vec<Step> {
    let mut before: Option<usize> = None;
    let known = (0..).zip(dated(&road));
    let known = known.filter(|(_, (_, when))| *when != When::UNKNOWN);
    known
        .map(|(at, (what, when))| Step {
            what,
            one_of: one_of(possible, at, when),
            took: before
                .replace(at)
                .and_then(|before| took(possible, before, at)),
        })
        .collect()
}

/// The days a step may have had, each once; where one of them is open, only what covers all is known.
fn one_of(possible: &[Provenance], at: usize, covering: When) -> Vec<When> {
    let mut each: Vec<When> = possible.iter().map(|road| dated(road)[at].1).collect();
    each.sort_by_key(|when| (when.first, when.last));
    each.dedup();
    match each.is_empty() || each.contains(&When::UNKNOWN) {
        true => vec![covering],
        false => each,
    }
}

/// Days from one step to a later one, least and greatest over all provenances; `None` where a day of one is open.
fn took(possible: &[Provenance], before: usize, at: usize) -> Option<(i32, i32)> {
    let days = possible.iter().map(|road| {
        let dated = dated(road);
        dated[before].1.days_until(dated[at].1)
    });
    let days: Option<Vec<(i32, i32)>> = days.collect();
    days?
        .into_iter()
        .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}
