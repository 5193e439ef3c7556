//! Dates of three numbers: `24-07-01` may begin with its day, its month or its year, and the other dates of its column may show
//! which.

use super::answer::DateOrders;
use super::figures::numbers;
use super::short_years::whole_year;
use crate::record::{Day, Hemisphere, When, WhenFault};
use crate::wording::each_once;

/// Marks between the numbers of a date.
const MARKS: [char; 3] = ['-', '/', '.'];

/// The days that a date in numbers alone may be, by what it begins with.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Days {
    pub day_first: Option<Day>,
    pub month_first: Option<Day>,
    pub year_first: Option<Day>,
}

impl Days {
    /// All of them, the earliest first, each once.
    pub fn each(self) -> Vec<Day> {
        let mut all: Vec<Day> = self.written().collect();
        all.sort_unstable();
        all.dedup();
        all
    }

    /// All of them in words, in the order of the fields, each once.
    pub fn words(self) -> Vec<String> {
        each_once(self.written().map(|day| day.to_string()))
    }

    fn written(self) -> impl Iterator<Item = Day> {
        let all = [self.day_first, self.month_first, self.year_first];
        all.into_iter().flatten()
    }
}

/// The days of a short date that may begin with its year; `None` for every other cell. With hyphens any such date may,
/// because a date written so in full begins with its year; with other marks only where its column shows it.
pub(super) fn short_days(cell: &str, today: Day, years_first: bool) -> Option<Days> {
    let [first, second, third] = three_numbers(cell)?;
    let may_be = years_first || !cell.contains(['/', '.']);
    let of = |year: &str, month: &str, day: &str| {
        let year = whole_year(year.parse().ok()?, today)?;
        let day = Day::new(year, month.parse().ok()?, day.parse().ok()?)?;
        (day <= today).then_some(day)
    };
    let year_first = of(first, second, third).filter(|day| is_recent(*day, today));
    Some(Days {
        day_first: of(third, second, first),
        month_first: of(third, first, second),
        year_first: Some(year_first.filter(|_| may_be)?),
    })
}

/// Whether a cell shows that the dates of its column begin with the year: `2024/06/01` does, and a short date that would be
/// of the last century in any other order.
fn shows_year_first(cell: &str, today: Day) -> bool {
    let has_mark = cell.contains(['/', '.']);
    let is_short = || {
        let days = short_days(cell, today, true)?;
        let mut others = days.day_first.into_iter().chain(days.month_first);
        Some(!others.any(|day| is_recent(day, today)))
    };
    has_mark && (begins_with_year(cell) || is_short().unwrap_or(false))
}

/// Whether a cell is three numbers, of which the first is a year in full.
fn begins_with_year(cell: &str) -> bool {
    let numbers = numbers(cell.trim(), &MARKS);
    numbers.is_some_and(|of| of.len() == 3 && of[0].len() == 4)
}

fn three_numbers(cell: &str) -> Option<[&str; 3]> {
    let numbers: [&str; 3] = numbers(cell.trim(), &MARKS)?.try_into().ok()?;
    numbers.iter().all(|of| of.len() == 2).then_some(numbers)
}

/// Whether a day is of this century.
fn is_recent(day: Day, today: Day) -> bool {
    let century = |day: Day| day.ymd().map(|(year, ..)| year.div_euclid(100));
    century(day) == century(today)
}

/// Counts the dates of a column by what they can begin with.
pub(super) fn orders(cells: &[&str], hemisphere: Hemisphere, today: Day) -> DateOrders {
    let mut orders = DateOrders {
        years_first: cells.iter().any(|cell| shows_year_first(cell, today)),
        ..DateOrders::default()
    };
    for cell in cells {
        if let Some(days) = short_days(cell, today, orders.years_first) {
            let several = usize::from(days.each().len() > 1);
            orders.either += several;
            orders.may_begin_with_year += several;
        } else if begins_with_year(cell) {
            orders.year_first += 1;
        } else {
            count(&mut orders, cell, hemisphere);
        }
    }
    orders
}

/// Counts a date that begins with its day or its month.
fn count(orders: &mut DateOrders, cell: &str, hemisphere: Hemisphere) {
    let pieces: Vec<&str> = cell.split(['/', '.', '-']).collect();
    let &[first, second, year] = &pieces[..] else {
        return;
    };
    let (Ok(first), Ok(second)) = (first.trim().parse::<u32>(), second.trim().parse::<u32>())
    else {
        return;
    };
    let year = match year.len() {
        2 => format!("20{year}"),
        _ => year.to_owned(),
    };
    match When::read(&format!("{first}/{second}/{year}"), hemisphere) {
        Err(WhenFault::OrderUnclear { .. }) => orders.either += 1,
        Ok(_) if first > 12 && first <= 31 => orders.day_first += 1,
        Ok(_) if second > 12 => orders.month_first += 1,
        _ => {}
    }
}
