//! Taking changes back: each page gets the bytes it had, and a page that has moved on since is refused.

use super::draft::PageChange;
use super::journal::{before, standing, undone_by};
use super::slip::Slip;
use crate::record::JournalEntry;
use crate::text::Sources;

/// The pages as they were before one change.
///
/// # Errors
/// If a page has been changed since.
pub fn taken_back(sources: &Sources, entry: &JournalEntry) -> Result<Vec<PageChange>, Slip> {
    let mut changes = Vec::new();
    for page in &entry.pages {
        let now = sources.find(&page.path).map(|file| sources.text(file));
        let was = before(page, now).ok_or_else(|| Slip::MovedOn {
            change: entry.change,
            path: page.path.clone(),
        })?;
        changes.push(PageChange {
            path: page.path.clone(),
            was: now.map(str::to_owned),
            now: was,
        });
    }
    Ok(changes)
}

/// The change to take back: that of a number, or the last one that stands.
///
/// # Errors
/// If there is none, or it was taken back already.
pub fn chosen(entries: &[JournalEntry], number: Option<u32>) -> Result<&JournalEntry, Slip> {
    let nothing = |words: String| Slip::NothingToChange(words);
    let Some(number) = number else {
        return standing(entries).into_iter().next().ok_or_else(|| {
            nothing(
                "there is no change to undo\n`podbook changes` lists what podbook has changed"
                    .to_owned(),
            )
        });
    };
    let mut of_number = entries.iter().filter(|entry| entry.change == number);
    let entry = of_number.next_back().ok_or_else(|| {
        nothing(format!(
            "there is no change {number}\n`podbook changes` lists what podbook has changed"
        ))
    })?;
    match undone_by(entries, entry.change) {
        Some(by) => Err(nothing(format!(
            "change {number} is undone already, by change {}\nto make it again, undo change {0}",
            by.change
        ))),
        None => Ok(entry),
    }
}
