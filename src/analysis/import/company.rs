//! What headings mean beside others.

use super::answer::{ColumnTaken, TakenBy};
use super::facts::CodesOf;
use crate::record::Holds;

/// What a heading means beside others: in a table of parents the cross is what the row is about, and in one that holds only
/// codes and readings a bare date is that of the readings.
pub(super) fn by_company(columns: &mut [ColumnTaken]) {
    let any =
        |columns: &[ColumnTaken], all: &[Holds]| columns.iter().any(|of| all.contains(&of.holds));
    let parents = [
        Holds::SeedParent,
        Holds::PollenParent,
        Holds::Parents,
        Holds::Pollinated,
    ];
    let mut becomes = Vec::new();
    if any(columns, &parents) && !any(columns, &[Holds::Code]) {
        becomes.push((Holds::Cross, Holds::Code));
    }
    let of_plants = [Holds::Label, Holds::Supplier, Holds::Measured];
    if any(columns, &[Holds::Reading]) && !any(columns, &of_plants) {
        becomes.push((Holds::Acquired, Holds::Measured));
    }
    // A bare date is that of what else the row is about.
    let bare = |column: &&mut ColumnTaken| {
        let words = column.heading.trim().to_lowercase();
        column.holds == Holds::Acquired && words == "date"
    };
    let gone = [Holds::Sold, Holds::Given, Holds::Died, Holds::Gone];
    let date_of = if any(columns, &[Holds::Supplier]) {
        None
    } else if any(columns, &parents[..3]) && !any(columns, &[Holds::Pollinated, Holds::Label]) {
        Some(Holds::Pollinated)
    } else if any(columns, &[Holds::To]) && !any(columns, &gone) {
        let to = columns.iter().find(|of| of.holds == Holds::To);
        let given = to.is_some_and(|of| of.heading.to_lowercase().contains("given"));
        // What became of a plant is said beside it: it may be dead.
        Some(match (any(columns, &[Holds::Status]), given) {
            (true, _) => Holds::Gone,
            (false, true) => Holds::Given,
            (false, false) => Holds::Sold,
        })
    } else {
        None
    };
    if let (Some(holds), Some(column)) = (date_of, columns.iter_mut().find(bare)) {
        column.holds = holds;
    }
    of_seed(columns);
    for (from, to) in becomes {
        if let Some(column) = columns.iter_mut().find(|of| of.is_taken_for(from)) {
            column.holds = to;
        }
    }
}

/// `Qty` and `Left` are of seed only beside what is surely of seed, and a count has a day only where there is one; else
/// such a column is not read.
fn of_seed(columns: &mut [ColumnTaken]) {
    let is_bare = |of: &ColumnTaken| {
        let words = of.heading.trim().to_lowercase();
        of.by == TakenBy::Heading && ["qty", "left", "remaining"].contains(&words.as_str())
    };
    let of_seed = [
        Holds::Pods,
        Holds::Harvested,
        Holds::Sown,
        Holds::Seeds,
        Holds::Left,
        Holds::Germinated,
    ];
    let sure = |of: &&ColumnTaken| !is_bare(of);
    let is_of_seed =
        |of: &ColumnTaken| of_seed.contains(&of.holds) || of.codes_of() == CodesOf::Packets;
    let beside_seed = columns.iter().filter(sure).any(is_of_seed);
    let mut counted = columns.iter().filter(sure);
    let is_counted = counted.any(|of| of.holds == Holds::Seeds);
    let sown = columns.iter().filter(|of| of.holds == Holds::Sown).count();
    let came_up = columns.iter().any(|of| of.holds == Holds::Germinated);
    for column in columns {
        let not_read = match column.holds {
            Holds::Seeds => is_bare(column) && (!beside_seed || is_counted),
            Holds::Left => is_bare(column) && !beside_seed,
            // Beside the day of sowing it heads the codes of sowings.
            Holds::Sown => sown > 1 && column.heading.trim().eq_ignore_ascii_case("sowing"),
            Holds::Counted => column.by == TakenBy::Heading && !came_up,
            _ => false,
        };
        if not_read {
            (column.holds, column.by) = (Holds::NotRead, TakenBy::Nothing);
        }
    }
}
