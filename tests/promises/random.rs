//! Random events on random registries, in pages laid out by all sorts of hands.
//!
//! What is written reads back; every comment and every byte outside the change stays; undoing gives back the bytes; an
//! undo can be undone; and a page that has moved on is refused.

use crate::base::{Pages, base};
use crate::chance::Chance;
use crate::events::{Event, event};
use crate::facts::read_back;
use crate::layout::laid_out;
use crate::pieces::comments;
use crate::{rounds, settings, sources};
use podbook::check;
use podbook::diagnostic::{Findings, Severity};
use podbook::record::{Day, Hemisphere, When, read_journal_entry};
use podbook::recording::checked::consequences;
use podbook::recording::draft::{Draft, PageChange};
use podbook::recording::journal::{Asked, Journal, entry, standing};
use podbook::recording::slip::Slip;
use podbook::recording::undo::{TakenBack, chosen, taken_back};
use podbook::registry::{Registry, build};
use podbook::text::Sources;
use proptest::prelude::*;
use proptest::test_runner::TestRunner;
use std::cell::RefCell;
use std::collections::BTreeMap;

/// Events tried a registry.
const EVENTS: usize = 24;

fn today() -> Day {
    When::read("2026-05-14", Hemisphere::North).unwrap().first
}

/// The pages after changes.
fn with(pages: &Pages, changes: &[PageChange]) -> Pages {
    let mut pages = pages.clone();
    for change in changes {
        assert_eq!(
            pages.get(&change.path),
            change.was.as_ref(),
            "{}",
            change.path
        );
        match &change.now {
            Some(now) => drop(pages.insert(change.path.clone(), now.clone())),
            None => drop(pages.remove(&change.path)),
        }
    }
    pages
}

/// A registry with its journal, and the pages before each change.
struct Book {
    pages: Pages,
    journal: Journal,
    before: BTreeMap<u32, Pages>,
}

impl Book {
    /// Writes changes with their entry, and gives the number of the change.
    fn write(&mut self, changes: &[PageChange], undoes: Option<u32>) -> u32 {
        let change = self.journal.entries.len() as u32 + 1;
        let asked = Asked {
            change,
            on: today(),
            asked: "keep \"x\"\n\u{0}\u{202e}",
            about: &["X1".to_owned()],
            undoes,
            event: None,
            merged: None,
        };
        let (path, text) = entry(&asked, changes);
        assert!(path.starts_with("journal/") && path.ends_with(".ron"));
        self.before.insert(change, self.pages.clone());
        let read = read_journal_entry(&text).unwrap();
        assert_eq!(
            (read.asked.as_str(), read.undoes, read.change),
            (asked.asked, undoes, change)
        );
        self.journal.entries.push(read);
        self.pages = with(&self.pages, changes);
        change
    }

    /// Takes a change back and makes sure that each of its pages has the bytes it had.
    fn undo(&mut self, number: u32) -> u32 {
        let taken = self.without(number).unwrap();
        assert!(taken.moved_on.is_empty(), "{:?}", taken.moved_on);
        let changes = taken.pages;
        let undo = self.write(&changes, Some(number));
        for change in &changes {
            assert_eq!(
                self.pages.get(&change.path),
                self.before[&number].get(&change.path),
                "undoing {number}"
            );
        }
        undo
    }

    fn without(&self, number: u32) -> Result<TakenBack, Slip> {
        let at = number as usize - 1;
        taken_back(&sources(&self.pages), &self.journal.entries, at)
    }

    fn latest(&self) -> Option<u32> {
        let at = chosen(&sources(&self.pages), &self.journal, None).ok()?;
        Some(self.journal.entries[at].change)
    }
}

/// Tries one event; the changes if it was taken.
fn tried(
    pages: &Pages,
    chance: &mut Chance,
    counts: &RefCell<BTreeMap<String, [u32; 2]>>,
) -> Option<Vec<PageChange>> {
    let sources_before = sources(pages);
    let (before, _) = build(&sources_before);
    let event = event(&before, chance);
    let mut draft = Draft::new(&before, today());
    let recorded = event.record(&mut draft);
    let mut counts = counts.borrow_mut();
    let count = counts.entry(event.name()).or_default();
    count[0] += 1;
    let recorded = match recorded {
        Ok(recorded) => recorded,
        Err(slip) => {
            assert!(!matches!(slip, Slip::Page(_)), "{event:?}: {slip}");
            assert!(!slip.to_string().is_empty());
            return None;
        }
    };
    let changes = draft.changes();
    let brought = consequences(&before, &changes, &recorded.about, today());
    let twin = new_findings(pages, &with(pages, &changes));
    assert_eq!(
        kinds(&brought.sources, &brought.findings),
        twin,
        "{event:?}"
    );
    if brought.are_faulty() {
        return None;
    }
    if changes.is_empty() {
        // On record already: the command refuses it.
        return None;
    }
    count[1] += 1;
    let after_pages = with(pages, &changes);
    let sources_after = sources(&after_pages);
    let (after, _) = build(&sources_after);
    let fault = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
        read_back(&after, &recorded);
        only_these(&before, &after, &recorded.about);
        changes.iter().for_each(|change| kept_bytes(&event, change));
    }));
    if fault.is_err() {
        panic!("{event:#?}\n{changes:#?}");
    }
    Some(changes)
}

