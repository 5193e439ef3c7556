//! The journal: one small file a change, so that it can be taken back and looked up later.
//!
//! A file's name begins with the number of its change and ends with the beginning of a checksum, so that the journals
//! of two people can lie in one folder. The registry never needs them.

use super::draft::PageChange;
use super::line_edits::edits;
use super::written::{RonRecord, lines, texts};
use crate::record::{
    Day, JournalEdit, JournalEntry, JournalMerge, JournalPage, read_journal_entry,
};
use crate::text::{LONGEST_PAGE, listed_names, read_plain_up_to, same_form};
use sha2::{Digest, Sha256};
use std::fmt::Write;
use std::path::Path;

/// The folder in a registry that holds the journal.
pub const FOLDER: &str = "journal";
/// The first line of each entry.
const HEAD: &str = "// podbook's memory of one change. The registry does not need it; without it the change cannot be undone.\n";
/// Bytes of the longest entry: one of many pages holds each of them twice.
pub const LONGEST_ENTRY: u64 = 64 * LONGEST_PAGE;
/// Entries that are read first where a few of the latest may be enough.
const READ_FIRST: usize = 32;
/// Digits of the checksum in a file's name.
const NAME_DIGITS: usize = 8;

/// What a change is remembered by.
#[derive(Clone, Debug)]
pub struct Asked<'a> {
    /// Number of the change.
    pub change: u32,
    /// The day that counts as today.
    pub on: Day,
    /// The command that was given.
    pub asked: &'a str,
    /// Codes that are recorded on.
    pub about: &'a [String],
    /// The number of the change that is taken back.
    pub undoes: Option<u32>,
    /// What was taken in from another registry.
    pub merged: Option<&'a JournalMerge>,
    /// The id by which a device knows the entry it sent.
    pub event: Option<&'a str>,
}

/// A registry's journal, read.
#[derive(Debug, Default)]
pub struct Journal {
    /// The entries, in the order of their numbers.
    pub entries: Vec<JournalEntry>,
    /// Those that cannot be read, in the order of their names.
    pub unread: Vec<UnreadEntry>,
}

/// An entry that cannot be read.
#[derive(Clone, Debug)]
pub struct UnreadEntry {
    /// Number of the change, out of the file's name; the highest for the whole folder.
    pub change: u32,
    /// The path relative to the registry's folder, with `/`.
    pub path: String,
    /// Why, in words that stand after "cannot be read: ".
    pub why: String,
}

impl UnreadEntry {
    /// That it cannot be read, and why.
    pub fn words(&self) -> String {
        format!("{} cannot be read: {}", self.path, self.why)
    }
}

impl Journal {
    /// Reads the journal of a registry's folder.
    pub fn read(folder: &Path) -> Journal {
        match numbered(folder) {
            Ok(files) => Journal::of(folder, &files),
            Err(why) => Journal {
                unread: vec![UnreadEntry {
                    change: u32::MAX,
                    path: FOLDER.to_owned(),
                    why,
                }],
                ..Journal::default()
            },
        }
    }

    /// The latest entries of the journal of a registry's folder: all since one that makes them enough, else all there are. What took one back
    /// is always among them.
    pub fn latest(
        folder: &Path,
        are_enough: impl Fn(&[JournalEntry]) -> bool,
    ) -> Vec<JournalEntry> {
        let files = numbered(folder).unwrap_or_default();
        let mut many = READ_FIRST;
        loop {
            // Two files of one number are read together.
            let since = files.len().checked_sub(many).map(|at| files[at].0);
            let from = since.map_or(0, |since| files.partition_point(|of| of.0 < since));
            let entries = Journal::of(folder, &files[from..]).entries;
            if from == 0 || are_enough(&entries) {
                return entries;
            }
            many *= 8;
        }
    }

    /// Some files of a registry's journal, by their names.
    fn of(folder: &Path, files: &[(u32, String)]) -> Journal {
        let folder = folder.join(FOLDER);
        let mut journal = Journal::default();
        for (change, name) in files {
            let text = read_plain_up_to(&folder.join(name), LONGEST_ENTRY);
            let text = text.map_err(|why| why.to_string());
            match text.and_then(|text| read_journal_entry(&text)) {
                Ok(entry) => journal.entries.push(entry),
                Err(why) => journal.unread.push(UnreadEntry {
                    change: *change,
                    path: format!("{FOLDER}/{name}"),
                    why,
                }),
            }
        }
        journal.entries.sort_by_key(|entry| entry.change);
        journal.entries = without_copies(journal.entries);
        journal
    }

