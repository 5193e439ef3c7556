//! The thread that records: one entry at a time, through the book, each exactly once.

use super::entry::{Deed, Entry};
use super::known::Known;
use super::phone_words::happened;
use super::row::NotTaken;
use crate::analysis::photos::copy_name;
use crate::picture::{Picture, mark, mark_of_name};
use crate::record::{Day, JournalEntry};
use crate::recording::book::{AskedFor, Book, Change, held_to_read};
use crate::recording::dates::dated;
use crate::recording::events::photos::{NewPhoto, photos};
use crate::recording::journal::Undoings;
use crate::recording::plants::{here, not_before, single};
use crate::recording::recorded::What;
use crate::recording::slip::Slip;
use crate::recording::voice::{Voice, Words};
use crate::registry::{PlantRow, Registry, build};
use crate::report::recorded::recorded;
use crate::report::unrecorded::{faulty, not_opened, uncommitted, warnings};
use crate::text::{Sources, keep_beside};
use crate::wording::listed;
use serde_json::{Value, json};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::mpsc::Receiver;

/// What is asked of the thread.
pub type Task = Box<dyn FnOnce(&mut Desk) + Send>;

/// The longest side of a photo that is taken in, pixels: as `podbook photos` takes them in.
const LONGEST: u32 = 1600;
/// Columns of words that a phone folds anew anyway.
const WIDTH: usize = 60;

/// What records.
pub struct Desk {
    folder: PathBuf,
    today: Box<dyn Fn() -> Day>,
    known: Known,
}

/// A change, and the file that goes with it: its path in the registry and its bytes.
type WithFile = (Change, Option<(String, Vec<u8>)>);

/// How an entry fared.
enum Fared {
    /// It cannot be taken now and may be sent again, in words.
    Later(String),
    /// It does not fit, in words.
    Refused(String),
    /// A reading looks like a slip; a question.
    Sure(String),
    /// A row of a plant that has one: in words, and whether it would replace readings.
    There(String, bool),
    /// It is in the book.
    Recorded(Value),
}

impl Fared {
    fn json(self, id: &str) -> Value {
        match self {
            Fared::Later(words) => json!({"id": id, "state": "later", "words": words}),
            Fared::Refused(words) => json!({"id": id, "state": "refused", "words": words}),
            Fared::Sure(words) => json!({"id": id, "state": "sure", "words": words}),
            Fared::There(words, replaces) => {
                let there = if replaces { "replace" } else { "add" };
                json!({"id": id, "state": "refused", "words": words, "there": there})
            }
            Fared::Recorded(report) => json!({"id": id, "state": "recorded", "report": report}),
        }
    }
}

/// Does what is asked until nothing more is.
pub fn work(folder: PathBuf, today: impl Fn() -> Day + 'static, tasks: &Receiver<Task>) {
    let mut desk = Desk {
        folder,
        today: Box::new(today),
        known: Known::default(),
    };
    while let Ok(task) = tasks.recv() {
        // A task that fails gives no answer, and the page sends its entry again.
        let _ = catch_unwind(AssertUnwindSafe(|| task(&mut desk)));
    }
}

impl Desk {
    /// Records an entry as a page sent it, with the bytes of its photo; the answer for the page.
    pub fn take(&mut self, sent: &Value, photo: Option<&[u8]>) -> Value {
        let id = sent["id"].as_str().unwrap_or_default();
        let fared = match Entry::of(sent, &|code| self.has(code)) {
            Ok(mut entry) => {
                if let Some(bytes) = photo {
                    entry.remarks.push(format!("picture={}", mark(bytes)));
                }
                self.record(&entry, photo).unwrap_or_else(|fared| fared)
            }
            Err(words) => Fared::Refused(words),
        };
        fared.json(id)
    }

    /// Whether a code is on record.
    fn has(&self, code: &str) -> bool {
        let (_held, _) = held_to_read(&self.folder);
        build(&Sources::read(&self.folder)).0.target(code).is_some()
    }

    fn record(&mut self, entry: &Entry, photo: Option<&[u8]>) -> Result<Fared, Fared> {
        let folder = self.folder.to_string_lossy().into_owned();
        let book = Book::open(&self.folder, (self.today)())
            .map_err(|why| Fared::Later(not_opened(&folder, &why, Voice::Page)))?;
        if let Some(there) = self.known.arrived(&self.folder, &entry.id) {
            return match there.asked == entry.asked() {
                true => {
                    let entries = book.journal().entries;
                    let is_it = |of: &JournalEntry| of.event.as_deref() == Some(&*entry.id);
                    let at = entries.iter().position(is_it);
                    let by = at.and_then(|at| Undoings::of(&entries).undone_by(at));
                    let (words, change) = match by.map(|by| entries[by].change) {
                        Some(by) => (there.undone_words(by), by),
                        None => (there.words(), there.change),
                    };
                    Ok(Fared::Recorded(json!({
                        "recorded": words, "change": change, "again": true,
                    })))
                }
                false => Err(Fared::Refused(format!(
                    "another entry with this id is in the book as change {}; this one was not recorded, enter it anew",
                    there.change
                ))),
            };
        }
        let (registry, _) = build(&book.sources);
        let (change, file) = self.change(&book, &registry, (entry, photo))?;
        let brought = book
            .checked(&registry, &change)
            .map_err(|brought| Fared::Refused(faulty(WIDTH, &brought)))?;
        if let Some((path, bytes)) = file {
            keep_beside(&self.folder, &path, &bytes)
                .map_err(|why| Fared::Later(format!("{path} could not be written: {}", why.why)))?;
        }
        let asked = AskedFor {
            words: &entry.asked(),
            event: Some(&entry.id),
        };
        let number = book
            .write(asked, &change)
            .map_err(|why| Fared::Later(uncommitted(&why, Voice::Page)))?;
        let mut report = recorded(&change.recorded, Voice::Page);
        report.recorded = happened(&change.recorded.what);
        report.change = number;
        report.warnings = warnings(&brought, Voice::Page);
        Ok(Fared::Recorded(
            serde_json::to_value(&report).unwrap_or_default(),
        ))
    }

