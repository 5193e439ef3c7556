//! Things that both sides added under one code: siblings, crosses and envelopes are never made one for that.
//!
//! Two copies of a registry have the same name, so it cannot tell them apart. One side keeps its codes and the other's get
//! the next free ones; which side it is depends on what the records say alone, so it is the same whoever merges first. It
//! is one side for all of them: then only one grower has tags to write.

use super::conflict::Side;
use super::lists::{Manner, SPIKES, has_codes, keys, manner, spike_of};
use super::pages::{About, Pair, Pairs};
use crate::recording::says::value::{Record, Value};
use crate::registry::ids::natural_order;
use std::collections::{BTreeMap, BTreeSet};

/// One code that two things have.
#[derive(Clone, PartialEq, Debug)]
pub struct Twice {
    /// The code.
    pub code: String,
    /// The record here, in canonical form.
    ours: String,
    /// The record there.
    theirs: String,
    /// What of: the list it stands in; empty for a cross.
    list: String,
}

/// What gets another code.
#[derive(Clone, Default, PartialEq, Debug)]
pub struct Apart {
    /// The side whose codes change; none when nothing is there twice.
    pub side: Option<Side>,
    /// Old codes and new ones.
    pub renamed: Vec<(String, String)>,
    /// Old codes of community pots among these.
    pub pots: BTreeSet<String>,
}

/// Finds what both sides added and gives it codes apart. `same` are codes that the grower says are one thing each.
pub fn apart(pairs: &Pairs, same: &BTreeSet<String>) -> Apart {
    let mut twice = Vec::new();
    for (about, pair) in pairs {
        found(about, pair, same, &mut twice);
    }
    if twice.is_empty() {
        return Apart::default();
    }
    twice.sort_by(|a, b| natural_order(&a.code, &b.code));
    twice.dedup_by(|a, b| a.code == b.code);
    let said = |of: fn(&Twice) -> &str| twice.iter().map(of).collect::<Vec<&str>>();
    let side = match said(|of| &of.ours) <= said(|of| &of.theirs) {
        true => Side::Theirs,
        false => Side::Ours,
    };
    let pots = twice.iter().filter(|of| of.list == "community_pots");
    let pots = pots.map(|of| of.code.clone()).collect();
    let mut taken = codes(pairs);
    let renamed = twice.into_iter().map(|of| {
        let new = next_free((&of.code, of.list == "lots"), &taken);
        taken.insert(new.clone());
        (of.code, new)
    });
    Apart {
        side: Some(side),
        renamed: renamed.collect(),
        pots,
    }
}

/// What is there twice on a page.
fn found(about: &About, pair: &Pair, same: &BTreeSet<String>, twice: &mut Vec<Twice>) {
    let (Some(base), Some(ours), Some(theirs)) = (&pair.base, &pair.ours, &pair.theirs) else {
        return;
    };
    let (Some(ours), Some(theirs)) = (Record::of_page(&ours.text), Record::of_page(&theirs.text))
    else {
        return;
    };
    let code = about.around();
    if base.is_none() && !code.is_empty() && !same.contains(code) {
        let [ours, theirs] = [ours, theirs].map(|of| Value::Record(of).canonical());
        if ours != theirs {
            twice.push(Twice {
                code: code.to_owned(),
                ours,
                theirs,
                list: String::new(),
            });
        }
        return;
    }
    let base = base
        .as_deref()
        .and_then(Record::of_page)
        .unwrap_or_default();
    inside(code, [&base, &ours, &theirs], same, twice);
}

/// What is there twice in the lists of a record.
fn inside(
    around: &str,
    [base, ours, theirs]: [&Record; 3],
    same: &BTreeSet<String>,
    twice: &mut Vec<Twice>,
) {
    for (list, _) in ours.fields() {
        let manner = manner(list);
        if !has_codes(list) {
            continue;
        }
        let [was, here, there] = [base, ours, theirs].map(|of| entries(of, list, manner));
        for (key, own) in &here {
            let Some(other) = there.get(key).filter(|other| *other != own) else {
                continue;
            };
            let code = whole(around, list, &key.0);
            let known = was.get(key);
            if known.is_none() && !same.contains(&code) && !is_original(list, [own, other]) {
                twice.push(Twice {
                    code,
                    ours: own.canonical(),
                    theirs: other.canonical(),
                    list: list.to_owned(),
                });
            } else if let (Value::Record(own), Value::Record(other)) = (own, other) {
                let none = Record::default();
                let known = known.and_then(Value::record).unwrap_or(&none);
                inside(&code, [known, own, other], same, twice);
            }
        }
    }
}

