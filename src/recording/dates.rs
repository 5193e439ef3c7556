//! Dates given with a recording: any the files allow, never one that is still to come.

use super::slip::Slip;
use super::voice::{field, words};
use crate::record::{Day, Hemisphere, When};
use crate::registry::Registry;
use crate::text::{one_line, visible};

/// A date as it is written into a page.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Dated {
    /// As typed, or today.
    pub text: String,
    /// The days it can mean.
    pub when: When,
    /// The day that counts as today.
    pub today: Day,
}

impl Dated {
    /// The year of the first day it can mean; this year where that is open.
    pub fn year(&self) -> i32 {
        let first = self.when.first.ymd().or(self.today.ymd());
        first.map_or(0, |(year, ..)| year)
    }

    /// The day on which a plant has to have been here for what is recorded of it: a late entry of before it left is taken.
    pub fn day(&self) -> Day {
        match self.when.is_bounded() {
            true => self.when.first.min(self.today),
            false => self.today,
        }
    }
}

/// The date given with an option, or today.
///
/// # Errors
/// If it cannot be read, or no day of it has come yet.
pub fn dated(
    registry: &Registry,
    option: &'static str,
    typed: Option<&str>,
    today: Day,
) -> Result<Dated, Slip> {
    let day = |day: Day| Dated {
        text: day.to_string(),
        when: When::on(day),
        today,
    };
    let typed = typed.map_or("today", str::trim);
    if let Some(by_word) = by_word(typed, today) {
        return Ok(day(by_word));
    }
    let when = When::read(typed, registry.settings.hemisphere);
    let when = when.map_err(|_| unreadable(option, typed))?;
    if when.first != Day::FIRST && when.first > today {
        let typed = one_line(typed);
        return Err(Slip::Refused(words!(
            "{} {typed} is in the future: today is {today}\nrecord it when it has happened";
            field(option)
        )));
    }
    Ok(Dated {
        text: typed.to_owned(),
        when,
        today,
    })
}

/// The days that a date means which is asked about, also of one to come; `None` where it cannot be read.
pub fn asked(typed: &str, hemisphere: Hemisphere, today: Day) -> Option<When> {
    let typed = typed.trim();
    let by_word = by_word(typed, today).map(When::on);
    by_word.or_else(|| When::read(typed, hemisphere).ok())
}

/// The day of `today` and `yesterday`.
fn by_word(typed: &str, today: Day) -> Option<Day> {
    match typed {
        "today" => Some(today),
        "yesterday" => Some(Day(today.0 - 1)),
        _ => None,
    }
}

/// A date as typed, those words as the day that they mean.
pub fn spelled_out(typed: &str, today: Day) -> String {
    match by_word(typed.trim(), today) {
        Some(day) => day.to_string(),
        None => typed.to_owned(),
    }
}

/// The refusal of what is no date.
fn unreadable(option: &'static str, typed: &str) -> Slip {
    let help = match typed.matches('/').count() {
        2 => "write the month as a word, or the year first: 30 Mar 2024, 2024-03-30",
        _ => "write 2024-03-30, 30 Mar 2024, 2024-03, spring 2024, by 2020 or 2018 to 2020",
    };
    let typed = visible(typed);
    Slip::Refused(words!("{} `{typed}` is not a date\n{help}"; field(option)))
}
