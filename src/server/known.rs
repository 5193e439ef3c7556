//! The entries that have arrived: the journal knows them by their ids.

use crate::record::read_journal_entry;
use crate::recording::journal::{FOLDER, LONGEST_ENTRY, number_of};
use crate::text::{names_in, read_plain_up_to};
use crate::wording::listed;
use std::collections::{HashMap, HashSet};
use std::path::Path;

/// An entry that is in the book.
#[derive(Clone, Debug)]
pub struct Arrived {
    /// The number of its change.
    pub change: u32,
    /// The command it stood for.
    pub asked: String,
    /// Codes that were recorded on.
    about: Vec<String>,
}

impl Arrived {
    /// That it is there, with its codes: the first answer may have been lost, and with it what to write on a tag.
    pub fn words(&self) -> String {
        format!("It is in the book already, as {}", self.as_change())
    }

    /// That it was there, and which change took it back.
    pub fn undone_words(&self, by: u32) -> String {
        let change = self.as_change();
        format!("It was recorded as {change}, and change {by} took it back. Undo brings it back")
    }

    fn as_change(&self) -> String {
        let on = match self.about.is_empty() {
            true => String::new(),
            false => format!(", on {}", listed(&self.about)),
        };
        format!("change {}{on}", self.change)
    }
}

/// The entries in a journal. Its files never change, so each is read once.
#[derive(Default)]
pub struct Known {
    read: HashSet<String>,
    events: HashMap<String, Arrived>,
}

impl Known {
    /// The entry of an id, if it is in the book. The registry must be held.
    pub fn arrived(&mut self, folder: &Path, id: &str) -> Option<&Arrived> {
        let journal = folder.join(FOLDER);
        for name in names_in(&journal) {
            if number_of(&name).is_none() || self.read.contains(&name) {
                continue;
            }
            let text = read_plain_up_to(&journal.join(&name), LONGEST_ENTRY).unwrap_or_default();
            if let Ok(entry) = read_journal_entry(&text)
                && let Some(event) = entry.event
            {
                let arrived = Arrived {
                    change: entry.change,
                    asked: entry.asked,
                    about: entry.about,
                };
                self.events.insert(event, arrived);
            }
            self.read.insert(name);
        }
        self.events.get(id)
    }
}
