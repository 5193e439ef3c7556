//! A slip made by hand on a page, then an event: it changes no record that it would not change without the slip, what it says
//! can be read back, or it is refused.

use crate::base::{Pages, plain};
use crate::chance::Chance;
use crate::events::{Event, event};
use crate::facts::read_back;
use crate::hostile::today;
use crate::{rounds, sources};
use podbook::record::page_faults;
use podbook::recording::book::Change;
use podbook::recording::checked::consequences;
use podbook::recording::draft::PageChange;
use podbook::registry::build;
use podbook::text::{Outline, Sources};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// A record of a page: the page, the list it stands in, and how it begins.
type Key = (String, String, String, usize);

/// What is read of each record of a page, without the fields that stand after it and the marks between.
fn records(path: &str, text: &str) -> BTreeMap<Key, String> {
    let mut alone = Sources::new();
    let file = alone.add(path, text);
    page_faults(&alone, file);
    let kept = alone.get(file).kept();
    let outline = Outline::of(kept);
    let mut found = BTreeMap::new();
    let bare = |part| -> String {
        let words: &str = outline.slice(part);
        words
            .chars()
            .filter(|c| !c.is_whitespace() && *c != ',')
            .collect()
    };
    for list in outline
        .root()
        .iter()
        .flat_map(|root| outline.children(*root))
    {
        let name = outline.name(list).unwrap_or_default().to_owned();
        if !kept[outline.part(list).start as usize..].starts_with('[') {
            found.insert((path.to_owned(), name, String::new(), 0), bare(list));
            continue;
        }
        for record in outline.children(list) {
            let first = outline
                .children(record)
                .next()
                .map(bare)
                .unwrap_or_default();
            let of = |at| (path.to_owned(), name.clone(), first.clone(), at);
            let at = (0..)
                .find(|at| !found.contains_key(&of(*at)))
                .unwrap_or_default();
            found.insert(of(at), bare(record));
        }
    }
    found
}

/// The records that changes alter or take away; a new one is none.
fn altered(changes: &[PageChange]) -> BTreeSet<Key> {
    let mut keys = BTreeSet::new();
    for change in changes {
        let (was, now) = change.texts();
        let now = records(&change.path, now);
        let was = records(&change.path, was).into_iter();
        keys.extend(
            was.filter(|(key, of)| now.get(key) != Some(of))
                .map(|(key, _)| key),
        );
    }
    keys
}

/// What an event makes of pages; `None` where it is refused.
fn recorded(pages: &Pages, event: &Event) -> Option<Vec<PageChange>> {
    let sources = sources(pages);
    let (registry, _) = build(&sources);
    let change = Change::of(&registry, today(), |draft| event.record(draft)).ok()?;
    let about = &change.recorded.about;
    if consequences(&registry, &change.pages, about, today()).are_faulty() {
        return None;
    }
    let mut after = pages.clone();
    for page in &change.pages {
        after.insert(
            page.path.clone(),
            page.now.clone().expect("no event takes a page away"),
        );
    }
    let after = crate::sources(&after);
    read_back(&build(&after).0, &change.recorded);
    Some(change.pages)
}

/// One slip of a hand: the bytes it touches of a page, and what stands there then.
fn slip(text: &str, chance: &mut Chance) -> Option<(Range<usize>, String)> {
    let outline = Outline::of(text);
    let parts = outline.parts();
    let part = parts[chance.below(parts.len())];
    let whole = part.whole().start as usize..part.whole().end as usize;
    let value = part.start as usize..part.end as usize;
    let (whole_text, value_text) = (&text[whole.clone()], &text[value.clone()]);
    Some(match chance.below(7) {
        // Quotes forgotten, or put where none belong.
        0 => (
            value,
            value_text.strip_prefix('"')?.strip_suffix('"')?.to_owned(),
        ),
        1 if !value_text.contains('"') => (value, format!("\"{value_text}\"")),
        // A name with a slip in it, and a record or field that is there twice.
        2 => {
            let name = part.label()?;
            (
                name.start as usize..name.start as usize + 1,
                chance.word(&["", "x", "Q"]).to_owned(),
            )
        }
        3 => (whole.clone(), format!("{whole_text}, {whole_text}")),
        // Something else in its place, in front of it, or nothing.
        4 => (
            value,
            chance
                .word(&["7", "\"words\"", "(x: 1)", "[]", "dead(on: \"2024\")"])
                .to_owned(),
        ),
        5 if part.label().is_none() => {
            let faulty =
                chance.word(&["7", "(code: 7)", "(number: 7)", "(on: 2023)", "[\"1\", 7]"]);
            (whole, format!("{faulty}, {whole_text}"))
        }
        _ => (whole.start..whole.start, "x: 7, ".to_owned()),
    })
}

#[test]
fn after_a_slip_an_event_changes_what_it_names_or_is_refused() {
    let (clean, mut chance) = (plain(), Chance(50));
    let twin = sources(&clean);
    let (registry, _) = build(&twin);
    let (mut faulty, mut taken, mut wrong) = (0, 0, Vec::new());
    for number in 0..rounds(1_200) {
        let path = chance.word(&[
            "clones.ron",
            "crosses/X22-02.ron",
            "crosses/X22-02.ron",
            "pollen.ron",
        ]);
        let text = &clean[path];
        let Some((range, now)) = slip(text, &mut chance) else {
            continue;
        };
        let mut pages = clean.clone();
        let page = pages.get_mut(path).expect("a page");
        page.replace_range(range, &now);
        if !Outline::of(page).faults().is_empty() {
            continue;
        }
        let page = page.clone();
        let event = event(&registry, &mut chance);
        faulty += 1;
        let shown = || format!("{number}: {event:?}\n{now}\n{page}");
        let Ok(done) = std::panic::catch_unwind(|| recorded(&pages, &event)) else {
            wrong.push(format!("not read back\n{}", shown()));
            continue;
        };
        let (Some(done), Some(without)) = (done, recorded(&clean, &event)) else {
            continue;
        };
        taken += 1;
        let (own, expected) = (altered(&done), altered(&without));
        if !own.is_subset(&expected) {
            wrong.push(format!("{own:?}\n{expected:?}\n{}", shown()));
        }
    }
    println!("{faulty} slips, {taken} recorded on");
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
    assert!(taken > faulty / 8, "{taken} of {faulty}");
}