/// Findings as a person tells them apart, and how many there are of each.
type Kinds = BTreeMap<(&'static str, String, String, String), usize>;

fn kinds(sources: &Sources, findings: &Findings) -> Kinds {
    let mut kinds = Kinds::new();
    for finding in findings.iter() {
        let place = finding.place;
        let path = place.map(|span| sources.get(span.file).path.clone());
        let (title, found) = (finding.title.clone(), finding.found.to_string());
        let kind = (finding.code.0, path.unwrap_or_default(), title, found);
        *kinds.entry(kind).or_default() += 1;
    }
    kinds
}

/// The slow twin of `consequences`: faults and warnings of the whole registry after, less those of the whole before.
fn new_findings(before: &Pages, after: &Pages) -> Kinds {
    let [before, mut after] = [before, after].map(|pages| {
        let sources = sources(pages);
        let (registry, mut findings) = build(&sources);
        findings.append(check::all(&registry, today()));
        let mut told = Findings::new();
        told.extend(
            findings
                .into_vec()
                .into_iter()
                .filter(|finding| finding.severity != Severity::Note),
        );
        kinds(&sources, &told)
    });
    for (kind, count) in before {
        if let Some(left) = after.get_mut(&kind) {
            *left = left.saturating_sub(count);
        }
    }
    after.retain(|_, count| *count > 0);
    after
}

/// No record changed of a plant that is not named.
fn only_these(before: &Registry, after: &Registry, about: &[String]) {
    for plant in before.plants() {
        let code = before.code(plant);
        let Some(now) = after.plant(&code).filter(|_| before.plant(&code).is_some()) else {
            assert!(before.plant(&code).is_none(), "{code} is gone");
            continue;
        };
        let about_it = |named: &String| *named == code || named.starts_with(&format!("{code}-"));
        if about.iter().any(about_it) {
            continue;
        }
        let record = |registry: &Registry, plant| {
            format!(
                "{:?} {:?} {:?}",
                registry.founder(plant),
                registry.seedling(plant),
                registry.fate(plant)
            )
        };
        assert_eq!(record(before, plant), record(after, now), "{code}");
    }
}

/// Comments stay, in their order; and where an event only adds, every byte does.
fn kept_bytes(event: &Event, change: &PageChange) {
    let (Some(was), Some(now)) = (&change.was, &change.now) else {
        return;
    };
    assert_eq!(comments(was), comments(now), "comments of {}", change.path);
    if !event.replaces() {
        let mut left = now.bytes();
        let stays = was.bytes().all(|byte| left.any(|other| other == byte));
        assert!(stays, "bytes of {} were lost", change.path);
    }
    let lines: Vec<&str> = was.lines().collect();
    let now: Vec<&str> = now.lines().collect();
    let start = lines
        .iter()
        .zip(&now)
        .take_while(|(was, now)| was == now)
        .count();
    let same = lines
        .iter()
        .rev()
        .zip(now.iter().rev())
        .take_while(|(was, now)| was == now)
        .count();
    assert!(
        start + same > 0 || lines.len() < 4,
        "every line of {} was changed",
        change.path
    );
    let crlf = |text: &str| text.matches("\r\n").count() == text.matches('\n').count();
    let first_break = was.find('\n').is_some_and(|at| was[..at].ends_with('\r'));
    if first_break && crlf(was) {
        assert!(
            crlf(change.now.as_deref().unwrap_or("")),
            "line breaks of {}",
            change.path
        );
    }
}

/// One registry: events, undoings and undoings of undoings, then everything taken back in order.
fn season(
    seed: u64,
    draws: &[u64],
    counts: &RefCell<BTreeMap<String, [u32; 2]>>,
    lines: &RefCell<[u32; 2]>,
) {
    let mut chance = Chance(seed);
    let pages = base(&mut chance);
    let mut book = Book {
        pages: pages.clone(),
        journal: Journal::default(),
        before: BTreeMap::new(),
    };
    for &draw in draws {
        let mut chance = Chance(draw);
        if chance.in_hundred(5)
            && let Some(number) = book.latest()
        {
            undone_and_again(&mut book, number);
        }
        if let Some(changes) = tried(&book.pages, &mut chance, counts) {
            let number = book.write(&changes, None);
            assert_eq!(book.latest(), Some(number));
            refuses_moved_on(&book, number, &mut chance);
        }
    }
    out_of_turn(
        &book,
        &pages,
        chance.below(book.journal.entries.len() + 1),
        lines,
    );
    while let Some(number) = book.latest() {
        book.undo(number);
    }
    assert_eq!(standing(&book.journal.entries).len(), 0);
    assert_eq!(book.pages, pages, "everything undone");
}

/// A change is taken back before those that came after it, and they after it: that leads to the very bytes of the beginning, as in
/// the other order. Where the same lines were changed since it is refused, and names a later change.
fn out_of_turn(book: &Book, first: &Pages, at: usize, lines: &RefCell<[u32; 2]>) {
    let standing = standing(&book.journal.entries);
    let Some(number) = standing.get(at % standing.len().max(1)).map(|of| of.change) else {
        return;
    };
    let taken = match book.without(number) {
        Ok(taken) if taken.moved_on.is_empty() => return,
        Ok(taken) => taken,
        Err(Slip::MovedOn { by: Some(by), .. }) => {
            assert!(by > number, "{by} after {number}");
            lines.borrow_mut()[1] += 1;
            return;
        }
        Err(Slip::MovedOn { path, .. }) => {
            let entry = &book.journal.entries[number as usize - 1];
            let page = entry.pages.iter().find(|page| page.path == path);
            assert!(page.is_some_and(|page| page.before.is_none()), "{path}");
            return;
        }
        Err(other) => panic!("{other}"),
    };
    lines.borrow_mut()[0] += 1;
    let mut other = Book {
        pages: book.pages.clone(),
        journal: Journal {
            entries: book.journal.entries.clone(),
            unread: Vec::new(),
        },
        before: BTreeMap::new(),
    };
    other.write(&taken.pages, Some(number));
    while let Some(next) = other.latest() {
        let taken = other.without(next).unwrap();
        other.write(&taken.pages, Some(next));
    }
    assert_eq!(other.pages, *first, "change {number} out of turn");
}

/// An undo gives the pages before, an undo of it the pages after.
fn undone_and_again(book: &mut Book, number: u32) {
    let now = book.pages.clone();
    let undo = book.undo(number);
    assert_eq!(book.pages, book.before[&number]);
    let again = book.undo(undo);
    assert_eq!(book.pages, now);
    // The change stands again, under its own number.
    assert_eq!(book.latest(), Some(number), "{again} took back {undo}");
}

fn refuses_moved_on(book: &Book, number: u32, chance: &mut Chance) {
    let at = number as usize - 1;
    let entry = &book.journal.entries[at];
    let moved = chance.pick(&entry.pages).path.clone();
    let mut pages = book.pages.clone();
    let page = pages.get_mut(&moved).unwrap();
    let change = chance.below(3);
    match change {
        0 => page.push_str("// by hand"),
        1 => page.insert(0, ' '),
        _ => drop(pages.remove(&moved)),
    }
    let refused = taken_back(&sources(&pages), &book.journal.entries, at);
    let is_refused = match &refused {
        Err(Slip::MovedOn {
            change, path, by, ..
        }) => *change == number && *path == moved && by.is_none(),
        Err(Slip::Contradicts { recorded, .. }) => {
            change == 2 && recorded.to_string() == format!("{moved} is not there")
        }
        _ => false,
    };
    assert!(is_refused, "{refused:?}");
}

#[test]
fn random_events_read_back_and_are_taken_back() {
    let (counts, lines) = (RefCell::new(BTreeMap::new()), RefCell::new([0; 2]));
    let cases = rounds(2_400).div_ceil(EVENTS as u64) as u32;
    let draws = (any::<u64>(), prop::collection::vec(any::<u64>(), EVENTS));
    let mut runner = TestRunner::new(settings(cases));
    let run = runner.run(&draws, |(seed, draws)| {
        season(seed, &draws, &counts, &lines);
        Ok(())
    });
    if let Err(fault) = run {
        panic!("{fault}");
    }
    let counts = counts.into_inner();
    let [tried, taken] = counts
        .values()
        .fold([0, 0], |sum, one| [sum[0] + one[0], sum[1] + one[1]]);
    println!("{tried} events tried, {taken} taken: {counts:?}");
    assert_eq!(counts.len(), 26, "{counts:?}");
    assert!(counts.values().all(|[_, taken]| *taken > 0), "{counts:?}");
    assert!(taken * 4 > tried, "{taken} of {tried}");
    let [taken, refused] = lines.into_inner();
    println!("out of turn: {taken} taken back, {refused} refused");
    assert!(taken > 0 && refused > 0);
}

#[test]
fn a_page_in_another_hand_holds_the_same_records() {
    for seed in 0..200 {
        let mut chance = Chance(seed);
        let pages = crate::base::plain();
        let other: Pages = pages
            .iter()
            .map(|(path, text)| (path.clone(), laid_out(text, &mut chance)))
            .collect();
        let (first, second) = (sources(&pages), sources(&other));
        let ((first, found), (second, too)) = (build(&first), build(&second));
        assert_eq!((found.len(), too.len()), (0, 0), "{other:#?}");
        only_these(&first, &second, &[]);
        let page = |registry: &Registry| {
            format!(
                "{:?}",
                registry
                    .crosses
                    .iter()
                    .map(|cross| &cross.page)
                    .collect::<Vec<_>>()
            )
        };
        assert_eq!(page(&first), page(&second));
    }
}
