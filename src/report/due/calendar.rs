//! What is due as entries of a calendar: whole days, from the first day a task may be due to the last.

use crate::analysis::due::{DueReport, DueRow, Task, Urgency};
use crate::record::Day;

/// One entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CalendarEntry {
    /// The same for the same task on the same record, whenever it is written, so that a calendar replaces it.
    pub uid: String,
    /// First day.
    pub first: Day,
    /// Last day, included.
    pub last: Day,
    /// One line.
    pub summary: String,
    /// Record and reason.
    pub description: String,
}

/// An entry for each task with a date, except records that are long past. What is overdue stands on `today`, because a
/// calendar shows no task of last month.
pub fn entries(report: &DueReport, today: Day) -> Vec<CalendarEntry> {
    let dated = report.rows.iter().filter(|row| row.urgency.is_dated());
    dated.filter_map(|row| entry(row, today)).collect()
}

fn entry(row: &DueRow, today: Day) -> Option<CalendarEntry> {
    let window = row.window?;
    let overdue = row.urgency == Urgency::Overdue;
    let (first, last) = match overdue {
        true => (today, today),
        false => (Day(window.earliest.max(today.0)), Day(window.latest)),
    };
    let late = match overdue {
        true => format!(" (overdue {})", row.when()),
        false => String::new(),
    };
    Some(CalendarEntry {
        uid: format!("{}.{}", word(&row.task, window.earliest), row.code),
        first,
        last,
        summary: format!("{}: {}{late}", row.told(), row.what()),
        description: row.said("\n"),
    })
}

/// The kind of a task. A sowing is read at several ages, each an entry of its own.
fn word(task: &Task, earliest: i32) -> String {
    match task {
        Task::DustAgain { .. } => "dust".to_owned(),
        Task::Harvest { .. } => "harvest".to_owned(),
        Task::Spike { .. } => format!("spike-{}", Day(earliest)),
        Task::CountSet { .. } => "set".to_owned(),
        Task::UsePollen { .. } => "pollen".to_owned(),
        Task::Sow { .. } => "sow".to_owned(),
        Task::SeedLeft { .. } => "seed-left".to_owned(),
        Task::CountSeedlings { .. } => "count".to_owned(),
        Task::PrickOut { .. } => "prick-out".to_owned(),
        Task::TakeSitting { months, .. } => format!("sitting-{months:.1}"),
        Task::CheckCutting => "rooting".to_owned(),
        Task::TakeCutting { .. } => "cutting".to_owned(),
    }
}
