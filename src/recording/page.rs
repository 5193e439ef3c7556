//! One page while a recording changes it: every comment and every other byte stays.

use super::written::lines;
use crate::text::Outline;
use crate::text::edit::{Edit, EditFault, apply};
use crate::text::outline::{Kind, PartId};
use std::collections::BTreeMap;
use std::fmt;

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
    /// The page's text does not let itself be changed.
    Edit(EditFault),
}

impl fmt::Display for PageFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PageFault::NotFound(what) => write!(f, "{what} was not found on its page"),
            PageFault::Edit(why) => why.fmt(f),
        }
    }
}

impl From<EditFault> for PageFault {
    fn from(fault: EditFault) -> Self {
        PageFault::Edit(fault)
    }
}

/// A page's text as it is to be.
#[derive(Clone, Debug)]
pub struct PageText {
    text: String,
}

impl PageText {
    /// A page with this text.
    pub fn new(text: impl Into<String>) -> Self {
        Self { text: text.into() }
    }

    /// The text as it is now.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Sets a field of the page itself.
    pub fn set(&mut self, name: &'static str, value: &str) -> Result<(), PageFault> {
        self.edit(|outline, page| Ok(outline.set_field(page, name, value)?))
    }

    /// Changes the page's own record, one change after the other.
    pub fn change_whole(&mut self, changes: &[FieldChange]) -> Result<(), PageFault> {
        changes
            .iter()
            .try_for_each(|change| self.edit(|outline, page| edits_of(outline, page, change)))
    }

    /// Adds records to a list of the page, each in its line; the list is made when it is missing.
    pub fn append(&mut self, list: &'static str, values: &[String]) -> Result<(), PageFault> {
        let Some((first, more)) = values.split_first() else {
            return Ok(());
        };
        let mut has_all = more.is_empty();
        self.edit(|outline, page| {
            let found = outline.follow(page, list);
            if let Some(found) = found.filter(|found| !is_empty_list(outline, *found)) {
                return Ok(outline.append(seen_through(outline, found), first)?);
            }
            has_all = true;
            Ok(match found {
                Some(found) => vec![outline.replace(found, &lines(values))?],
                None => outline.set_field(page, list, &lines(values))?,
            })
        })?;
        if has_all {
            return Ok(());
        }
        self.edit(|outline, page| {
            let list = listed(outline, page, list)?;
            Ok(vec![outline.append_more(list, more)?])
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
            self.edit(|outline, page| {
                let missing = |what: &str| PageFault::NotFound(format!("{list} {what}"));
                let found = outline.follow(page, list);
                let records = by_key(outline, found.ok_or_else(|| missing(""))?, key);
                let mut edits = Vec::new();
                for (code, changes) in wanted {
                    let record = records.get(code.as_str());
                    let record = record.ok_or_else(|| missing(&format!("`{code}`")))?;
                    if let Some(change) = changes.get(round) {
                        edits.extend(edits_of(outline, *record, change)?);
                    }
                }
                Ok(edits)
            })?;
        }
        Ok(())
    }

    /// Changes one record of a list of the page, found by its place in it.
    pub fn change_at(
        &mut self,
        list: &'static str,
        index: usize,
        changes: &[FieldChange],
    ) -> Result<(), PageFault> {
        changes.iter().try_for_each(|change| {
            self.edit(|outline, page| {
                let record = entry(outline, page, list, &At::Index(index))?;
                edits_of(outline, record, change)
            })
        })
    }

    /// Replaces the value at a path of the page, such as `sittings[2].rows[5]`.
    pub fn replace_at(&mut self, path: &str, value: &str) -> Result<(), PageFault> {
        self.edit(|outline, page| {
            let part = outline.follow(page, path);
            let part = part.ok_or_else(|| PageFault::NotFound(path.to_owned()))?;
            Ok(vec![outline.replace(part, value)?])
        })
    }

    /// Makes the edits of the text as it is now; they are given the record that is the page.
    fn edit(
        &mut self,
        edits: impl FnOnce(&Outline, PartId) -> Result<Vec<Edit>, PageFault>,
    ) -> Result<(), PageFault> {
        let outline = Outline::of(&self.text);
        let edits = edits(&outline, root(&outline)?)?;
        self.text = apply(&self.text, &edits)?;
        Ok(())
    }
}

fn root(outline: &Outline) -> Result<PartId, PageFault> {
    if let Some(fault) = outline.faults().first() {
        return Err(EditFault::FaultyText(*fault).into());
    }
    outline
        .root()
        .map(|root| seen_through(outline, root))
        .ok_or_else(|| PageFault::NotFound("the page's own record".to_owned()))
}

/// What stands inside `Some(…)`, or the part itself.
fn seen_through(outline: &Outline, part: PartId) -> PartId {
    let mut inside = outline.children(part);
    match (outline.part(part).kind, inside.next(), inside.next()) {
        (Kind::Tuple, Some(only), None) if outline.part(only).kind.is_bracketed() => only,
        _ => part,
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

/// The records of a list by a key's text; of two with one key the first, as the registry takes them.
fn by_key<'t>(outline: &Outline<'t>, list: PartId, key: &str) -> BTreeMap<&'t str, PartId> {
    let mut records = BTreeMap::new();
    for record in outline.children(seen_through(outline, list)) {
        let value = outline.field(record, key);
        if let Some(value) = value {
            records
                .entry(unquoted(outline.slice(value)))
                .or_insert(record);
        }
    }
    records
}

/// The rows of a list by their first cell; of two with one the first.
fn by_first_cell<'t>(outline: &Outline<'t>, list: PartId) -> BTreeMap<&'t str, PartId> {
    let mut rows = BTreeMap::new();
    for row in outline.children(list) {
        if let Some(cell) = outline.children(row).next() {
            rows.entry(unquoted(outline.slice(cell))).or_insert(row);
        }
    }
    rows
}