    /// The number of the change that took back one whose entry cannot be read, and stands: it names that number, which no
    /// entry has that can be read, and no other that cannot.
    pub fn undone_unread(&self, unread: &UnreadEntry) -> Option<u32> {
        let of_number = self.unread.iter().filter(|of| of.change == unread.change);
        let undoings = Undoings::of(&self.entries);
        let is_undoing = |at: &usize| {
            self.entries[*at].undoes == Some(unread.change)
                && undoings.target(*at).is_none()
                && undoings.undone_by(*at).is_none()
        };
        let by = (0..self.entries.len()).rev().find(is_undoing)?;
        (of_number.count() == 1).then(|| self.entries[by].change)
    }
}

/// The names of a registry's entries with their numbers, in the order of these.
fn numbered(folder: &Path) -> Result<Vec<(u32, String)>, String> {
    let names = listed_names(&folder.join(FOLDER)).map_err(|why| why.to_string())?;
    let numbered = names
        .into_iter()
        .filter_map(|name| Some((number_of(&name)?, name)));
    let mut numbered: Vec<(u32, String)> = numbered.collect();
    numbered.sort_by_key(|of| of.0);
    Ok(numbered)
}

/// Entries in the order of their numbers, each once: a program that keeps folders in step leaves a second file of one change.
fn without_copies(entries: Vec<JournalEntry>) -> Vec<JournalEntry> {
    let mut kept: Vec<JournalEntry> = Vec::with_capacity(entries.len());
    for entry in entries {
        let of_number = kept.iter().rev();
        let mut of_number = of_number.take_while(|of| of.change == entry.change);
        if !of_number.any(|of| *of == entry) {
            kept.push(entry);
        }
    }
    kept
}

/// The path and text of a change's entry.
pub fn entry(asked: &Asked, changes: &[PageChange]) -> (String, String) {
    let pages: Vec<String> = changes.iter().map(|change| page(change).line()).collect();
    let record = RonRecord::new()
        .value("change", asked.change)
        .text("on", &asked.on.to_string())
        .value("asked", lossless(asked.asked))
        .value("about", texts(asked.about))
        .value_if("undoes", asked.undoes)
        .value_if("event", asked.event.map(lossless))
        .value("pages", lines(&pages))
        .value_if("merged", asked.merged.map(merged));
    let text = format!("{HEAD}{}", record.page());
    let name = format!(
        "{FOLDER}/{:06}-{}-{}.ron",
        asked.change,
        asked.on,
        &checksum(&text)[..NAME_DIGITS]
    );
    (name, text)
}

fn merged(of: &JournalMerge) -> String {
    let renamed = of.renamed.iter().map(|of| {
        let record = RonRecord::new().text("page", &of.page);
        record.text("was", &of.was).text("now", &of.now).line()
    });
    let renamed: Vec<String> = renamed.collect();
    let not_kept: Vec<String> = of.not_kept.iter().map(|words| lossless(words)).collect();
    RonRecord::new()
        .value("pages", texts(&of.pages))
        .value("renamed", format!("[{}]", renamed.join(", ")))
        .value("not_kept", format!("[{}]", not_kept.join(", ")))
        .line()
}

