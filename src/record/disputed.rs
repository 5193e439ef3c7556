//! What of a page git could not join is left out: both copies, and the record around them.
//!
//! Two copies that differ in one field may have drifted apart in more of the same record, so that no part of it is shown
//! as a fact. The findings name the lines.

use crate::diagnostic::{Code, Finding};
use crate::text::{FileId, Source, conflicts};
use std::ops::Range;

/// A finding for each place of a page that git could not join.
pub fn disputed(source: &Source, file: FileId) -> Vec<Finding> {
    let places = conflicts(&source.text).into_iter();
    places.map(|place| finding(source, file, &place)).collect()
}

fn finding(source: &Source, file: FileId, place: &Range<usize>) -> Finding {
    let line = |at: usize| source.line_column(at as u32).0;
    let (first, last) = (line(place.start), line(place.end - 1));
    let head = source.text[place.clone()]
        .lines()
        .next()
        .unwrap_or_default();
    let start = place.start as u32;
    Finding::fault(Code("conflict-marks"), "git could not join two copies here")
        .at(crate::text::Span::new(file, start..start + head.len() as u32))
        .found(format!("both copies, in lines {first} to {last}"))
        .needed("one of the two, or what is right in each")
        .help("keep the lines that are right, and delete the three lines of marks")
        .help("until this is fixed, what stands between the marks is left out, and so is the plant or other record around it")
}

/// A copy of a text, of the same length, in which blanks stand for what is disputed; `None` where nothing is.
pub(super) fn undisputed(text: &str) -> Option<String> {
    let places = conflicts(text);
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
