//! Whether flowers of a plant were open on a day, by what is on record of its spikes; and the spike that is named.
//!
//! A spike of one piece is none of another; one recorded without a piece may be of any.

use super::slip::Slip;
use super::voice::{Words, day, field, flower, words};
use crate::observation::bearer::Borne;
use crate::observation::flowers::spikes;
use crate::observation::spike_days::{LAST_AT_MOST, NO_LONGER, may_be_of_piece};
use crate::observation::standing::fate_words;
use crate::record::{Day, Flowering, When};
use crate::registry::{PlantOrRamet, PlantRow, Registry};
use crate::wording::{at_date, days};

/// Days within which a spike on record may be the one that is meant.
const NEAR: i32 = 200;

/// What the records say of flowers on a day.
enum InFlower {
    /// They may have been open.
    Open,
    /// Those near that day were not open, what is on record of them, and the code of a spike that has no end on record and
    /// may have lasted longer than flowers usually do.
    Closed(String, Option<String>),
    /// No spike is on record for that day.
    NotOnRecord,
}

/// Refuses a day on which the flowers on record of a plant, or of one of its spikes, were not open; says so when none are on
/// record for it. `done` is what was done with them then, `can_name` whether a spike can be named with it: who names one that
/// has no end on record saw it open, for as long as flowers last at all.
///
/// # Errors
/// With what is on record of them.
pub fn open_then(
    registry: &Registry,
    plant: PlantOrRamet,
    (spike, on): (Option<&str>, When),
    done: String,
    can_name: bool,
) -> Result<Option<Words>, Slip> {
    let code = registry.code_of(plant);
    match in_flower(registry, plant, spike, on) {
        InFlower::Open => Ok(None),
        InFlower::NotOnRecord => Ok(Some(words!(
            "No spike of {code} is on record for that day; record its open flowers: {}";
            flower(&code, &open_on(on))
        ))),
        InFlower::Closed(recorded, Some(lasting)) if can_name => Err(Slip::contradicts(
            done,
            recorded,
            words!(
                "if flowers of spike {lasting} are open still, name it with {}; if another opened, record that: {}";
                field("--spike"), flower(&code, " --opened DATE")
            ),
        )),
        InFlower::Closed(recorded, _) => Err(Slip::contradicts(
            done,
            recorded,
            words!(
                "give the day with {}, or record the flowers first: {}";
                day(), flower(&code, " --opened DATE")
            ),
        )),
    }
}

/// The option that records flowers as open on a date: without it they count as seen closed today.
fn open_on(on: When) -> String {
    match on.is_exact() {
        true => format!(" --on {}", on.first),
        false => " --on DATE".to_owned(),
    }
}

/// The place of the spike of a plant, or of a piece of it, that a code names.
///
/// # Errors
/// If there is none of that code, or it is of another piece.
pub fn spike_named(registry: &Registry, plant: PlantOrRamet, spike: &str) -> Result<usize, Slip> {
    let flowerings = registry.flowerings(plant.plant);
    let piece = registry.ramet(plant).map(|piece| piece.code);
    let named = flowerings.iter().enumerate();
    let named = named.filter(|(_, of)| of.code == Some(spike));
    let (own, others): (Vec<_>, Vec<_>) = named.partition(|(_, of)| may_be_of_piece(of, piece));
    if let Some((at, _)) = own.first() {
        return Ok(*at);
    }
    let other = others.first().and_then(|(_, of)| of.ramet);
    Err(match other {
        Some(other) => Slip::contradicts(
            format!("spike {spike} was named for {}", registry.code_of(plant)),
            format!("spike {spike} is of {}-{other}", registry.code(plant.plant)),
            "name that piece, or another spike",
        ),
        None => Slip::Unknown {
            what: "spike",
            code: spike.to_owned(),
            near: flowerings
                .iter()
                .filter_map(|of| of.code.map(str::to_owned))
                .collect(),
        },
    })
}

