//! Partial dates as growers write them, read as ranges of days.
//!
//! A date is never made more exact than it was: "spring 2021" is every day from the first to the last it can mean, by
//! hemisphere. Seasons are the meteorological ones (three whole months each); early, mid and late cut a year into
//! four months each and a month into days 1–10, 11–20 and the rest. All of it is common practice, and printed where it
//! matters.

use super::Hemisphere;
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
    /// All numbers, and the order could be day first or month first.
    OrderUnclear {
        /// The date with the day first, if there is one.
        day_first: Option<Day>,
        /// The date with the month first, if there is one.
        month_first: Option<Day>,
    },
    /// The second date of a range lies before the first.
    RangeReversed,
}

impl When {
    /// A date nobody knows.
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

    /// Whether every day it can mean lies before every day of the other: the only case in which an order is wrong.
    pub fn surely_before(self, other: When) -> bool {
        self.last < other.first
    }

    /// Least and greatest number of days from `self` to `later`; `None` when an end is open.
    pub fn days_until(self, later: When) -> Option<(i32, i32)> {
        (self.is_bounded() && later.is_bounded())
            .then(|| (later.first.0 - self.last.0, later.last.0 - self.first.0))
    }

    /// Reads a date.
    ///
    /// Accepted: `2021`, `2021-10`, `2021-10-05`, `Oct 2021`, `5 Oct 2021`, `spring 2021`, `winter 2020/21`,
    /// `late 2019`, `early Oct 2021`, `by 2021-10`, `after 2021-10`, `2021-03 to 2021-05`. A bare "winter 2020" (in
    /// the south "summer 2020") may mean two seasons and covers both.
    pub fn read(text: &str, hemisphere: Hemisphere) -> Result<When, WhenFault> {
        if let Some(day) = plain_day(text) {
            return day.map(When::on).ok_or(WhenFault::NoSuchDay);
        }
        let words = text.trim().to_lowercase();
        if let Some((from, to)) = split_range(&words) {
            let (from, to) = (single(from, hemisphere)?, single(to, hemisphere)?);
            if to.last < from.first {
                return Err(WhenFault::RangeReversed);
            }
            return Ok(When {
                first: from.first,
                last: to.last,
            });
        }
        single(&words, hemisphere)
    }
}

/// The commonest form, `2021-10-05`, without detours; `None` for any other text.
fn plain_day(text: &str) -> Option<Option<Day>> {
    let &[a, b, c, d, b'-', e, f, b'-', g, h] = text.as_bytes() else {
        return None;
    };
    let number = |digits: &[u8]| {
        digits.iter().try_fold(0u32, |sum, digit| {
            digit
                .is_ascii_digit()
                .then(|| sum * 10 + u32::from(digit - b'0'))
        })
    };
    let year = number(&[a, b, c, d]).filter(|year| YEARS.contains(year))?;
    Some(Day::new(year as i32, number(&[e, f])?, number(&[g, h])?))
}

/// Years a record may speak of.
const YEARS: std::ops::RangeInclusive<u32> = 1700..=2999;

fn split_range(words: &str) -> Option<(&str, &str)> {
    words
        .split_once(" to ")
        .or_else(|| words.split_once(".."))
        .or_else(|| words.split_once(" – "))
}

fn single(words: &str, hemisphere: Hemisphere) -> Result<When, WhenFault> {
    let words = words.trim();
    for (prefix, open_before) in [("by ", true), ("before ", true), ("after ", false)] {
        if let Some(rest) = words.strip_prefix(prefix) {
            let bound = single(rest, hemisphere)?;
            return Ok(if open_before {
                When {
                    first: Day::FIRST,
                    last: bound.last,
                }
            } else {
                When {
                    first: bound.first,
                    last: Day::LAST,
                }
            });
        }
    }
    for (part, word) in ["early ", "mid ", "late "].into_iter().enumerate() {
        if let Some(rest) = words
            .strip_prefix(word)
            .or_else(|| words.strip_prefix(&word.replace(' ', "-")))
        {
            return third(part as u32, rest.trim());
        }
    }
    let pieces: Vec<&str> = words.split_whitespace().collect();
    if let [season, year] = pieces[..]
        && let Some(first_month) = season_start(season, hemisphere)
    {
        return season_of(first_month, year);
    }
    calendar(words)
}

/// First month of a season, 1–12.
fn season_start(season: &str, hemisphere: Hemisphere) -> Option<u32> {
    let north = match season {
        "spring" => 3,
        "summer" => 6,
        "autumn" | "fall" => 9,
        "winter" => 12,
        _ => return None,
    };
    Some(match hemisphere {
        Hemisphere::North => north,
        Hemisphere::South => (north + 5) % 12 + 1,
    })
}

