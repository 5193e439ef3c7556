//! The picture of what is due: a bench sheet with boxes to tick, and the months ahead as a calendar beside it.

use crate::analysis::due::{Caution, DueReport, DueRow, Urgency};
use crate::observation::flowers::which_spike;
use crate::record::Day;
use crate::report::chart::{
    CalendarChart, CalendarEnd, CalendarGroup, CalendarRow, calendar_ticks,
};
use crate::report::sheet::Report;
use crate::wording::{counted, upright};

/// Tasks drawn; of more the most urgent.
const DRAWN: usize = 150;
/// The least days along.
const LEAST: i32 = 7;

/// The chart of the days ahead, from `today` on.
pub fn season_chart(report: &DueReport, today: Day) -> CalendarChart {
    let ahead = i32::try_from(report.within_days).unwrap_or(i32::MAX);
    let days = (today.0, today.0.saturating_add(ahead.max(LEAST)));
    let mut groups: Vec<CalendarGroup> = Vec::new();
    for of in report.rows.iter().take(DRAWN) {
        let id = of.plant.as_ref().unwrap_or(&of.code);
        let place = || of.place.clone().unwrap_or_default();
        CalendarGroup::gather(&mut groups, id, place, row(of, id));
    }
    CalendarChart {
        title: upright(report.sheet().answer),
        days,
        ticks: calendar_ticks(days),
        today: CalendarEnd::First,
        has_boxes: true,
        under: Vec::new(),
        groups,
        notes: notes(report),
    }
}

fn row(of: &DueRow, id: &str) -> CalendarRow {
    let what = match of.code == id {
        true => which_spike(of.what(), of.spike.as_deref()),
        false => format!("{}, {}", of.what(), of.told()),
    };
    let late = match of.urgency {
        Urgency::Overdue => format!("overdue {}", of.when()),
        Urgency::LongOverdue => format!("long overdue {}", of.when()),
        Urgency::NoDate => of.when(),
        Urgency::Now | Urgency::Soon => String::new(),
    };
    let days = match of.window {
        Some(_) => of.days(),
        None => String::new(),
    };
    let details = [days, of.task.detail()];
    CalendarRow {
        what,
        details: details
            .into_iter()
            .filter(|line| !line.is_empty())
            .collect(),
        window: of.window.map(|on| (on.earliest, on.latest)),
        instead: match of.window {
            None => "no date".to_owned(),
            Some(_) => late,
        },
    }
}

fn notes(report: &DueReport) -> Vec<String> {
    let mut notes = vec![
        "The line at the left of the calendar is today. A bar runs from the first day a task may be due to the last, a dot is a single day; an arrow says that it began before or goes on after the days shown.".to_owned(),
    ];
    if let Some(more @ 1..) = report.rows.len().checked_sub(DRAWN) {
        let tasks = counted(more, "task is", "tasks are");
        notes.push(format!(
            "{tasks} less urgent and not drawn; a .csv file holds all."
        ));
    }
    let about_days = |of: &&Caution| {
        matches!(
            of,
            Caution::NoPromise | Caution::Practice | Caution::Overdue
        )
    };
    let cautions = report.cautions.iter().filter(about_days);
    notes.extend(cautions.map(|caution| caution.to_string()));
    notes
}
