//! The entries that have arrived: the journal knows them by their ids.

use crate::record::read_journal_entry;
use crate::recording::journal::{FOLDER, number_of};
use crate::text::{names_in, read_plain};
use std::collections::{HashMap, HashSet};
use std::path::Path;

/// An entry that is in the book.
#[derive(Clone, Debug)]
pub struct Arrived {
    /// The number of its change.
    pub change: u32,
    /// The command it stood for.
    pub asked: String,
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
            let text = read_plain(&journal.join(&name)).unwrap_or_default();
            if let Ok(entry) = read_journal_entry(&text)
                && let Some(event) = entry.event
            {
                let (change, asked) = (entry.change, entry.asked);
                self.events.insert(event, Arrived { change, asked });
            }
            self.read.insert(name);
        }
        self.events.get(id)
    }
}
