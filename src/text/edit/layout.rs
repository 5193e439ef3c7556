//! The manner of a text: its line breaks, its indentation, its commas; and fitting a new value into it.

use std::ops::Range;

use super::apply::EditFault;
use crate::text::outline::{Kind, Outline, PartId};

/// The blanks that may be moved or taken out; a no-break space at the end of a comment, for one, may not.
const BLANK: [char; 4] = [' ', '\t', '\r', '\n'];

impl Outline<'_> {
    /// Refuses a text with faults of shape, in which brackets may have no end.
    pub(super) fn sound(&self) -> Result<(), EditFault> {
        let fault = self.faults().first();
        fault.map_or(Ok(()), |fault| Err(EditFault::FaultyText(*fault)))
    }

    /// A value's text as it goes in: its later lines get an indentation and the text's own line breaks, except inside
    /// texts.
    pub(super) fn fitted(&self, value: &str, indent: &str) -> Result<String, EditFault> {
        let value = value.trim();
        let outline = Outline::of(value);
        let whole = outline.root().filter(|root| outline.slice(*root) == value);
        if whole.is_none() || !outline.faults().is_empty() {
            return Err(EditFault::FaultyValue);
        }
        let mut fitted = String::with_capacity(value.len());
        let mut rest = 0;
        for (at, _) in value.match_indices('\n') {
            let inside = outline.at(at as u32).map(|part| outline.part(part).kind);
            if matches!(inside, Some(Kind::Text | Kind::Bytes)) {
                continue;
            }
            let line = &value[rest..at];
            fitted.push_str(line.strip_suffix('\r').unwrap_or(line));
            fitted.push_str(self.line_break());
            fitted.push_str(indent);
            rest = at + 1;
        }
        fitted.push_str(&value[rest..]);
        Ok(fitted)
    }

    /// The line break of the text's first line.
    pub(super) fn line_break(&self) -> &'static str {
        match self.text().find('\n') {
            Some(at) if self.text()[..at].ends_with('\r') => "\r\n",
            _ => "\n",
        }
    }

    /// One step of indentation: that of the first value or field that begins an indented line, or four blanks.
    pub(super) fn indent_step(&self) -> &str {
        let parts = (0..self.parts().len() as u32).map(PartId);
        let begins = parts.filter(|part| self.begins_line(*part));
        let mut indents = begins.map(|part| self.indent_of_line(self.part(part).whole().start));
        match indents.find(|indent| !indent.is_empty()) {
            None => "    ",
            Some(tabs) if tabs.starts_with('\t') => "\t",
            Some(blanks) => &blanks[..blanks.len().min(8)],
        }
    }

    /// The blanks at the start of the line of a byte.
    pub(super) fn indent_of_line(&self, offset: u32) -> &str {
        let before = &self.text()[..offset as usize];
        let line = &before[before.rfind('\n').map_or(0, |at| at + 1)..];
        &line[..line.len() - line.trim_start_matches([' ', '\t']).len()]
    }

    /// Whether only blanks stand before a part, with its name, in its line.
    pub(super) fn begins_line(&self, part: PartId) -> bool {
        let start = self.part(part).whole().start;
        let line_start = self.text()[..start as usize]
            .rfind('\n')
            .map(|at| at as u32 + 1);
        line_start.is_some_and(|line_start| self.is_blank(line_start..start))
    }

    /// Whether a range holds blanks only, or nothing.
    pub(super) fn is_blank(&self, range: Range<u32>) -> bool {
        self.text()[range.start as usize..range.end as usize]
            .trim()
            .is_empty()
    }

    /// Whether a line ends within a range.
    pub(super) fn has_break(&self, range: Range<u32>) -> bool {
        self.text()[range.start as usize..range.end as usize].contains('\n')
    }

    /// Where the blanks at the end of a range begin.
    pub(super) fn before_blanks(&self, range: Range<u32>) -> u32 {
        let inside = &self.text()[range.start as usize..range.end as usize];
        range.start + inside.trim_end_matches(BLANK).len() as u32
    }

    /// Where the last line of a range that holds more than blanks ends, its own last blanks included.
    pub(super) fn line_end_before(&self, range: Range<u32>) -> u32 {
        let at = self.before_blanks(range.clone());
        let end = self.after_blanks_in_line(at);
        if self.has_break(end..range.end) {
            end
        } else {
            at
        }
    }

    /// Where the blanks before a byte begin, within its line.
    pub(super) fn before_blanks_in_line(&self, offset: u32) -> u32 {
        self.text()[..offset as usize]
            .trim_end_matches([' ', '\t'])
            .len() as u32
    }

    /// Where the blanks after a byte end, within its line.
    pub(super) fn after_blanks_in_line(&self, offset: u32) -> u32 {
        let rest = &self.text()[offset as usize..];
        offset + (rest.len() - rest.trim_start_matches([' ', '\t']).len()) as u32
    }

    /// The lines of a range with their last line break, if nothing else stands in them.
    pub(super) fn whole_lines(&self, start: u32, end: u32) -> Option<(u32, u32)> {
        let first = self.before_blanks_in_line(start);
        let begins = self.text()[..first as usize].ends_with('\n');
        let last = self.after_blanks_in_line(end);
        let rest = &self.text()[last as usize..];
        let line_break = ["\n", "\r\n"]
            .into_iter()
            .find(|line_break| rest.starts_with(line_break))?;
        begins.then_some((first, last + line_break.len() as u32))
    }
}
