//! The picture of a plant's history: its events in order, each on the line of days that leads to today.

use crate::analysis::evidence::evidence_row;
use crate::analysis::history::{Event, History, What, history};
use crate::analysis::title::titled;
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::mixed_up::mixed_up;
use crate::record::{Day, When};
use crate::report::chart::{
    CalendarChart, CalendarEnd, CalendarGroup, CalendarRow, calendar_ticks,
};
use crate::wording::{counted, days};

/// The least days along.
const LEAST: i32 = 30;

/// The chart of a plant's history until today.
pub fn history_chart(context: &Context, plant: PlantRow) -> CalendarChart {
    let of = history(context.registry, plant, context.today);
    let known = evidence_row(context.evidence(), Unit::Plant(plant));
    let along = along(&of);
    CalendarChart {
        title: titled(context.names(), &of.id, TopOf::Plant(plant), true),
        under: vec![known.words],
        days: along,
        ticks: calendar_ticks(along),
        today: CalendarEnd::Last,
        has_boxes: false,
        groups: groups(&of, along),
        notes: [doubts(context, plant), notes(&of)].concat(),
    }
}

/// The doubts of its name, and the other plants it may be since a mix-up: the picture goes with the plant, without the
/// screen that says them.
fn doubts(context: &Context, plant: PlantRow) -> Vec<String> {
    let mut doubts = context.names().doubts([TopOf::Plant(plant)]);
    let mixed_up = mixed_up(context.registry, plant);
    doubts.extend(mixed_up.map(|words| format!("mixed up {words}")));
    doubts
}

/// From the first day on record to today.
fn along(of: &History) -> (i32, i32) {
    let ends = of
        .events
        .iter()
        .flat_map(|event| [event.when.first, event.when.last]);
    let known = ends.filter(|day| *day != Day::FIRST && *day != Day::LAST);
    let first = known.map(|day| day.0).min().unwrap_or(of.today.0);
    (first.min(of.today.0.saturating_sub(LEAST)), of.today.0)
}

/// Events of one year together, those without a date last.
fn groups(of: &History, along: (i32, i32)) -> Vec<CalendarGroup> {
    let mut groups: Vec<CalendarGroup> = Vec::new();
    for event in &of.events {
        let heading = heading(event.when);
        let row = row(event, along);
        match groups.last_mut().filter(|group| group.heading == heading) {
            Some(group) => group.rows.push(row),
            None => groups.push(CalendarGroup {
                heading,
                beside: String::new(),
                rows: vec![row],
            }),
        }
    }
    groups
}

fn heading(when: When) -> String {
    let known = match when.first {
        Day::FIRST => when.last,
        first => first,
    };
    match known.ymd() {
        Some((year, ..)) if when != When::UNKNOWN => year.to_string(),
        _ => "Date not known".to_owned(),
    }
}

fn row(event: &Event, (from, until): (i32, i32)) -> CalendarRow {
    let is_known = event.when != When::UNKNOWN;
    let day = |day: Day| match day {
        Day::FIRST => from.saturating_sub(1),
        Day::LAST => until.saturating_add(1),
        Day(day) => day,
    };
    let dated = is_known.then(|| days(event.when));
    CalendarRow {
        what: match event.is_one_of_several {
            true => format!("perhaps {}", event.what.words()),
            false => event.what.words(),
        },
        details: dated.into_iter().chain(event.what.detail()).collect(),
        window: is_known.then(|| (day(event.when.first), day(event.when.last))),
        instead: match is_known {
            true => String::new(),
            false => "date not known".to_owned(),
        },
    }
}

fn notes(of: &History) -> Vec<String> {
    let mut notes = vec![
        "A dot is a day on record; a bar is a range of days in which it happened, as far as the record says, and an arrow that no limit is known there. The line at the right is today.".to_owned(),
    ];
    let treated = of
        .events
        .iter()
        .any(|event| matches!(event.what, What::PlaceTreated(..)));
    if treated {
        notes.push(
            "Whether it stood at its place when that was treated is not on record.".to_owned(),
        );
    }
    if of.events.iter().any(|event| event.is_one_of_several) {
        notes.push(
            "It may be of several pods or sowings: of the events called “perhaps”, those of one of them are its own."
                .to_owned(),
        );
    }
    match of.later {
        0 => {}
        later => notes.push(format!(
            "{} dated after {}: not shown.",
            counted(later, "event is", "events are"),
            of.today
        )),
    }
    notes.push("Suppliers, buyers, prices, places and notes are left out.".to_owned());
    notes
}
