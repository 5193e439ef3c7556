//! Partial dates as growers write them, read as ranges of days.
//!
//! A date is never made more exact than it was: "spring 2021" is every day from the first to the last it can mean, by
//! hemisphere. Seasons are the meteorological ones (three whole months each); early, mid and late cut a year into
//! four months each, a season into its months and a month into days 1–10, 11–20 and the rest. All of it is common
//! practice, and printed where it matters.

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
    /// `late 2019`, `early Oct 2021`, `late spring 2021`, `by 2021-10`, `before 2021-10`, `after 2021-10`,
    /// `2021-03 to 2021-05`, `?` or `unknown`. A bare "winter 2020" (in the south "summer 2020") may mean two seasons
    /// and covers both. By, before and after are taken widely: they include what they name.
    ///
    /// # Errors
    /// If it is none of these, names a day no calendar has, or may be read day first as well as month first.
    pub fn read(text: &str, hemisphere: Hemisphere) -> Result<When, WhenFault> {
        if let Some(day) = plain_day(text) {
            return day.map(When::on).ok_or(WhenFault::NoSuchDay);
        }
        let words: Vec<&str> = text.split_whitespace().collect();
        let words = words.join(" ").to_lowercase();
        if let "?" | "unknown" = words.as_str() {
            return Ok(When::UNKNOWN);
        }
        let Some((from, to)) = split_range(&words) else {
            return bounded(&words, hemisphere);
        };
        let (from, to) = (bounded(from, hemisphere)?, bounded(to, hemisphere)?);
        if to.last < from.first {
            return Err(WhenFault::RangeReversed);
        }
        Ok(When {
            first: from.first,
            last: to.last,
        })
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
        .or_else(|| words.split_once(['–', '—']))
}

/// A date that may be open on one side.
fn bounded(words: &str, hemisphere: Hemisphere) -> Result<When, WhenFault> {
    let words = words.trim();
    if let Some(rest) = after_one_of(words, &["by ", "before "]) {
        let bound = named(rest, hemisphere)?;
        return Ok(When {
            first: Day::FIRST,
            last: bound.last,
        });
    }
    if let Some(rest) = words.strip_prefix("after ") {
        let bound = named(rest, hemisphere)?;
        return Ok(When {
            first: bound.first,
            last: Day::LAST,
        });
    }
    named(words, hemisphere)
}

fn after_one_of<'w>(words: &'w str, prefixes: &[&str]) -> Option<&'w str> {
    prefixes
        .iter()
        .find_map(|prefix| words.strip_prefix(prefix))
}

/// A date with both ends: a third of something, a season, or one of the calendar.
fn named(words: &str, hemisphere: Hemisphere) -> Result<When, WhenFault> {
    for (part, prefixes) in [["early ", "early-"], ["mid ", "mid-"], ["late ", "late-"]]
        .iter()
        .enumerate()
    {
        if let Some(rest) = after_one_of(words, prefixes) {
            return third(part as u32, rest, hemisphere);
        }
    }
    match season(words, hemisphere) {
        Some(season) => {
            let (year, last_year) = season.years?;
            span_of_season(season.first_month, year, last_year, 0, 2)
        }
        None => calendar(words),
    }
}

/// A season: its first month, and the years in which its first and last possible occurrence begin.
struct Season {
    first_month: u32,
    years: Result<(i32, i32), WhenFault>,
}