/// SHA-256 of a text (FIPS 180-4), in hexadecimal digits.
pub fn checksum(text: &str) -> String {
    let digest = Sha256::digest(text.as_bytes());
    digest.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The number that a file's name begins with; `None` if the file is no entry.
pub fn number_of(name: &str) -> Option<u32> {
    let (number, _) = name.strip_suffix(".ron")?.split_once('-')?;
    // The change after it must have a number too.
    number.parse().ok().filter(|number| *number < u32::MAX)
}

fn page(change: &PageChange) -> RonRecord {
    let sum = |text: &Option<String>| {
        text.as_deref()
            .map(|text| format!("\"{}\"", checksum(text)))
    };
    let (was, now) = change.texts();
    let edits = edits(was, now).into_iter();
    let edits: Vec<String> = edits.map(|of| edit(&of)).collect();
    RonRecord::new()
        .value("path", lossless(&change.path))
        .value_if("before", sum(&change.was))
        .value_if("after", sum(&change.now))
        .value("edits", format!("[{}]", edits.join(", ")))
}

fn edit(edit: &JournalEdit) -> String {
    RonRecord::new()
        .value("at", edit.at)
        .value("was", lossless(&edit.was))
        .value("now", lossless(&edit.now))
        .line()
}

/// A page as it was before a change; `None` if the text is not the one the change left.
pub fn before(page: &JournalPage, now: Option<&str>) -> Option<Option<String>> {
    if now.map(checksum) != page.after {
        return None;
    }
    if page.before.is_none() {
        return Some(None);
    }
    let now = now.unwrap_or("");
    let (mut text, mut copied, mut moved) = (String::new(), 0, 0_i64);
    for edit in &page.edits {
        let at = usize::try_from(edit.at as i64 + moved).ok()?;
        text.push_str(now.get(copied..at)?);
        text.push_str(&edit.was);
        copied = at + edit.now.len();
        moved += edit.now.len() as i64 - edit.was.len() as i64;
    }
    text.push_str(now.get(copied..)?);
    (Some(checksum(&text)) == page.before).then_some(Some(text))
}

/// Which changes of a journal took back which. Two people's journals may lie in one folder, so that two changes have one
/// number; then the pages say which of them was taken back.
pub struct Undoings {
    /// For each entry the one that it took back.
    targets: Vec<Option<usize>>,
    /// For each entry the undoing of it that stands.
    undone_by: Vec<Option<usize>>,
}

impl Undoings {
    /// Looks for them; `entries` stand in the order of their numbers.
    pub fn of(entries: &[JournalEntry]) -> Undoings {
        let mut targets = vec![None; entries.len()];
        let mut undone_by: Vec<Option<usize>> = vec![None; entries.len()];
        for (at, entry) in entries.iter().enumerate().rev() {
            let Some(number) = entry.undoes else { continue };
            let first = entries[..at].partition_point(|of| of.change < number);
            let of_number = (first..at).take_while(|of| entries[*of].change == number);
            let of_number: Vec<usize> = of_number.collect();
            let mut fitting = of_number.iter().rev().copied();
            let is_left = |of: &usize| undone_by[*of].is_none() && gives_back(entry, &entries[*of]);
            let target = fitting.find(is_left).or(of_number.last().copied());
            targets[at] = target;
            if let Some(target) = target.filter(|_| undone_by[at].is_none()) {
                undone_by[target] = Some(at);
            }
        }
        Undoings { targets, undone_by }
    }

    /// The entry that one took back.
    pub fn target(&self, at: usize) -> Option<usize> {
        self.targets[at]
    }

    /// The undoing of an entry that stands.
    pub fn undone_by(&self, at: usize) -> Option<usize> {
        self.undone_by[at]
    }
}

/// Whether an undoing gave the pages of a change the texts they had before it.
fn gives_back(undoing: &JournalEntry, of: &JournalEntry) -> bool {
    let mut pages = undoing.pages.iter().zip(&of.pages);
    let is_same = |(again, page): (&JournalPage, &JournalPage)| {
        same_form(&again.path, &page.path)
            && again.before == page.after
            && again.after == page.before
    };
    undoing.pages.len() == of.pages.len() && pages.all(is_same)
}

/// The changes that can be taken back, the latest first: those not taken back yet and not themselves an undoing.
pub fn standing(entries: &[JournalEntry]) -> Vec<&JournalEntry> {
    let undoings = Undoings::of(entries);
    let latest_first = entries.iter().enumerate().rev();
    let left = latest_first
        .filter(|(at, entry)| entry.undoes.is_none() && undoings.undone_by(*at).is_none());
    left.map(|(_, entry)| entry).collect()
}

/// Words as RON text that reads back to the last byte.
fn lossless(words: &str) -> String {
    let mut out = String::from("\"");
    for c in words.chars() {
        match c {
            '"' | '\\' => out.extend(['\\', c]),
            '\n' => out.push_str("\\n"),
            '\r' => out.push_str("\\r"),
            '\t' => out.push_str("\\t"),
            c if c.is_control() || crate::text::visible_char(c) != c => {
                let _ = write!(out, "\\u{{{:x}}}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out.push('"');
    out
}
