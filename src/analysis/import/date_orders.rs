//! What the dates of a column show of the order they are written in.

use super::answer::DateOrders;
use super::short_dates::{begins_with_year, short_days, shows_year_first};
use crate::record::{Day, Hemisphere, When, WhenFault};

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