/// A text's words as they stand between its quotes; codes hold nothing that is escaped.
fn unquoted(slice: &str) -> &str {
    let slice = slice.strip_prefix('r').unwrap_or(slice).trim_matches('#');
    slice
        .strip_prefix('"')
        .and_then(|rest| rest.strip_suffix('"'))
        .unwrap_or(slice)
}

/// The edits by which a record is changed.
fn edits_of(
    outline: &Outline,
    record: PartId,
    change: &FieldChange,
) -> Result<Vec<Edit>, PageFault> {
    let mut edits = Vec::new();
    match change {
        FieldChange::Set(name, value) => edits = outline.set_field(record, name, value)?,
        FieldChange::Push(name, value) => match outline.follow(record, name) {
            Some(list) => edits = outline.append(seen_through(outline, list), value)?,
            None => edits = outline.insert_field(record, name, &format!("[{value}]"))?,
        },
        FieldChange::PushMore(name, values) => {
            let list = listed(outline, record, name)?;
            edits.push(outline.append_more(list, values)?);
        }
        FieldChange::PushEach(name, value) => {
            for row in outline.children(listed(outline, record, name)?) {
                edits.extend(outline.append(row, value)?);
            }
        }
        FieldChange::Rows(name, wanted) => {
            let rows = by_first_cell(outline, listed(outline, record, name)?);
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
            if let Some(field) = outline.field(record, name) {
                edits = outline.remove(field)?;
            }
        }
        FieldChange::RemoveEntry(list, at) => {
            edits = outline.remove(entry(outline, record, list, at)?)?;
        }
        FieldChange::Within(Within { list, at, changes }) => {
            let found = entry(outline, record, list, at)?;
            for change in changes {
                edits.extend(edits_of(outline, found, change)?);
            }
        }
    }
    Ok(edits)
}

/// The list in a field.
fn listed(outline: &Outline, record: PartId, name: &str) -> Result<PartId, PageFault> {
    let list = outline.follow(record, name);
    let list = list.ok_or_else(|| PageFault::NotFound(format!("the list {name}")))?;
    Ok(seen_through(outline, list))
}

/// A record in a list field.
fn entry(outline: &Outline, record: PartId, name: &str, at: &At) -> Result<PartId, PageFault> {
    let list = outline.follow(record, name);
    let found = list.and_then(|list| match at {
        At::Key(key, code) => by_key(outline, list, key).get(code.as_str()).copied(),
        At::Index(index) => outline.element(list, *index),
    });
    found.ok_or_else(|| {
        PageFault::NotFound(match at {
            At::Key(_, code) => format!("{name} `{code}`"),
            At::Index(index) => format!("{name} number {}", index + 1),
        })
    })
}
