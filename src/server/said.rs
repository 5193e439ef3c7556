//! What was put right of a change that was cut short: said where podbook runs, and on the pages.

use crate::report::unrecorded::settled;
use crate::text::commit::PutRight;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// What is said to all.
pub struct Said {
    /// Shows lines where podbook runs.
    tell: Arc<dyn Fn(&str) + Send + Sync>,
    words: Mutex<Words>,
}

#[derive(Default)]
struct Words {
    /// What was put right, until an entry is recorded after it.
    put_right: String,
    /// That pages may hold half of a change, as it was said last.
    half: String,
}

impl Said {
    pub fn new(tell: Arc<dyn Fn(&str) + Send + Sync>) -> Said {
        Said {
            tell,
            words: Mutex::default(),
        }
    }

    fn words(&self) -> MutexGuard<'_, Words> {
        self.words.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Says what was put right.
    pub fn put_right(&self, found: &PutRight) {
        let words = settled(found);
        if !words.is_empty() {
            (self.tell)(&words);
            words.trim_end().clone_into(&mut self.words().put_right);
        }
    }

    /// Says where podbook runs that pages may hold half of a change, once for as long as that stays the same.
    pub fn half(&self, words: &str) {
        let mut last = self.words();
        if last.half != words {
            words.clone_into(&mut last.half);
            if !words.is_empty() {
                (self.tell)(&format!("{words}\n"));
            }
        }
    }

    /// What was put right, for a page; empty once an entry was recorded after it.
    pub fn on_page(&self) -> String {
        self.words().put_right.clone()
    }

    /// What was put right, for the answer to an entry that was recorded: it is not said again.
    pub fn recorded(&self) -> Option<String> {
        let words = std::mem::take(&mut self.words().put_right);
        Some(words).filter(|words| !words.is_empty())
    }
}
