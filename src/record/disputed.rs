//! What of a page git could not join is left out: both copies, and the record around them.
//!
//! Two copies that differ in one field may have drifted apart in more of the same record, so that no part of it is shown
//! as a fact. The findings name the lines.

use crate::diagnostic::{Code, Finding};
use crate::text::{FileId, Outline, Source, Span, conflicts, left_marks, marks};
use std::ops::Range;

/// A finding for each place of a page that git could not join, and for each line of marks left of one.
pub fn disputed(source: &Source, file: FileId) -> Vec<Finding> {
    let places = conflicts(&source.text).into_iter();
    let whole = places.map(|place| finding(source, file, &place));
    let left = lines_left(&source.text).into_iter();
    whole
        .chain(left.map(|line| left_finding(source, file, &line)))
        .collect()
}

fn finding(source: &Source, file: FileId, place: &Range<usize>) -> Finding {
    let line = |at: usize| source.line_column(at as u32).0;
    let (first, last) = (line(place.start), line(place.end - 1));
    // Some settings of git also show what both copies came from.
    let count = match marks(&source.text[place.clone()]).len() {
        3 => "three",
        _ => "four",
    };
    Finding::fault(Code("conflict-marks"), "git could not join two copies here")
        .at(first_line(source, file, place))
        .found(format!("both copies, in lines {first} to {last}"))
        .needed("one of the two, or what is right in each")
        .help(format!("keep the lines that are right, and delete the {count} lines of marks"))
        .help("until this is fixed, what stands between the marks is left out, and so is the plant or other record around it")
}

fn left_finding(source: &Source, file: FileId, line: &Range<usize>) -> Finding {
    let marks = source.text[line.clone()].trim_end();
    Finding::fault(
        Code("conflict-marks"),
        "a line of marks of git is left here",
    )
    .at(first_line(source, file, line))
    .found(format!(
        "`{marks}`, which git writes where it could not join two copies"
    ))
    .needed("the records alone, each once")
    .help("look whether both copies are still there, then delete this line")
    .help("until this is fixed, the plant or other record around it is left out")
}

fn first_line(source: &Source, file: FileId, place: &Range<usize>) -> Span {
    let first = source.text[place.clone()].lines().next();
    let start = place.start as u32;
    Span::new(file, start..start + first.unwrap_or_default().len() as u32)
}

/// The lines of marks that are left of a conflict and that are at fault: in a remark or a text of several lines they are not.
fn lines_left(text: &str) -> Vec<Range<usize>> {
    let mut left = left_marks(text);
    if !left.is_empty() {
        let outline = Outline::of(text);
        let faults = outline.faults();
        left.retain(|line| faults.iter().any(|of| line.contains(&(of.start as usize))));
    }
    left
}

/// What is disputed of a text: the places of whole conflicts, and of those half joined all from the first line of marks to
/// the last. Where that last one is not the end of the second copy, nothing tells where the copy ends.
fn places(text: &str) -> Vec<Range<usize>> {
    let mut places = conflicts(text);
    let left = lines_left(text);
    let sign = |line: &Range<usize>| text.as_bytes()[line.start];
    if let (Some(first), Some(last)) = (left.first(), left.last()) {
        let is_one_line = left.len() == 1;
        let start = if sign(first) == b'<' || is_one_line {
            first.start
        } else {
            0
        };
        let end = if sign(last) == b'>' || is_one_line {
            last.end
        } else {
            text.len()
        };
        places.push(start..end);
    }
    places.sort_by_key(|place| place.start);
    places
}

/// A copy of a text, of the same length, in which blanks stand for what is disputed; `None` where nothing is.
pub(super) fn undisputed(text: &str) -> Option<String> {
    let places = places(text);
    if places.is_empty() {
        return None;
    }
    let mut copy = text.as_bytes().to_vec();
    for range in records_around(text, &places).into_iter().chain(places) {
        let bytes = copy[range].iter_mut();
        bytes
            .filter(|byte| **byte != b'\n')
            .for_each(|byte| *byte = b' ');
    }
    String::from_utf8(copy).ok()
}

/// The innermost record of a list around each place, with the comma behind it.
fn records_around(text: &str, places: &[Range<usize>]) -> Vec<Range<usize>> {
    let (bytes, mut at, mut next) = (text.as_bytes(), 0, 0);
    let (mut open, mut disputed, mut found) = (Vec::<usize>::new(), Vec::new(), Vec::new());
    while at < bytes.len() {
        if places.get(next).is_some_and(|place| place.start <= at) {
            disputed.extend(record(bytes, &open));
            at = places[next].end.max(at);
            next += 1;
            continue;
        }
        match bytes[at] {
            b'"' => at = past_text(bytes, at),
            b'/' if bytes[at..].starts_with(b"//") => at = past_line(bytes, at),
            b'(' | b'[' => open.push(at),
            b')' | b']' => {
                if let Some(start) = open.pop().filter(|start| disputed.contains(start)) {
                    found.push(start..past_comma(bytes, at + 1));
                }
            }
            _ => {}
        }
        at += 1;
    }
    let unclosed = open.iter().filter(|start| disputed.contains(start));
    found.extend(unclosed.map(|start| *start..bytes.len()));
    found
}

/// The bracket of the innermost record of a list among those that are open.
fn record(bytes: &[u8], open: &[usize]) -> Option<usize> {
    let pairs = open.windows(2).rev();
    let mut records = pairs.filter(|pair| bytes[pair[0]] == b'[' && bytes[pair[1]] == b'(');
    records.next().map(|pair| pair[1])
}

/// The place of the quotation mark that closes a text.
fn past_text(bytes: &[u8], opens: usize) -> usize {
    let mut at = opens + 1;
    while at < bytes.len() && bytes[at] != b'"' {
        at += if bytes[at] == b'\\' { 2 } else { 1 };
    }
    at
}

fn past_line(bytes: &[u8], from: usize) -> usize {
    let length = bytes[from..].iter().position(|byte| *byte == b'\n');
    length.map_or(bytes.len(), |length| from + length)
}

fn past_comma(bytes: &[u8], from: usize) -> usize {
    let blanks = bytes[from..]
        .iter()
        .take_while(|byte| byte.is_ascii_whitespace());
    let at = from + blanks.count();
    if bytes.get(at) == Some(&b',') {
        at + 1
    } else {
        from
    }
}
