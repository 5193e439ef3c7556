//! Brings a page to say something else, with every remark and every other byte kept.
//!
//! Each round makes the changes that do not touch each other and reads the page again; it is done when nothing differs.

use super::lists::{Manner, is_in_order, is_one_fact, keys, manner};
use crate::recording::page::PageFault;
use crate::recording::says::value::{Record, Value};
use crate::recording::written::lines;
use crate::text::Outline;
use crate::text::edit::{Edit, EditFault, made};
use crate::text::outline::{Kind, PartId};
use std::collections::{BTreeMap, BTreeSet};

/// More rounds than the deepest page with the most new fields needs.
const ROUNDS: usize = 2000;

/// The page's text, saying what is wanted.
///
/// # Errors
/// If the text has faults of shape.
pub fn rewritten(text: &str, wanted: &Record) -> Result<String, PageFault> {
    finished(text.to_owned(), &Value::Record(wanted.clone()))
}

/// The page's text after a change to what it says, and what the change gave; none for a text that is no page.
///
/// # Errors
/// If the page does not let itself be changed.
pub fn changed<T>(
    text: &str,
    change: impl FnOnce(&mut Record) -> T,
) -> Result<Option<(String, T)>, PageFault> {
    let outline = Outline::of(text);
    let root = outline.root().filter(|_| outline.faults().is_empty());
    let is = root.and_then(|root| Value::of(&outline, root));
    let (Some(root), Some(Value::Record(is))) = (root, is) else {
        return Ok(None);
    };
    let mut wanted = is.clone();
    let given = change(&mut wanted);
    let (is, wanted) = (Value::Record(is), Value::Record(wanted));
    let found = round(&outline, root, (Some(&is), &wanted))?;
    let text = match found {
        found if found.edits.is_empty() => text.to_owned(),
        found if found.more => finished(made(text, &found.edits)?, &wanted)?,
        found => sound(made(text, &found.edits)?)?,
    };
    Ok(Some((text, given)))
}

/// The text after as many rounds as it needs.
fn finished(mut text: String, wanted: &Value) -> Result<String, PageFault> {
    for _ in 0..ROUNDS {
        let outline = Outline::of(&text);
        if let Some(fault) = outline.faults().first() {
            return Err(EditFault::FaultyText(*fault).into());
        }
        let root = outline
            .root()
            .ok_or_else(|| PageFault::NotFound("the page's own record".to_owned()))?;
        let is = Value::of(&outline, seen_through(&outline, root));
        let found = round(&outline, root, (is.as_ref(), wanted))?;
        if found.edits.is_empty() {
            return Ok(text);
        }
        let next = made(&text, &found.edits)?;
        if !found.more {
            return sound(next);
        }
        text = next;
    }
    Err(PageFault::NotFound("an end of the changes".to_owned()))
}

/// A text that can be read after its changes.
fn sound(text: String) -> Result<String, PageFault> {
    let fault = Outline::of(&text).faults().first().copied();
    match fault {
        Some(fault) => Err(EditFault::FaultyResult(fault).into()),
        None => Ok(text),
    }
}

/// What a round changes.
struct Found {
    edits: Vec<Edit>,
    /// Whether something waits for a later round.
    more: bool,
}

fn round(
    outline: &Outline,
    root: PartId,
    what: (Option<&Value>, &Value),
) -> Result<Found, PageFault> {
    let mut round = Round {
        outline,
        edits: Edits::default(),
        more: false,
    };
    round.value("", seen_through(outline, root), what)?;
    Ok(Found {
        more: round.more || round.edits.refused,
        edits: round.edits.taken.into_values().flatten().collect(),
    })
}

/// Edits by their first byte, groups that touch no other group.
#[derive(Default)]
struct Edits {
    taken: BTreeMap<u32, Vec<Edit>>,
    /// Whether the turn of one comes in a later round.
    refused: bool,
}

impl Edits {
    /// Takes a group, unless it touches one that is taken: then its turn comes in a later round.
    fn take(&mut self, group: Vec<Edit>) {
        let Some(start) = group.iter().map(|edit| edit.start).min() else {
            return;
        };
        let end = group.iter().map(|edit| edit.end).max().unwrap_or(start);
        let before = self.taken.range(..=end).next_back();
        let touches = before.is_some_and(|(_, group)| group.iter().any(|edit| edit.end >= start));
        match touches {
            true => self.refused = true,
            false => drop(self.taken.insert(start, group)),
        }
    }
}

struct Round<'o, 't> {
    outline: &'o Outline<'t>,
    edits: Edits,
    /// Whether something waits for a later round, whatever else is taken.
    more: bool,
}

