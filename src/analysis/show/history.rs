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
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// What happened.
    pub what: StepKind,
    /// When.
    pub when: When,
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
    let until = ended.unwrap_or(today);
    History {
        steps: steps(road),
        from_sowing: months(road.sown, until),
        from_germination: months(road.germinated, until),
        ended: ended.is_some(),
    }
}

fn steps(road: Provenance) -> Vec<Step> {
    let all = [
        (StepKind::Pollinated, road.pollinated),
        (StepKind::Harvested, road.harvested),
        (StepKind::Sown, road.sown),
        (StepKind::Germinated, road.germinated),
    ];
    let mut before: Option<When> = None;
    let known = all.into_iter().filter(|(_, when)| *when != When::UNKNOWN);
    known
        .map(|(what, when)| Step {
            what,
            when,
            took: before
                .replace(when)
                .and_then(|before| before.days_until(when)),
        })
        .collect()
}
