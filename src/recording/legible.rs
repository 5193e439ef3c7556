//! Finding one's way on a page by what the registry has of it.
//!
//! What was left out for a fault of its own still stands in the text. It is passed over where records are counted or looked
//! up, as the registry passes over it, so that nothing is written to the record next to the one that was meant. A field that
//! was left out is not there to be changed: what it says is not known, and must not be overwritten.

use crate::text::edit::EditFault;
use crate::text::outline::{Kind, PartId};
use crate::text::{Names, Outline};
use std::collections::BTreeMap;
use std::fmt;
use std::ops::Range;

/// How a record is found in its list.
#[derive(Clone, Debug)]
pub enum At {
    /// By the text of a field: its code, its number.
    Key(&'static str, String),
    /// By its place, from 0.
    Index(usize),
}

/// Why a page was not changed.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum PageFault {
    /// The record that was to be changed was not found; how it was looked for.
    NotFound(String),
    /// What was to be changed stands on a page, and was left out for a fault of its own.
    NotRead {
        /// The page's path relative to the registry's folder.
        path: String,
        /// The bytes of it on that page as it was.
        place: Range<u32>,
    },
    /// The page's text does not let itself be changed.
    Edit(EditFault),
}

impl fmt::Display for PageFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PageFault::NotFound(what) => write!(f, "{what} was not found on its page"),
            PageFault::NotRead { .. } => f.write_str("what stands there already could not be read"),
            PageFault::Edit(why) => why.fmt(f),
        }
    }
}

impl From<EditFault> for PageFault {
    fn from(fault: EditFault) -> Self {
        PageFault::Edit(fault)
    }
}

/// A page's outline, and the copy of its text that is read, with blanks for the rest.
pub(super) struct Legible<'t> {
    /// Everything that stands on the page.
    pub outline: Outline<'t>,
    kept: &'t str,
}

impl<'t> Legible<'t> {
    /// The page of a text, of which as much is read as its copy holds.
    pub fn new(text: &'t str, kept: &'t str) -> Self {
        let outline = Outline::of(text);
        Self { outline, kept }
    }

    /// The page's own record.
    pub fn root(&self) -> Result<PartId, PageFault> {
        if let Some(fault) = self.outline.faults().first() {
            return Err(EditFault::FaultyText(*fault).into());
        }
        let root = self.outline.root().filter(|root| self.is_read(*root));
        root.map(|root| self.seen_through(root))
            .ok_or_else(|| PageFault::NotFound("the page's own record".to_owned()))
    }

    /// Whether a part is read.
    pub fn is_read(&self, part: PartId) -> bool {
        !self.words(part).is_empty()
    }

