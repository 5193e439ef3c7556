//! Years of two figures in a date that is not all numbers: `May '20`, `spring 20`, and `May 20`, which may be a day.

use super::figures::is_number;
use crate::record::{Day, Hemisphere, When};

/// A month and a number, read.
pub(super) struct DayOrYear {
    /// The day it may be, of a year that is not said.
    pub day: Option<String>,
    /// The month of a year it may be.
    pub month: Option<String>,
}

/// A cell with every year behind an apostrophe in four figures: `May '20`, `May’20`.
pub(super) fn without_apostrophes(cell: &str, today: Day) -> String {
    let (mut out, mut rest) = (String::with_capacity(cell.len()), cell);
    while let Some(at) = rest.find(['\'', '’']) {
        let mark = rest[at..].chars().next().map_or(0, char::len_utf8);
        let behind = &rest[at + mark..];
        let figures = behind.bytes().take_while(u8::is_ascii_digit).count();
        let year = behind.get(..2).filter(|_| figures == 2);
        let year = year.and_then(|year| whole_year(year.parse().ok()?, today));
        out.push_str(&rest[..at]);
        let Some(year) = year.filter(|_| !out.ends_with(|c: char| c.is_ascii_digit())) else {
            out.push_str(&rest[at..at + mark]);
            rest = behind;
            continue;
        };
        if out.ends_with(char::is_alphabetic) {
            out.push(' ');
        }
        out.push_str(&year.to_string());
        rest = &behind[2..];
    }
    out + rest
}

/// A season, or a part of a year, season or month, with its year in four figures: `spring 20`, `winter 20/21`,
/// `early May 20`, where the number can be no day. `None` for anything else.
pub(super) fn season(cell: &str, today: Day) -> Option<String> {
    let lower = cell.to_lowercase();
    let words: Vec<&str> = lower
        .split_whitespace()
        .filter(|word| *word != "of")
        .collect();
    let (year, named) = words.split_last()?;
    let (short, second) = match year.split_once(['/', '-']) {
        Some((first, second)) => (first, Some(second)),
        None => (*year, None),
    };
    let seasons = ["spring", "summer", "autumn", "fall", "winter"];
    let parts = ["early", "mid", "late"];
    let is_named = match named {
        [one] => seasons.contains(one) || parts.contains(one),
        [part, of] => parts.contains(part) && (seasons.contains(of) || is_month(of)),
        _ => false,
    };
    let year = match two_figures(short) {
        Some(year) => whole_year(year, today)?,
        // Written whole, only `of` is not understood elsewhere.
        None => short
            .parse()
            .ok()
            .filter(|_| short.len() == 4 && lower.contains(" of "))?,
    };
    if !is_named {
        return None;
    }
    let second = second.map_or(String::new(), |second| format!("/{second}"));
    Some(format!("{} {year}{second}", named.join(" ")))
}

/// A month and a number: `May 20` and `20 May` are a day of a year that is not said, or a month. A number that can be no day
/// is a year. `None` for anything else.
pub(super) fn day_or_year(cell: &str, today: Day) -> Option<DayOrYear> {
    let marks = |c: char| c.is_whitespace() || "-/.,".contains(c);
    let pieces: Vec<&str> = cell
        .split(marks)
        .filter(|piece| !piece.is_empty())
        .collect();
    let (month, number) = match pieces[..] {
        [month, number] | [number, month] if is_month(month) => (month, number),
        _ => return None,
    };
    let endings = ["st", "nd", "rd", "th"];
    let bare = endings.iter().find_map(|of| number.strip_suffix(of));
    let figures = bare.unwrap_or(number);
    let day: u32 = figures.parse().ok().filter(|_| figures.len() <= 2)?;
    let year = two_figures(number).and_then(|year| whole_year(year, today));
    let may_be_day = (1..=31).contains(&day);
    Some(DayOrYear {
        day: may_be_day.then(|| format!("{day} {month}")),
        month: year.map(|year| format!("{month} {year}")),
    })
}

fn two_figures(word: &str) -> Option<i32> {
    let figures = word.len() == 2 && is_number(word);
    figures.then(|| word.parse().ok())?
}

fn is_month(word: &str) -> bool {
    let worded = word.chars().all(|c| c.is_alphabetic() || c == '.');
    worded && When::read(&format!("1 {word} 2020"), Hemisphere::North).is_ok()
}

/// The year of two figures: this century's up to today's year, else the last one's.
pub(super) fn whole_year(year: i32, today: Day) -> Option<i32> {
    let (this, ..) = today.ymd()?;
    let century = this - this.rem_euclid(100);
    Some(match year <= this.rem_euclid(100) {
        true => century + year,
        false => century - 100 + year,
    })
}