fn season(words: &str, hemisphere: Hemisphere) -> Option<Season> {
    let (season, year) = words.split_once(' ')?;
    let first_month = season_start(season, hemisphere)?;
    let years = season_years(first_month, year).ok_or(WhenFault::NotADate);
    Some(Season { first_month, years })
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

/// The years in which a season begins: one, or two when it runs over the turn of the year and only one is given.
fn season_years(first_month: u32, text: &str) -> Option<(i32, i32)> {
    if first_month != 12 {
        return year(text).map(|year| (year, year));
    }
    let Some((first, second)) = text.split_once(['/', '-']) else {
        return year(text).map(|year| (year - 1, year));
    };
    let first = year(first)?;
    let next = (first + 1).to_string();
    (second == next || second == &next[2..]).then_some((first, first))
}

/// From a month of a season's first possible occurrence to a month of its last, months counted from 0.
fn span_of_season(
    first_month: u32,
    year: i32,
    last_year: i32,
    from: u32,
    to: u32,
) -> Result<When, WhenFault> {
    let month = |year: i32, at: u32| {
        let month = first_month + at;
        (year + i32::from(month > 12), (month - 1) % 12 + 1)
    };
    let ((year, from), (last_year, to)) = (month(year, from), month(last_year, to));
    months(year, from, last_year, to)
}

/// Early, mid or late (0, 1, 2) in a year, a season or a month.
fn third(part: u32, rest: &str, hemisphere: Hemisphere) -> Result<When, WhenFault> {
    if let Some(year) = year(rest) {
        return months(year, part * 4 + 1, year, part * 4 + 4);
    }
    if let Some(season) = season(rest, hemisphere) {
        let (year, last_year) = season.years?;
        return span_of_season(season.first_month, year, last_year, part, part);
    }
    let (year, month) = year_and_month(rest).ok_or(WhenFault::NotADate)?;
    let whole = months(year, month, year, month)?;
    let day = |d: i32| Day(whole.first.0 + d - 1);
    let (first, last) = match part {
        0 => (day(1), day(10)),
        1 => (day(11), day(20)),
        _ => (day(21), whole.last),
    };
    Ok(When { first, last })
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
    match pieces[..] {
        [a, b, c] => whole_date(a, b, c),
        [a, b] if is_year_and_number(a, b) || is_year_and_number(b, a) => Err(WhenFault::NoSuchDay),
        _ => Err(WhenFault::NotADate),
    }
}

/// Whether this is a year and what would be a month if there were more than twelve.
fn is_year_and_number(a: &str, b: &str) -> bool {
    year(a).is_some() && small(b).is_some()
}

/// Year, month and day in an order that leaves no doubt.
fn whole_date(a: &str, b: &str, c: &str) -> Result<When, WhenFault> {
    let on = |day: Option<Day>| day.map(When::on).ok_or(WhenFault::NoSuchDay);
    if let Some(year) = year(a) {
        return match (month_number(b), day_of_month(c)) {
            (Some(month), Some(day)) => on(Day::new(year, month, day)),
            _ => Err(WhenFault::NotADate),
        };
    }
    let year = year(c).ok_or(WhenFault::NotADate)?;
    for (month_word, day) in [(b, a), (a, b)] {
        if let (Some(month), Some(day)) = (month_name(month_word), day_of_month(day)) {
            return on(Day::new(year, month, day));
        }
    }
    let (Some(x), Some(y)) = (small(a), small(b)) else {
        return Err(WhenFault::NotADate);
    };
    match (Day::new(year, y, x), Day::new(year, x, y)) {
        (Some(day_first), Some(month_first)) if day_first != month_first => {
            Err(WhenFault::OrderUnclear {
                day_first,
                month_first,
            })
        }
        // Only one order gives a day, or both give the same.
        (day_first, month_first) => on(day_first.or(month_first)),
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

/// A number of one or two digits.
fn small(text: &str) -> Option<u32> {
    (text.len() <= 2 && digits(text)).then(|| text.parse().ok())?
}

/// The day of a month, also as `5th`.
fn day_of_month(text: &str) -> Option<u32> {
    let bare = ["st", "nd", "rd", "th"]
        .iter()
        .find_map(|ending| text.strip_suffix(ending));
    small(bare.unwrap_or(text))
}

/// A month by name or by number, which need not be one of the twelve.
fn month_number(text: &str) -> Option<u32> {
    month_name(text).or_else(|| small(text))
}

fn month(text: &str) -> Option<u32> {
    month_number(text).filter(|month| (1..=12).contains(month))
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
