//! The whole lines in which two texts differ, as edits that lead back from the one to the other.
//!
//! Of short texts the difference is the shortest. Of long ones it is found from the lines that each text holds once and that
//! stand in one order in both: what lies between two of them was replaced. That takes the time of reading and sorting the
//! lines, however many of them have changed.

use crate::record::JournalEdit;
use similar::{DiffTag, TextDiff};
use std::collections::HashMap;
use std::ops::Range;

/// Lines of a text from which on its differences need not be the shortest.
const MANY_LINES: usize = 2_000;

/// Lines of the one text and of the other that stand in each other's place.
type Span = (Range<usize>, Range<usize>);

/// The whole lines in which two texts differ, in their order.
pub fn edits(was: &str, now: &str) -> Vec<JournalEdit> {
    let lines = |text: &'_ str| text.split_inclusive('\n').count();
    if lines(was).max(lines(now)) >= MANY_LINES {
        return edits_of_long(was, now);
    }
    let diff = TextDiff::from_lines(was, now);
    let ops = diff.ops().iter().filter(|op| op.tag() != DiffTag::Equal);
    let spans = ops.map(|op| (op.old_range(), op.new_range())).collect();
    as_edits((diff.old_slices(), diff.new_slices()), spans)
}

fn edits_of_long(was: &str, now: &str) -> Vec<JournalEdit> {
    let old: Vec<&str> = was.split_inclusive('\n').collect();
    let new: Vec<&str> = now.split_inclusive('\n').collect();
    let (mut spans, mut from) = (Vec::new(), (0, 0));
    let ends = [(old.len(), new.len())];
    for to in in_both_once(&old, &new).into_iter().chain(ends) {
        differing((&old, &new), (from.0..to.0, from.1..to.1), &mut spans);
        from = (to.0 + 1, to.1 + 1);
    }
    as_edits((&old, &new), spans)
}

/// Places of lines that each text holds once, as many as stand in one order in both.
fn in_both_once(old: &[&str], new: &[&str]) -> Vec<(usize, usize)> {
    let in_new = once(new);
    let in_old = once(old);
    let places = old.iter().enumerate().filter_map(|(at, line)| {
        let is_once = in_old[line].is_some();
        is_once.then(|| (*in_new.get(line)?).map(|there| (at, there)))?
    });
    longest_rising(&places.collect::<Vec<_>>())
}

/// The place of each line; `None` of one that stands there more than once.
fn once<'t>(lines: &[&'t str]) -> HashMap<&'t str, Option<usize>> {
    let mut places = HashMap::with_capacity(lines.len());
    for (at, line) in lines.iter().enumerate() {
        let place = places.entry(*line).or_insert(Some(at));
        place.take_if(|first| *first != at);
    }
    places
}

/// The longest part of some pairs in which the second numbers rise too; the first ones rise. By the ends of the rising rows of
/// each length so far (Fredman 1975), in the time of sorting.
fn longest_rising(pairs: &[(usize, usize)]) -> Vec<(usize, usize)> {
    let mut ends: Vec<usize> = Vec::new();
    let mut before: Vec<Option<usize>> = Vec::with_capacity(pairs.len());
    for (at, (_, place)) in pairs.iter().enumerate() {
        let length = ends.partition_point(|end| pairs[*end].1 < *place);
        before.push(length.checked_sub(1).map(|shorter| ends[shorter]));
        match ends.get_mut(length) {
            Some(end) => *end = at,
            None => ends.push(at),
        }
    }
    let mut last = ends.last().copied();
    let mut longest = Vec::with_capacity(ends.len());
    while let Some(at) = last {
        longest.push(pairs[at]);
        last = before[at];
    }
    longest.reverse();
    longest
}

/// The lines of a span that differ: one by one where there are as many of them in both texts, else all between those alike at
/// its head and its tail.
fn differing((old, new): (&[&str], &[&str]), (was, now): Span, spans: &mut Vec<Span>) {
    if was.len() == now.len() {
        for (was, now) in was.zip(now).filter(|(was, now)| old[*was] != new[*now]) {
            match spans
                .last_mut()
                .filter(|of| (of.0.end, of.1.end) == (was, now))
            {
                Some(last) => *last = (last.0.start..was + 1, last.1.start..now + 1),
                None => spans.push((was..was + 1, now..now + 1)),
            }
        }
        return;
    }
    let (left, right) = (&old[was.clone()], &new[now.clone()]);
    let alike = |(a, b): &(&&str, &&str)| a == b;
    let head = left.iter().zip(right).take_while(alike).count();
    let (left, right) = (&left[head..], &right[head..]);
    let tail = (left.iter().rev().zip(right.iter().rev())).take_while(alike);
    let tail = tail.count();
    spans.push((
        was.start + head..was.end - tail,
        now.start + head..now.end - tail,
    ));
}

fn as_edits((old, new): (&[&str], &[&str]), spans: Vec<Span>) -> Vec<JournalEdit> {
    let (mut at, mut line) = (0, 0);
    let edit = |(was, now): Span| {
        let skipped = old[line..was.start].iter().map(|line| line.len());
        at += skipped.sum::<usize>();
        line = was.start;
        JournalEdit {
            at,
            was: old[was].concat(),
            now: new[now].concat(),
        }
    };
    spans.into_iter().map(edit).collect()
}
