//! Days on which flowers and pollen meet, as a season takes them.

use crate::planning::windows::{Between, Window};
use crate::record::Day;

/// Farther than any day.
const FAR: i32 = 10_000_000;

/// Days no season reaches.
pub(crate) const ALWAYS: Window = Window {
    opens: Between {
        earliest: i32::MIN / 4,
        latest: i32::MIN / 4,
    },
    closes: Between {
        earliest: i32::MAX / 4,
        latest: i32::MAX / 4,
    },
};

/// A day, unless it stands for no limit.
pub fn bounded(day: i32) -> Option<Day> {
    (day.abs() <= FAR).then_some(Day(day))
}
