//! Places of a text that git could not join: it left both copies there, between marks.

use std::ops::Range;

/// Where lines stand that git could not join, in bytes: each from the line `<<<<<<<` to the end of the line `>>>>>>>`, with
/// a line `=======` between.
pub fn conflicts(text: &str) -> Vec<Range<usize>> {
    if !text.contains("<<<<<<<") {
        return Vec::new();
    }
    let (mut found, mut at, mut open) = (Vec::new(), 0, None);
    for line in text.split_inclusive('\n') {
        let end = at + line.len();
        open = match (open, mark(line)) {
            (_, Some(b'<')) => Some((at, false)),
            (Some((start, _)), Some(b'=')) => Some((start, true)),
            (Some((start, true)), Some(b'>')) => {
                found.push(start..end);
                None
            }
            (open, _) => open,
        };
        at = end;
    }
    found
}

/// The sign of which a line of marks is made: seven of it, then nothing or a blank.
fn mark(line: &str) -> Option<u8> {
    let first = *line.as_bytes().first()?;
    let rest = line.trim_start_matches(char::from(first));
    let is_mark =
        line.len() - rest.len() == 7 && rest.chars().next().is_none_or(char::is_whitespace);
    (is_mark && b"<=>".contains(&first)).then_some(first)
}
