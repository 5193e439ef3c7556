//! Where each merged page goes: ours stays in its place, a new one gets a file of its own.

use super::copy::Copy;
use super::pages::{About, Pair, path_of};
use crate::recording::draft::PageChange;
use crate::recording::slip::Slip;
use std::collections::{BTreeMap, BTreeSet};

/// Merged pages on their way to their places.
pub struct Placing<'a> {
    ours: &'a Copy<'a>,
    /// Our pages that were merged.
    own: BTreeSet<String>,
    /// Pages in their places.
    placed: BTreeMap<String, String>,
    /// Pages of ours that go.
    new: Vec<(&'a About, &'a Pair, String)>,
}

impl<'a> Placing<'a> {
    /// No page yet.
    pub fn of(ours: &'a Copy<'a>) -> Placing<'a> {
        Placing {
            ours,
            own: BTreeSet::new(),
            placed: BTreeMap::new(),
            new: Vec::new(),
        }
    }

    /// Takes a merged page; none where ours is to go.
    pub fn put(&mut self, about: &'a About, pair: &'a Pair, text: Option<String>) {
        self.own
            .extend(pair.ours.as_ref().map(|sheet| sheet.path.clone()));
        let Some(text) = text else {
            return;
        };
        match self.stays_at(about, pair) {
            Some(path) => drop(self.placed.insert(path, text)),
            None => self.new.push((about, pair, text)),
        }
    }

    /// Where our page is, unless its cross has another code now.
    fn stays_at(&self, about: &About, pair: &Pair) -> Option<String> {
        let path = &pair.ours.as_ref()?.path;
        match about {
            About::Page(_) => Some(path.clone()),
            About::Cross(code) => {
                let cross = self.ours.registry.cross(code)?;
                let file = self.ours.registry[cross].file;
                (self.ours.sources.get(file).path == *path).then(|| path.clone())
            }
        }
    }

    /// The pages that change.
    ///
    /// # Errors
    /// If a file that is no page stands where a page would go.
    pub fn changes(mut self) -> Result<Vec<PageChange>, Slip> {
        for (about, pair, text) in std::mem::take(&mut self.new) {
            let path = self.new_path(about, pair);
            let sources = self.ours.sources;
            let other = sources.find(&path).is_some() && !self.own.contains(&path);
            let unread = sources.unread().iter().any(|unread| unread.path == path);
            if other || unread || self.placed.contains_key(&path) {
                return Err(Slip::page_taken(&path));
            }
            self.placed.insert(path, text);
        }
        let paths: BTreeSet<String> = self
            .own
            .into_iter()
            .chain(self.placed.keys().cloned())
            .collect();
        let change = |path: String| {
            let was = self.ours.text(&path).map(str::to_owned);
            let now = self.placed.remove(&path);
            (was != now).then_some(PageChange { path, was, now })
        };
        Ok(paths.into_iter().filter_map(change).collect())
    }

    /// Where a page goes that has no place here yet.
    fn new_path(&self, about: &About, pair: &Pair) -> String {
        let own = match about {
            About::Page(page) => (*page).to_owned(),
            About::Cross(code) => format!("crosses/{code}.ron"),
        };
        let theirs = path_of(&pair.theirs);
        let taken = self.placed.contains_key(&own);
        match pair.ours.is_none() && theirs.starts_with("crosses/") && taken {
            true => theirs,
            false => own,
        }
    }
}