/// Whether both are the plant itself, as it was received or raised. A plant has one, so the two are one thing; a first
/// move or potting writes it down on either side.
fn is_original(list: &str, of: [&Value; 2]) -> bool {
    let is_it = |value: &Value| {
        let made = value.record().and_then(|piece| piece.get("made"));
        made.is_some_and(|made| made.canonical() == "original")
    };
    list == "ramets" && of.into_iter().all(is_it)
}

fn entries(record: &Record, list: &str, manner: Manner) -> BTreeMap<(String, usize), Value> {
    let values = record.list(list);
    let entries = keys(manner, values).into_iter().zip(values.iter().cloned());
    let is_coded = |value: &Value| value.record().is_none_or(|entry| is_coded(list, entry));
    entries.filter(|(_, value)| is_coded(value)).collect()
}

/// Whether an entry has a code; only a spike may be without.
fn is_coded(list: &str, entry: &Record) -> bool {
    list != SPIKES || entry.get("code").is_some()
}

/// The whole code of an entry.
fn whole(around: &str, list: &str, code: &str) -> String {
    match list {
        "clones" | "lots" => code.to_owned(),
        "seedlings" | "ramets" => format!("{around}-{code}"),
        SPIKES => spike_of(around, code),
        _ => format!("{around}.{code}"),
    }
}

/// Every code on any of the pages.
fn codes(pairs: &Pairs) -> BTreeSet<String> {
    let mut codes = BTreeSet::new();
    for (about, pair) in pairs {
        for text in pair.texts() {
            codes.append(&mut things(about, text));
        }
    }
    codes
}

/// Codes of everything on a page that has one.
pub fn things(about: &About, text: Option<&str>) -> BTreeSet<String> {
    let mut codes = BTreeSet::new();
    if let Some(page) = text.and_then(Record::of_page) {
        each_thing(about.around(), &page, &mut |code, _| {
            codes.insert(code);
        });
    }
    codes
}

/// Everything on a page, or in a record, that has a code: its whole code and its record.
pub fn each_thing<'r>(
    around: &str,
    record: &'r Record,
    found: &mut impl FnMut(String, &'r Record),
) {
    if record.get("parents").is_some() && !around.is_empty() {
        found(around.to_owned(), record);
    }
    for (list, value) in record.fields() {
        let manner = manner(list);
        if !has_codes(list) {
            continue;
        }
        for ((key, _), value) in keys(manner, value.list()).into_iter().zip(value.list()) {
            let code = whole(around, list, &key);
            if let Value::Record(inside) = value
                && is_coded(list, inside)
            {
                each_thing(&code, inside, found);
                found(code, inside);
            }
        }
    }
}

/// Takes what has one of these codes out of a record.
pub fn without(around: &str, record: &mut Record, codes: &BTreeSet<String>) {
    let lists = record.fields().filter_map(|(list, _)| match manner(list) {
        Manner::Things(key) => Some((list.to_owned(), key)),
        _ => None,
    });
    for (list, key) in lists.collect::<Vec<_>>() {
        let code = |of: &Record| whole(around, &list, of.text(key).unwrap_or_default());
        record.retain(&list, |of| !codes.contains(&code(of)));
        record.each(&list, |of| {
            let code = code(of);
            without(&code, of, codes);
        });
    }
}

/// The next free code: `X24-04` after `X24-03`, `c` after `b`, `red2` after `red`, `Spa1-2504b` after `Spa1-2504`.
pub fn next_free((code, is_envelope): (&str, bool), taken: &BTreeSet<String>) -> String {
    let at = code.rfind(['-', '.']).map_or(0, |at| at + 1);
    let (around, own) = code.split_at(at);
    let mut own = own.to_owned();
    // The code of an envelope ends in a month.
    loop {
        own = match is_envelope && own.ends_with(|c: char| c.is_ascii_digit()) {
            true => format!("{own}b"),
            false => following(&own),
        };
        let code = format!("{around}{own}");
        if !taken.contains(&code) {
            return code;
        }
    }
}

fn following(own: &str) -> String {
    let stem = own.trim_end_matches(|c: char| c.is_ascii_digit());
    let digits = &own[stem.len()..];
    if let Ok(number) = digits.parse::<u64>() {
        return format!(
            "{stem}{:0width$}",
            number.wrapping_add(1),
            width = digits.len()
        );
    }
    let (before, last) =
        own.split_at(own.len() - own.chars().next_back().map_or(0, char::len_utf8));
    let stands_alone = !before.ends_with(|c: char| c.is_alphabetic());
    match last.bytes().next() {
        Some(letter @ (b'a'..=b'y' | b'A'..=b'Y')) if stands_alone => {
            format!("{before}{}", char::from(letter + 1))
        }
        _ => format!("{own}2"),
    }
}