impl Round<'_, '_> {
    /// Whether the part says what is wanted already; `is` is what it says.
    fn value(
        &mut self,
        field: &str,
        part: PartId,
        (is, wanted): (Option<&Value>, &Value),
    ) -> Result<bool, PageFault> {
        let outline = self.outline;
        if is == Some(wanted) {
            return Ok(true);
        }
        let inside = seen_through(outline, part);
        match (is, wanted) {
            (Some(Value::Record(is)), Value::Record(wanted)) if !is_one_fact(field) => {
                self.record(inside, is, wanted)
            }
            (Some(Value::List(is)), Value::List(wanted)) if manner(field) != Manner::Whole => {
                self.list(field, inside, (is, wanted))
            }
            // A list that holds only an example: what is new stands behind it, inside the brackets.
            (None, Value::List(wanted))
                if manner(field) != Manner::Whole
                    && outline.part(inside).kind == Kind::List
                    && outline.slice(inside).contains('/') =>
            {
                self.list(field, inside, (&[], wanted))
            }
            _ => {
                self.edits
                    .take(vec![outline.replace(part, &wanted.written())?]);
                Ok(false)
            }
        }
    }

    fn record(&mut self, part: PartId, is: &Record, wanted: &Record) -> Result<bool, PageFault> {
        let outline = self.outline;
        let mut done = true;
        for (name, value) in wanted.fields() {
            if let Some(field) = outline.field(part, name) {
                done &= self.value(name, field, (is.get(name), value))?;
            }
        }
        let gone = is.fields().filter(|(name, _)| wanted.get(name).is_none());
        let gone: Vec<PartId> = gone
            .filter_map(|(name, _)| outline.field(part, name))
            .collect();
        for field in &gone {
            self.edits.take(outline.remove(*field)?);
            done = false;
        }
        let mut new = wanted
            .fields()
            .filter(|(name, _)| outline.field(part, name).is_none());
        let Some((name, value)) = new.next() else {
            return Ok(done);
        };
        self.more |= new.next().is_some();
        let value = value.written();
        // What is put in last in lines of its own takes its manner from what is settled before it.
        if done || gone.is_empty() && !value.contains('\n') {
            self.edits.take(outline.insert_field(part, name, &value)?);
        } else {
            self.more = true;
        }
        Ok(false)
    }

    fn list(
        &mut self,
        field: &str,
        part: PartId,
        (is, wanted): (&[Value], &[Value]),
    ) -> Result<bool, PageFault> {
        let outline = self.outline;
        let manner = manner(field);
        let (own, other) = (keys(manner, is), keys(manner, wanted));
        if is_in_order(field) && !other.starts_with(&own) {
            self.edits.take(vec![
                outline.replace(part, &Value::List(wanted.to_vec()).written())?,
            ]);
            return Ok(false);
        }
        let wanted: BTreeMap<&(String, usize), &Value> = other.iter().zip(wanted).collect();
        let mut done = true;
        let parts = outline
            .children(part)
            .filter(|part| is_said(outline, *part));
        for ((part, key), is) in parts.zip(&own).zip(is) {
            done &= match wanted.get(key) {
                Some(value) => self.value("", part, (Some(is), value))?,
                None => {
                    self.edits.take(outline.remove(part)?);
                    false
                }
            };
        }
        let own: BTreeSet<&(String, usize)> = own.iter().collect();
        let new = other.iter().filter(|key| !own.contains(key));
        let new: Vec<String> = new.map(|key| wanted[key].line()).collect();
        match done {
            true if !new.is_empty() => self.append(part, &new)?,
            _ => self.more |= !new.is_empty(),
        }
        Ok(done && new.is_empty())
    }

    /// New entries at the end. A remark behind the last one stays there: then one comes first, the others in the next round.
    fn append(&mut self, list: PartId, new: &[String]) -> Result<(), PageFault> {
        let outline = self.outline;
        let last = outline.children(list).last().filter(|last| {
            let end = outline.part(*last).end as usize;
            let rest = outline.text()[end..].lines().next().unwrap_or("");
            new.len() > 1 && !rest.contains('/')
        });
        let group = match last {
            Some(_) => vec![outline.append_more(list, new)?],
            None if outline.children(list).next().is_none()
                && !outline.slice(list).contains('/') =>
            {
                vec![outline.replace(list, &lines(new))?]
            }
            None => {
                self.more |= new.len() > 1;
                outline.append(list, &new[0])?
            }
        };
        self.edits.take(group);
        Ok(())
    }
}

/// Whether a part says something, as [`Value::of`] has it.
fn is_said(outline: &Outline, part: PartId) -> bool {
    match outline.part(part).kind {
        Kind::Word => outline.slice(part) != "None",
        Kind::Tuple if outline.tag(part) == Some("Some") => outline
            .children(part)
            .next()
            .is_some_and(|inside| is_said(outline, inside)),
        Kind::List => outline.children(part).any(|of| is_said(outline, of)),
        _ => true,
    }
}

/// What stands inside `Some(…)`, or the part itself.
fn seen_through(outline: &Outline, part: PartId) -> PartId {
    match outline.tag(part) {
        Some("Some") => outline.children(part).next().unwrap_or(part),
        _ => part,
    }
}
