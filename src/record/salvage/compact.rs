//! One record written out alone: well-formed, without blanks or remarks, without what is cut, and with the way back.
//!
//! Lists of records inside it are written empty, since their records are tried on their own.

use super::marks::Marks;
use crate::text::Outline;
use crate::text::outline::{Kind as Shape, PartId};
use ron::Error;
use ron::error::SpannedError;
use std::borrow::Cow;

/// What a piece of the compact text comes from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum From {
    /// The value of a part, or a bracket of it.
    Value(PartId),
    /// The name of a part that is a field.
    Name(PartId),
    /// Something added to a record that lacks it.
    Added,
}

/// A field added to a record in a trial, to see what else the record lacks.
#[derive(Clone, Debug)]
pub(super) struct Addition {
    pub to: PartId,
    pub field: String,
    pub value: &'static str,
}

/// A record as compact text.
pub(super) struct Compact {
    pub text: String,
    /// Where each piece starts and ends.
    pieces: Vec<(usize, usize, From)>,
}

/// A bracket that is still open.
struct Open {
    part: PartId,
    /// The first part after those inside.
    past: u32,
    close: char,
}

/// Writes a record out.
pub(super) fn compact(
    outline: &Outline,
    marks: &Marks,
    record: PartId,
    additions: &[Addition],
) -> Compact {
    let mut writer = Writer {
        outline,
        additions,
        compact: Compact {
            text: String::new(),
            pieces: Vec::new(),
        },
        open: Vec::new(),
        follows: false,
    };
    let past = outline.past(record);
    let mut at = record.0;
    while at < past {
        writer.close(at);
        let part = PartId(at);
        at = if part != record && marks.is_cut(part) {
            outline.past(part)
        } else {
            writer.part(part, part == record, marks.is_list(part))
        };
    }
    writer.close(past);
    writer.compact
}

struct Writer<'a, 't> {
    outline: &'a Outline<'t>,
    additions: &'a [Addition],
    compact: Compact,
    open: Vec<Open>,
    /// Whether a value stands before in the same brackets.
    follows: bool,
}

impl Writer<'_, '_> {
    fn piece(&mut self, from: From, text: &str) {
        let start = self.compact.text.len();
        self.compact.text.push_str(text);
        let end = self.compact.text.len();
        self.compact.pieces.push((start, end, from));
    }

    /// Writes a part, and gives the number of the part to go on with.
    fn part(&mut self, part: PartId, alone: bool, is_list: bool) -> u32 {
        let place = *self.outline.part(part);
        if std::mem::replace(&mut self.follows, true) {
            self.compact.text.push(',');
        }
        if !alone && let Some(name) = self.outline.name(part) {
            self.piece(From::Name(part), &plain_name(name));
            self.compact.text.push(':');
        }
        let (open, close) = match place.kind {
            Shape::List if is_list && !alone => {
                self.piece(From::Value(part), "[]");
                return self.outline.past(part);
            }
            Shape::Map => {
                self.piece(From::Value(part), "{}");
                return self.outline.past(part);
            }
            Shape::Struct | Shape::Tuple => ("(", ')'),
            Shape::List => ("[", ']'),
            _ => {
                let text = self.outline.slice(part);
                self.piece(From::Value(part), text);
                return part.0 + 1;
            }
        };
        let tag = self.outline.tag(part).unwrap_or("");
        self.piece(From::Value(part), tag);
        self.compact.text.push_str(open);
        self.open.push(Open {
            part,
            past: self.outline.past(part),
            close,
        });
        self.follows = false;
        part.0 + 1
    }

    /// Closes the brackets that end before a part.
    fn close(&mut self, at: u32) {
        while let Some(open) = self.open.pop_if(|open| open.past <= at) {
            let additions = self.additions;
            for addition in additions.iter().filter(|a| a.to == open.part) {
                if std::mem::replace(&mut self.follows, true) {
                    self.compact.text.push(',');
                }
                let text = format!("{}:{}", addition.field, addition.value);
                self.piece(From::Added, &text);
            }
            self.piece(From::Value(open.part), &open.close.to_string());
            self.follows = true;
        }
    }
}

impl Compact {
    /// How many pieces it is made of, one at least.
    pub fn pieces(&self) -> usize {
        self.pieces.len().max(1)
    }

    /// What the place of an error comes from.
    pub fn origin(&self, error: &SpannedError) -> From {
        let at = offset(&self.text, error);
        let after = self.pieces.partition_point(|(start, ..)| *start <= at);
        // A word that lacks its brackets ends where they should begin.
        let is_word = |(start, end, _): &(usize, usize, From)| start < end && *end == at;
        let word = after.checked_sub(2).map(|before| self.pieces[before]);
        match word.filter(is_word) {
            Some((.., word)) if error.code == Error::ExpectedStructLike => word,
            _ => self.pieces[after.max(1) - 1].2,
        }
    }

    /// The bytes of a part's value.
    pub fn range(&self, part: PartId) -> Option<(usize, usize)> {
        let mut own = self
            .pieces
            .iter()
            .filter(|(.., from)| *from == From::Value(part));
        let (start, end, _) = *own.next()?;
        Some((start, own.next_back().map_or(end, |(_, end, _)| *end)))
    }
}

/// A field's name as the typed parse takes one: with blanks or other signs in it, as a raw one that no field has.
fn plain_name(name: &str) -> Cow<'_, str> {
    let is_plain = |c: char| c.is_alphanumeric() || c == '_';
    match name.chars().all(is_plain) {
        true => Cow::Borrowed(name),
        false => Cow::Owned(format!("r#{}", name.replace(|c| !is_plain(c), "-"))),
    }
}

/// The byte at which the typed parse met an error; its columns count characters.
pub(super) fn offset(text: &str, error: &SpannedError) -> usize {
    let start = error.span.start;
    let lines = text
        .split_inclusive('\n')
        .take(start.line.saturating_sub(1));
    let line: usize = lines.map(str::len).sum();
    let rest = &text[line..];
    let mut letters = rest.char_indices();
    let in_line = letters
        .nth(start.col.saturating_sub(1))
        .map_or(rest.len(), |(at, _)| at);
    line + in_line
}
