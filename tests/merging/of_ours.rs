//! What another grower recorded on a cross of ours: readings and opinions come in as theirs, once; the rest is counted.

use crate::book::Book;
use crate::nursery::Chance;
use crate::others::{counts, merge, merging, named};
use podbook::recording::merging::merged::Merged;
use podbook::recording::page::FieldChange;
use podbook::recording::says::value::{Record, Value};
use std::collections::BTreeMap;

/// What was recorded there: words that come in, words that stay there, and how many of what stays by cross.
#[derive(Default)]
struct Done {
    comes: Vec<String>,
    stays: Vec<String>,
    counts: BTreeMap<String, BTreeMap<&'static str, usize>>,
    readings: usize,
}

/// The pages there that are told by us, with our codes.
fn told_pages(book: &Book) -> Vec<(String, String)> {
    let pages = book.pages.iter().filter_map(|(path, text)| {
        let page = Record::of_page(text)?;
        page.get("parents")?;
        let told = page.get("told_by")?.line();
        let code = told.split("code: \"").nth(1)?.split('"').next()?;
        Some((path.clone(), code.to_owned()))
    });
    pages.collect()
}

fn record(book: &mut Book, chance: &mut Chance, done: &mut Done, turn: usize) {
    let pages = told_pages(book);
    let (path, code) = chance.pick(&pages).clone();
    let text = book.pages[&path].clone();
    let page = Record::of_page(&text).unwrap();
    let numbers: Vec<&str> = page
        .records("seedlings")
        .filter_map(|of| of.text("number"))
        .collect();
    let number = (*chance.pick(&numbers)).to_owned();
    let word = format!("word{turn}x");
    let of_plant = |book: &mut Book, list: &'static str, row: String| {
        let change = FieldChange::Push(list, row);
        book.page(&path, false, |page| {
            page.change("seedlings", "number", &[(number.clone(), vec![change])])
                .unwrap()
        });
    };
    let of_page = |book: &mut Book, list: &'static str, row: String| {
        book.page(&path, false, |page| page.append(list, &[row]).unwrap());
    };
    let mut stays = |one: &'static str, word: &str| {
        *done
            .counts
            .entry(code.clone())
            .or_default()
            .entry(one)
            .or_default() += 1;
        done.stays.push(word.to_owned());
    };
    match chance.below(8) {
        0 | 1 => {
            let by = *chance.pick(&["me", "a helper"]);
            let new = chance.below(3) == 0;
            let row = if new { "[\"9999\", \"1\", \"\"], " } else { "" };
            of_page(
                book,
                "sittings",
                format!(
                    "(on: \"2027-05-{:02}\", place: \"tent\", by: \"{by}\", columns: [\"span cm\", \"note\"], rows: [{row}[\"{number}\", \"7\", \"{word}\"]])",
                    turn + 1
                ),
            );
            done.comes.push(word);
            done.readings += 1;
        }
        2 => {
            of_plant(
                book,
                "identified",
                format!(
                    "(on: \"2027-01\", name: \"N. mira '{word}'\", by: \"me\", accepted: true)"
                ),
            );
            done.comes.push(format!("N. mira '{word}'"));
        }
        3 => {
            of_plant(
                book,
                "flowerings",
                format!("(opened: \"2027-02\", sex: male, note: \"{word}\")"),
            );
            stays("flowering", &word);
        }
        4 => {
            of_plant(book, "photos", format!("(file: \"photos/{word}.jpg\")"));
            stays("photo", &word);
        }
        5 => {
            of_page(book, "pods", format!("(code: \"{word}\", zone: \"A\")"));
            stays("pod", &word);
        }
        6 => {
            of_page(
                book,
                "seedlings",
                format!("(number: \"77{turn}\", sowing: \"S1\", note: \"{word}\")"),
            );
            stays("seedling", &word);
        }
        _ => {
            of_page(
                book,
                "sittings",
                format!(
                    "(on: \"2027-06-{:02}\", columns: [\"note\"], rows: [[\"{number}\", \"{word}\"]])",
                    turn + 1
                ),
            );
            stays("sitting without a reader", &word);
        }
    }
}

