//! Dates of the calendar: years, months and days in every order that leaves no doubt.

use super::{Day, When, WhenFault};

/// The commonest form, `2021-10-05`, without detours; `None` for any other text.
pub(super) fn plain_day(text: &str) -> Option<Option<Day>> {
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

/// Whole months from the first of one to the last of another.
pub(super) fn months(
    year: i32,
    month: u32,
    last_year: i32,
    last_month: u32,
) -> Result<When, WhenFault> {
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

pub(super) fn calendar(words: &str) -> Result<When, WhenFault> {
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

pub(super) fn year_and_month(words: &str) -> Option<(i32, u32)> {
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

pub(super) fn year(text: &str) -> Option<i32> {
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
    const NAMES: &str =
        "january february march april may june july august september october november december";
    // Nearly every date is of digits, and some commands read those of a million plants.
    if text.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let text = text.trim_end_matches('.');
    if text == "sept" {
        return Some(9);
    }
    let at = NAMES
        .split(' ')
        .position(|name| name == text || (text.len() == 3 && name.starts_with(text)))?;
    Some(at as u32 + 1)
}