    /// The change an entry makes, and the file that goes with it.
    fn change(
        &self,
        book: &Book,
        registry: &Registry,
        (entry, photo): (&Entry, Option<&[u8]>),
    ) -> Result<WithFile, Fared> {
        match &entry.deed {
            Deed::Undo(number) => {
                let change = Change::undoing(&book.sources, &book.journal(), Some(*number));
                Ok((change.map_err(refused)?, None))
            }
            Deed::Measure(row) => match row.change(registry, book.today) {
                Ok(change) => Ok((change, None)),
                Err(NotTaken::Refused(words)) => Err(Fared::Refused(words)),
                Err(NotTaken::Sure(words)) => Err(Fared::Sure(words)),
                Err(NotTaken::There { words, replaces }) => Err(Fared::There(words, replaces)),
            },
            Deed::Photo {
                plant,
                on,
                light,
                note,
            } => {
                let bytes = photo.ok_or_else(|| refused_as("the picture is missing"))?;
                let said = (plant.as_str(), on.as_deref(), [light, note]);
                self.photo(registry, said, (bytes, book.today))
            }
            deed => {
                let change = Change::of(registry, book.today, |draft| deed.record(draft));
                Ok((change.map_err(refused)?, None))
            }
        }
    }

    /// A photo as `podbook photos` takes one in: upright, scaled, without what the camera wrote beside it.
    fn photo(
        &self,
        registry: &Registry,
        (plant, on, [light, note]): (&str, Option<&str>, [&Option<String>; 2]),
        (bytes, today): (&[u8], Day),
    ) -> Result<WithFile, Fared> {
        let named = single(registry, plant).map_err(refused)?;
        let on = dated(registry, "the date", on, today).map_err(refused)?;
        if !on.when.is_exact() {
            return Err(refused_as("the date of a photo needs one exact day"));
        }
        here(registry, named, on.when.first)
            .and_then(|()| not_before(registry, named, &on))
            .map_err(refused)?;
        let picture = Picture::read(bytes).map_err(refused_as)?;
        let copy = picture.within(LONGEST).jpeg().map_err(refused_as)?;
        let code = registry.code_of(named);
        let file = copy_name(&code, on.when.first, &mark(bytes));
        let piece = registry.ramet(named);
        let piece = piece.map(|piece| format!("piece {}", piece.code));
        let new = NewPhoto {
            plant: named.plant,
            file: file.clone(),
            on: on.when.first.to_string(),
            light: light.clone(),
            note: note.clone().or(piece),
        };
        let known = crate::observation::photos::photos(registry, named.plant);
        if known.iter().any(|photo| *photo.file == *file) {
            return Err(refused_as("this photo is in the book already"));
        }
        let others = same_picture(registry, named.plant, &mark(bytes));
        let words = format!("{code}: photo of {}", new.on);
        let change = Change::of(registry, today, |draft| photos(draft, &[new]));
        let mut change = change.map_err(refused)?;
        change.recorded.what = What::InWords(words);
        change.recorded.remarks.extend(others.map(Words::from));
        Ok((change, Some((file, copy))))
    }
}

fn refused(why: Slip) -> Fared {
    Fared::Refused(why.said(Voice::Page))
}

fn refused_as(why: impl std::fmt::Display) -> Fared {
    Fared::Refused(why.to_string())
}

/// That the same picture is on record as one of other plants.
fn same_picture(registry: &Registry, plant: PlantRow, mark: &str) -> Option<String> {
    let is_it = |of: &PlantRow| {
        let files = crate::observation::photos::photos(registry, *of);
        let mut marks = files.iter().filter_map(|photo| mark_of_name(&photo.file));
        marks.any(|of| of == mark)
    };
    let others = registry.plants().filter(|of| *of != plant).filter(is_it);
    let others: Vec<String> = others.map(|of| registry.code(of)).collect();
    (!others.is_empty()).then(|| {
        format!(
            "The same picture is on record as one of {}; if it shows one plant only, undo one of the two",
            listed(&others)
        )
    })
}
