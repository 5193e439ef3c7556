//! What falls on which days, as a picture shows it: rows of words with a common line of days beside them.

use crate::record::Day;
use crate::wording::Name;
use serde::Serialize;

/// Rows of words, each with its days.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct CalendarChart {
    /// The answer.
    pub title: Name,
    /// What belongs to it, a line each.
    pub under: Vec<String>,
    /// The first and the last day shown; days count from any fixed day.
    pub days: (i32, i32),
    /// Days that are marked, with their names, rising.
    pub ticks: Vec<(i32, String)>,
    /// Which end of the days is today.
    pub today: CalendarEnd,
    /// Whether a box to tick stands before each row.
    pub has_boxes: bool,
    /// Rows that belong together.
    pub groups: Vec<CalendarGroup>,
    /// What the marks mean, cautions and what was left out.
    pub notes: Vec<String>,
}

/// An end of the days shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CalendarEnd {
    /// The first.
    #[default]
    First,
    /// The last.
    Last,
}

/// Rows that belong together.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct CalendarGroup {
    /// What they have in common.
    pub heading: String,
    /// What stands behind it; may be empty.
    pub beside: String,
    /// The rows.
    pub rows: Vec<CalendarRow>,
}

impl CalendarGroup {
    /// Puts a row into the group with this heading among `groups`, a new one at their end if there is none; `beside` is what
    /// stands behind the heading.
    pub fn gather(
        groups: &mut Vec<CalendarGroup>,
        heading: &str,
        beside: impl FnOnce() -> String,
        row: CalendarRow,
    ) {
        match groups.iter_mut().find(|group| group.heading == heading) {
            Some(group) => group.rows.push(row),
            None => groups.push(CalendarGroup {
                heading: heading.to_owned(),
                beside: beside(),
                rows: vec![row],
            }),
        }
    }
}

/// One row.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct CalendarRow {
    /// What it is.
    pub what: String,
    /// When, and what is on record of it, a line each.
    pub details: Vec<String>,
    /// The first and the last day it may be; the same for a single day, `None` where no date says. An end that is not
    /// known lies beyond the days shown.
    pub window: Option<(i32, i32)>,
    /// Stands in the place of a bar, such as "no date"; empty for a bar.
    pub instead: String,
}

/// Days below which weeks are marked, and below which months are.
const WEEKS: i32 = 70;
const MONTHLY: i32 = 3 * 365;

const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// Days to mark between two: every seventh, the first of each month with January by its year, or the first of each year.
pub fn calendar_ticks((from, until): (i32, i32)) -> Vec<(i32, String)> {
    if until.saturating_sub(from) < WEEKS {
        let weeks = (from..=until).step_by(7);
        let tick = |day: i32| {
            let (_, month, of_month) = Day(day).ymd()?;
            Some((day, format!("{of_month} {}", MONTHS[month as usize - 1])))
        };
        return weeks.filter_map(tick).collect();
    }
    let (Some((first, ..)), Some((last, ..))) = (Day(from).ymd(), Day(until).ymd()) else {
        return Vec::new();
    };
    let months: &[u32] = match until.saturating_sub(from) < MONTHLY {
        true => &[1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
        false => &[1],
    };
    let begins = (first..=last).flat_map(|year| months.iter().map(move |month| (year, *month)));
    let tick = |(year, month): (i32, u32)| {
        let day = Day::new(year, month, 1)?.0;
        let name = match month {
            1 => year.to_string(),
            _ => MONTHS[month as usize - 1].to_owned(),
        };
        (from..=until).contains(&day).then_some((day, name))
    };
    begins.filter_map(tick).collect()
}
