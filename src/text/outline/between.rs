//! What stands between values: commas and colons, those that are there and those that are missing.

use super::build::Builder;
use super::parts::{FaultKind, Kind, NONE, Part, Role};
use super::scan::Bracket;

impl Builder<'_> {
    /// Says so if a name or key still lacks its value, or a key its colon.
    pub(super) fn demand_value(&mut self, at: usize) {
        let top = self.top();
        let (label, last, colon, filled, is_map) = (
            top.label,
            top.last,
            top.colon,
            top.filled,
            top.bracket == Bracket::Curly && top.part != NONE,
        );
        if colon {
            let at = self.ended.min(at);
            self.fault(FaultKind::MissingValue, at, at, Some(label.0));
        } else if filled && is_map && self.parts[last as usize].role == Role::Key {
            let key = self.parts[last as usize];
            self.fault(
                FaultKind::MissingColon,
                key.end as usize,
                key.end as usize,
                Some(key.start),
            );
        }
    }

    pub(super) fn comma(&mut self) {
        let start = self.scanner.start;
        self.demand_value(start);
        let top = self.top();
        if top.part == NONE {
            return self.outside(FaultKind::StrayComma, None);
        }
        let stray = !top.filled && !top.colon;
        (top.filled, top.colon) = (false, false);
        if stray {
            self.fault(FaultKind::StrayComma, start, start + 1, None);
        }
    }

    pub(super) fn colon(&mut self) {
        let start = self.scanner.start;
        let top = &self.frames[self.frames.len() - 1];
        let last = self
            .parts
            .get(top.last as usize)
            .copied()
            .filter(|_| top.filled);
        match (top.bracket, last) {
            (Bracket::Round, Some(name)) if self.may_name(name) => self.take_label(name),
            (Bracket::Round, Some(name)) if name.role == Role::Field && name.kind == Kind::Word => {
                if let Some(name) = self.in_two_words(name) {
                    return self.take_label(name);
                }
                // `sown: seeds: 120`: the first name has no value, the second was taken for it.
                let at = name.label_end as usize;
                self.fault(FaultKind::MissingValue, at, at, Some(name.label_start));
                self.take_label(name);
            }
            (Bracket::Curly, Some(key)) if key.role == Role::Key => {
                let top = self.top();
                (top.filled, top.colon, top.label) = (false, true, (key.start, key.end));
            }
            _ if top.part == NONE => self.outside(FaultKind::StrayColon, None),
            _ => {
                self.comma_line = Some(self.line_start);
                self.fault(FaultKind::StrayColon, start, start + 1, None);
            }
        }
    }

    /// The name of a field written in two words, by the second: the first was taken for a name without its colon.
    fn in_two_words(&mut self, second: Part) -> Option<Part> {
        let faults = &mut self.scanner.faults;
        faults.pop_if(|fault| {
            (fault.kind, fault.start) == (FaultKind::MissingColon, second.label_end)
        })?;
        let start = second.label_start;
        Some(Part { start, ..second })
    }

    /// Whether the value just read may be a field's name.
    fn may_name(&self, name: Part) -> bool {
        name.role == Role::Element && matches!(name.kind, Kind::Word | Kind::Text)
    }

    /// Makes the value just read the name of the field to come.
    fn take_label(&mut self, name: Part) {
        let number = self.parts.len() as u32 - 1;
        self.parts.pop();
        let range = name.start as usize..name.end as usize;
        let text = &self.scanner.text[range.clone()];
        let is_split = text.contains(|c: char| !(c.is_alphanumeric() || c == '_'));
        let faults = &mut self.scanner.faults;
        faults.pop_if(|fault| (fault.kind, fault.end) == (FaultKind::BareText, name.end));
        if name.kind == Kind::Word && is_split && !text.starts_with("r#") {
            self.fault(FaultKind::SplitName, range.start, range.end, None);
        }
        if name.kind == Kind::Text {
            self.fault(
                FaultKind::QuotedName,
                name.start as usize,
                name.end as usize,
                None,
            );
        }
        let top = self.top();
        (top.filled, top.colon, top.named) = (false, true, true);
        top.label = (name.start, name.end);
        if top.nameless == number {
            top.nameless = NONE;
        }
    }

    /// Says what is missing if a value follows another with nothing between.
    pub(super) fn separate(&mut self) {
        let top = &self.frames[self.frames.len() - 1];
        if !top.filled {
            return;
        }
        let (named, bracket, outermost) = (top.named, top.bracket, top.part == NONE);
        let before = self.parts[top.last as usize];
        let (at, start) = (before.end as usize, Some(before.start));
        let is_word = before.kind == Kind::Word && self.may_name(before);
        if outermost {
            return self.outside(FaultKind::SecondValue, start);
        }
        if bracket == Bracket::Round && named && is_word {
            self.take_label(before);
            self.fault(FaultKind::MissingColon, at, at, start);
        } else if bracket == Bracket::Curly && before.role == Role::Key {
            let top = self.top();
            (top.colon, top.label) = (true, (before.start, before.end));
            self.fault(FaultKind::MissingColon, at, at, start);
        } else if self.comma_line != Some(self.line_start) {
            self.comma_line = Some(self.line_start);
            self.fault(FaultKind::MissingComma, at, at, start);
        }
    }
}
