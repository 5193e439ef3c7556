//! What one side took out and the merged pages still name: it stays, or a plant would lose its parent, or its name.
//!
//! The other side did not change the record itself, but it recorded what needs it. So it counts as new there.

use super::apart::{things, without};
use super::conflict::Side;
use super::pages::{About, Pair, Pairs};
use super::rewrite::changed;
use crate::recording::handover::LISTS;
use crate::recording::says::value::{Record, Value};
use crate::recording::slip::Slip;
use std::collections::BTreeSet;

/// Leaves what is named out of what both sides came from; whether there is such a thing. The texts are those of the merged
/// pages, in the order of the pairs; `rest` are pages of ours that no page of theirs is about.
///
/// # Errors
/// If a page cannot be changed.
pub fn keep_named(
    pairs: &mut Pairs,
    texts: &[Option<String>],
    rest: &[&str],
) -> Result<bool, Slip> {
    let merged = texts.iter().filter_map(Option::as_deref);
    let all: Vec<&str> = merged.chain(rest.iter().copied()).collect();
    let out = codes_out(pairs, texts, &all);
    let mut is_any = false;
    for ((about, pair), text) in pairs.iter_mut().zip(texts) {
        let names = match about {
            About::Page("species.ron") => names_out(pair, text.as_deref(), &all),
            _ => BTreeSet::new(),
        };
        let Some(Some(base)) = &pair.base else {
            continue;
        };
        if let About::Cross(code) = about
            && out.contains(code)
        {
            (pair.base, is_any) = (Some(None), true);
            continue;
        }
        if out.is_empty() && names.is_empty() {
            continue;
        }
        let around = about.around();
        let kept = changed(base, |page| {
            without(around, page, &out);
            for (list, key) in LISTS.iter().filter(|_| !names.is_empty()) {
                page.retain(list, |row| {
                    row.text(key).is_none_or(|name| !names.contains(name))
                });
            }
        })?;
        if let Some((kept, ())) = kept.filter(|(kept, ())| kept != base) {
            (pair.base, is_any) = (Some(Some(kept)), true);
        }
    }
    Ok(is_any)
}

/// Codes that one side took out with all that named them there, and that the merged pages still name.
fn codes_out(pairs: &Pairs, texts: &[Option<String>], all: &[&str]) -> BTreeSet<String> {
    let mut out = [BTreeSet::new(), BTreeSet::new()];
    for ((about, pair), text) in pairs.iter().zip(texts) {
        let [was, ours, theirs] = pair.texts();
        if was == text.as_deref() {
            continue;
        }
        let gone = &things(about, was) - &things(about, text.as_deref());
        for (out, side) in out.iter_mut().zip([ours, theirs]) {
            out.extend(&gone - &things(about, side));
        }
    }
    if out.iter().all(BTreeSet::is_empty) {
        return BTreeSet::new();
    }
    let merged = Named::on(all.iter().copied());
    let [ours, theirs] = out;
    let sides = [(ours, Side::Ours), (theirs, Side::Theirs)];
    let kept = sides.into_iter().flat_map(|(mut out, side)| {
        let pages = pairs.values().filter_map(|pair| pair.of(side).as_ref());
        let there = Named::on(pages.map(|sheet| sheet.text.as_str()));
        out.retain(|code| merged.has(code) && !there.has(code));
        out
    });
    kept.collect()
}

/// Every text on some pages that can name something.
struct Named(BTreeSet<String>);

impl Named {
    fn on<'p>(pages: impl Iterator<Item = &'p str>) -> Named {
        let mut named = BTreeSet::new();
        for page in pages.filter_map(Record::of_page) {
            texts_of("", &Value::Record(page), &mut named);
        }
        Named(named)
    }

    /// Whether they name a code, or something that stands under it.
    fn has(&self, code: &str) -> bool {
        let is_under = |sign: char| {
            let begin = format!("{code}{sign}");
            let mut from = self.0.range(begin.clone()..);
            from.next().is_some_and(|next| next.starts_with(&begin))
        };
        self.0.contains(code) || is_under('-') || is_under('.')
    }
}

/// The texts of a value; a code is what a record is called, here or in another registry.
fn texts_of(field: &str, value: &Value, named: &mut BTreeSet<String>) {
    match value {
        Value::Record(record) => {
            for (field, value) in record.fields() {
                texts_of(field, value, named);
            }
        }
        Value::List(values) => values.iter().for_each(|of| texts_of(field, of, named)),
        Value::Plain(_) if field == "code" => {}
        Value::Plain(text) => named.extend(text.split('"').skip(1).step_by(2).map(str::to_owned)),
    }
}

/// Names that only one side has, that the merged page has not and that a page has in a label.
fn names_out(pair: &Pair, text: Option<&str>, all: &[&str]) -> BTreeSet<String> {
    let [_, ours, theirs] = pair.texts();
    let [ours, theirs, now] = [ours, theirs, text].map(names_of);
    let one_sided = ours.symmetric_difference(&theirs);
    let out = one_sided.filter(|name| !now.contains(*name));
    let pages = all.iter().filter(|page| Some(**page) != text);
    let named = out.filter(|name| pages.clone().any(|page| has_word(page, name)));
    named.cloned().collect()
}

fn names_of(text: Option<&str>) -> BTreeSet<String> {
    let page = text.and_then(Record::of_page).unwrap_or_default();
    let rows = LISTS.iter().flat_map(|(list, key)| {
        let names = page.by_text(list, key);
        names.map(|(name, _)| name.to_owned()).collect::<Vec<_>>()
    });
    rows.collect()
}

/// Whether a word, or words, stand in a text.
fn has_word(text: &str, word: &str) -> bool {
    let is_end = |c: Option<char>| c.is_none_or(|c| !c.is_alphanumeric());
    text.match_indices(word).any(|(at, _)| {
        let (before, rest) = (&text[..at], &text[at + word.len()..]);
        is_end(before.chars().next_back()) && is_end(rest.chars().next())
    })
}
