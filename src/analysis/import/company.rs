//! What headings mean beside others.

use super::answer::{ColumnTaken, TakenBy};
use super::dates::is_blank;
use super::facts::CodesOf;
use super::open_ends::names_receiver;
use crate::record::Holds;
use crate::text::GridRow;

/// The parents of a plant or cross.
const PARENTS: [Holds; 3] = [Holds::SeedParent, Holds::PollenParent, Holds::Parents];
/// Days on which a plant went.
const GONE: [Holds; 4] = [Holds::Sold, Holds::Given, Holds::Died, Holds::Gone];

/// The day before that of sowing, and the day behind it.
const POLLINATED_OR_COUNTED: &[Holds] = &[Holds::Pollinated, Holds::Counted];

/// What a heading means beside others: in a table of parents the cross is what the row is about, and in one that holds only
/// codes and readings a bare date is that of the readings.
pub(super) fn by_company(columns: &mut [ColumnTaken], below: &[&GridRow]) {
    let is_of_crosses = (any(columns, &PARENTS) || any(columns, &[Holds::Pollinated]))
        && !any(columns, &[Holds::Code]);
    let of_plants = [Holds::Label, Holds::Supplier, Holds::Measured];
    let is_of_readings = any(columns, &[Holds::Reading]) && !any(columns, &of_plants);
    // A bare date is that of what else the row is about.
    let is_bare = |column: &ColumnTaken| {
        let words = column.heading.trim().to_lowercase();
        let is_chosen = column.by == TakenBy::Choice;
        column.holds == Holds::Acquired && words == "date" && !is_chosen
    };
    if let Some(place) = columns.iter().position(is_bare) {
        match date_of(columns, place, below) {
            [] => {}
            [holds] => columns[place].holds = *holds,
            may_be => (columns[place].holds, columns[place].may_be) = (Holds::NotRead, may_be),
        }
    }
    of_seed(columns);
    let becomes = [
        (is_of_crosses, Holds::Cross, Holds::Code),
        (is_of_readings, Holds::Acquired, Holds::Measured),
    ];
    for (_, from, to) in becomes.into_iter().filter(|(is_so, ..)| *is_so) {
        if let Some(column) = columns.iter_mut().find(|of| of.is_taken_for(from)) {
            column.holds = to;
        }
    }
}

fn any(columns: &[ColumnTaken], all: &[Holds]) -> bool {
    columns.iter().any(|of| all.contains(&of.holds))
}

/// What a column headed `Date` is the day of, where that is not the day a plant came; several where it may be any of them.
fn date_of(columns: &[ColumnTaken], place: usize, below: &[&GridRow]) -> &'static [Holds] {
    if any(columns, &[Holds::Supplier]) {
        return &[];
    }
    // Beside the day of sowing it is that of the count, unless every heading of counts has its own.
    let mut counts = columns.iter().filter(|of| of.holds == Holds::Germinated);
    let sown = columns.iter().find(|of| of.holds == Holds::Sown);
    let sown = sown.filter(|_| counts.any(|of| of.read_on.is_none()));
    let sown = sown.filter(|_| !any(columns, &[Holds::Counted, Holds::Label]));
    let is_before = |of: &ColumnTaken| place < of.at;
    if any(columns, &PARENTS) && !any(columns, &[Holds::Pollinated, Holds::Label]) {
        // Beside the size of a plant it is the day that was measured.
        let is_measured = any(columns, &[Holds::Code]) && any(columns, &[Holds::Reading]);
        return match is_measured && !any(columns, &[Holds::Measured]) {
            true => &[Holds::Measured],
            false if sown.is_some_and(|of| !is_before(of)) => POLLINATED_OR_COUNTED,
            false => &[Holds::Pollinated],
        };
    }
    if let Some(sown) = sown {
        let is_open = is_before(sown) && !any(columns, &[Holds::Pollinated]);
        return match is_open {
            true => POLLINATED_OR_COUNTED,
            false => &[Holds::Counted],
        };
    }
    let Some(to) = columns.iter().find(|of| of.holds == Holds::To) else {
        return &[];
    };
    if any(columns, &GONE) {
        return &[];
    }
    // What became of a plant is said beside it: it may be dead.
    if any(columns, &[Holds::Status]) {
        return &[Holds::Gone];
    }
    // A list of what was sold names who has each plant; one of all plants only that of a few.
    let is_dated = |row: &&&GridRow| !is_blank(columns[place].cell(row));
    let names = |row: &&GridRow| names_receiver(to.cell(row));
    let mut dated = below.iter().filter(is_dated);
    if dated.clone().all(names) {
        return &[Holds::Gone];
    }
    match dated.any(names) {
        true => &[Holds::Acquired, Holds::Gone],
        false => &[],
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