    /// The parts directly inside that are read.
    pub fn children(&self, part: PartId) -> impl Iterator<Item = PartId> + '_ {
        let children = self.outline.children(part);
        children.filter(|child| self.is_read(*child))
    }

    /// What stands inside `Some(…)`, or the part itself.
    pub fn seen_through(&self, part: PartId) -> PartId {
        let mut inside = self.outline.children(part);
        match (self.outline.part(part).kind, inside.next(), inside.next()) {
            (Kind::Tuple, Some(only), None) if self.outline.part(only).kind.is_bracketed() => only,
            _ => part,
        }
    }

    /// A field of a record.
    ///
    /// # Errors
    /// If it stands there and is not read, be it under a misspelt name, or stands there twice.
    pub fn field(&self, record: PartId, name: &str) -> Result<Option<PartId>, PageFault> {
        let mut fields = self.outline.children(record);
        let is_meant = |field: &PartId| {
            let own = self.outline.name(*field).unwrap_or_default();
            own == name || !Names::new([name]).nearest(own).is_empty()
        };
        match fields.find(|field| !self.is_read(*field) && is_meant(field)) {
            Some(unread) => Err(self.not_read(unread)),
            None => Ok(self.outline.field(record, name)),
        }
    }

    /// The value at a path such as `sittings[2].rows[5]`.
    ///
    /// # Errors
    /// If it is not there, or a field on the way is not read.
    pub fn follow(&self, from: PartId, path: &str) -> Result<PartId, PageFault> {
        let steps = path.split(['.', '[']);
        let value = steps.filter(|step| !step.is_empty()).try_fold(
            Some(from),
            |at, step| -> Result<_, PageFault> {
                let Some(at) = at.map(|at| self.seen_through(at)) else {
                    return Ok(None);
                };
                match step.strip_suffix(']').map(str::parse) {
                    Some(index) => Ok(index.ok().and_then(|index| self.children(at).nth(index))),
                    None => self.field(at, step),
                }
            },
        )?;
        value.ok_or_else(|| PageFault::NotFound(path.to_owned()))
    }

    /// The list in a field.
    pub fn listed(&self, record: PartId, name: &str) -> Result<PartId, PageFault> {
        let list = self.field(record, name)?;
        let list = list.ok_or_else(|| PageFault::NotFound(format!("the list {name}")))?;
        Ok(self.seen_through(list))
    }

    /// A record in a list field.
    pub fn entry(&self, record: PartId, name: &str, at: &At) -> Result<PartId, PageFault> {
        let list = self.field(record, name)?;
        let found = list.and_then(|list| match at {
            At::Key(key, code) => self.by_key(list, key).get(code.as_str()).copied(),
            At::Index(index) => self.children(self.seen_through(list)).nth(*index),
        });
        found.ok_or_else(|| {
            PageFault::NotFound(match at {
                At::Key(_, code) => format!("{name} `{code}`"),
                At::Index(index) => format!("{name} number {}", index + 1),
            })
        })
    }

    /// The records of a list by a key's text; of two with one key the first, as the registry takes them.
    pub fn by_key(&self, list: PartId, key: &str) -> BTreeMap<&'t str, PartId> {
        let records = self.children(self.seen_through(list));
        first_of_each(records.filter_map(|record| {
            let mut fields = self.children(record);
            let value = fields.find(|field| self.outline.name(*field) == Some(key))?;
            Some((unquoted(self.words(value)), record))
        }))
    }

    /// The rows of a list by their first cell; of two with one the first.
    pub fn by_first_cell(&self, list: PartId) -> BTreeMap<&'t str, PartId> {
        let rows = self.children(list);
        first_of_each(rows.filter_map(|row| {
            let cell = self.children(row).next()?;
            Some((unquoted(self.words(cell)), row))
        }))
    }

    /// Refuses rows of which one that is not read begins as a new one does: once it is mended, one plant would have two.
    pub fn rows_are_new(&self, list: PartId, rows: &[String]) -> Result<(), PageFault> {
        let begins = |row: &PartId| {
            let first = first_cell(&self.outline, *row);
            let is_of_it = |new: &String| {
                let new = Outline::of(new);
                new.root().and_then(|root| first_cell(&new, root)) == first
            };
            let is_row = self.outline.part(*row).kind == Kind::List;
            is_row && first.is_some() && rows.iter().any(is_of_it)
        };
        let mut unread = self.unread(list);
        unread
            .find(begins)
            .map_or(Ok(()), |row| Err(self.not_read(row)))
    }

    /// Refuses a list of which an entry is not read.
    pub fn is_whole(&self, list: PartId) -> Result<(), PageFault> {
        let unread = self.unread(list).next();
        unread.map_or(Ok(()), |entry| Err(self.not_read(entry)))
    }

    /// The first part of a list that is not read and holds a text.
    pub fn first_unread(&self, record: PartId, list: &str, holds: &str) -> Option<PageFault> {
        let list = match self.field(record, list) {
            Ok(list) => list?,
            Err(unread) => return Some(unread),
        };
        let mut inside = (list.0..self.outline.past(list)).map(PartId);
        let is_it =
            |part: &PartId| !self.is_read(*part) && self.outline.slice(*part).contains(holds);
        inside.find(is_it).map(|part| self.not_read(part))
    }

    fn unread(&self, part: PartId) -> impl Iterator<Item = PartId> + '_ {
        let children = self.outline.children(part);
        children.filter(|child| !self.is_read(*child))
    }

    fn not_read(&self, part: PartId) -> PageFault {
        PageFault::NotRead {
            path: String::new(),
            place: self.outline.part(part).whole(),
        }
    }

    /// A value as it is read; nothing of one that is not.
    fn words(&self, part: PartId) -> &'t str {
        let place = self.outline.part(part).range();
        let words = self.kept.get(place.start as usize..place.end as usize);
        words.unwrap_or_default().trim()
    }

    /// Whether as much of the page is read as of the same one with another copy.
    pub fn reads_as(&self, other: &Legible) -> bool {
        let count = self.outline.parts().len() as u32;
        let mut parts = (0..count).map(PartId);
        parts.all(|part| self.is_read(part) == other.is_read(part))
    }
}

fn first_cell<'t>(outline: &Outline<'t>, row: PartId) -> Option<&'t str> {
    let cell = outline.children(row).next()?;
    Some(unquoted(outline.slice(cell)))
}

fn first_of_each<'t>(parts: impl Iterator<Item = (&'t str, PartId)>) -> BTreeMap<&'t str, PartId> {
    let mut first = BTreeMap::new();
    for (key, part) in parts {
        first.entry(key).or_insert(part);
    }
    first
}

/// A text's words as they stand between its quotes; codes hold nothing that is escaped.
fn unquoted(slice: &str) -> &str {
    let slice = slice.strip_prefix('r').unwrap_or(slice).trim_matches('#');
    slice
        .strip_prefix('"')
        .and_then(|rest| rest.strip_suffix('"'))
        .unwrap_or(slice)
}
