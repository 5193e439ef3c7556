//! One page while a recording changes it: every comment and every other byte stays.

use super::legible::Legible;
pub use super::legible::{At, PageFault};
use super::written::lines;
use crate::text::edit::{Edit, apply, made};
use crate::text::outline::PartId;
use crate::text::{Outline, Source};
use std::collections::BTreeMap;

/// A change to one record.
#[derive(Clone, Debug)]
pub enum FieldChange {
    /// Gives a field a value, in the place of the one it has.
    Set(&'static str, String),
    /// Adds a value to a list field, which is made when it is missing.
    Push(&'static str, String),
    /// Adds values to a list field that has some.
    PushMore(&'static str, Vec<String>),
    /// Adds a value to each list in a list field: a cell to every row.
    PushEach(&'static str, String),
    /// Puts rows of cells in the place of those that begin with the same text.
    Rows(&'static str, Vec<(String, String)>),
    /// Takes a field out, if it is there.
    Remove(&'static str),
    /// Changes nothing, and refuses a list field of which an entry was left out: it may be the one that is meant.
    Whole(&'static str),
    /// Takes a record out of a list field.
    RemoveEntry(&'static str, At),
    /// Changes a record in a list field.
    Within(Within),
}

impl FieldChange {
    /// A change to a piece of a plant.
    pub fn of_piece(code: &str, change: FieldChange) -> FieldChange {
        FieldChange::Within(Within {
            list: "ramets",
            at: At::Key("code", code.to_owned()),
            changes: vec![change],
        })
    }

    /// Changes to a record of a list, by its place.
    pub fn at(list: &'static str, index: usize, changes: Vec<FieldChange>) -> FieldChange {
        FieldChange::Within(Within {
            list,
            at: At::Index(index),
            changes,
        })
    }
}

/// A record inside another one.
#[derive(Clone, Debug)]
pub struct Within {
    /// The list field.
    pub list: &'static str,
    /// Which of its records.
    pub at: At,
    /// What is changed on it.
    pub changes: Vec<FieldChange>,
}

/// A page's text as it is to be.
#[derive(Clone, Debug)]
pub struct PageText {
    /// The page's path; empty for one in memory.
    path: String,
    text: String,
    /// The copy of it that is read, changed along with it; `None` while all of it is.
    kept: Option<String>,
    /// The changes made so far of a page that is not read whole.
    made: Vec<Vec<Edit>>,
}

impl PageText {
    /// A page with this text, all of which is read.
    pub fn new(text: impl Into<String>) -> Self {
        Self {
            path: String::new(),
            text: text.into(),
            kept: None,
            made: Vec::new(),
        }
    }

    /// A page of a registry.
    pub fn of(source: &Source) -> Self {
        let kept = source.kept();
        Self {
            path: source.path.clone(),
            kept: (kept != source.text).then(|| kept.to_owned()),
            ..Self::new(source.text.as_str())
        }
    }

    /// Whether as much of it is read as was before, and all that was added, by the copy that is read of the text as it is now.
    pub(super) fn is_read_by(&self, kept: &str) -> bool {
        Legible::new(&self.text, kept).reads_as(&self.legible())
    }

    /// Whether some of it is not read.
    pub(super) fn is_faulty(&self) -> bool {
        self.kept.is_some()
    }

    fn legible(&self) -> Legible<'_> {
        Legible::new(&self.text, self.kept.as_deref().unwrap_or(&self.text))
    }

    /// The text as it is now.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Sets a field of the page itself.
    pub fn set(&mut self, name: &'static str, value: &str) -> Result<(), PageFault> {
        self.change_whole(&[FieldChange::Set(name, value.to_owned())])
    }

    /// Changes the page's own record, one change after the other.
    pub fn change_whole(&mut self, changes: &[FieldChange]) -> Result<(), PageFault> {
        changes
            .iter()
            .try_for_each(|change| self.edit(|page, root| edits_of(page, root, change)))
    }

    /// Adds records to a list of the page, each in its line; the list is made when it is missing.
    pub fn append(&mut self, list: &'static str, values: &[String]) -> Result<(), PageFault> {
        let Some((first, more)) = values.split_first() else {
            return Ok(());
        };
        let mut has_all = more.is_empty();
        self.edit(|page, root| {
            let (outline, found) = (&page.outline, page.field(root, list)?);
            if let Some(found) = found.filter(|found| !is_empty_list(outline, *found)) {
                return Ok(outline.append(page.seen_through(found), first)?);
            }
            has_all = true;
            Ok(outline.set_field(root, list, &lines(values))?)
        })?;
        if has_all {
            return Ok(());
        }
        self.edit(|page, root| {
            Ok(vec![
                page.outline.append_more(page.listed(root, list)?, more)?,
            ])
        })
    }

    /// Changes records of a list of the page, each found by a key such as its number.
    pub fn change(
        &mut self,
        list: &'static str,
        key: &'static str,
        wanted: &[(String, Vec<FieldChange>)],
    ) -> Result<(), PageFault> {
        // Several changes of one record are made one after the other: each finds the record as the last one left it.
        let rounds = wanted.iter().map(|(_, changes)| changes.len()).max();
        for round in 0..rounds.unwrap_or(0) {
            self.edit(|page, root| {
                let missing = |what: &str| PageFault::NotFound(format!("{list} {what}"));
                let found = page.field(root, list)?;
                let records = page.by_key(found.ok_or_else(|| missing(""))?, key);
                let mut edits = Vec::new();
                for (code, changes) in wanted {
                    let record = records.get(code.as_str());
                    let record = record.ok_or_else(|| missing(&format!("`{code}`")))?;
                    if let Some(change) = changes.get(round) {
                        edits.extend(edits_of(page, *record, change)?);
                    }
                }
                Ok(edits)
            })?;
        }
        Ok(())
    }

    /// Changes one record of a list of the page, found by its place among those that are read.
    pub fn change_at(
        &mut self,
        list: &'static str,
        index: usize,
        changes: &[FieldChange],
    ) -> Result<(), PageFault> {
        changes.iter().try_for_each(|change| {
            self.edit(|page, root| {
                let record = page.entry(root, list, &At::Index(index))?;
                edits_of(page, record, change)
            })
        })
    }

    /// Replaces the value at a path of the page, such as `sittings[2].rows[5]`.
    pub fn replace_at(&mut self, path: &str, value: &str) -> Result<(), PageFault> {
        self.edit(|page, root| {
            let part = page.follow(root, path)?;
            Ok(vec![page.outline.replace(part, value)?])
        })
    }

    /// What of a list of the page was left out and holds a text, the first of it.
    pub fn not_read(&self, list: &str, holds: &str) -> Option<PageFault> {
        let page = self.legible();
        let not_read = page.first_unread(page.root().ok()?, list, holds)?;
        Some(self.placed(not_read))
    }

    /// Makes the edits of the text as it is now; they are given the record that is the page.
    fn edit(
        &mut self,
        edits: impl FnOnce(&Legible, PartId) -> Result<Vec<Edit>, PageFault>,
    ) -> Result<(), PageFault> {
        let page = self.legible();
        let edits = page.root().and_then(|root| edits(&page, root));
        let edits = edits.map_err(|fault| self.placed(fault))?;
        self.text = apply(&self.text, &edits)?;
        if let Some(kept) = &mut self.kept {
            // What stands in both stands at the same offset.
            *kept = made(kept, &edits)?;
            self.made.push(edits);
        }
        Ok(())
    }

    /// A refusal with the page, and the place on it as it was.
    fn placed(&self, fault: PageFault) -> PageFault {
        match fault {
            PageFault::NotRead { place, .. } => PageFault::NotRead {
                path: self.path.clone(),
                place: self.before(place.start)..self.before(place.end),
            },
            fault => fault,
        }
    }

    /// Where a byte stood before the changes made so far.
    fn before(&self, at: u32) -> u32 {
        let back = |at: i64, edits: &Vec<Edit>| {
            let mut ordered: Vec<&Edit> = edits.iter().collect();
            ordered.sort_unstable();
            let longer = ordered.iter().fold(0, |sum, edit| {
                let with = sum + edit.text.len() as i64 - i64::from(edit.end - edit.start);
                if i64::from(edit.end) + with <= at {
                    with
                } else {
                    sum
                }
            });
            at - longer
        };
        self.made.iter().rev().fold(i64::from(at), back) as u32
    }
}

/// `[]`: a list without elements and comments, which is made anew with one element a line.
fn is_empty_list(outline: &Outline, part: PartId) -> bool {
    let slice = outline.slice(part);
    let inside = slice
        .strip_prefix('[')
        .and_then(|rest| rest.strip_suffix(']'));
    inside.is_some_and(|inside| inside.trim().is_empty())
}

/// The edits by which a record is changed.
fn edits_of(page: &Legible, record: PartId, change: &FieldChange) -> Result<Vec<Edit>, PageFault> {
    let (outline, mut edits) = (&page.outline, Vec::new());
    match change {
        FieldChange::Set(name, value) => {
            page.field(record, name)?;
            edits = outline.set_field(record, name, value)?;
        }
        FieldChange::Push(name, value) => match page.field(record, name)? {
            Some(list) => {
                let list = page.seen_through(list);
                page.rows_are_new(list, std::slice::from_ref(value))?;
                edits = outline.append(list, value)?;
            }
            None => edits = outline.insert_field(record, name, &format!("[{value}]"))?,
        },
        FieldChange::PushMore(name, values) => {
            let list = page.listed(record, name)?;
            page.rows_are_new(list, values)?;
            edits.push(outline.append_more(list, values)?);
        }
        FieldChange::PushEach(name, value) => {
            let list = page.listed(record, name)?;
            page.is_whole(list)?;
            for row in outline.children(list) {
                edits.extend(outline.append(row, value)?);
            }
        }
        FieldChange::Rows(name, wanted) => {
            let rows = page.by_first_cell(page.listed(record, name)?);
            // Of two rows for one place the last stays.
            let wanted: BTreeMap<&String, &String> =
                wanted.iter().map(|(of, row)| (of, row)).collect();
            for (first, value) in wanted {
                let missing = || PageFault::NotFound(format!("the row of {first}"));
                let row = *rows.get(first.as_str()).ok_or_else(missing)?;
                edits.push(outline.replace(row, value)?);
            }
        }
        FieldChange::Remove(name) => {
            if let Some(field) = page.field(record, name)? {
                edits = outline.remove(field)?;
            }
        }
        FieldChange::Whole(name) => {
            if page.field(record, name)?.is_some() {
                page.is_whole(page.listed(record, name)?)?;
            }
        }
        FieldChange::RemoveEntry(list, at) => {
            edits = outline.remove(page.entry(record, list, at)?)?;
        }
        FieldChange::Within(Within { list, at, changes }) => {
            let found = page.entry(record, list, at)?;
            for change in changes {
                edits.extend(edits_of(page, found, change)?);
            }
        }
    }
    Ok(edits)
}
