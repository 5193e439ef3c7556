//! One task: what is to be done, on which record, when, and why then.

use super::ranges::DayRange;
use crate::analysis::ready::SpikeState;
use crate::observation::flowers::Forecast;
use crate::observation::sex::SexSeen;
use crate::planning::windows::Between;
use serde::Serialize;

/// One thing that is due.
#[derive(Clone, Serialize)]
pub struct DueRow {
    /// How soon.
    pub urgency: Urgency,
    /// Code of the record.
    pub code: String,
    /// Which spike of it, where others of that plant or piece are listed too.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spike: Option<String>,
    /// Code of the plant or piece to go to, where the task is on one.
    pub plant: Option<String>,
    /// Where that stands.
    pub place: Option<String>,
    /// What is to be done.
    pub task: Task,
    /// The day it is counted from, as a range; `None` when not recorded.
    pub since: Option<String>,
    /// First and last day it may be due; `None` when no date says.
    pub window: Option<Between>,
    /// Days from today to the first and last of those days; negative when past.
    pub in_days: Option<(i32, i32)>,
    /// Where the range comes from.
    pub basis: Basis,
}

/// What the age of seed is counted from.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SeedSince {
    /// The harvest of its pod.
    Harvest,
    /// Its arrival: it is older, nothing says by how much.
    Arrival,
}

/// How soon, the soonest first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Urgency {
    /// Every day it could be due has passed.
    Overdue,
    /// It may be due today.
    Now,
    /// It may be due within the days asked for.
    Soon,
    /// Every day passed more than three months ago; or pollen has outlived its kind.
    LongOverdue,
    /// No date says when.
    NoDate,
}

impl Urgency {
    /// Whether it has days that are not long past, so that it is a task for now.
    pub fn is_dated(self) -> bool {
        !matches!(self, Urgency::LongOverdue | Urgency::NoDate)
    }
}

/// What is to be done.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum Task {
    /// Dust newly opened flowers of a zone.
    DustAgain {
        /// Last day of open flowers.
        until: Between,
    },
    /// Harvest what a pollination set.
    Harvest {
        /// Pods set, if counted.
        set: Option<u32>,
        /// Those of them that are not harvested yet, where some are.
        #[serde(skip_serializing_if = "Option::is_none")]
        still_on: Option<u32>,
        /// Flowers treated, if counted.
        flowers: Option<u32>,
        /// Codes of pods without a zone that may have been of it.
        unless: Vec<String>,
        /// What became of the plant or piece that bore it, after its pods may have been ripe.
        #[serde(skip_serializing_if = "Option::is_none")]
        ended: Option<String>,
    },
    /// Look at a spike that is open or about to open.
    Spike {
        /// Whether it is open.
        state: SpikeState,
        /// Its sex.
        sex: SexSeen,
        /// For a spike that may bear pods: pollen in hand or shed on the same days, the freshest first.
        pollen: Vec<String>,
    },
    /// Count what a pollination set.
    CountSet {
        /// Flowers treated, if counted.
        flowers: Option<u32>,
    },
    /// Use pollen before it is older than planned with.
    UsePollen {
        /// Whose it is.
        of: String,
        /// Where it is kept.
        place: &'static str,
    },
    /// Sow seed.
    Sow {
        /// Seeds left.
        seeds: Option<u32>,
        /// Whether that is a guess.
        estimated: bool,
        /// How it is kept, as written.
        stored: Option<String>,
        /// Months from harvest, or from its arrival, least and greatest.
        months: Option<(f64, f64)>,
        /// From which of the two.
        age_from: SeedSince,
    },
    /// See what is left of seed, where no record says it.
    SeedLeft {
        /// What the record says of it, in words; `None` where it says nothing.
        left: Option<String>,
        /// How many there are at most, where the record gives numbers.
        at_most: Option<u32>,
        /// Codes of sowings that took an unknown number of it.
        took: Vec<String>,
        /// Seeds there were at first.
        seeds: Option<u32>,
        /// Whether that is a guess.
        estimated: bool,
        /// How it is kept, as written.
        stored: Option<String>,
        /// Months from harvest, or from its arrival, least and greatest.
        months: Option<(f64, f64)>,
        /// From which of the two.
        age_from: SeedSince,
    },
    /// Count seedlings that have come up.
    CountSeedlings {
        /// The last count.
        up: Option<u32>,
        /// Seeds sown.
        sown: Option<u32>,
    },
    /// Prick out seedlings that are still only a count.
    PrickOut {
        /// How many, least and most.
        seedlings: Option<(u32, u32)>,
        /// Whether they were left in a sowing when others were taken out of it.
        is_rest: bool,
    },
    /// Read siblings at an age that can be compared.
    TakeSitting {
        /// Age from sowing, months.
        months: f64,
        /// Plants in the collection.
        plants: usize,
        /// Sowings read at that age.
        beside: Vec<String>,
    },
    /// See whether a cutting has rooted.
    CheckCutting,
    /// Take a cutting of a plant of which there is one piece.
    TakeCutting {
        /// Crosses it is surely a parent of.
        crosses: usize,
        /// Crosses it may be a parent of.
        perhaps: usize,
        /// Whether it is marked to keep.
        kept: bool,
    },
}

impl Task {
    /// Place in the order of tasks equally urgent: what spoils first comes first.
    pub(super) fn rank(&self) -> u8 {
        match self {
            Task::DustAgain { .. } => 0,
            Task::Harvest { .. } => 1,
            Task::Spike { .. } => 2,
            Task::CountSet { .. } => 3,
            Task::UsePollen { .. } => 4,
            Task::Sow { .. } | Task::SeedLeft { .. } => 5,
            Task::CountSeedlings { .. } => 6,
            Task::PrickOut { .. } => 7,
            Task::TakeSitting { .. } => 8,
            Task::CheckCutting => 9,
            Task::TakeCutting { .. } => 10,
        }
    }
}

/// Where a range of days comes from.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Basis {
    /// So many days after a recorded day.
    Days(DayRange),
    /// The forecast of a spike.
    Spike(Forecast),
    /// An age at which other seedlings were read.
    ReadBefore,
    /// An age at which this grower, or common practice, reads siblings.
    UsualAge,
    /// The record itself, without a date.
    Record,
}
