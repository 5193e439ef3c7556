//! The plan as a sheet for the bench: for each seed parent what to dust it with, a box to tick, lines to fill in, and the
//! days on which flowers and pollen meet.

use crate::analysis::plan::{PlanReport, PlannedRow, bounded, pairs_of};
use crate::planning::windows::Meeting;
use crate::record::Day;
use crate::report::chart::{
    CalendarChart, CalendarEnd, CalendarGroup, CalendarRow, calendar_ticks,
};
use crate::wording::{age_of_days, counted, upright};

/// What is written by hand once it is done.
const TO_FILL_IN: &str = "done on __________  zone ______  flowers ______";

/// The plan for the bench, with the days from `today` for `ahead` days.
pub fn plan_on_the_bench(report: &PlanReport, today: Day, ahead: u32) -> CalendarChart {
    let ahead = i32::try_from(ahead).unwrap_or(i32::MAX).max(7);
    let days = (today.0, today.0.saturating_add(ahead));
    let mut groups: Vec<CalendarGroup> = Vec::new();
    for of in &report.plan {
        let places = || of.seed_places.join("; ");
        CalendarGroup::gather(&mut groups, &of.seed_words(), places, row(of));
    }
    CalendarChart {
        title: upright(report.title_of_picture(pairs_of(&report.plan).len())),
        under: Vec::new(),
        days,
        ticks: calendar_ticks(days),
        today: CalendarEnd::First,
        has_boxes: true,
        groups,
        notes: notes(report),
    }
}

fn row(of: &PlannedRow) -> CalendarRow {
    let window = window(of.meet);
    let days = window.map(|_| of.meet.to_string());
    let perhaps = match of.may_not_meet() {
        true => "only perhaps open together: keep back pollen",
        false => "",
    };
    let details = [
        days.unwrap_or_default(),
        of.pollen_to_fetch(),
        perhaps.to_owned(),
        of.pollen_remark.clone().unwrap_or_default(),
        TO_FILL_IN.to_owned(),
    ];
    let pods = counted(of.pods as usize, "pod", "pods");
    CalendarRow {
        what: format!("with pollen of {}, for {pods}", of.pollen_words()),
        details: details
            .into_iter()
            .filter(|line| !line.is_empty())
            .collect(),
        instead: match window {
            Some(_) => String::new(),
            None => of.meet.to_string(),
        },
        window,
    }
}

/// The days flowers and pollen meet; `None` for whenever both flower. An end without a date lies beyond the days shown.
fn window(meet: Meeting) -> Option<(i32, i32)> {
    let (Meeting::Perhaps(first, last) | Meeting::Surely(first, last)) = meet else {
        return None;
    };
    (bounded(first).is_some() || bounded(last).is_some()).then_some((first, last))
}

impl PlannedRow {
    /// Where to fetch the pollen, and how old it is.
    fn pollen_to_fetch(&self) -> String {
        let Some(lot) = &self.lot else {
            let from = match self.pollen_places.is_empty() {
                true => String::new(),
                false => format!(", from {}", self.pollen_places.join("; ")),
            };
            return format!("pollen as it is shed{from}");
        };
        let place = match self.lot_place {
            Some(place @ ("fridge" | "freezer")) => format!(" in the {place}"),
            Some("room") => " in the room".to_owned(),
            _ => String::new(),
        };
        let age = match self.age_days {
            Some(age) => format!(", {} old", age_of_days(age)),
            None => ", age not known".to_owned(),
        };
        format!("envelope {lot}{place}{age}")
    }
}

fn notes(report: &PlanReport) -> Vec<String> {
    let mut notes = vec![
        "The line at the left of the calendar is today. A bar runs from the first day flowers and pollen may meet to the last; an arrow says that it goes on beyond the days shown.",
        "One pollen to a zone, the lowest zone first, a clean brush for each. Write down what was done, then record it with podbook pollinate.",
    ];
    let guessed = report.guessed_words();
    notes.extend(guessed.as_deref());
    notes.extend((!report.proved).then_some("Stopped early: a better plan may exist."));
    notes.push(
        "This is arithmetic on the records; it does not promise that flowers open on these days or that pods will set.",
    );
    notes.into_iter().map(str::to_owned).collect()
}
