//! One change taken out of a text that has been changed since: each range of whole lines that the change wrote gets back what
//! stood there, and all else stays as it is now.

use super::line_edits::edits;

/// The same lines were changed again.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Overlap;

/// Lines of a text that give way to others: the bytes they take, and what comes in their place.
struct Replaced {
    start: usize,
    end: usize,
    by: String,
}

/// The text as it is `now` without a change that made the text `left` of the text `was`.
///
/// # Errors
/// If lines that the change wrote were changed after it.
pub fn without((was, left): (&str, &str), now: &str) -> Result<String, Overlap> {
    let mut grown = 0_i64;
    let mut back: Vec<Replaced> = Vec::new();
    for edit in edits(was, left) {
        let start = (edit.at as i64 + grown) as usize;
        grown += edit.now.len() as i64 - edit.was.len() as i64;
        back.push(Replaced {
            start,
            end: start + edit.now.len(),
            by: edit.was,
        });
    }
    let since = edits(left, now).into_iter().map(|edit| Replaced {
        start: edit.at,
        end: edit.at + edit.was.len(),
        by: edit.now,
    });
    let since: Vec<Replaced> = since.collect();
    // Nothing between two lines is of both: there the lines that come back stand first.
    let overlap = |one: &Replaced| {
        since
            .iter()
            .any(|other| one.start < other.end && other.start < one.end)
    };
    if back.iter().any(overlap) {
        return Err(Overlap);
    }
    let mut all: Vec<Replaced> = back.into_iter().chain(since).collect();
    all.sort_by_key(|of| (of.start, of.end));
    let (mut text, mut copied) = (String::with_capacity(now.len()), 0);
    for of in all {
        text.push_str(&left[copied..of.start]);
        text.push_str(&of.by);
        copied = of.end;
    }
    text.push_str(&left[copied..]);
    Ok(text)
}
