//! Things that went to another copy by way of a third one, and got another code on the way.
//!
//! The other copy's journal names the page of the third one, which this copy never had. So the thing is known by its
//! record: a merge gave a code there another one, and under the new code there was at some time the very record that was
//! here under the old one. Two new things with one code and one record are one thing in every merge; here that thing is
//! followed to its new code.

use super::apart::{each_thing, things};
use super::conflict::Side;
use super::history::History;
use super::pages::{About, Pairs, Renames, Sheet};
use super::renaming::{NewCodes, new_codes, renamed};
use super::value::{Record, Value};
use crate::recording::page::PageFault;
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
    if codes.is_empty() {
        return Ok(Renames::new());
    }
    let other_side = match side {
        Side::Ours => Side::Theirs,
        Side::Theirs => Side::Ours,
    };
    let (here, there) = (new(pairs, side), all(pairs, other_side));
    let now_codes = known.map(|of| new_codes(of));
    let mut found = BTreeMap::new();
    for (was, now) in codes {
        let Some(path) = here.get(&was) else {
            continue;
        };
        let said = records((own, &now_codes[0]), path, &was)?;
        let is_it = |code: &str| {
            let path = there.get(code);
            let others = path.map_or(Ok(BTreeSet::new()), |path| {
                records((other, &now_codes[1]), path, code)
            })?;
            Ok::<_, PageFault>(!said.is_disjoint(&others))
        };
        if !here.contains_key(&now) && is_it(&now)? && !is_it(&was)? {
            found.entry(was).or_insert(now);
        }
    }
    Ok(found.into_iter().collect())
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

/// What was on record of a thing in each version of its page, in the codes of the merged pages, its own left out; `code`
/// is the one that it has now.
///
/// # Errors
/// If a version has faults of shape.
fn records(
    (of, codes): (&History, &NewCodes),
    path: &str,
    code: &str,
) -> Result<BTreeSet<String>, PageFault> {
    let mut said = BTreeSet::new();
    for version in of.versions(path).iter().filter(|of| of.text.is_some()) {
        let Some(page) = Record::of_page(&renamed(&of.now(version)?, codes)?) else {
            continue;
        };
        let around = page.get("parents").and(page.text("code"));
        each_thing(around.unwrap_or_default(), &page, &mut |thing, record| {
            if thing == code {
                said.insert(without_code(record));
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
