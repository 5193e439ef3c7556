//! Things that went to another copy by way of a third one, and got another code on the way.
//!
//! The other copy's journal names the page of the third one, which this copy never had. So the thing is known by its
//! record: a merge gave a code there another one, and under the new code there was at some time the very record that was
//! here under the old one. Two new things with one code and one record are one thing in every merge; here that thing is
//! followed to its new code. Where merges on both copies gave it another code, one of the two stays.

use super::apart::{each_thing, things};
use super::conflict::Side;
use super::history::History;
use super::pages::{About, Pairs, Renames, Sheet};
use super::renaming::{new_codes, renamed};
use crate::recording::page::PageFault;
use crate::recording::says::value::{Record, Value};
use crate::registry::ids::natural_order;
use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

/// Paths of the pages that hold a code.
type Paths = BTreeMap<String, String>;

/// Codes of new things of one side, with those that they have in the other copy. `known` are the codes of each side that
/// are known already.
///
/// # Errors
/// If a version of a page has faults of shape.
pub fn elsewhere(
    pairs: &Pairs,
    side: Side,
    (own, other): (&History, &History),
    known: [&Renames; 2],
) -> Result<Renames, PageFault> {
    let mut codes: Vec<(String, String)> = other
        .renamed()
        .into_iter()
        .map(|of| (of.was, of.now))
        .collect();
    let before: BTreeSet<&String> = known[0].iter().map(|of| &of.0).collect();
    codes.retain(|(was, _)| !before.contains(was));
    let two = two_codes(own, other);
    if codes.is_empty() && two.is_empty() {
        return Ok(Renames::new());
    }
    let other_side = match side {
        Side::Ours => Side::Theirs,
        Side::Theirs => Side::Ours,
    };
    let (here, there) = (new(pairs, side), all(pairs, other_side));
    let may_be = |(was, now): &(String, String)| {
        here.contains_key(was) && !here.contains_key(now) && there.contains_key(now)
    };
    // Where either could have the other's code, the first one stays.
    let stays = |(was, now): &(String, String)| {
        there.contains_key(was) || natural_order(now, was) == Ordering::Less
    };
    codes.extend(two.into_iter().filter(stays));
    codes.retain(may_be);
    let own = records((own, known[0]), &here, codes.iter().map(|of| &of.0))?;
    let others = codes.iter().flat_map(|(was, now)| [was, now]);
    let others = records((other, known[1]), &there, others)?;
    let is_it = |was: &String, code: &String| {
        let both = own.get(was).zip(others.get(code));
        both.is_some_and(|(own, other)| !own.is_disjoint(other))
    };
    let mut found = BTreeMap::new();
    for (was, now) in &codes {
        if is_it(was, now) && !is_it(was, was) {
            found.entry(was.clone()).or_insert_with(|| now.clone());
        }
    }
    Ok(found.into_iter().collect())
}

/// Codes that merges of this copy gave, each with the one that merges of the other copy gave to what had the same code
/// before: it may be one thing.
fn two_codes(own: &History, other: &History) -> Renames {
    let others = other.renamed();
    let codes = own.renamed().into_iter().flat_map(|own| {
        let two = others
            .iter()
            .filter(|of| of.was == own.was && of.now != own.now);
        two.map(|of| (own.now.clone(), of.now.clone()))
            .collect::<Vec<_>>()
    });
    codes.collect()
}

/// What a side has that was not there when the copies parted.
fn new(pairs: &Pairs, side: Side) -> Paths {
    let mut new = Paths::new();
    for (about, pair) in pairs {
        if let Some(base) = &pair.base {
            let was = things(about, base.as_deref());
            new.extend(on_page(about, pair.of(side)).filter(|(code, _)| !was.contains(code)));
        }
    }
    new
}

fn all(pairs: &Pairs, side: Side) -> Paths {
    let pages = pairs.iter();
    pages
        .flat_map(|(about, pair)| on_page(about, pair.of(side)))
        .collect()
}

fn on_page(about: &About, sheet: &Option<Sheet>) -> impl Iterator<Item = (String, String)> {
    let (text, path) = sheet
        .as_ref()
        .map(|of| (of.text.as_str(), of.path.clone()))
        .unzip();
    let path = path.unwrap_or_default();
    things(about, text)
        .into_iter()
        .map(move |code| (code, path.clone()))
}

/// What was on record of each thing in every version of its page, in the codes of the merged pages, its own left out; the
/// codes are those that the things have now. Each version is read once.
///
/// # Errors
/// If a version has faults of shape.
fn records<'c>(
    (of, known): (&History, &Renames),
    paths: &Paths,
    asked: impl Iterator<Item = &'c String>,
) -> Result<BTreeMap<&'c String, BTreeSet<String>>, PageFault> {
    let asked: BTreeSet<&String> = asked.collect();
    let pages: BTreeSet<&String> = asked.iter().filter_map(|code| paths.get(*code)).collect();
    let codes = new_codes(known);
    let mut said: BTreeMap<&String, BTreeSet<String>> = BTreeMap::new();
    for version in pages.into_iter().flat_map(|path| of.versions(path)) {
        let text = match version.text.is_some() {
            true => renamed(&of.now(&version)?, &codes)?,
            false => continue,
        };
        let Some(page) = Record::of_page(&text) else {
            continue;
        };
        let around = page.get("parents").and(page.text("code"));
        each_thing(around.unwrap_or_default(), &page, &mut |thing, record| {
            if let Some(code) = asked.get(&thing) {
                said.entry(code).or_default().insert(without_code(record));
            }
        });
    }
    Ok(said)
}

fn without_code(record: &Record) -> String {
    let mut record = record.clone();
    for field in ["code", "number", "zone"] {
        record.set(field, None);
    }
    Value::Record(record).canonical()
}
