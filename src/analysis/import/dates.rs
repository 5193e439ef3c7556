//! What a cell says of a day: a date of the files, one of several days, or nothing that can be read.

use super::figures::is_number;
use super::short_dates::{Days, short_days};
use super::short_years::{day_or_year, season, whole_year, without_apostrophes};
use super::word_lists::is_in;
use crate::record::{Day, Hemisphere, When, WhenFault};

/// What a cell of a column of dates says.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) enum DateRead {
    /// Nothing, or that it is not known.
    Blank,
    /// A date as the files write it.
    Known(String),
    /// A number that a spreadsheet counts days by; the day.
    Counted(String),
    /// One of several days.
    SeveralDays(Days),
    /// A day of a year that is not said; with the month of a year that it may be as well.
    NoYear(String, Option<String>),
    /// A day that is still to come.
    ToCome,
    /// No date.
    Unread,
}

/// Words for nothing.
const NOTHING: &str = "- | – | — | ? | n/a | na | none | unknown | not known";

/// Whether a cell says nothing; `???` says no more than one mark of it.
pub(super) fn is_blank(cell: &str) -> bool {
    let cell = cell.trim();
    cell.is_empty() || is_in(NOTHING, &cell.to_lowercase()) || is_question(cell)
}

/// Whether a cell holds question marks only.
pub(super) fn is_question(cell: &str) -> bool {
    !cell.is_empty() && cell.bytes().all(|byte| byte == b'?')
}

/// The days from the day before the first that a spreadsheet counts to the first of the year 1 here: day 1 is 1900-01-01,
/// and a 29 February 1900 is counted that never was, so that from March 1900 on the count begins on 1899-12-30 (ISO/IEC
/// 29500-1, 18.17.4.1, from memory).
const COUNTED_FROM: (i32, u32, u32) = (1899, 12, 30);
/// Counted days from 1954 to 2064: a plain number of this size in a column of dates is hardly anything else.
const COUNTED: std::ops::RangeInclusive<i32> = 20_000..=60_000;

/// Reads a cell; two figures of a year are those up to today's of this century, else of the last.
pub(super) fn date(cell: &str, hemisphere: Hemisphere, today: Day) -> DateRead {
    date_in(cell, hemisphere, today, false)
}

/// The same of a cell in a column; `years_first` says whether the column shows that its dates may begin with the year.
pub(super) fn date_in(
    cell: &str,
    hemisphere: Hemisphere,
    today: Day,
    years_first: bool,
) -> DateRead {
    if is_blank(cell) {
        return DateRead::Blank;
    }
    let cell = without_time(cell.trim());
    if let Some(day) = counted(cell) {
        return match day > today {
            true => DateRead::Unread,
            false => DateRead::Counted(day.to_string()),
        };
    }
    if let Some(days) = short_days(cell, today, years_first) {
        return match days.each()[..] {
            [day] => DateRead::Known(day.to_string()),
            _ => DateRead::SeveralDays(days),
        };
    }
    let cell = &without_end(&without_apostrophes(cell, today));
    if let Some(read) = day_or_year(cell, today) {
        return match (read.day, read.month) {
            (Some(day), month) => DateRead::NoYear(day, month),
            (None, Some(month)) => DateRead::Known(month),
            (None, None) => DateRead::Unread,
        };
    }
    let whole = season(cell, today).or_else(|| with_whole_year(cell, today));
    let text = whole.unwrap_or_else(|| cell.to_owned());
    if let Some(week) = week_of(&text, hemisphere, today) {
        return week;
    }
    match When::read(&text, hemisphere) {
        Ok(when) if when.first != Day::FIRST && when.first > today => DateRead::ToCome,
        Ok(_) if is_no_day(&text, hemisphere) => DateRead::Unread,
        Ok(_) => DateRead::Known(text),
        Err(WhenFault::OrderUnclear {
            day_first,
            month_first,
        }) => one_of(day_first, month_first, today),
        Err(_) => match span(cell, hemisphere, today) {
            Some((_, when)) if when.first > today => DateRead::ToCome,
            Some((text, _)) => DateRead::Known(text),
            None => DateRead::Unread,
        },
    }
}

/// `10-14 April 2022`, `Aug-Sept 2022`: two dates, of which the first leaves out what the second says, as the files write
/// them. `None` for everything that could be read otherwise.
fn span(cell: &str, hemisphere: Hemisphere, today: Day) -> Option<(String, When)> {
    let cell = cell.replace(['–', '—'], "-").replace(" to ", "-");
    let (from, to) = cell.split_once('-').filter(|(_, to)| !to.contains('-'))?;
    let to = with_whole_year(to.trim(), today).unwrap_or_else(|| to.to_owned());
    let to: Vec<&str> = to.split_whitespace().collect();
    let from = from.split_whitespace();
    let left_out = to.iter().skip(from.clone().count()).copied();
    let from: Vec<&str> = from.chain(left_out).collect();
    let has_year = |words: &[&str]| {
        let year = words.last();
        year.is_some_and(|year| year.len() == 4 && is_number(year))
    };
    if from.len() != to.len() || !has_year(&from) || !has_year(&to) {
        return None;
    }
    let text = format!("{} to {}", from.join(" "), to.join(" "));
    let when = When::read(&text, hemisphere).ok()?;
    Some((text, when))
}

