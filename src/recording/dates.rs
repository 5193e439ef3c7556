//! Dates given with a recording: any the files allow, never one that is still to come.

use super::slip::Slip;
use crate::record::{Day, When};
use crate::registry::Registry;

/// A date as it is written into a page.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Dated {
    /// As typed, or today.
    pub text: String,
    /// The days it can mean.
    pub when: When,
}

impl Dated {
    /// The year of the first day it can mean; this year where that is open.
    pub fn year(&self, today: Day) -> i32 {
        let first = self.when.first.ymd().or(today.ymd());
        first.map_or(0, |(year, ..)| year)
    }

    /// The day on which a plant has to have been here for what is recorded of it: a late entry of before it left is taken.
    pub fn day(&self, today: Day) -> Day {
        match self.when.is_bounded() {
            true => self.when.first.min(today),
            false => today,
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
    let Some(typed) = typed else {
        return Ok(Dated {
            text: today.to_string(),
            when: When::on(today),
        });
    };
    let typed = match typed.trim() {
        "today" => return dated(registry, option, None, today),
        "yesterday" => return dated(registry, option, Some(&Day(today.0 - 1).to_string()), today),
        typed => typed,
    };
    let when = When::read(typed, registry.settings.hemisphere)
        .map_err(|_| Slip::BadDate(option, typed.to_owned()))?;
    if when.first != Day::FIRST && when.first > today {
        return Err(Slip::Future(option, typed.to_owned(), today));
    }
    Ok(Dated {
        text: typed.to_owned(),
        when,
    })
}
