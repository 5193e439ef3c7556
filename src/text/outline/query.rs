//! Finding one's way in an outline: from a byte to the record around it, from a record to a field, from a path to a
//! value and back.

use std::ops::Range;

use super::build::build;
use super::parts::{Fault, Kind, Part, PartId};
use super::scan::{Token, token_at};

/// Where every value of a text stands, and what is wrong with its shape.
#[derive(Clone, Debug)]
pub struct Outline<'t> {
    text: &'t str,
    parts: Vec<Part>,
    faults: Vec<Fault>,
}

impl<'t> Outline<'t> {
    /// The outline of a text, well-formed or not. Time and memory grow with the text's length only.
    ///
    /// # Panics
    /// If the text is longer than `u32::MAX` bytes.
    pub fn of(text: &'t str) -> Self {
        assert!(
            u32::try_from(text.len()).is_ok(),
            "an outline holds at most 4 GiB"
        );
        let (parts, faults) = build(text);
        Self {
            text,
            parts,
            faults,
        }
    }

    /// The text.
    pub fn text(&self) -> &'t str {
        self.text
    }

    /// All parts, in the order of their first bytes.
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// What is wrong with the shape, in the order of place; empty for a text whose brackets, commas and colons are all
    /// where RON needs them.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// One part.
    ///
    /// # Panics
    /// If the number is not from this outline.
    pub fn part(&self, part: PartId) -> &Part {
        &self.parts[part.index()]
    }

    /// The value that is the whole text; `None` for a text that holds none.
    pub fn root(&self) -> Option<PartId> {
        (!self.parts.is_empty()).then_some(PartId(0))
    }

    /// The text of a value.
    pub fn slice(&self, part: PartId) -> &'t str {
        let Range { start, end } = self.part(part).range();
        &self.text[start as usize..end as usize]
    }

    /// The name of a field; `None` if the part is no field.
    pub fn name(&self, part: PartId) -> Option<&'t str> {
        let Range { start, end } = self.part(part).label()?;
        Some(plain_name(&self.text[start as usize..end as usize]))
    }

    /// The name before a bracket, such as `Mixture` in `Mixture(…)`, or a bare word; `None` for other values.
    pub fn tag(&self, part: PartId) -> Option<&'t str> {
        let place = self.part(part);
        match place.kind {
            Kind::Word => Some(plain_name(self.slice(part))),
            Kind::Struct | Kind::Tuple if place.open > place.start => {
                let before = &self.text[place.start as usize..place.open as usize];
                let is_name =
                    |c: char| c.is_alphanumeric() || matches!(c, '_' | '#' | '.' | '+' | '-');
                let end = before.find(|c| !is_name(c)).unwrap_or(before.len());
                Some(plain_name(&before[..end]))
            }
            _ => None,
        }
    }

    /// The parts directly inside: fields, elements, or the keys and values of a map by turns.
    pub fn children(&self, part: PartId) -> impl Iterator<Item = PartId> + '_ {
        let past = self.part(part).past;
        let first = Some(part.0 + 1).filter(|&first| first < past);
        std::iter::successors(first, move |&at| {
            Some(self.parts[at as usize].past).filter(|&next| next < past)
        })
        .map(PartId)
    }

    /// The number of the first part that stands neither in a part nor before it: those inside a part have numbers from
    /// its own up to this one.
    pub fn past(&self, part: PartId) -> u32 {
        self.part(part).past
    }

    /// The innermost part around a byte.
    pub fn at(&self, offset: u32) -> Option<PartId> {
        let after = self.parts.partition_point(|part| part.start <= offset);
        let around = self.upward(PartId(after.checked_sub(1)? as u32));
        let holds = |part: &PartId| self.part(*part).range().contains(&offset);
        around.into_iter().find(holds)
    }

    /// The innermost struct around a byte; a byte in a field's name counts as inside the struct that holds the field.
    pub fn record_at(&self, offset: u32) -> Option<PartId> {
        let around = self.upward(self.at(offset)?);
        around
            .into_iter()
            .find(|part| self.part(*part).kind == Kind::Struct)
    }

    /// A part and all those around it, outward.
    fn upward(&self, part: PartId) -> impl IntoIterator<Item = PartId> + '_ {
        std::iter::successors(Some(part), |part| self.part(*part).parent())
    }

    /// A field of a struct by name; the last, should the name stand there twice.
    pub fn field(&self, record: PartId, name: &str) -> Option<PartId> {
        self.children(record)
            .filter(|child| self.name(*child) == Some(name))
            .last()
    }

    /// The value at a path such as `sowings[2].germinated` below `from`. A tuple of one, such as `Some(…)`, is seen
    /// through where the path needs what is inside.
    pub fn follow(&self, from: PartId, path: &str) -> Option<PartId> {
        path.split(['.', '['])
            .filter(|step| !step.is_empty())
            .try_fold(from, |at, step| match step.strip_suffix(']') {
                Some(index) => self.element(at, index.parse().ok()?),
                None => self.field(self.through(at, Kind::Struct), step),
            })
    }

    /// An element of a list or tuple, counted from 0.
    pub fn element(&self, list: PartId, index: usize) -> Option<PartId> {
        self.children(self.through(list, Kind::List)).nth(index)
    }

    /// The sole element of a tuple if it has the kind looked for, else the part itself.
    fn through(&self, part: PartId, kind: Kind) -> PartId {
        let mut inside = self.children(part);
        match (self.part(part).kind, inside.next(), inside.next()) {
            (Kind::Tuple, Some(only), None) if self.part(only).kind == kind => only,
            _ => part,
        }
    }

    /// The bytes of a field of the innermost struct around a byte, by a path as [`Outline::follow`] takes it. Given the
    /// place of a record's id this is how a field of that record is found.
    pub fn field_of_record_at(&self, offset: u32, path: &str) -> Option<Range<u32>> {
        let value = self.follow(self.record_at(offset)?, path)?;
        Some(self.part(value).range())
    }

    /// The comma after a value, passing over comments; `None` if something else follows.
    pub fn comma_after(&self, part: PartId) -> Option<u32> {
        let (token, start) = token_at(self.text, self.part(part).end as usize);
        (token == Token::Comma).then_some(start as u32)
    }
}

/// A name without the `r#` of a raw one or the quotation marks of a faulty one.
fn plain_name(name: &str) -> &str {
    let name = name.strip_prefix("r#").unwrap_or(name);
    let between = |mark| name.strip_prefix(mark)?.strip_suffix(mark);
    between('"').or_else(|| between('\'')).unwrap_or(name)
}
