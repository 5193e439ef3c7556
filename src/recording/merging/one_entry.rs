//! Founders there that are one plant here: one of them took the plant's lineage in, another had the plant already.
//! Their entries become one, so that what either says comes in.

use crate::recording::says::value::{Record, Value};
use std::collections::BTreeMap;

/// An entry, and whether it came there with a lineage of ours.
type Entry = (Record, bool);

/// Makes one entry of founders with one code. In lists what came back stands first, as it stands here; a field that both
/// have is as the other says, whose own record it is. What gives way is given in words. `came_back` says for each entry
/// whether it came from us.
pub fn one_entry_each(page: &mut Record, came_back: &[bool]) -> Vec<String> {
    let mut left = Vec::new();
    let mut at: BTreeMap<String, usize> = BTreeMap::new();
    let mut one: Vec<Entry> = Vec::new();
    let founders = page.records("clones").cloned();
    for (entry, &came) in founders.zip(came_back) {
        let code = entry.text("code").unwrap_or_default().to_owned();
        match at.get(&code) {
            Some(&at) => one[at] = folded(one[at].clone(), (entry, came), &mut left),
            None => {
                at.insert(code, one.len());
                one.push((entry, came));
            }
        }
    }
    if one.len() < came_back.len() {
        let entries = one.into_iter().map(|(entry, _)| Value::Record(entry));
        page.set("clones", Some(Value::List(entries.collect())));
    }
    left
}

/// The one entry of two.
fn folded(first: Entry, second: Entry, left: &mut Vec<String>) -> Entry {
    let (own, back) = match first.1 {
        true => (second, first),
        false => (first, second),
    };
    let code = own.0.text("code").unwrap_or_default().to_owned();
    let mut one = own.0.clone();
    for (name, value) in back.0.fields() {
        match (own.0.get(name), value) {
            (None, value) => one.set(name, Some(value.clone())),
            (Some(Value::List(entries)), Value::List(before)) => {
                let new = entries.iter().filter(|of| !before.contains(of));
                let all = before.iter().chain(new).cloned().collect();
                one.set(name, Some(Value::List(all)));
            }
            (Some(same), value) if same == value => {}
            _ => left.push(format!("{code}, {name}: {}", value.line())),
        }
    }
    (one, own.1 && back.1)
}
