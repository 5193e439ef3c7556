//! Dates in words: ranges, open ends, seasons, early, mid and late. `when_calendar` reads dates of the calendar.

use super::when_calendar::{calendar, months, plain_day, year, year_and_month};
use super::{Day, Hemisphere, When, WhenFault};

impl When {
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
        read(text, hemisphere)
    }
}

fn read(text: &str, hemisphere: Hemisphere) -> Result<When, WhenFault> {
    if let Some(day) = plain_day(text) {
        return day.map(When::on).ok_or(WhenFault::NoSuchDay);
    }
    // Digits and hyphens hold no phrase.
    if text.bytes().all(|b| b.is_ascii_digit() || b == b'-') {
        return calendar(text);
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
