//! Founders that may be one plant are asked about, exactly those that agree in label, supplier and date, and become one only
//! by the grower's word.

use crate::book::Book;
use crate::nursery::Chance;
use crate::others::merging_as_one;
use podbook::recording::merging::conflict::{Decisions, Side};
use podbook::recording::merging::likely::Likely;
use podbook::recording::merging::merged::Merged;
use podbook::recording::says::value::Record;
use podbook::recording::slip::Slip;
use std::collections::BTreeSet;
use std::fmt::Write;

const LABELS: [&str; 3] = ["N. mira", "N. veitchii", "N. ventricosa \\\"red\\\""];
const SUPPLIERS: [Option<&str>; 3] = [None, Some("a friend"), Some("the club")];
/// Dates with the days they can mean.
const DATES: [(Option<&str>, u8); 5] = [
    (None, 0),
    (Some("2021-05"), 1),
    (Some("May 2021"), 1),
    (Some("spring 2021"), 2),
    (Some("2021-05-03"), 3),
];

#[derive(Clone, Debug)]
struct Founder {
    code: String,
    label: usize,
    supplier: usize,
    date: usize,
    /// The registry and code of the same plant elsewhere.
    foreign: Option<(&'static str, String)>,
    told_by: Option<&'static str>,
}

fn founders(letter: char, elsewhere: &[&'static str], chance: &mut Chance) -> Vec<Founder> {
    let last = 3 + chance.below(4);
    let of = |number: usize| {
        let foreign =
            (chance.below(6) == 0).then(|| (*chance.pick(elsewhere), format!("F{letter}{number}")));
        Founder {
            code: format!("{letter}{number}"),
            label: chance.below(LABELS.len()),
            supplier: chance.below(SUPPLIERS.len()),
            date: chance.below(DATES.len()),
            told_by: (foreign.is_none() && chance.below(6) == 0).then(|| *chance.pick(elsewhere)),
            foreign,
        }
    };
    (1..=last).map(of).collect()
}

fn page(founders: &[Founder]) -> String {
    let mut page = String::from("(clones: [\n");
    for of in founders {
        let _ = write!(
            page,
            "    (code: \"{0}\", received: \"{1}\"",
            of.code, LABELS[of.label]
        );
        for (field, words) in [("from", SUPPLIERS[of.supplier]), ("on", DATES[of.date].0)] {
            let words = words.map(|words| format!(", {field}: \"{words}\""));
            page.push_str(&words.unwrap_or_default());
        }
        if let Some((registry, code)) = &of.foreign {
            let _ = write!(
                page,
                ", foreign: (registry: \"{registry}\", code: \"{code}\")"
            );
        }
        if let Some(registry) = of.told_by {
            let _ = write!(
                page,
                ", told_by: (registry: \"{registry}\", code: \"T{}\")",
                of.code
            );
        }
        let _ = writeln!(
            page,
            ", identified: [(on: \"2022\", name: \"N. mira 'seen {0}'\", by: \"a visitor\")], note: \"note {0}\"),",
            of.code
        );
    }
    page + "])\n"
}

fn book(name: &str, founders: &[Founder]) -> Book {
    let settings =
        format!("(genus: \"Nepenthes\", hemisphere: north, registry: \"{name}\", format: 2)");
    Book::of(&[
        ("registry.ron", &settings),
        (
            "species.ron",
            "(species: [(epithet: \"mira\"), (epithet: \"veitchii\"), (epithet: \"ventricosa\")])",
        ),
        ("clones.ron", &page(founders)),
    ])
}

/// Label, supplier and date are there and agree.
fn agree(a: &Founder, b: &Founder) -> bool {
    let is_there = a.supplier > 0 && a.date > 0 && b.date > 0;
    is_there && (a.label, a.supplier, DATES[a.date].1) == (b.label, b.supplier, DATES[b.date].1)
}

type Codes = BTreeSet<(String, String)>;

/// The slow way: each founder here with each one there.
fn to_be_asked(
    ours: &[Founder],
    theirs: &[Founder],
    free: impl Fn(&Founder, &Founder) -> bool,
) -> Codes {
    let mut pairs = Codes::new();
    for a in ours {
        for b in theirs {
            if agree(a, b) && free(a, b) {
                pairs.insert((a.code.clone(), b.code.clone()));
            }
        }
    }
    pairs
}

fn asked(likely: &[Likely]) -> Codes {
    let each = likely.iter().flat_map(|of| {
        let theirs = |ours: &String| {
            let pair = |(there, _): &(String, String)| (ours.clone(), there.clone());
            of.theirs.iter().map(pair).collect::<Vec<_>>()
        };
        of.ours.iter().flat_map(theirs).collect::<Vec<_>>()
    });
    each.collect()
}

fn clones(book: &Book) -> Vec<Record> {
    let page = Record::of_page(&book.pages["clones.ron"]).unwrap();
    page.records("clones").cloned().collect()
}

fn of_another(ours: &Book, theirs: &Book, same: &[(String, String)]) -> Merged {
    merging_as_one(ours, theirs, ("birch", None), same).unwrap_or_else(|why| panic!("{why}"))
}

/// Asks, makes two one, and asks nothing again; how many pairs were asked about.
fn comes_in(seed: u64) -> usize {
    let chance = &mut Chance(seed);
    let ours = founders('A', &["birch", "club"], chance);
    let theirs = founders('B', &["alder", "club"], chance);
    let (was, other) = (book("alder", &ours), book("birch", &theirs));
    let free = |a: &Founder, b: &Founder| {
        let of_ours =
            b.told_by == Some("alder") || b.foreign.as_ref().is_some_and(|of| of.0 == "alder");
        a.told_by.is_none() && a.foreign.is_none() && !of_ours
    };
    let expected = to_be_asked(&ours, &theirs, free);
    let apart = of_another(&was, &other, &[]);
    assert_eq!(asked(&apart.likely), expected, "{seed}");
    // Without an answer they stay two, and both are on record.
    let mut two = was.clone();
    two.write(&apart.changes, None, Some(&apart.memory));
    assert_eq!(clones(&two).len(), ours.len() + theirs.len(), "{seed}");
    let again = of_another(&two, &other, &[]);
    assert!(
        again.changes.is_empty() && again.likely.is_empty(),
        "{seed}: {again:#?}"
    );
    // What is on record as two is not made one by a later word.
    for pair in &expected {
        let late = merging_as_one(&two, &other, ("birch", None), std::slice::from_ref(pair));
        assert!(
            matches!(late, Err(Slip::Contradicts { .. })),
            "{seed}: {late:#?}"
        );
    }
    if let Some(pair) = expected.iter().nth(chance.below(expected.len().max(1))) {
        made_one((&was, &other), pair, ours.len() + theirs.len() - 1);
        let rest = of_another(&was, &other, std::slice::from_ref(pair));
        let others = expected
            .iter()
            .filter(|of| of.0 != pair.0 && of.1 != pair.1);
        assert_eq!(asked(&rest.likely), others.cloned().collect(), "{seed}");
    }
    expected.len()
}

/// One plant with both sides' records.
fn made_one((was, other): (&Book, &Book), pair: &(String, String), founders: usize) {
    let mut one = was.clone();
    let merged = of_another(&one, other, std::slice::from_ref(pair));
    assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
    one.write(&merged.changes, None, Some(&merged.memory));
    assert_eq!(one.faults(), 0, "{:#?}", one.pages);
    let clones = clones(&one);
    assert_eq!(clones.len(), founders, "{pair:?}");
    let own = clones
        .iter()
        .find(|of| of.text("code") == Some(&pair.0))
        .unwrap();
    let foreign = format!("(registry: \"birch\", code: \"{}\")", pair.1);
    assert_eq!(own.get("foreign").unwrap().line(), foreign);
    let seen = own.get("identified").unwrap().line();
    for code in [&pair.0, &pair.1] {
        assert!(seen.contains(&format!("seen {code}")), "{pair:?}: {seen}");
    }
    assert_eq!(own.text("note"), Some(format!("note {}", pair.0).as_str()));
    for same in [&[][..], std::slice::from_ref(pair)] {
        let again = of_another(&one, other, same);
        assert!(
            again.changes.is_empty() && again.likely.is_empty(),
            "{pair:?}: {again:#?}"
        );
    }
    one.undo(1);
    assert_eq!(one.pages, was.pages);
}

#[test]
fn founders_of_two_growers_that_may_be_one_are_asked_about() {
    let asked: usize = (0..300).map(comes_in).sum();
    assert!(asked > 50, "{asked}");
}

/// Two copies, each with founders of its own since they parted.
fn copies_ask(seed: u64) -> usize {
    let chance = &mut Chance(seed);
    let plain = |mut of: Vec<Founder>| {
        of.iter_mut()
            .for_each(|of| (of.foreign, of.told_by) = (None, None));
        of
    };
    let first = plain(founders('C', &["club"], chance));
    let [ours, theirs] = ['A', 'B'].map(|letter| plain(founders(letter, &["club"], chance)));
    let base = book("tent", &first);
    let [a, b] = [&ours, &theirs].map(|new| {
        let mut copy = base.clone();
        let cross = format!(
            "(code: \"X24-{0}\", parents: known(seed: \"{0}\", pollen: \"C1\"), seedlings: [(number: \"1\")])",
            new[0].code
        );
        copy.replace("clones.ron", false, &page(&[&first[..], new].concat()));
        copy.replace(&format!("crosses/X24-{}.ron", new[0].code), false, &cross);
        copy
    });
    let expected = to_be_asked(&ours, &theirs, |_, _| true);
    let none = (&Default::default(), &BTreeSet::new());
    let apart = a.merging_as_one(&b, None, none, &[]).unwrap();
    assert_eq!(asked(&apart.likely), expected, "{seed}");
    let mut two = a.clone();
    two.write(&apart.changes, None, Some(&apart.memory));
    // Both are on record: neither side asks again.
    for (here, there) in [(&two, &b), (&b, &two)] {
        let again = here.merging_as_one(there, None, none, &[]).unwrap();
        assert_eq!(again.likely, [], "{seed}");
    }
    if let Some(pair) = expected.iter().nth(chance.below(expected.len().max(1))) {
        copies_make_one([&a, &b], pair);
    }
    expected.len()
}

fn copies_make_one([a, b]: [&Book; 2], (ours, theirs): &(String, String)) {
    let keep = Side::Ours;
    let none = BTreeSet::new();
    let sides = [
        (a, b, (ours, theirs), keep),
        (b, a, (theirs, ours), Side::Theirs),
    ];
    let books = sides.map(|(here, there, (own, other), keep)| {
        let decisions = Decisions(vec![(String::new(), keep)]);
        let pair = [(own.clone(), other.clone())];
        let merged = here
            .merging_as_one(there, None, (&decisions, &none), &pair)
            .unwrap();
        // The two notes contradict each other, and the words of one date may.
        let on = format!("{ours}, on");
        let about = merged.clashes.iter().map(|of| of.about.as_str());
        let about: Vec<&str> = about.filter(|about| *about != on).collect();
        assert_eq!(about, [format!("{ours}, note")], "{:#?}", merged.clashes);
        let mut one = here.clone();
        one.write(&merged.changes, None, Some(&merged.memory));
        one
    });
    assert_eq!(books[0].says(), books[1].says(), "{ours} {theirs}");
    let codes: Vec<String> = clones(&books[0])
        .iter()
        .map(|of| of.text("code").unwrap().to_owned())
        .collect();
    assert!(codes.contains(ours) && !codes.contains(theirs), "{codes:?}");
    let all: String = books[0].pages.values().cloned().collect();
    assert!(!all.contains(&format!("\"{theirs}\"")), "{all}");
    assert!(
        all.contains(&format!("seen {ours}")) && all.contains(&format!("seen {theirs}")),
        "{all}"
    );
    assert_eq!(books[0].faults(), 0, "{all}");
    // The other side takes it in, by either way, and has the same.
    let mut back = b.clone();
    back.merge(&books[0], None, None);
    assert_eq!(back.says(), books[0].says(), "{ours} {theirs}");
    let settled = books[0]
        .merging_as_one(&books[1], None, (&Default::default(), &none), &[])
        .unwrap();
    assert!(
        settled.changes.is_empty() && settled.clashes.is_empty() && settled.likely.is_empty(),
        "{settled:#?}"
    );
}

#[test]
fn founders_of_two_copies_that_may_be_one_are_asked_about() {
    let asked: usize = (0..200).map(copies_ask).sum();
    assert!(asked > 50, "{asked}");
}
