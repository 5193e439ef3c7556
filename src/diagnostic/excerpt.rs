//! Draws the line of a place with its number and an underline.
//!
//! Tabs become blanks, wide characters take two columns, a long line is shown only around the underline, and of a place
//! of several lines the first and the last are shown.

use unicode_width::UnicodeWidthChar;

use super::paint::{Paint, Tone};
use crate::text::{Source, Span, Terminal, visible_char};

/// Columns from one tab stop to the next.
const TAB: usize = 4;
/// Stands for what is cut off a long line.
const CUT: char = '…';

/// The lines of a place, each underlined with a mark in a tone, within so many columns.
pub(super) fn excerpt(
    (columns, paint): (usize, Paint),
    source: &Source,
    place: Span,
    mark: (char, Tone),
) -> Terminal {
    let first = source.line_column(place.start).0;
    let last = source
        .line_column(place.end.max(place.start + 1) - 1)
        .0
        .max(first);
    let gutter = last.to_string().len().max(3);
    let room = columns - gutter - 3;
    let mut drawn = Terminal::default();
    let mut row = |number: &str, body: Terminal| {
        let frame = format!("{number:>gutter$} | ");
        let frame = if body.is_empty() {
            frame.trim_end()
        } else {
            &frame
        };
        drawn.push(&paint.paint(Tone::Frame, frame));
        drawn.push(&body);
        drawn.say("\n");
    };
    for line in [first, last]
        .into_iter()
        .take(if last > first { 2 } else { 1 })
    {
        if line == last && last > first + 1 {
            row("...", Terminal::default());
        }
        let (text, before, under) = underlined(source, line, place, room);
        row(&line.to_string(), Terminal::lines(text.trim_end()));
        let mut marks = Terminal::lines(&" ".repeat(before));
        marks.push(&paint.paint(mark.1, &mark.0.to_string().repeat(under)));
        row("", marks);
    }
    drawn
}

/// What is shown of a line, the columns before the underline and the columns of it.
fn underlined(source: &Source, line: u32, place: Span, room: usize) -> (String, usize, usize) {
    let text = source.line(line);
    let line_start = source.line_starts()[line as usize - 1] as usize;
    let place_start = (place.start as usize).saturating_sub(line_start);
    let blank = if place_start == 0 {
        text.len() - text.trim_start().len()
    } else {
        0
    };
    let start = text.floor_char_boundary(place_start.max(blank).min(text.len()));
    let end = text.ceil_char_boundary(
        (place.end as usize)
            .saturating_sub(line_start)
            .clamp(start, text.len()),
    );
    let (from, to) = window(text, start, end, room);
    let (lead, tail) = (
        if from > 0 { 1 } else { 0 },
        if to < text.len() { 1 } else { 0 },
    );
    let before = expand(&text[from..start], lead);
    let under = expand(&text[start..end.min(to)], lead + before.1);
    let after = expand(&text[end.min(to)..to], lead + before.1 + under.1);
    let cut = |times: usize| CUT.to_string().repeat(times);
    let shown = format!(
        "{}{}{}{}{}",
        cut(lead),
        before.0,
        under.0,
        after.0,
        cut(tail)
    );
    (shown, lead + before.1, under.1.max(1))
}

/// The bytes of a line to show so that the underline, or as much of it as has room, is among them.
fn window(text: &str, start: usize, end: usize, room: usize) -> (usize, usize) {
    let fits = |from: usize, room: usize| {
        let (mut columns, mut letters) = (0, 0);
        let over = text[from..].char_indices().find(|(_, c)| {
            columns += width(*c, columns + usize::from(from > 0));
            letters += 1;
            // Marks that take no column, such as accents heaped up, are cut off as well.
            columns > room || letters > 4 * room
        });
        over.map_or(text.len(), |(at, _)| from + at)
    };
    if fits(0, room) == text.len() {
        return (0, text.len());
    }
    let room = room - 2;
    if fits(0, room) >= end {
        return (0, fits(0, room));
    }
    // Some of what stands before is shown, and the rest of the room goes to the underline and what follows.
    let ahead = text[..start]
        .chars()
        .rev()
        .take(room / 3)
        .map(char::len_utf8)
        .sum::<usize>();
    let from = start - ahead;
    let shown = fits(from, room);
    if shown > start {
        (from, shown)
    } else {
        (start, fits(start, room).max(start))
    }
}

/// A text as shown from a column on, and how many columns it takes.
fn expand(text: &str, column: usize) -> (String, usize) {
    let (mut shown, mut columns) = (String::new(), 0);
    for c in text.chars() {
        let wide = width(c, column + columns);
        match c {
            '\t' => shown.extend(std::iter::repeat_n(' ', wide)),
            c => shown.push(visible_char(c)),
        }
        columns += wide;
    }
    (shown, columns)
}

/// Columns a character takes at a column.
fn width(c: char, column: usize) -> usize {
    match c {
        '\t' => TAB - column % TAB,
        c => visible_char(c).width().unwrap_or(1),
    }
}