/// What growers write for a date that is not whole, as the files write it: `2020-05-xx`, `2020-05-??`, `2020-xx-xx`.
fn without_end(cell: &str) -> String {
    let mut known = cell;
    let unknown = ["-xx", "-XX", "-??", "-00", "/xx", "/??"];
    while let Some(mark) = unknown.iter().find(|mark| known.ends_with(**mark)) {
        known = &known[..known.len() - mark.len()];
    }
    // Only a date that begins with its year is still one without its end.
    let begins_with_year = known.get(..4).is_some_and(is_number);
    if begins_with_year { known } else { cell }.to_owned()
}

/// `w/c 4 May 2020`, `week of 2020-05-04`: seven days from that day on. `None` where the cell speaks of no week.
fn week_of(text: &str, hemisphere: Hemisphere, today: Day) -> Option<DateRead> {
    let lower = text.to_lowercase();
    let begins = [
        "w/c ",
        "wc ",
        "week commencing ",
        "week beginning ",
        "week of ",
    ];
    let word = begins.iter().find(|word| lower.starts_with(**word))?;
    let day = &lower[word.len()..];
    let day = with_whole_year(day, today).unwrap_or_else(|| day.to_owned());
    let on = When::read(&day, hemisphere)
        .ok()
        .filter(|on| on.first == on.last);
    Some(match on {
        Some(on) if on.first > today => DateRead::ToCome,
        Some(on) => DateRead::Known(format!("{} to {}", on.first, Day(on.first.0 + 6))),
        None => DateRead::Unread,
    })
}

/// A day still to come is no reading of a date that was written down.
fn one_of(day_first: Day, month_first: Day, today: Day) -> DateRead {
    match (day_first > today, month_first > today) {
        (false, false) => DateRead::SeveralDays(Days {
            day_first: Some(day_first),
            month_first: Some(month_first),
            year_first: None,
        }),
        (false, true) => DateRead::Known(day_first.to_string()),
        (true, false) => DateRead::Known(month_first.to_string()),
        (true, true) => DateRead::ToCome,
    }
}

/// `2021-03-04 00:00:00` and `2021-03-04T00:00` without their time.
fn without_time(cell: &str) -> &str {
    let day = cell
        .get(..10)
        .filter(|day| day.as_bytes()[4] == b'-' && day.as_bytes()[7] == b'-');
    match (day, cell.get(10..)) {
        (Some(day), Some(rest)) if rest.starts_with(['T', ' ']) && rest.contains(':') => day,
        _ => cell,
    }
}

/// Whether a cell is one of the first days that spreadsheets count: a time, or a 0 or 1, that was formatted as a date.
pub(super) fn is_no_day(cell: &str, hemisphere: Hemisphere) -> bool {
    let (year, month, day) = COUNTED_FROM;
    let from = Day::new(year, month, day);
    let when = When::read(cell, hemisphere).ok();
    let both = when.zip(from);
    both.is_some_and(|(when, from)| when.first >= from && when.last <= Day(from.0 + 2))
}

fn counted(cell: &str) -> Option<Day> {
    let number: f64 = cell.parse().ok()?;
    let plain = cell
        .bytes()
        .all(|byte| byte.is_ascii_digit() || byte == b'.');
    let days = number.floor() as i32;
    let (year, month, day) = COUNTED_FROM;
    let from = Day::new(year, month, day)?;
    (plain && COUNTED.contains(&days)).then(|| Day(from.0 + days))
}

/// `03/04/21` and `5 Oct 21` with four figures of the year; `None` where the year has more or fewer than two.
fn with_whole_year(cell: &str, today: Day) -> Option<String> {
    let marks = ['/', '.', '-', ' '];
    let pieces: Vec<&str> = cell
        .split(marks)
        .filter(|piece| !piece.is_empty())
        .collect();
    let &[first, second, year] = &pieces[..] else {
        return None;
    };
    let short = |piece: &str| piece.len() <= 2 && is_number(piece);
    let worded = |piece: &str| piece.chars().all(char::is_alphabetic);
    let in_order = short(first) && (short(second) || worded(second));
    if year.len() != 2 || !short(year) || !(in_order || worded(first) && short(second)) {
        return None;
    }
    let year = whole_year(year.parse().ok()?, today)?;
    let mark = if short(second) && short(first) {
        "/"
    } else {
        " "
    };
    Some([first, second, &year.to_string()].join(mark))
}
