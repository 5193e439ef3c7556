//! The thread that records: one entry at a time, through the book, each exactly once.

use super::entry::{Deed, Entry, Shot};
use super::fared::Fared;
use super::known::{Arrived, Known};
use super::phone_words::happened;
use super::said::Said;
use crate::picture::{mark, mark_of_name};
use crate::record::{Day, JournalEntry};
use crate::recording::book::{self, AskedFor, Book, Change};
use crate::recording::dates::dated;
use crate::recording::events::photos::{NewPhoto, copy_of, photos};
use crate::recording::journal::Undoings;
use crate::recording::plants::{here, not_before, single};
use crate::recording::recorded::What;
use crate::recording::voice::{Voice, Words};
use crate::registry::{PlantRow, Registry, build};
use crate::report::recorded::recorded;
use crate::report::unrecorded::{faulty_on_page, not_opened, uncommitted, warnings};
use crate::text::keep_beside;
use crate::wording::listed;
use serde_json::{Value, json};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::Receiver;

/// What is asked of the thread.
pub type Task = Box<dyn FnOnce(&mut Desk) + Send>;

/// What records.
pub struct Desk {
    folder: PathBuf,
    today: Box<dyn Fn() -> Day>,
    known: Known,
    said: Arc<Said>,
}

/// A change, and the file that goes with it: its path in the registry and its bytes.
type WithFile = (Change, Option<(String, Vec<u8>)>);

/// Does what is asked until nothing more is.
pub fn work(
    folder: PathBuf,
    today: impl Fn() -> Day + 'static,
    said: Arc<Said>,
    tasks: &Receiver<Task>,
) {
    let mut desk = Desk {
        folder,
        today: Box::new(today),
        known: Known::default(),
        said,
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
        let (sources, found) = book::read(&self.folder);
        if let Ok(found) = found {
            self.said.put_right(&found);
        }
        build(&sources).0.target(code).is_some()
    }

    fn record(&mut self, entry: &Entry, photo: Option<&[u8]>) -> Result<Fared, Fared> {
        let folder = self.folder.to_string_lossy().into_owned();
        let book = Book::open(&self.folder, (self.today)())
            .map_err(|why| Fared::Later(not_opened(&folder, &why, Voice::Page)))?;
        self.said.put_right(&book.put_right);
        if let Some(there) = self.known.arrived(&self.folder, &entry.id) {
            return arrived_before(&book, entry, there);
        }
        let (registry, _) = build(&book.sources);
        let (change, file) = self.change(&book, &registry, (entry, photo))?;
        let brought = book
            .checked(&registry, &change)
            .map_err(|brought| Fared::Refused(faulty_on_page(&brought)))?;
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
        report.recorded = happened(&change.recorded);
        report.change = number;
        report.warnings = warnings(&brought, Voice::Page);
        report.remarks.extend(self.said.recorded());
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
        let change = match &entry.deed {
            Deed::Undo(number) => Change::undoing(&book.sources, &book.journal(), Some(*number))?,
            Deed::Measure(row) => row.change(registry, book.today)?,
            Deed::Event(event) => Change::of(registry, book.today, event)?,
            Deed::Photo(shot) => {
                let bytes = photo.ok_or_else(|| Fared::refused("the picture is missing"))?;
                return with_photo(registry, shot, (bytes, book.today));
            }
        };
        Ok((change, None))
    }
}

/// An entry that is in the book: with its change, or the one that took it back.
fn arrived_before(book: &Book, entry: &Entry, there: &Arrived) -> Result<Fared, Fared> {
    if there.asked != entry.asked() {
        return Err(Fared::Refused(format!(
            "another entry with this id is in the book as change {}; this one was not recorded, enter it anew",
            there.change
        )));
    }
    let entries = book.journal().entries;
    let is_it = |of: &JournalEntry| of.event.as_deref() == Some(&*entry.id);
    let at = entries.iter().position(is_it);
    let by = at.and_then(|at| Undoings::of(&entries).undone_by(at));
    let (words, change) = match by.map(|by| entries[by].change) {
        Some(by) => (there.undone_words(by), by),
        None => (there.words(), there.change),
    };
    Ok(Fared::Recorded(
        json!({"recorded": words, "change": change, "again": true}),
    ))
}

/// A photo as `podbook photos` takes one in: upright, scaled, without what the camera wrote beside it.
fn with_photo(
    registry: &Registry,
    shot: &Shot,
    (bytes, today): (&[u8], Day),
) -> Result<WithFile, Fared> {
    let named = single(registry, &shot.plant)?;
    let on = dated(registry, "the date", shot.on.as_deref(), today)?;
    if !on.when.is_exact() {
        return Err(Fared::refused("the date of a photo needs one exact day"));
    }
    let day = on.when.first;
    here(registry, named, day)?;
    not_before(registry, named, &on)?;
    let copy = copy_of(bytes).map_err(Fared::refused)?;
    let mark = mark(bytes);
    let mut new = NewPhoto::of(registry, named, (day, &mark), shot.light.clone());
    new.note = shot.note.clone().or(new.note);
    let (code, file) = (registry.code_of(named), new.file.clone());
    let known = crate::observation::photos::photos(registry, named.plant);
    if known.iter().any(|photo| *photo.file == *file) {
        return Err(Fared::refused("this photo is in the book already"));
    }
    let others = same_picture(registry, named.plant, &mark);
    let mut change = Change::of(registry, today, |draft| photos(draft, &[new]))?;
    change.recorded.what = What::InWords(format!("{code}: photo of {day}"));
    change.recorded.remarks.extend(others.map(Words::from));
    Ok((change, Some((file, copy))))
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
