//! Readings that are doubtful by the trait's own `doubtful_under_span_cm`: they count, and every answer says how many.

use crate::observation::series::Comparable;
use crate::record::Trait;
use crate::wording::counted;

/// How many of the readings in a figure are doubtful, in words; `None` where none is.
pub fn doubtful_readings<'r>(
    declared: &Trait,
    readings: impl IntoIterator<Item = &'r Comparable>,
) -> Option<String> {
    let (mut all, mut doubtful) = (0, 0);
    for reading in readings {
        all += 1;
        doubtful += usize::from(reading.doubtful);
    }
    let least = declared.doubtful_under_span_cm.filter(|_| doubtful > 0)?;
    Some(format!(
        "{}: {doubtful} of {} doubtful (leaf span under {least} cm), but counted",
        &*declared.name,
        counted(all, "reading is", "readings are")
    ))
}
