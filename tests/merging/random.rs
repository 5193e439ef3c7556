//! Random registries, split in two and changed on both sides.

use crate::book::Book;
use crate::edits::{Done, edit};
use crate::nursery::{Chance, Nursery};
use podbook::recording::merging::conflict::Side;
use podbook::recording::merging::merged::Merged;
use podbook::recording::page::FieldChange;
use podbook::recording::says::value::{Record, Value};
use std::collections::{BTreeMap, BTreeSet};

/// A registry, and both copies with what was done on them.
struct Split {
    first: Book,
    books: [Book; 2],
    done: [Done; 2],
}

fn split(seed: u64, by_hand: bool) -> Split {
    let nursery = Nursery {
        seed,
        founders: 8,
        ..Nursery::of(20)
    };
    let mut chance = Chance(seed * 7 + 1);
    let first = Book {
        pages: nursery.grow().pages.into_iter().collect(),
        journal: Vec::new(),
    };
    let mut first = first;
    // What happened before they parted.
    edit(&mut first, &nursery, 'c', by_hand, &mut chance);
    let mut books = [first.clone(), first.clone()];
    let done = ['a', 'b'].map(|side| {
        let book = &mut books[usize::from(side == 'b')];
        edit(book, &nursery, side, by_hand, &mut chance)
    });
    Split { first, books, done }
}

/// What both sides said something else about.
fn contradictions([a, b]: &[Done; 2]) -> BTreeSet<String> {
    let both = a
        .facts
        .iter()
        .filter(|(about, value)| b.facts.get(*about).is_some_and(|other| other != *value));
    both.map(|(about, _)| about.clone()).collect()
}

fn conflicts(merged: &Merged) -> BTreeSet<String> {
    merged
        .clashes
        .iter()
        .map(|clash| clash.about.clone())
        .collect()
}

fn nothing_is_lost(seed: u64, book: &Book, merged: &Merged, done: &[Done; 2]) {
    let all: String = book.pages.values().cloned().collect();
    for word in done.iter().flat_map(|of| &of.new) {
        assert_eq!(
            all.matches(&format!("\"{word}\"")).count(),
            1,
            "{seed}: {word}\n{all}"
        );
    }
    let contradicted = contradictions(done);
    for (side, of) in done.iter().enumerate() {
        for (about, value) in &of.facts {
            let stays = all.contains(value.as_str());
            if !contradicted.contains(about) {
                assert!(stays, "{seed}: {about} {value}");
            } else if side == 1 {
                let kept = merged.memory.not_kept.iter().any(|words| {
                    words.starts_with(about.as_str()) && words.contains(value.as_str())
                });
                assert!(
                    !stays && kept,
                    "{seed}: {about} {value} {:?}",
                    merged.memory
                );
            }
        }
    }
}

fn comes_together(seed: u64, by_hand: bool) -> (usize, usize) {
    let Split {
        first,
        books: [mut a, mut b],
        done,
    } = split(seed, by_hand);
    let faults = a.faults() + b.faults();
    let base = by_hand.then_some(&first);
    let (was_a, was_b) = (a.clone(), b.clone());
    let merged = a.merge(&was_b, base, Some(Side::Ours));
    assert_eq!(conflicts(&merged), contradictions(&done), "{seed}");
    nothing_is_lost(seed, &a, &merged, &done);
    assert!(a.faults() <= faults, "{seed}: {} faults", a.faults());
    // The same from the other side.
    let other = b.merge(&was_a, base, Some(Side::Theirs));
    assert_eq!(conflicts(&other), conflicts(&merged), "{seed}");
    assert_eq!(a.says(), b.says(), "{seed}");
    let apart = merged.apart.renamed.len();
    if by_hand {
        return (merged.clashes.len(), apart);
    }
    // Twice is once, also where nobody says again what stays.
    let again = a
        .merging(&was_b, None, &Default::default(), &BTreeSet::new())
        .unwrap();
    assert!(
        again.changes.is_empty() && again.clashes.is_empty(),
        "{seed}: {again:#?}"
    );
    // The other side takes in what came of it, and has the same.
    let mut back = was_b.clone();
    let returned = back.merge(&a, None, None);
    assert_eq!(conflicts(&returned), BTreeSet::new(), "{seed}");
    assert_eq!(back.says(), a.says(), "{seed}");
    let settled = a
        .merging(&back, None, &Default::default(), &BTreeSet::new())
        .unwrap();
    assert!(
        settled.changes.is_empty() && settled.clashes.is_empty(),
        "{seed}: {settled:#?}"
    );
    // Taken back, the bytes are as they were, and the merge can be made again.
    let change = a.journal.len() as u32;
    let says = a.says();
    if a.journal.len() > was_a.journal.len() {
        a.undo(change);
    }
    assert_eq!(a.pages, was_a.pages, "{seed}");
    a.merge(&was_b, None, Some(Side::Ours));
    assert_eq!(a.says(), says, "{seed}");
    (merged.clashes.len(), apart)
}

