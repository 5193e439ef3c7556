//! Changes to a made-up registry, and by a plain list of them what a merge must come to.

use crate::book::Book;
use crate::nursery::{Chance, Nursery};
use podbook::recording::page::{At, FieldChange, Within};
use podbook::recording::says::value::Record;
use std::collections::BTreeMap;

/// What one side did: the last word on each fact by what it is about, and words of things that are new.
#[derive(Default, Debug)]
pub struct Done {
    pub facts: BTreeMap<String, String>,
    pub new: Vec<String>,
}

/// Makes changes at random, each with words of its own.
pub fn edit(
    book: &mut Book,
    nursery: &Nursery,
    side: char,
    by_hand: bool,
    chance: &mut Chance,
) -> Done {
    let mut done = Done::default();
    for turn in 0..chance.below(9) {
        let word = format!("{side}{turn}");
        match chance.below(8) {
            0..=2 => fact(book, nursery, (&word, by_hand), chance, &mut done),
            3 => potted(book, nursery, (&word, by_hand), chance, &mut done),
            4 => seedling(book, nursery, (&word, by_hand), chance, &mut done),
            5 => founder(book, (&word, by_hand), &mut done),
            6 => cross(book, (&word, by_hand), chance, &mut done),
            _ => opinion(book, (&word, by_hand), chance, &mut done),
        }
    }
    done
}

fn page_of(nursery: &Nursery, chance: &mut Chance) -> (String, String) {
    let code = nursery.code(chance.below(nursery.crosses));
    (format!("crosses/{code}.ron"), code)
}

/// A field of a seedling, a sowing or the page.
fn fact(
    book: &mut Book,
    nursery: &Nursery,
    (word, by_hand): (&str, bool),
    chance: &mut Chance,
    done: &mut Done,
) {
    let (path, code) = page_of(nursery, chance);
    let value = format!("\"{word}\"");
    let field = *chance.pick(&["note", "place", "nickname"]);
    let set = vec![FieldChange::Set(field, value.clone())];
    let about = match chance.below(4) {
        0 => {
            book.page(&path, by_hand, |page| {
                page.change(
                    "sowings",
                    "code",
                    &[("S1".into(), vec![FieldChange::Set("note", value.clone())])],
                )
                .unwrap()
            });
            format!("{code}.S1, note")
        }
        1 => {
            book.page(&path, by_hand, |page| page.set("goal", &value).unwrap());
            format!("{code}, goal")
        }
        _ => {
            let number = (1 + chance.below(3)).to_string();
            book.page(&path, by_hand, |page| {
                page.change("seedlings", "number", &[(number.clone(), set)])
                    .unwrap()
            });
            format!("{code}-{number}, {field}")
        }
    };
    done.facts.insert(about, value);
}

/// A pot, by its day.
fn potted(
    book: &mut Book,
    nursery: &Nursery,
    (word, by_hand): (&str, bool),
    chance: &mut Chance,
    done: &mut Done,
) {
    let (path, code) = page_of(nursery, chance);
    let number = (1 + chance.below(2)).to_string();
    let on = format!("202{}-05", chance.below(3));
    let about = format!("{code}-{number}, pots {on}, place");
    let value = format!("\"{word}\"");
    let change = match done.facts.contains_key(&about) {
        true => FieldChange::Within(Within {
            list: "pots",
            at: At::Key("on", on),
            changes: vec![FieldChange::Set("place", value.clone())],
        }),
        false => FieldChange::Push(
            "pots",
            format!("(on: \"{on}\", pot: \"7 cm\", place: {value})"),
        ),
    };
    book.page(&path, by_hand, |page| {
        page.change("seedlings", "number", &[(number, vec![change])])
            .unwrap()
    });
    done.facts.insert(about, value);
}

/// The next seedling of a page.
fn seedling(
    book: &mut Book,
    nursery: &Nursery,
    (word, by_hand): (&str, bool),
    chance: &mut Chance,
    done: &mut Done,
) {
    let (path, _) = page_of(nursery, chance);
    let record = Record::of_page(&book.pages[&path]).unwrap();
    let numbers = record
        .records("seedlings")
        .filter_map(|of| of.text("number")?.parse::<u32>().ok());
    let next = numbers.max().unwrap_or(0) + 1;
    let row = format!("(number: \"{next}\", sowing: \"S1\", note: \"new {word}\")");
    book.page(&path, by_hand, |page| {
        page.append("seedlings", &[row]).unwrap()
    });
    done.new.push(format!("new {word}"));
}

/// The next founder.
fn founder(book: &mut Book, (word, by_hand): (&str, bool), done: &mut Done) {
    let record = Record::of_page(&book.pages["clones.ron"]).unwrap();
    let next = record.records("clones").count();
    let row = format!("(code: \"W{next}\", received: \"N. veitchii\", note: \"new {word}\")");
    book.page("clones.ron", by_hand, |page| {
        page.append("clones", &[row]).unwrap()
    });
    done.new.push(format!("new {word}"));
}

/// The next cross, with founders that may be new.
fn cross(book: &mut Book, (word, by_hand): (&str, bool), chance: &mut Chance, done: &mut Done) {
    let next = book
        .pages
        .keys()
        .filter(|path| path.starts_with("crosses/X26"))
        .count()
        + 1;
    let record = Record::of_page(&book.pages["clones.ron"]).unwrap();
    let founders: Vec<&str> = record
        .records("clones")
        .filter_map(|of| of.text("code"))
        .collect();
    let (seed, pollen) = (chance.pick(&founders), founders[0]);
    let page = format!(
        "// A page of {word}.\n(\n    code: \"X26-{next:02}\",\n    parents: known(seed: \"{seed}\", pollen: \"{pollen}\"),\n    \
         sowings: [(code: \"S1\", on: \"2026-02\")],\n    seedlings: [(number: \"1\", note: \"new {word}\")],\n)\n"
    );
    book.replace(&format!("crosses/X26-{next:02}.ron"), by_hand, &page);
    done.new.push(format!("new {word}"));
}

/// An opinion on a founder, accepted.
fn opinion(book: &mut Book, (word, by_hand): (&str, bool), chance: &mut Chance, done: &mut Done) {
    let code = format!("V{}", 1 + chance.below(3));
    let on = format!("20{}-01-02", 18 + chance.below(8));
    let row = format!(
        "(on: \"{on}\", name: \"N. mira\", by: \"new {word}\", basis: \"{word}\", accepted: true)"
    );
    let change = FieldChange::Push(
        "identified",
        row.replace("N. mira", &format!("N. mira '{word}'")),
    );
    book.page("clones.ron", by_hand, |page| {
        page.change("clones", "code", &[(code, vec![change])])
            .unwrap()
    });
    done.new.push(format!("new {word}"));
}