fn season_of(first_month: u32, year_text: &str) -> Result<When, WhenFault> {
    if first_month != 12 {
        let year = year(year_text).ok_or(WhenFault::NotADate)?;
        return months(year, first_month, year, first_month + 2);
    }
    if let Some((first, second)) = year_text.split_once(['/', '-']) {
        let first = year(first).ok_or(WhenFault::NotADate)?;
        let second_year = first + 1;
        let named = [format!("{:02}", second_year % 100), second_year.to_string()];
        if !named.iter().any(|name| name == second) {
            return Err(WhenFault::NotADate);
        }
        return months(first, 12, second_year, 2);
    }
    let year = year(year_text).ok_or(WhenFault::NotADate)?;
    months(year - 1, 12, year + 1, 2)
}

fn third(part: u32, rest: &str) -> Result<When, WhenFault> {
    if let Some(year) = year(rest) {
        return months(year, part * 4 + 1, year, part * 4 + 4);
    }
    let (year, month) = year_and_month(rest).ok_or(WhenFault::NotADate)?;
    let whole = months(year, month, year, month)?;
    let day = |d: u32| Day(whole.first.0 + d as i32 - 1);
    Ok(match part {
        0 => When {
            first: day(1),
            last: day(10),
        },
        1 => When {
            first: day(11),
            last: day(20),
        },
        _ => When {
            first: day(21),
            last: whole.last,
        },
    })
}

/// Whole months from the first of one to the last of another.
fn months(year: i32, month: u32, last_year: i32, last_month: u32) -> Result<When, WhenFault> {
    let first = Day::new(year, month, 1).ok_or(WhenFault::NoSuchDay)?;
    let (next_year, next_month) = if last_month == 12 {
        (last_year + 1, 1)
    } else {
        (last_year, last_month + 1)
    };
    let after = Day::new(next_year, next_month, 1).ok_or(WhenFault::NoSuchDay)?;
    Ok(When {
        first,
        last: Day(after.0 - 1),
    })
}

fn calendar(words: &str) -> Result<When, WhenFault> {
    if let Some(year) = year(words) {
        return months(year, 1, year, 12);
    }
    if let Some((year, month)) = year_and_month(words) {
        return months(year, month, year, month);
    }
    let pieces: Vec<&str> = words
        .split(['-', '/', '.', ' ', ','])
        .filter(|piece| !piece.is_empty())
        .collect();
    let [a, b, c] = pieces[..] else {
        return Err(WhenFault::NotADate);
    };
    if let (Some(year), Some(month), Some(day)) = (year(a), month(b), small(c)) {
        return Day::new(year, month, day)
            .map(When::on)
            .ok_or(WhenFault::NoSuchDay);
    }
    let Some(year) = year(c) else {
        return Err(WhenFault::NotADate);
    };
    for (month_word, day) in [(b, a), (a, b)] {
        if let (Some(month), Some(day)) = (month_name(month_word), small(day)) {
            return Day::new(year, month, day)
                .map(When::on)
                .ok_or(WhenFault::NoSuchDay);
        }
    }
    match (small(a), small(b)) {
        (Some(x), Some(y)) => Err(WhenFault::OrderUnclear {
            day_first: Day::new(year, y, x),
            month_first: Day::new(year, x, y),
        }),
        _ => Err(WhenFault::NotADate),
    }
}

fn year_and_month(words: &str) -> Option<(i32, u32)> {
    let (a, b) = words.split_once(['-', '/', '.', ' '])?;
    let (a, b) = (a.trim(), b.trim());
    if let (Some(year), Some(month)) = (year(a), month(b)) {
        return Some((year, month));
    }
    Some((year(b)?, month(a)?))
}

fn digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

fn year(text: &str) -> Option<i32> {
    let year: u32 = (text.len() == 4 && digits(text)).then(|| text.parse().ok())??;
    YEARS.contains(&year).then_some(year as i32)
}

fn small(text: &str) -> Option<u32> {
    (text.len() <= 2 && digits(text)).then(|| text.parse().ok())?
}

fn month(text: &str) -> Option<u32> {
    month_name(text).or_else(|| small(text).filter(|month| (1..=12).contains(month)))
}

fn month_name(text: &str) -> Option<u32> {
    const NAMES: [&str; 12] = [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ];
    let text = text.trim_end_matches('.');
    if text == "sept" {
        return Some(9);
    }
    let at = NAMES
        .iter()
        .position(|name| *name == text || (text.len() == 3 && name.starts_with(text)))?;
    Some(at as u32 + 1)
}
