//! What every task is worked out from, and how soon a range of days makes it due.

use super::ranges::{DayRange, Ranges};
use super::row::{Basis, DueRow, Task, Urgency};
use crate::lineage::PlantRow;
use crate::observation::provenance::sown;
use crate::planning::windows::Between;
use crate::record::{Day, PollenLife, When};
use crate::registry::Registry;
use crate::wording::days;

/// Days after which a task that was missed is a record left open.
const LONG_PAST: i32 = 90;

/// What is asked.
#[derive(Clone, Copy, Debug)]
pub struct DueOptions {
    /// How many days ahead "soon" reaches.
    pub within: u32,
    /// How long this grower plans with stored pollen.
    pub pollen_lasts: PollenLife,
}

/// The registry with its ranges.
pub(super) struct DueContext<'r, 't> {
    pub registry: &'r Registry<'t>,
    pub today: Day,
    pub options: DueOptions,
    pub ranges: Ranges,
}

impl DueContext<'_, '_> {
    /// A task so many days after a recorded day; `None` when it is not due within the days asked for.
    pub fn after(&self, code: String, task: Task, since: When, range: DayRange) -> Option<DueRow> {
        let window = shifted(since, range.days);
        let basis = match window {
            Some(_) => Basis::Days(range),
            None => Basis::Record,
        };
        let known = (since != When::UNKNOWN).then(|| days(since));
        let mut row = self.on(code, task, window, basis)?;
        row.since = known;
        Some(row)
    }

    /// A task on some days; `None` when that is later than asked for.
    pub fn on(
        &self,
        code: String,
        task: Task,
        window: Option<Between>,
        basis: Basis,
    ) -> Option<DueRow> {
        let today = self.today.0;
        Some(DueRow {
            urgency: self.urgency(window)?,
            code,
            spike: None,
            plant: None,
            place: None,
            task,
            since: None,
            window,
            in_days: window.map(|on| {
                (
                    on.earliest.saturating_sub(today),
                    on.latest.saturating_sub(today),
                )
            }),
            basis,
        })
    }

    /// How soon a task on some days is due; `None` when that is later than asked for.
    pub fn urgency(&self, window: Option<Between>) -> Option<Urgency> {
        let today = self.today.0;
        let Some(on) = window else {
            return Some(Urgency::NoDate);
        };
        if on.latest < today.saturating_sub(LONG_PAST) {
            Some(Urgency::LongOverdue)
        } else if on.latest < today {
            Some(Urgency::Overdue)
        } else if on.earliest <= today {
            Some(Urgency::Now)
        } else {
            let ahead = i32::try_from(self.options.within).unwrap_or(i32::MAX);
            (on.earliest <= today.saturating_add(ahead)).then_some(Urgency::Soon)
        }
    }

    /// Whether a plant was sown by today, as far as its record says.
    pub fn is_sown(&self, plant: PlantRow) -> bool {
        sown(self.registry, plant).first <= self.today
    }

    /// Whether something dated is on record by today; what has no date is.
    pub fn by_today(&self, on: Option<&str>) -> bool {
        on.is_none_or(|on| self.registry.when(on).first <= self.today)
    }
}

/// A recorded day and a range of days after it; `None` when the day has an open end.
pub(super) fn shifted(since: When, (least, most): (i32, i32)) -> Option<Between> {
    since.is_bounded().then(|| Between {
        earliest: since.first.0.saturating_add(least),
        latest: since.last.0.saturating_add(most),
    })
}