/// Whether flowers of a plant, or of one of its spikes, may have been open on some day of a date.
fn in_flower(registry: &Registry, plant: PlantOrRamet, spike: Option<&str>, on: When) -> InFlower {
    let near = |day: Day| {
        day.0 >= on.first.0.saturating_sub(NEAR) && day.0 <= on.last.0.saturating_add(NEAR)
    };
    let piece = registry.ramet(plant).map(|piece| piece.code);
    let flowerings = registry.flowerings(plant.plant).iter().enumerate();
    let flowerings = flowerings.filter(|(_, of)| may_be_of_piece(of, piece));
    let mut closed = InFlower::NotOnRecord;
    for (at, flowering) in flowerings.filter(|(_, of)| spike.is_none() || spike == of.code) {
        let dates = Dates::of(registry, flowering);
        if may_be_open(registry, (plant.plant, at), on, spike.is_some()) {
            match left_before(registry, plant.plant, flowering, on) {
                Some(left) => closed = InFlower::Closed(left, None),
                None => return InFlower::Open,
            }
            continue;
        }
        // Of several the one that may be open still is meant.
        if let InFlower::Closed(_, Some(_)) = closed {
            continue;
        }
        match dates.opened {
            Some(opened) if spike.is_some() || near(opened.last) => {
                let may_last = dates.may_be_open(on, NO_LONGER).then_some(flowering.code);
                let may_last = may_last.flatten().map(str::to_owned);
                closed = InFlower::Closed(dates.closed(opened, on), may_last);
            }
            None if dates.seen.is_some_and(|seen| near(seen.last)) => {
                let recorded = "its spike is on record without an open flower".to_owned();
                closed = InFlower::Closed(recorded, None);
            }
            _ => {}
        }
    }
    closed
}

/// What became, before a date, of the piece that a spike stood on.
fn left_before(
    registry: &Registry,
    plant: PlantRow,
    spike: &Flowering,
    on: When,
) -> Option<String> {
    let fate = Borne::spike(registry, plant, spike).ended(registry, on.last)?;
    let left = registry.when(fate.on()).surely_before(on);
    let what = fate_words(fate);
    left.then(|| match spike.ramet {
        Some(piece) => {
            let plant = registry.code(plant);
            format!("its open flowers were those of {plant}-{piece}: {what}")
        }
        None => format!("its open flowers were those of a piece that is gone: {what}"),
    })
}

/// Whether, of all spikes of a plant, or of a piece of it, only the one at a place may have been open on some day of a date.
pub fn is_the_only_open(registry: &Registry, plant: PlantOrRamet, at: usize, on: When) -> bool {
    let piece = registry.ramet(plant).map(|piece| piece.code);
    let flowerings = registry.flowerings(plant.plant).iter().enumerate();
    let open = flowerings.filter(|(at, of)| {
        may_be_of_piece(of, piece) && may_be_open(registry, (plant.plant, *at), on, false)
    });
    open.map(|(at, _)| at).eq([at])
}

/// Whether flowers of a spike, at its place among those of a plant, may have been open on some day of a date: by its own days,
/// or by how long those before it lasted, as `due` has it.
fn may_be_open(
    registry: &Registry,
    (plant, at): (PlantRow, usize),
    on: When,
    is_named: bool,
) -> bool {
    let dates = Dates::of(registry, &registry.flowerings(plant)[at]);
    if is_named || !dates.may_be_open(on, NO_LONGER) || dates.may_be_open(on, LAST_AT_MOST) {
        return dates.may_be_open(on, NO_LONGER);
    }
    let forecast = spikes(registry, on.first);
    let mut forecast = forecast.iter().filter(|of| of.opened);
    forecast.any(|of| (of.plant, of.at) == (plant, at) && of.window.opens.earliest <= on.last.0)
}

/// The dates of a spike; `None` for one that is not known.
struct Dates {
    seen: Option<When>,
    opened: Option<When>,
    over: Option<When>,
}

impl Dates {
    fn of(registry: &Registry, flowering: &Flowering) -> Dates {
        let date = |text: Option<&str>| {
            text.map(|text| registry.when(text))
                .filter(|when| when.last != Day::LAST)
        };
        Dates {
            seen: date(flowering.spike),
            opened: date(flowering.opened),
            over: date(flowering.over),
        }
    }

    /// Whether its flowers may have been open on some day of a date, if they last so many days at most.
    fn may_be_open(&self, on: When, longest: i32) -> bool {
        let open = self.opened.zip(self.last(longest));
        open.is_some_and(|(opened, last)| opened.first <= on.last && on.first <= last)
    }

    /// The last day on which its flowers may have been open.
    fn last(&self, longest: i32) -> Option<Day> {
        let longest = |opened: When| Day(opened.last.0.saturating_add(longest));
        let over = self.over.map(|over| over.last);
        over.or(self.opened.map(longest))
    }

    /// When its flowers were open, in words, for who asks for a day.
    fn closed(&self, opened: When, on: When) -> String {
        match self.over {
            Some(over) if opened.is_bounded() => format!(
                "its flowers were open from {} to {}",
                opened.first, over.last
            ),
            Some(over) => format!("its flowers were over by {}", over.last),
            None if !opened.surely_before(on) => format!("its first flower opened {}", at(opened)),
            None => format!(
                "its first flower opened {}, and flowers last {LAST_AT_MOST} days at most by common practice",
                at(opened)
            ),
        }
    }
}

/// `on 2024-03-04`, `by 2024-03-04`, `between 2024-03-01 and 2024-03-31`.
fn at(when: When) -> String {
    at_date(&days(when))
}
