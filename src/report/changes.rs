//! What podbook has changed, the latest first.

use super::caution::Weight;
use super::sheet::{Report, Sheet};
use super::table::Table;
use crate::record::JournalEntry;
use crate::recording::journal::{Journal, Undoings, UnreadEntry};
use crate::wording::{counted, joined_if_any, led_by};
use serde::Serialize;

/// The journal as a list.
#[derive(Serialize)]
pub struct ChangesReport {
    /// The codes asked about; none for all changes.
    pub about: Vec<String>,
    /// The changes, the latest first.
    pub changes: Vec<ChangeRow>,
    /// Entries of the journal that cannot be read, and why.
    pub unread: Vec<String>,
}

/// One change.
#[derive(Serialize)]
pub struct ChangeRow {
    /// Its number.
    pub change: u32,
    /// The day that counted as today.
    pub on: String,
    /// The command that was given.
    pub asked: String,
    /// Codes that were recorded on.
    pub about: Vec<String>,
    /// The pages that were changed.
    pub pages: Vec<String>,
    /// Whether it has been taken back.
    pub undone: bool,
    /// The number of the change that it took back.
    pub undoes: Option<u32>,
}

/// The changes of a journal, or those that recorded on codes or on parts of them.
pub fn changes(journal: &Journal, about: &[String]) -> ChangesReport {
    let undoings = Undoings::of(&journal.entries);
    let within = |of: &str, asked: &str| {
        of.strip_prefix(asked)
            .is_some_and(|rest| rest.is_empty() || rest.starts_with(['-', '.']))
    };
    let wanted = |(_, entry): &(usize, &JournalEntry)| {
        about.is_empty()
            || about
                .iter()
                .any(|asked| entry.about.iter().any(|of| within(of, asked)))
    };
    ChangesReport {
        about: about.to_vec(),
        unread: journal.unread.iter().map(UnreadEntry::words).collect(),
        changes: journal
            .entries
            .iter()
            .enumerate()
            .rev()
            .filter(wanted)
            .map(|(at, entry)| ChangeRow {
                change: entry.change,
                on: entry.on.clone(),
                asked: entry.asked.clone(),
                about: entry.about.clone(),
                pages: entry.pages.iter().map(|page| page.path.clone()).collect(),
                undone: entry.undoes.is_none() && undoings.undone_by(at).is_some(),
                undoes: entry.undoes,
            })
            .collect(),
    }
}

impl ChangeRow {
    fn state(&self) -> String {
        match (self.undone, self.undoes) {
            (true, _) => "undone".to_owned(),
            (_, Some(of)) => format!("undid {of}"),
            _ => String::new(),
        }
    }
}

impl Report for ChangesReport {
    fn sheet(&self) -> Sheet {
        let of = led_by(" of ", joined_if_any(&self.about, ", "));
        let count = self.changes.len();
        let readable = match self.unread.as_slice() {
            [] => "",
            _ => ", as far as the journal can be read",
        };
        let mut sheet = Sheet::new(match count {
            0 => format!("No changes{of} were made by podbook{readable}"),
            _ => format!(
                "{}{of} made by podbook, the latest first{readable}",
                counted(count, "change", "changes")
            ),
        });
        sheet.cautions(Weight::Answer, &self.unread);
        if count == 0 {
            return sheet;
        }
        sheet.table(
            Table::of(&self.changes)
                .figure("change", |row| row.change)
                .text("date", |row| &row.on)
                .text("command", |row| &row.asked)
                .text("state", ChangeRow::state),
        );
        sheet
    }
}
