//! Partial dates as growers write them, read as ranges of days.
//!
//! A date is never made more exact than it was: "spring 2021" is every day from the first to the last it can mean, by
//! hemisphere. Seasons are the meteorological ones (three whole months each); early, mid and late cut a year into
//! four months each, a season into its months and a month into days 1–10, 11–20 and the rest. All of it is common
//! practice, and printed where it matters.

use chrono::{Datelike, NaiveDate};

/// A day, counted from the first day of the year 1.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Day(pub i32);

impl Day {
    /// Earlier than any date.
    pub const FIRST: Day = Day(i32::MIN);
    /// Later than any date.
    pub const LAST: Day = Day(i32::MAX);

    /// A day of the calendar; `None` if there is no such day.
    pub fn new(year: i32, month: u32, day: u32) -> Option<Day> {
        NaiveDate::from_ymd_opt(year, month, day).map(|date| Day(date.num_days_from_ce()))
    }

    /// Year, month, day of the month.
    pub fn ymd(self) -> Option<(i32, u32, u32)> {
        let date = NaiveDate::from_num_days_from_ce_opt(self.0)?;
        Some((date.year(), date.month(), date.day()))
    }
}

impl std::fmt::Display for Day {
    fn fmt(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
        match self.ymd() {
            Some((year, month, day)) => write!(f, "{year:04}-{month:02}-{day:02}"),
            None => f.write_str("?"),
        }
    }
}

/// A date as a range of days, both ends included.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct When {
    /// The first day it can mean; [`Day::FIRST`] when open.
    pub first: Day,
    /// The last day it can mean; [`Day::LAST`] when open.
    pub last: Day,
}

/// Why a date could not be read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum WhenFault {
    /// Nothing like a date.
    NotADate,
    /// A day that is in no calendar, such as 2021-02-30.
    NoSuchDay,
    /// All numbers, and both orders give a day.
    OrderUnclear {
        /// The date with the day first.
        day_first: Day,
        /// The date with the month first.
        month_first: Day,
    },
    /// The second date of a range lies before the first.
    RangeReversed,
}

impl When {
    /// A date that is not known.
    pub const UNKNOWN: When = When {
        first: Day::FIRST,
        last: Day::LAST,
    };

    /// Exactly one day.
    pub fn on(day: Day) -> When {
        When {
            first: day,
            last: day,
        }
    }

    /// Whether both ends are known.
    pub fn is_bounded(self) -> bool {
        self.first != Day::FIRST && self.last != Day::LAST
    }

    /// Whether it is one day exactly.
    pub fn is_exact(self) -> bool {
        self.first == self.last
    }

    /// The date of something that has happened by a day: its last day is no later. An open end stays open.
    pub fn happened_by(self, today: Day) -> When {
        match self.last == Day::LAST {
            true => self,
            false => When {
                last: self.last.min(today),
                ..self
            },
        }
    }

    /// Whether every day it can mean lies before every day of the other: the only case in which an order is wrong.
    pub fn surely_before(self, other: When) -> bool {
        self.last < other.first
    }

    /// Least and greatest number of days from `self` to `later`; `None` when an end is open.
    pub fn days_until(self, later: When) -> Option<(i32, i32)> {
        (self.is_bounded() && later.is_bounded())
            .then(|| (later.first.0 - self.last.0, later.last.0 - self.first.0))
    }
}
