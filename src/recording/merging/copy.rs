//! A registry that is merged: its pages, what they say, and its journal.

use crate::record::JournalEntry;
use crate::registry::Registry;
use crate::text::Sources;

/// A registry with its journal.
pub struct Copy<'a> {
    /// Its pages.
    pub sources: &'a Sources,
    /// What they say.
    pub registry: &'a Registry<'a>,
    /// Its journal, the first change first.
    pub entries: &'a [JournalEntry],
}

impl Copy<'_> {
    /// A page's text.
    pub fn text(&self, path: &str) -> Option<&str> {
        self.sources.find(path).map(|file| self.sources.text(file))
    }

    /// The path of the page that holds the record of a code.
    pub fn path_of(&self, code: &str) -> String {
        let ends =
            std::iter::once(code.len()).chain(code.rmatch_indices(['-', '.']).map(|(at, _)| at));
        let mut crosses = ends.filter_map(|end| self.registry.cross(&code[..end]));
        if let Some(cross) = crosses.next() {
            let file = self.registry[cross].file;
            return self.sources.get(file).path.clone();
        }
        let path = match self.registry.pollen_lot(code) {
            Some(_) => "pollen.ron",
            None => "clones.ron",
        };
        path.to_owned()
    }
}
