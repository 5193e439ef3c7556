//! The one way in which a registry is changed: hold it, read it, make the change, check it, write it with its entry in the
//! journal.
//!
//! Commands and the server both go through [`Book`]. What it refuses is put into words by `report::unrecorded`.

use super::checked::{Consequences, consequences};
use super::draft::{Draft, PageChange};
use super::journal::{Asked, FOLDER, Journal, LONGEST_ENTRY, Undoings, entry, number_of};
use super::recorded::{Recorded, What};
use super::slip::Slip;
use super::undo::{TakenBack, chosen, taken_back};
use super::voice::{Words, words};
use crate::record::{Day, JournalEntry, JournalMerge};
use crate::registry::{Registry, unknown_form};
use crate::text::commit::{
    FileChange, Hold, NoHold, PutRight, Uncommitted, begun, commit, put_right, put_right_anyway,
    unsettled,
};
use crate::text::{
    LONGEST_PAGE, NoFailures, Sources, Unwritten, WhyUnwritten, leads_out, names_in, stamp,
};
use std::path::{Path, PathBuf};

/// A registry that no other program changes while this value lives.
pub struct Book {
    folder: PathBuf,
    /// None where a change is only to be shown.
    hold: Option<Hold>,
    /// The pages as they are.
    pub sources: Sources,
    /// The day that counts as today.
    pub today: Day,
    /// What was put right when it was opened.
    pub put_right: PutRight,
}

/// Why a registry is not open for writing.
#[derive(Debug)]
pub enum NotOpened {
    /// It is not held.
    NotHeld(NoHold),
    /// A change was cut short and cannot be put right.
    Unsettled(WhyUnwritten),
    /// Its files have a form that this program does not know, as `registry.ron` says it.
    UnknownForm(String),
}

/// What is written down about a change.
pub struct Change {
    /// The pages.
    pub pages: Vec<PageChange>,
    /// What was recorded.
    pub recorded: Recorded,
    /// The change that is taken back.
    pub undoes: Option<Undoes>,
    /// What was taken in from another registry.
    pub merged: Option<JournalMerge>,
}

/// A change that is taken back.
#[derive(Clone, Copy, Debug)]
pub struct Undoes {
    /// Its number.
    pub change: u32,
    /// Whether all its pages get the very bytes they had before it.
    pub gives_bytes_back: bool,
}

/// How a change was asked for.
#[derive(Clone, Copy, Debug)]
pub struct AskedFor<'a> {
    /// The command, without where the registry is.
    pub words: &'a str,
    /// The id by which a device knows the entry it sent.
    pub event: Option<&'a str>,
}

impl Change {
    /// What an event makes of a registry.
    ///
    /// # Errors
    /// If the event is refused, or all of it is on record already.
    pub fn of(
        registry: &Registry,
        today: Day,
        event: impl FnOnce(&mut Draft) -> Result<Recorded, Slip>,
    ) -> Result<Change, Slip> {
        let mut draft = Draft::new(registry, today);
        let recorded = event(&mut draft).map_err(|slip| draft.placed(slip))?;
        new_codes_are_free(registry, &recorded)?;
        draft.is_read_back()?;
        let pages = draft.changes();
        match pages.is_empty() {
            true => Err(Slip::nothing(
                "all of this is on record already, so nothing was written",
            )),
            false => Ok(Change {
                pages,
                recorded,
                undoes: None,
                merged: None,
            }),
        }
    }

    /// What takes back the change of a number, or the last one that stands.
    ///
    /// # Errors
    /// If there is none, it may stand in an entry that cannot be read, or its lines have been changed since.
    pub fn undoing(
        sources: &Sources,
        journal: &Journal,
        number: Option<u32>,
    ) -> Result<Change, Slip> {
        let at = chosen(sources, journal, number)?;
        let undone = &journal.entries[at];
        let TakenBack { pages, moved_on } = taken_back(sources, &journal.entries, at)?;
        let gives_bytes_back = moved_on.is_empty();
        let stays = |path: &String| words!("What was recorded{} since then stays"; Words::or(format!(" in {path}"), ""));
        Ok(Change {
            pages,
            recorded: Recorded::of(undid(&journal.entries, at), undone.about.clone(), "")
                .remarks(moved_on.iter().map(stays)),
            undoes: Some(Undoes {
                change: undone.change,
                gives_bytes_back,
            }),
            merged: None,
        })
    }
}

/// Refuses a new code that stands in what was left out: once its fault is mended, two things would have it.
fn new_codes_are_free(registry: &Registry, recorded: &Recorded) -> Result<(), Slip> {
    let new = recorded.about.iter();
    let mut new = new.filter(|code| registry.target(code).is_none());
    let taken = new.find_map(|code| Some((code, registry.stands_unread(code)?)));
    taken.map_or(Ok(()), |(code, page)| Err(Slip::taken_unread(code, &page)))
}