fn goes_there_and_back(seed: u64) -> usize {
    let (mut a, _) = named("alder", seed);
    let (mut b, _) = named("birch", seed + 1);
    // Readings of a founder, and of a seedling by a role and without a place.
    a.page("clones.ron", false, |page| {
        page.append("sittings", &["(on: \"2020-01-01\", by: \"me\", columns: [\"note\"], rows: [[\"V1\", \"own words\"]])".to_owned()]).unwrap();
        let said = FieldChange::Push("identified", "(on: \"2019\", name: \"N. mira\", by: \"me\", accepted: true)".to_owned());
        page.change("clones", "code", &[("V2".to_owned(), vec![said])]).unwrap();
    });
    let path = a
        .pages
        .keys()
        .find(|path| path.starts_with("crosses/"))
        .unwrap()
        .clone();
    a.page(&path, false, |page| {
        page.append("sittings", &["(on: \"2020-01-01\", by: \"a guest\", columns: [\"note\"], rows: [[\"1\", \"guest words\"]])".to_owned()]).unwrap();
    });
    let faults = a.faults() + b.faults();
    merge(&mut b, &a, "alder");
    let was = counts(&a);
    let mut straight = a.clone();
    merge(&mut straight, &b, "birch");
    assert!(straight.faults() <= faults, "{seed}");
    let all = counts(&straight);
    let mut chance = Chance(seed + 3);
    let mut done = Done::default();
    for turn in 0..6 {
        record(&mut b, &mut chance, &mut done, turn);
    }
    let merged = merge(&mut a, &b, "birch");
    let text: String = a.pages.values().cloned().collect();
    // Nothing of ours comes back, and each of theirs comes once.
    let now = counts(&a);
    assert_eq!(now[..3], all[..3], "{seed}");
    assert_eq!(now[3], all[3] + done.readings, "{seed} {was:?}");
    for word in ["own words", "guest words"] {
        assert_eq!(text.matches(word).count(), 1, "{seed}: {word}\n{text}");
    }
    for word in &done.comes {
        assert_eq!(
            text.matches(&format!("\"{word}\"")).count(),
            1,
            "{seed}: {word}"
        );
    }
    for word in &done.stays {
        assert!(!text.contains(word.as_str()), "{seed}: {word}");
    }
    let stayed = |merged: &Merged| {
        let of = merged.stayed.iter().map(|of| {
            let what = of.what.iter().map(|(count, one)| (*one, *count));
            (of.of.clone(), what.collect::<BTreeMap<_, _>>())
        });
        of.collect::<BTreeMap<_, _>>()
    };
    assert_eq!(stayed(&merged), done.counts, "{seed}");
    assert!(!text.contains("word0x', by: \"birch\", accepted"), "{seed}");
    // All of it is said to be theirs.
    for sitting in a
        .pages
        .values()
        .filter_map(|text| Record::of_page(text))
        .flat_map(|page| page.records("sittings").cloned().collect::<Vec<_>>())
    {
        let line = Value::Record(sitting).line();
        if line.contains("\"word") {
            assert!(
                line.contains("by: \"birch\"") || line.contains("by: \"birch, a helper\""),
                "{line}"
            );
        }
    }
    // Twice is once, and what stays is said again.
    let again = merging(&a, &b, "birch", None).unwrap();
    assert!(
        again.changes.is_empty() && again.clashes.is_empty(),
        "{seed}: {again:#?}"
    );
    assert_eq!(stayed(&again), done.counts, "{seed}");
    // What they record later comes too.
    let mut later = Done::default();
    for turn in 6..10 {
        record(&mut b, &mut chance, &mut later, turn);
    }
    let before = a.clone();
    merge(&mut a, &b, "birch");
    assert_eq!(counts(&a)[3], now[3] + later.readings, "{seed}");
    if a.journal.len() > before.journal.len() {
        a.undo(a.journal.len() as u32);
    }
    assert_eq!(a.pages, before.pages, "{seed}");
    done.stays.len() + done.comes.len()
}

#[test]
fn what_they_recorded_on_a_cross_of_ours_comes_in_or_is_said() {
    let recorded: usize = (0..40).map(goes_there_and_back).sum();
    assert_eq!(recorded, 240);
}