#[test]
fn copies_of_a_registry_come_together() {
    let found = (0..150).map(|seed| comes_together(seed, false));
    let (conflicts, apart) = found.fold((0, 0), |all, of| (all.0 + of.0, all.1 + of.1));
    assert!(
        conflicts > 8 && apart > 50,
        "{conflicts} conflicts, {apart} apart"
    );
}

#[test]
fn copies_edited_by_hand_come_together_by_what_they_came_from() {
    let found = (1000..1080).map(|seed| comes_together(seed, true));
    let (conflicts, apart) = found.fold((0, 0), |all, of| (all.0 + of.0, all.1 + of.1));
    assert!(
        conflicts > 4 && apart > 25,
        "{conflicts} conflicts, {apart} apart"
    );
}

/// Merges and undoings in any order leave nothing doubled: what one side alone would come to, both come to.
#[test]
fn a_merge_taken_back_and_made_again_doubles_nothing() {
    let mut apart = 0;
    for seed in 2000..2060 {
        let Split { books, .. } = split(seed, false);
        let mut straight = books.clone();
        let other = straight[1].clone();
        let merged = straight[0].merge(&other, None, Some(Side::Ours));
        apart += merged.apart.renamed.len();
        let says = straight[0].says();
        let keep = [Some(Side::Ours), Some(Side::Theirs)];
        let mut chance = Chance(seed);
        let [a, b] = &books;
        let first = [a.clone(), b.clone()];
        let mut copies = books;
        let mut standing: [Option<u32>; 2] = [None, None];
        let mut steps = Vec::new();
        for _ in 0..5 {
            let side = chance.below(2);
            if let Some(change) = standing[side].take() {
                copies[side].undo(change);
                steps.push((side, "undo"));
            } else {
                // The copy that came may be an older one.
                let is_old = chance.below(3) == 0;
                let other = if is_old { &first } else { &copies }[1 - side].clone();
                let entries = copies[side].journal.len();
                copies[side].merge(&other, None, keep[side]);
                standing[side] =
                    (copies[side].journal.len() > entries).then_some(entries as u32 + 1);
                steps.push((side, if is_old { "merge the first" } else { "merge" }));
            }
        }
        for side in [0, 1, 0] {
            let other = copies[1 - side].clone();
            copies[side].merge(&other, None, keep[side]);
        }
        assert_eq!(copies[0].says(), says, "{seed}: {steps:?}");
        assert_eq!(copies[1].says(), says, "{seed}: {steps:?}");
    }
    assert!(apart > 20, "{apart} apart");
}

/// Sets the mark of a seedling, or takes it off.
fn mark(book: &mut Book, path: &str, number: &str, why: Option<&str>) {
    let change = match why {
        Some(why) => FieldChange::Set("kept", format!("(on: \"2026-05\", why: \"{why}\")")),
        None => FieldChange::Remove("kept"),
    };
    book.page(path, false, |page| {
        page.change("seedlings", "number", &[(number.to_owned(), vec![change])])
            .unwrap()
    });
}

/// The mark of a seedling.
fn marked(book: &Book, path: &str, number: &str) -> Option<String> {
    let page = Record::of_page(&book.pages[path]).unwrap();
    let mut seedlings = page.records("seedlings");
    let of = seedlings.find(|of| of.text("number") == Some(number))?;
    match of.get("kept")? {
        Value::Record(kept) => kept.text("why").map(str::to_owned),
        _ => None,
    }
}

