//! A change as a range of bytes and the text to stand there, and making several at once.

use std::fmt;
use std::ops::Range;

use crate::text::outline::{Fault, Outline};

/// One change: the bytes of a range give way to a text.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Edit {
    /// First byte replaced.
    pub start: u32,
    /// First byte after; equals `start` when something is only put in.
    pub end: u32,
    /// What stands there afterwards.
    pub text: String,
}

/// Why a change was not made.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum EditFault {
    /// The text has faults of shape already; the first of them.
    FaultyText(Fault),
    /// The value to put in is not one value in RON.
    FaultyValue,
    /// Two edits touch the same bytes, from this offset on.
    Overlap(u32),
    /// A range reaches beyond the text, or begins or ends inside a character.
    Outside(Range<u32>),
    /// The part is not a list, where one was needed.
    NotAList,
    /// The part has no named fields, where such were needed.
    NotAStruct,
    /// The field is there already.
    FieldExists(Range<u32>),
    /// The whole text's value cannot be removed.
    Outermost,
    /// The result would not be well-formed; nothing was changed.
    FaultyResult(Fault),
}

impl fmt::Display for EditFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            EditFault::FaultyText(_) => "the file has faults of shape, which must be mended first",
            EditFault::FaultyValue => "the value to put in is not one RON value",
            EditFault::Overlap(_) => "two changes touch the same bytes",
            EditFault::Outside(_) => "a change lies outside the file's text",
            EditFault::NotAList => "there is no list to append to",
            EditFault::NotAStruct => "there are no named fields to add one to",
            EditFault::FieldExists(_) => "the field is there already",
            EditFault::Outermost => "the value that is the whole file cannot be removed",
            EditFault::FaultyResult(_) => {
                "the changed file would not be well-formed; nothing was changed"
            }
        })
    }
}

impl std::error::Error for EditFault {}

/// The text with all edits made, which may come in any order but must not touch the same bytes; several that only put
/// something in at one place keep their order.
///
/// # Errors
/// If edits overlap or lie outside the text, or if the text or the result has a fault of shape.
pub fn apply(text: &str, edits: &[Edit]) -> Result<String, EditFault> {
    if let Some(fault) = Outline::of(text).faults().first() {
        return Err(EditFault::FaultyText(*fault));
    }
    let changed = made(text, edits)?;
    match Outline::of(&changed).faults().first() {
        Some(fault) => Err(EditFault::FaultyResult(*fault)),
        None => Ok(changed),
    }
}

/// As [`apply`], for a text that was found sound and a result that is read by who asks for it.
///
/// # Errors
/// If edits overlap or lie outside the text.
pub fn made(text: &str, edits: &[Edit]) -> Result<String, EditFault> {
    let mut ordered: Vec<_> = edits.iter().collect();
    ordered.sort_by_key(|edit| (edit.start, edit.end));
    let (mut changed, mut kept) = (String::with_capacity(text.len()), 0);
    for edit in ordered {
        let (start, end) = (edit.start as usize, edit.end as usize);
        if start < kept {
            return Err(EditFault::Overlap(edit.start));
        }
        if text.get(start..end).is_none() {
            return Err(EditFault::Outside(edit.start..edit.end));
        }
        changed.push_str(&text[kept..start]);
        changed.push_str(&edit.text);
        kept = end;
    }
    changed.push_str(&text[kept..]);
    Ok(changed)
}