/// What was taken back, and what stands again where that was an undo.
fn undid(entries: &[JournalEntry], at: usize) -> What {
    let (change, again) = (entries[at].change, Undoings::of(entries).target(at));
    let stands = again.map(|at| format!(", an undo: change {} stands again", entries[at].change));
    What::Undid {
        what: format!("change {change}{}", stands.unwrap_or_default()),
        again: again.is_some(),
        asked: entries[again.unwrap_or(at)].asked.clone(),
        next: entries.iter().map(|entry| entry.change).max().unwrap_or(0) + 1,
    }
}

/// The last change after one that wrote the line in which the first finding stands that taking the one back would bring.
fn needed_by(entries: &[JournalEntry], undone: u32, brought: &Consequences) -> Option<u32> {
    let place = brought.findings.iter().next()?.place?;
    let source = brought.sources.get(place.file);
    let (line, _) = source.line_column(place.start);
    let bare = |line: &str| line.trim().trim_end_matches(',').to_owned();
    let line = bare(source.text.lines().nth(line as usize - 1)?);
    let holds = |text: &str| text.lines().any(|of| bare(of) == line);
    let wrote = |entry: &&JournalEntry| {
        let pages = entry.pages.iter().filter(|page| page.path == source.path);
        let mut edits = pages.flat_map(|page| &page.edits);
        edits.any(|edit| holds(&edit.now) && !holds(&edit.was))
    };
    let after = entries.iter().rev();
    let mut after = after.take_while(|entry| entry.change != undone);
    after.find(wrote).map(|entry| entry.change)
}

impl Book {
    /// Holds a registry and reads it.
    ///
    /// # Errors
    /// If another program holds it, a change that was cut short cannot be put right, or a newer podbook made it.
    pub fn open(folder: &Path, today: Day) -> Result<Book, NotOpened> {
        let hold = Hold::to_write(folder).map_err(NotOpened::NotHeld)?;
        let put_right = put_right(&hold, &NoFailures).map_err(NotOpened::Unsettled)?;
        let sources = Sources::read(folder);
        form_is_known(&sources)?;
        Ok(Book {
            sources,
            folder: folder.to_owned(),
            hold: Some(hold),
            today,
            put_right,
        })
    }

    /// A registry in which changes are only to be shown.
    ///
    /// # Errors
    /// If a newer podbook made it.
    pub fn to_show(folder: &Path, sources: Sources, today: Day) -> Result<Book, NotOpened> {
        form_is_known(&sources)?;
        Ok(Book {
            folder: folder.to_owned(),
            hold: None,
            sources,
            today,
            put_right: PutRight::Nothing,
        })
    }

    /// The registry's folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Whether changes are written, not only shown.
    pub fn writes(&self) -> bool {
        self.hold.is_some()
    }

    /// The journal of its changes.
    pub fn journal(&self) -> Journal {
        Journal::read(&self.folder)
    }

    /// What a change would bring.
    ///
    /// # Errors
    /// If that holds a fault; a change that gives pages their bytes back may bring one, since it was there before. One that takes
    /// lines out from under later records may bring no warning either: they need what would go.
    pub fn checked(
        &self,
        registry: &Registry,
        change: &Change,
    ) -> Result<Consequences, Box<Consequences>> {
        let about = &change.recorded.about;
        let mut brought = consequences(registry, &change.pages, about, self.today);
        let is_refused = match change.undoes {
            None => brought.are_faulty(),
            Some(undoes) => !undoes.gives_bytes_back && !brought.findings.is_empty(),
        };
        match is_refused {
            true => {
                let undone = change.undoes.map(|undoes| undoes.change);
                brought.needed_by =
                    undone.and_then(|undone| needed_by(&self.journal().entries, undone, &brought));
                Err(Box::new(brought))
            }
            false => Ok(brought),
        }
    }