/// Rounds of edits, each followed by a merge both ways. The marks are kept in a plain map beside it.
fn rounds(seed: u64) {
    let Split { first, .. } = split(seed, false);
    let nursery = Nursery {
        seed,
        founders: 8,
        ..Nursery::of(20)
    };
    let mut chance = Chance(seed * 11 + 5);
    let path = format!("crosses/{}.ron", nursery.code(0));
    let mut books = [first.clone(), first];
    let mut marks: BTreeMap<String, String> = BTreeMap::new();
    let mut new = Vec::new();
    for round in 0..5_usize {
        for number in ["1", "2", "3"] {
            let side = chance.below(2);
            match chance.below(3) {
                0 => {
                    let why = format!("why {round}");
                    mark(&mut books[side], &path, number, Some(&why));
                    marks.insert(number.to_owned(), why);
                }
                1 if marks.remove(number).is_some() => mark(&mut books[side], &path, number, None),
                _ => {}
            }
        }
        let sides = [["a", "b"], ["d", "e"], ["f", "g"], ["h", "i"], ["j", "k"]][round];
        let done = [0, 1].map(|side: usize| {
            let letter = sides[side].chars().next().unwrap();
            edit(&mut books[side], &nursery, letter, false, &mut chance)
        });
        new.extend(done.iter().flat_map(|of| of.new.clone()));
        let was = books.clone();
        let merged = books[0].merge(&was[1], None, Some(Side::Ours));
        assert_eq!(conflicts(&merged), contradictions(&done), "{seed}, {round}");
        // Every other round both take in the other's copy as it was before.
        let other = if chance.below(2) == 0 {
            was[0].clone()
        } else {
            books[0].clone()
        };
        books[1].merge(&other, None, Some(Side::Theirs));
        assert_eq!(books[0].says(), books[1].says(), "{seed}, {round}");
        let all: String = books[0].pages.values().cloned().collect();
        for word in &new {
            assert_eq!(
                all.matches(&format!("\"{word}\"")).count(),
                1,
                "{seed}, {round}: {word}"
            );
        }
        for number in ["1", "2", "3"] {
            let mark = marked(&books[0], &path, number);
            assert_eq!(
                mark.as_ref(),
                marks.get(number),
                "{seed}, {round}: {number}"
            );
        }
    }
}

#[test]
fn copies_that_merge_again_and_again_double_nothing_and_lose_no_removal() {
    (3000..3050).for_each(rounds);
}

/// Pages that say something else on one of the two, whatever the order of lists: opinions are put in order only where
/// both sides have new ones.
fn different<'b>(one: &'b Book, other: &'b Book) -> Vec<&'b str> {
    let said = |book: &Book, path: &str| {
        let page = Record::of_page(book.pages.get(path)?)?;
        Some(Value::Record(page).canonical())
    };
    let paths: BTreeSet<&String> = one.pages.keys().chain(other.pages.keys()).collect();
    let paths = paths.into_iter().map(String::as_str);
    paths
        .filter(|path| said(one, path) != said(other, path))
        .collect()
}

/// Rounds of edits on three copies. One copy has another's changes only by way of the third, and nothing is there twice:
/// what is asked again is what the first had to decide.
fn three_copies(seed: u64) -> usize {
    let Split { first, .. } = split(seed, false);
    let nursery = Nursery {
        seed,
        founders: 8,
        ..Nursery::of(20)
    };
    let mut chance = Chance(seed * 13 + 7);
    let mut books = [first.clone(), first.clone(), first];
    let mut new = Vec::new();
    let mut all_decided = 0;
    for (round, letters) in [
        ["d", "e", "f"],
        ["g", "h", "i"],
        ["j", "k", "l"],
        ["m", "n", "o"],
    ]
    .into_iter()
    .enumerate()
    {
        for (book, letter) in books.iter_mut().zip(letters) {
            let letter = letter.chars().next().unwrap();
            let done = edit(book, &nursery, letter, false, &mut chance);
            new.extend(done.new);
        }
        // From the last by the middle one to the first, and from there back.
        let middle = chance.below(3);
        let (one, last) = ((middle + 1) % 3, (middle + 2) % 3);
        let mut decided = BTreeSet::new();
        for (here, there) in [(middle, last), (one, middle)] {
            let other = books[there].clone();
            let merged = books[here].merge(&other, None, Some(Side::Ours));
            decided.extend(conflicts(&merged));
        }
        all_decided += decided.len();
        for (here, there) in [(last, one), (middle, last)] {
            let other = books[there].clone();
            let merged = books[here].merge(&other, None, Some(Side::Theirs));
            let asked = conflicts(&merged);
            assert!(asked.is_subset(&decided), "{seed}, {round}: {asked:?}");
            // A conflict that is decided for what stood there leaves no change that the third copy could follow.
            if decided.is_empty() {
                assert_eq!(
                    different(&books[here], &books[one]),
                    [""; 0],
                    "{seed}, {round}"
                );
            }
        }
        let all: String = books[0].pages.values().cloned().collect();
        for word in &new {
            assert_eq!(
                all.matches(&format!("\"{word}\"")).count(),
                1,
                "{seed}, {round}: {word}"
            );
        }
    }
    all_decided
}

#[test]
fn three_copies_share_a_version_by_way_of_the_third() {
    let seeds = (4000..4040).chain([4288, 4384]);
    let decided: usize = seeds.map(three_copies).sum();
    assert!(decided > 10, "{decided}");
}
