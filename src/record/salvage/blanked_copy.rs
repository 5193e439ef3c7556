//! What is kept of a file, written onto a blank copy of it: every byte at its old offset, everything else a blank.
//!
//! Commas and brackets that were missing are put into the blanks after the value before them; brackets that never
//! close, and what stands in for a lost field of the page, follow after the end.

use super::marks::Marks;
use crate::text::Outline;
use crate::text::outline::{Kind as Shape, PartId};

/// The copy in the making.
struct BlankedCopy<'a, 't> {
    outline: &'a Outline<'t>,
    bytes: Vec<u8>,
    /// The first byte after what is written.
    cursor: usize,
    /// Commas and closing brackets to be written before the next value.
    owed: String,
    /// Whether a value stands before in the same brackets.
    follows: bool,
}

/// The copy without what is left out; `stand_ins` are fields added at the end of the root.
pub(super) fn rewrite(outline: &Outline, marks: &Marks, stand_ins: &[String]) -> String {
    let mut copy = BlankedCopy {
        outline,
        bytes: vec![b' '; outline.text().len()],
        cursor: 0,
        owed: String::new(),
        follows: false,
    };
    let Some(root) = outline.root() else {
        return String::from_utf8(copy.bytes).unwrap_or_default();
    };
    let past = outline.past(root);
    let mut open: Vec<(PartId, u32)> = Vec::new();
    let mut at = root.0;
    while at < past {
        while let Some((part, _)) = open.pop_if(|(_, past)| *past <= at) {
            copy.close(part);
        }
        let part = PartId(at);
        at = if !marks.is_left_out(part) && copy.admit(part, part == root) {
            if outline.part(part).kind.is_bracketed() {
                open.push((part, outline.past(part)));
            }
            at + 1
        } else {
            outline.past(part)
        };
    }
    while open.len() > 1 {
        let (part, _) = open.pop().expect("the loop asks whether there is one");
        copy.close(part);
    }
    copy.finish(open.pop().map(|(part, _)| part), stand_ins)
}

impl BlankedCopy<'_, '_> {
    fn write(&mut self, at: usize, text: &str) {
        let owed = std::mem::take(&mut self.owed);
        let start = self.cursor;
        self.bytes[start..start + owed.len()].copy_from_slice(owed.as_bytes());
        self.bytes[at..at + text.len()].copy_from_slice(text.as_bytes());
        self.cursor = at + text.len();
    }

    /// Writes a value, or what opens it; false when there is no room for what must stand before it.
    fn admit(&mut self, part: PartId, is_root: bool) -> bool {
        let place = *self.outline.part(part);
        let comma = usize::from(self.follows);
        let start = place.whole().start as usize;
        if start < self.cursor + self.owed.len() + comma {
            return false;
        }
        if let (Some(label), Some(name), false) = (place.label(), self.outline.name(part), is_root)
        {
            if (place.start as usize) <= label.end as usize {
                return false;
            }
            self.separate();
            let quote = usize::from(label.len() > name.len());
            self.write(label.start as usize + quote, name);
            self.owed.push(':');
        } else {
            self.separate();
        }
        let start = place.start as usize;
        if place.kind.is_bracketed() {
            let tag = self.outline.tag(part).unwrap_or("");
            self.write(start, tag);
            self.write(place.open as usize, self.brackets(part).0);
            self.follows = false;
        } else {
            self.write(start, self.outline.slice(part));
            self.follows = true;
        }
        true
    }

    fn separate(&mut self) {
        if self.follows {
            self.owed.push(',');
        }
    }

    fn brackets(&self, part: PartId) -> (&'static str, &'static str) {
        match self.outline.part(part).kind {
            Shape::List => ("[", "]"),
            Shape::Map => ("{", "}"),
            _ => ("(", ")"),
        }
    }

    /// Closes a bracket where it was closed, or as soon as there is room.
    fn close(&mut self, part: PartId) {
        let place = self.outline.part(part);
        let bracket = self.brackets(part).1;
        let end = place.end as usize;
        if place.closed && end > self.cursor + self.owed.len() {
            self.write(end - 1, bracket);
        } else {
            self.owed.push_str(bracket);
        }
        self.follows = true;
    }

    fn finish(mut self, root: Option<PartId>, stand_ins: &[String]) -> String {
        let end = self.bytes.len();
        if let Some(root) = root {
            let closed = self.outline.part(root).closed;
            if stand_ins.is_empty() && closed && self.owed.is_empty() {
                self.close(root);
            } else {
                let mut tail = std::mem::take(&mut self.owed);
                for field in stand_ins {
                    if std::mem::replace(&mut self.follows, true) {
                        tail.push(',');
                    }
                    tail.push_str(field);
                }
                tail.push_str(self.brackets(root).1);
                self.bytes.extend_from_slice(tail.as_bytes());
            }
        }
        debug_assert!(self.bytes.len() >= end);
        String::from_utf8(self.bytes).unwrap_or_default()
    }
}
