//! One change that podbook made, as its journal keeps it: what was asked for, and each page before and after.

use super::fault_words::fault_words;
use super::typed::typed;
use serde::Deserialize;

/// A whole file under `journal/`.
#[derive(Deserialize, Clone, PartialEq, Eq, Debug)]
#[serde(deny_unknown_fields)]
pub struct JournalEntry {
    /// Number of the change, from 1; two people's journals may have the same.
    pub change: u32,
    /// The day that counted as today.
    pub on: String,
    /// The command that was given, without where the registry is.
    pub asked: String,
    /// Codes that were recorded on.
    #[serde(default)]
    pub about: Vec<String>,
    /// The number of the change that this one took back.
    pub undoes: Option<u32>,
    /// The pages, in the order they were written.
    pub pages: Vec<JournalPage>,
    /// What was taken in from another registry.
    pub merged: Option<JournalMerge>,
    /// The id of the entry that a phone sent: an entry that comes again is known by it.
    pub event: Option<String>,
}

/// Another registry that was merged into this one, as it was that day.
#[derive(Deserialize, Clone, PartialEq, Eq, Debug, Default)]
#[serde(deny_unknown_fields)]
pub struct JournalMerge {
    /// SHA-256 (FIPS 180-4) of each of its pages; of a copy, then the name of the last merge it had made.
    pub pages: Vec<String>,
    /// Its codes that are other codes here.
    #[serde(default)]
    pub renamed: Vec<JournalRename>,
    /// What it said and was not kept, in words.
    #[serde(default)]
    pub not_kept: Vec<String>,
}

/// A code of another registry that is another code here.
#[derive(Deserialize, Clone, PartialEq, Eq, Debug)]
#[serde(deny_unknown_fields)]
pub struct JournalRename {
    /// SHA-256 of the page that had it.
    pub page: String,
    /// The code there.
    pub was: String,
    /// The code here.
    pub now: String,
}

/// One page of a change.
#[derive(Deserialize, Clone, PartialEq, Eq, Debug)]
#[serde(deny_unknown_fields)]
pub struct JournalPage {
    /// The path relative to the registry's folder, with `/`.
    pub path: String,
    /// SHA-256 (FIPS 180-4) of the page's text before, in hexadecimal digits; none when there was no page.
    pub before: Option<String>,
    /// The same of its text afterwards; none when the page is gone.
    pub after: Option<String>,
    /// What gave way to what, in the order of place.
    pub edits: Vec<JournalEdit>,
}

/// A range of a page that was replaced.
#[derive(Deserialize, Clone, PartialEq, Eq, Debug)]
#[serde(deny_unknown_fields)]
pub struct JournalEdit {
    /// Byte of the page before at which the range begins.
    pub at: usize,
    /// What stood there.
    pub was: String,
    /// What stands there since.
    pub now: String,
}

/// Reads one entry of the journal.
///
/// # Errors
/// Line, column and what is wrong, in words.
pub fn read_journal_entry(text: &str) -> Result<JournalEntry, String> {
    typed(text).map_err(|error| {
        let place = error.span.start;
        format!("{}:{}: {}", place.line, place.col, fault_words(&error.code))
    })
}
