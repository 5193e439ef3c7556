//! What two copies came from that took in each other at one time: what both merges left alike, and of the rest what both had
//! before. Where two decisions contradict each other it is neither, so that the conflict is shown again.

use super::lists::{Manner, is_one_fact, keys, manner};
use crate::recording::says::value::{Record, Value};
use std::collections::BTreeSet;

/// A value as the merge here and the merge there left it, and as each had it before.
type Crossed<'v> = [Option<&'v Value>; 4];

/// The page that both came from.
pub fn between(pages: [&Record; 4]) -> Record {
    let mut page = Record::default();
    let names: BTreeSet<&str> = pages
        .iter()
        .flat_map(|of| of.fields())
        .map(|of| of.0)
        .collect();
    for name in names {
        page.set(name, value(name, pages.map(|of| of.get(name))));
    }
    page
}

fn value(field: &str, of: Crossed) -> Option<Value> {
    let [ours, theirs, own, other] = of;
    if ours == theirs {
        return ours.cloned();
    }
    if own == other {
        return own.cloned();
    }
    let none = Record::default();
    let records = of.map(|value| match value {
        Some(Value::Record(record)) => Some(record),
        Some(_) => None,
        None => Some(&none),
    });
    if let [Some(ours), Some(theirs), Some(own), Some(other)] = records
        && !is_one_fact(field)
    {
        return Some(Value::Record(between([ours, theirs, own, other])));
    }
    let is_list = |value: &Option<&Value>| value.is_none_or(|of| matches!(of, Value::List(_)));
    match manner(field) {
        Manner::Whole => Some(neither()),
        _ if !of.iter().all(is_list) => Some(neither()),
        manner => Some(Value::List(entries(manner, of))),
    }
}

/// What no grower wrote: it differs from either side.
fn neither() -> Value {
    Value::text("?")
}

fn entries(manner: Manner, of: Crossed) -> Vec<Value> {
    let lists = of.map(|list| list.map_or(&[][..], Value::list));
    let keyed = lists.map(|list| keys(manner, list));
    let at = |side: usize, key: &(String, usize)| {
        let at = keyed[side].iter().position(|of| of == key)?;
        lists[side].get(at)
    };
    let all: BTreeSet<&(String, usize)> = keyed.iter().flatten().collect();
    let entries = all.into_iter().filter_map(|key| {
        let of = [0, 1, 2, 3].map(|side| at(side, key));
        match of {
            [Some(left), None, own, other] | [None, Some(left), own, other] if own != other => {
                known_by(manner, left)
            }
            of => value("", of),
        }
    });
    entries.collect()
}

/// An entry with nothing but what it is known by.
fn known_by(manner: Manner, entry: &Value) -> Option<Value> {
    let fields: &[&str] = match &manner {
        Manner::Things(field) => std::slice::from_ref(field),
        Manner::Facts(fields) | Manner::FirstOf(fields) => fields,
        Manner::Set | Manner::Rows | Manner::Whole => return None,
    };
    let entry = entry.record()?;
    let mut known = Record::default();
    for field in fields {
        known.set(field, entry.get(field).cloned());
    }
    Some(Value::Record(known))
}