    /// Writes the pages and the entry, and gives the number of the change; `None` where it is only to be shown.
    ///
    /// # Errors
    /// If a file cannot be written, or would be too long to be read again; says what was.
    pub fn write(&self, asked: AskedFor, change: &Change) -> Result<Option<u32>, Uncommitted> {
        let Some(hold) = &self.hold else {
            return Ok(None);
        };
        let names = names_in(&self.folder.join(FOLDER));
        let last = names.iter().filter_map(|name| number_of(name)).max();
        let number = last.unwrap_or(0) + 1;
        let asked = Asked {
            change: number,
            on: self.today,
            asked: asked.words,
            about: &change.recorded.about,
            undoes: change.undoes.map(|of| of.change),
            merged: change.merged.as_ref(),
            event: asked.event,
        };
        let (path, text) = entry(&asked, &change.pages);
        let mut files: Vec<FileChange> = change.pages.iter().map(|page| self.file(page)).collect();
        files
            .iter()
            .try_for_each(|page| can_be_read(page, LONGEST_PAGE))?;
        let entry = FileChange {
            path,
            was: None,
            now: Some(text.into_bytes()),
        };
        can_be_read(&entry, LONGEST_ENTRY)?;
        files.push(entry);
        commit(hold, &files, &NoFailures)?;
        Ok(Some(number))
    }

    /// Those of some pages that are links to files outside the registry, with those files.
    pub fn linked_out<'p>(&self, pages: &'p [String]) -> Vec<(&'p str, PathBuf)> {
        let out = |page: &'p String| Some((page.as_str(), leads_out(&self.folder, page)?));
        pages.iter().filter_map(out).collect()
    }

    /// The bytes of a page before and after, with its byte-order mark.
    fn file(&self, page: &PageChange) -> FileChange {
        let source = self
            .sources
            .find(&page.path)
            .map(|file| self.sources.get(file));
        let bytes = |text: &String| match source {
            Some(source) => source.as_marked(text),
            None => text.clone().into_bytes(),
        };
        FileChange {
            path: page.path.clone(),
            was: page.was.as_ref().map(bytes),
            now: page.now.as_ref().map(bytes),
        }
    }
}

/// Refuses files whose form this program does not know: it may misread them, and write what no podbook reads.
///
/// # Errors
/// With the form as it is written.
pub fn form_is_known(sources: &Sources) -> Result<(), NotOpened> {
    match unknown_form(sources) {
        Some(form) => Err(NotOpened::UnknownForm(form.to_owned())),
        None => Ok(()),
    }
}

/// Refuses a file that would be too long to be read again, before anything is written.
fn can_be_read(file: &FileChange, most: u64) -> Result<(), Uncommitted> {
    let bytes = file.now.as_ref().map_or(0, Vec::len) as u64;
    if bytes <= most {
        return Ok(());
    }
    Err(Uncommitted::Nothing(Unwritten {
        path: file.path.clone(),
        why: WhyUnwritten::TooLarge { bytes, most },
    }))
}

/// A change that is not written whole, and cannot be put right now.
#[derive(Debug)]
pub struct HalfWritten {
    /// Why.
    pub why: NotOpened,
    /// The files that hold its new text already.
    pub begun: Vec<String>,
}

/// Readings of pages that change meanwhile, where no lock keeps writers away.
const READINGS: u32 = 3;

/// Reads the pages of a registry while nothing writes them, once what a killed program left is put right, where that can be
/// done.
pub fn read(folder: &Path) -> (Sources, Result<PutRight, HalfWritten>) {
    let (hold, found) = held_to_read(folder);
    if let Some(hold) = hold.as_ref().filter(|hold| hold.is_locked()) {
        let sources = Sources::read(folder);
        // The lock may have gone away, so that it kept no writer away.
        if hold.is_locked() {
            return (sources, found);
        }
    }
    let mut before = stamp(folder);
    for _ in 1..READINGS {
        let sources = Sources::read(folder);
        let after = stamp(folder);
        if after == before {
            return (sources, found);
        }
        before = after;
    }
    (Sources::read(folder), found)
}

/// Takes back the change that was cut short, or finishes it, since the grower says that no podbook is writing.
///
/// # Errors
/// If the registry is not held, or the change cannot be put right.
pub fn settle_anyway(folder: &Path) -> Result<PutRight, NotOpened> {
    let hold = Hold::to_write(folder).map_err(NotOpened::NotHeld)?;
    put_right_anyway(&hold, &NoFailures).map_err(NotOpened::Unsettled)
}

/// Keeps writers away while a registry is read, and puts right what a killed one left, where that can be done.
fn held_to_read(folder: &Path) -> (Option<Hold>, Result<PutRight, HalfWritten>) {
    let hold = Hold::to_read(folder);
    if !unsettled(folder) {
        return (hold, Ok(PutRight::Nothing));
    }
    drop(hold);
    let settled = Hold::to_write(folder)
        .map_err(NotOpened::NotHeld)
        .and_then(|hold| put_right(&hold, &NoFailures).map_err(NotOpened::Unsettled));
    let settled = settled.map_err(|why| HalfWritten {
        why,
        begun: begun(folder),
    });
    (Hold::to_read(folder), settled)
}
