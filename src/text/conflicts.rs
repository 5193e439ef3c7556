//! Places of a text that git could not join: it left both copies there, between marks.

use std::ops::Range;

/// Where lines stand that git could not join, in bytes: each from the line `<<<<<<<` to the end of the line `>>>>>>>`, with
/// a line `=======` between.
pub fn conflicts(text: &str) -> Vec<Range<usize>> {
    let (mut found, mut open) = (Vec::new(), None);
    for (line, sign) in marks(text) {
        open = match (open, sign) {
            (_, b'<') => Some((line.start, false)),
            (Some((start, _)), b'=') => Some((start, true)),
            (Some((start, true)), b'>') => {
                found.push(start..line.end);
                None
            }
            (open, _) => open,
        };
    }
    found
}

/// The lines of marks that are left of a place half joined, in bytes: those that are in no whole conflict.
pub fn left_marks(text: &str) -> Vec<Range<usize>> {
    let whole = conflicts(text);
    let lines = marks(text).into_iter().map(|(line, _)| line);
    let is_left = |line: &Range<usize>| !whole.iter().any(|place| place.contains(&line.start));
    lines.filter(is_left).collect()
}

/// Every line of marks with its sign.
pub fn marks(text: &str) -> Vec<(Range<usize>, u8)> {
    let (mut found, mut at) = (Vec::new(), 0);
    for line in text.split_inclusive('\n') {
        let end = at + line.len();
        found.extend(mark(line).map(|sign| (at..end, sign)));
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
    (is_mark && b"<|=>".contains(&first)).then_some(first)
}
