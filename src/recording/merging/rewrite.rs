//! Brings a page to say something else, with every remark and every other byte kept.
//!
//! Each round makes the changes that do not touch each other and reads the page again; it is done when nothing differs.

use super::lists::{Manner, is_in_order, is_one_fact, keys, manner};
use super::value::{Record, Value};
use crate::recording::page::PageFault;
use crate::recording::written::lines;
use crate::text::Outline;
use crate::text::edit::{Edit, EditFault, apply};
use crate::text::outline::PartId;
use std::collections::{BTreeMap, BTreeSet};

/// More rounds than the deepest page with the most new fields needs.
const ROUNDS: usize = 2000;

/// The page's text, saying what is wanted.
///
/// # Errors
/// If the text has faults of shape.
pub fn rewritten(text: &str, wanted: &Record) -> Result<String, PageFault> {
    let wanted = Value::Record(wanted.clone());
    let mut text = text.to_owned();
    for _ in 0..ROUNDS {
        let outline = Outline::of(&text);
        if let Some(fault) = outline.faults().first() {
            return Err(EditFault::FaultyText(*fault).into());
        }
        let root = outline
            .root()
            .ok_or_else(|| PageFault::NotFound("the page's own record".to_owned()))?;
        let root = seen_through(&outline, root);
        let mut round = Round {
            outline: &outline,
            edits: Edits::default(),
        };
        let is = Value::of(&outline, root);
        round.value("", root, (is.as_ref(), &wanted))?;
        if round.edits.0.is_empty() {
            return Ok(text);
        }
        let edits: Vec<Edit> = round.edits.0.into_values().flatten().collect();
        text = apply(&text, &edits)?;
    }
    Err(PageFault::NotFound("an end of the changes".to_owned()))
}

/// Edits by their first byte, groups that touch no other group.
#[derive(Default)]
struct Edits(BTreeMap<u32, Vec<Edit>>);

impl Edits {
    /// Takes a group, unless it touches one that is taken: then its turn comes in a later round.
    fn take(&mut self, group: Vec<Edit>) {
        let Some(start) = group.iter().map(|edit| edit.start).min() else {
            return;
        };
        let end = group.iter().map(|edit| edit.end).max().unwrap_or(start);
        let before = self.0.range(..=end).next_back();
        let touches = before.is_some_and(|(_, group)| group.iter().any(|edit| edit.end >= start));
        if !touches {
            self.0.insert(start, group);
        }
    }
}

struct Round<'o, 't> {
    outline: &'o Outline<'t>,
    edits: Edits,
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
        for field in gone.filter_map(|(name, _)| outline.field(part, name)) {
            self.edits.take(outline.remove(field)?);
            done = false;
        }
        let new = wanted
            .fields()
            .find(|(name, _)| outline.field(part, name).is_none());
        let Some((name, value)) = new else {
            return Ok(done);
        };
        // What is put in last comes when everything before it is settled.
        if done {
            self.edits
                .take(outline.insert_field(part, name, &value.written())?);
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
            .filter(|part| Value::of(outline, *part).is_some());
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
        if done && !new.is_empty() {
            self.append(part, &new)?;
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
            None => outline.append(list, &new[0])?,
        };
        self.edits.take(group);
        Ok(())
    }
}

/// What stands inside `Some(…)`, or the part itself.
fn seen_through(outline: &Outline, part: PartId) -> PartId {
    match outline.tag(part) {
        Some("Some") => outline.children(part).next().unwrap_or(part),
        _ => part,
    }
}
