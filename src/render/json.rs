//! A report as JSON: its own fields in their own order, two blanks of indent, one line break at the end.

use crate::report::{Plain, Report};

/// The report as JSON text.
///
/// # Errors
/// If a value cannot be written as JSON, which no report's fields can bring about.
pub fn report(report: &impl Report) -> Result<String, serde_json::Error> {
    value(report)
}

/// Reports in a list.
///
/// # Errors
/// As [`report`].
pub fn reports<R: Report>(reports: &[R]) -> Result<String, serde_json::Error> {
    value(&reports)
}

/// Any plain value.
///
/// # Errors
/// As [`report`].
pub fn value(value: &impl Plain) -> Result<String, serde_json::Error> {
    let mut text = serde_json::to_string_pretty(value)?;
    text.push('\n');
    Ok(text)
}
