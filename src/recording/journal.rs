//! The journal: one small file a change, so that it can be taken back and looked up later.
//!
//! A file's name begins with the number of its change and ends with the beginning of a checksum, so that the journals
//! of two people can lie in one folder. The registry never needs them.

use super::draft::PageChange;
use super::written::{RonRecord, lines, texts};
use crate::record::{Day, JournalEdit, JournalEntry, JournalMerge, JournalPage};
use sha2::{Digest, Sha256};
use similar::{DiffTag, TextDiff};
use std::fmt::Write;

/// The folder in a registry that holds the journal.
pub const FOLDER: &str = "journal";
/// The first line of each entry.
const HEAD: &str = "// podbook's memory of one change. The registry does not need it; without it the change cannot be undone.\n";
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
    let mut out = String::with_capacity(64);
    for byte in Sha256::digest(text.as_bytes()) {
        let _ = write!(out, "{byte:02x}");
    }
    out
}

/// The number that a file's name begins with; `None` if the file is no entry.
pub fn number_of(name: &str) -> Option<u32> {
    let (number, _) = name.strip_suffix(".ron")?.split_once('-')?;
    number.parse().ok()
}

fn page(change: &PageChange) -> RonRecord {
    let sum = |text: &Option<String>| {
        text.as_deref()
            .map(|text| format!("\"{}\"", checksum(text)))
    };
    let (was, now) = (change.was.as_deref(), change.now.as_deref());
    let edits = edits(was.unwrap_or(""), now.unwrap_or(""));
    let edits: Vec<String> = edits.iter().map(edit).collect();
    RonRecord::new()
        .text("path", &change.path)
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

/// The whole lines in which two texts differ.
pub fn edits(was: &str, now: &str) -> Vec<JournalEdit> {
    let diff = TextDiff::from_lines(was, now);
    let (old, new): (Vec<&str>, Vec<&str>) =
        (diff.old_slices().to_vec(), diff.new_slices().to_vec());
    let mut starts = vec![0];
    for line in &old {
        starts.push(starts[starts.len() - 1] + line.len());
    }
    let ops = diff.ops().iter().filter(|op| op.tag() != DiffTag::Equal);
    ops.map(|op| JournalEdit {
        at: starts[op.old_range().start],
        was: old[op.old_range()].concat(),
        now: new[op.new_range()].concat(),
    })
    .collect()
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

/// The changes that can be taken back, the latest first: those not taken back yet and not themselves an undoing.
pub fn standing(entries: &[JournalEntry]) -> Vec<&JournalEntry> {
    let mut undone = std::collections::BTreeSet::new();
    let mut left = Vec::new();
    for entry in entries.iter().rev() {
        let is_undone = undone.contains(&entry.change);
        match entry.undoes {
            Some(of) if !is_undone => drop(undone.insert(of)),
            None if !is_undone => left.push(entry),
            _ => {}
        }
    }
    left
}

/// The undoing of a change that stands, if any.
pub fn undone_by(entries: &[JournalEntry], change: u32) -> Option<&JournalEntry> {
    let mut undone = std::collections::BTreeSet::new();
    let mut latest_first = entries.iter().rev();
    latest_first.find(|entry| {
        let stands = !undone.contains(&entry.change);
        if let Some(of) = entry.undoes.filter(|of| stands && *of != change) {
            undone.insert(of);
        }
        stands && entry.undoes == Some(change)
    })
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
