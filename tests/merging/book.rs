//! A registry in memory with its journal.

use podbook::check;
use podbook::diagnostic::Severity;
use podbook::record::{Day, Hemisphere, JournalEntry, JournalMerge, When, read_journal_entry};
use podbook::recording::draft::PageChange;
use podbook::recording::journal::{Asked, entry};
use podbook::recording::merging::conflict::{Decisions, Side};
use podbook::recording::merging::copies::CopyMerge;
use podbook::recording::merging::copy::Copy;
use podbook::recording::merging::merged::Merged;
use podbook::recording::page::PageText;
use podbook::recording::says::value::{Record, Value};
use podbook::recording::slip::Slip;
use podbook::recording::undo::taken_back;
use podbook::registry::build;
use podbook::text::Sources;
use std::collections::{BTreeMap, BTreeSet};

/// Pages by path.
pub type Pages = BTreeMap<String, String>;

pub fn today() -> Day {
    When::read("2026-06-01", Hemisphere::North).unwrap().first
}

pub fn sources(pages: &Pages) -> Sources {
    let mut sources = Sources::new();
    for (path, text) in pages {
        sources.add(path.as_str(), text.as_str());
    }
    sources
}

/// A registry with its journal.
#[derive(Clone, Default, Debug)]
pub struct Book {
    pub pages: Pages,
    pub journal: Vec<JournalEntry>,
}

impl Book {
    pub fn of(pages: &[(&str, &str)]) -> Book {
        let pages = pages
            .iter()
            .map(|(path, text)| (path.to_string(), text.to_string()));
        Book {
            pages: pages.collect(),
            journal: Vec::new(),
        }
    }

    /// Writes changes with their entry.
    pub fn write(
        &mut self,
        changes: &[PageChange],
        undoes: Option<u32>,
        merged: Option<&JournalMerge>,
    ) {
        let asked = Asked {
            change: self.journal.len() as u32 + 1,
            on: today(),
            asked: "a change",
            about: &[],
            undoes,
            event: None,
            merged,
        };
        let (_, text) = entry(&asked, changes);
        let read = read_journal_entry(&text).unwrap();
        assert_eq!(read.merged.as_ref(), merged);
        self.journal.push(read);
        for change in changes {
            assert_eq!(
                self.pages.get(&change.path),
                change.was.as_ref(),
                "{}",
                change.path
            );
            match &change.now {
                Some(now) => drop(self.pages.insert(change.path.clone(), now.clone())),
                None => drop(self.pages.remove(&change.path)),
            }
        }
    }

    /// Changes a page; `by_hand` leaves no trace in the journal.
    pub fn page(&mut self, path: &str, by_hand: bool, change: impl FnOnce(&mut PageText)) {
        let was = self.pages.get(path).cloned();
        let mut page = PageText::new(was.as_deref().unwrap_or_default());
        change(&mut page);
        self.replace(path, by_hand, page.text());
    }

    pub fn replace(&mut self, path: &str, by_hand: bool, now: &str) {
        if by_hand {
            self.pages.insert(path.to_owned(), now.to_owned());
            return;
        }
        let was = self.pages.get(path).cloned();
        let change = PageChange {
            path: path.to_owned(),
            was,
            now: Some(now.to_owned()),
        };
        self.write(&[change], None, None);
    }

    pub fn undo(&mut self, number: u32) {
        let at = number as usize - 1;
        let taken = taken_back(&sources(&self.pages), &self.journal, at).unwrap();
        self.write(&taken.pages, Some(number), None);
    }

    /// What a merge of another book would do.
    pub fn merging(
        &self,
        other: &Book,
        base: Option<&Book>,
        decisions: &Decisions,
        same: &BTreeSet<String>,
    ) -> Result<Merged, Slip> {
        self.merging_as_one(other, base, (decisions, same), &[])
    }

    /// The same, where founders here and there are one plant each.
    pub fn merging_as_one(
        &self,
        other: &Book,
        base: Option<&Book>,
        (decisions, same): (&Decisions, &BTreeSet<String>),
        joined: &[(String, String)],
    ) -> Result<Merged, Slip> {
        let [ours, theirs] = [self, other].map(|book| sources(&book.pages));
        let (here, there) = (build(&ours).0, build(&theirs).0);
        let first = base.map(|book| sources(&book.pages));
        let was = first.as_ref().map(|of| build(of).0);
        let base = first.as_ref().zip(was.as_ref());
        CopyMerge {
            ours: Copy {
                sources: &ours,
                registry: &here,
                entries: &self.journal,
            },
            theirs: Copy {
                sources: &theirs,
                registry: &there,
                entries: &other.journal,
            },
            base: base.map(|(sources, registry)| Copy {
                sources,
                registry,
                entries: &[],
            }),
            decisions,
            same,
            joined,
        }
        .merged()
    }

    /// Merges another book, one side's word staying throughout.
    pub fn merge(&mut self, other: &Book, base: Option<&Book>, keep: Option<Side>) -> Merged {
        let decisions = Decisions(keep.map(|side| (String::new(), side)).into_iter().collect());
        let merged = self
            .merging(other, base, &decisions, &BTreeSet::new())
            .unwrap();
        // A merge that brings nothing new is refused and leaves no entry.
        if !(merged.changes.is_empty() && merged.clashes.is_empty()) {
            self.write(&merged.changes, None, Some(&merged.memory));
        }
        merged
    }

    pub fn faults(&self) -> usize {
        let sources = sources(&self.pages);
        let (registry, findings) = build(&sources);
        findings.count(Severity::Fault) + check::faults(&registry, today())
    }

    /// What the pages say, whatever their paths, layout and order.
    pub fn says(&self) -> BTreeMap<String, String> {
        let said = self.pages.iter().map(|(path, text)| {
            let record =
                Record::of_page(text).unwrap_or_else(|| panic!("{path} is faulty:\n{text}"));
            let about = record.get("parents").and(record.text("code"));
            let about = about.map_or(path.clone(), str::to_owned);
            (about, in_order(&Value::Record(record)))
        });
        said.collect()
    }
}

/// In canonical form, opinions in their order.
fn in_order(value: &Value) -> String {
    let Value::Record(record) = value else {
        return value.canonical();
    };
    let mut fields: Vec<String> = record
        .fields()
        .map(|(name, value)| match (name, value) {
            ("identified" | "thawed", value) => format!("{name}: {}", value.line()),
            (name, Value::List(values)) if name != "rows" => {
                let mut values: Vec<String> = values.iter().map(in_order).collect();
                values.sort();
                format!("{name}: {values:?}")
            }
            (name, value) => format!("{name}: {}", in_order(value)),
        })
        .collect();
    fields.sort();
    fields.join(", ")
}
