//! What a command gives back, and how it refuses.

use crate::recording::slip::Slip;
use crate::render::Written;
use crate::text::visible;
use std::path::Path;

/// What a verb gives back.
#[derive(Debug, Default)]
pub struct Outcome {
    /// For standard output.
    pub answer: Written,
    /// For standard error.
    pub remarks: String,
    /// Whether the exit code tells of bad news.
    pub bad_news: bool,
    /// Whether the work was ended by Ctrl-C, so that the answer is what was found until then.
    pub interrupted: bool,
    /// Files and folders that were written, as the grower calls them.
    pub written: Vec<String>,
}

/// Exit code of an answer cut short by Ctrl-C: that of a program ended by that signal.
pub const INTERRUPTED: u8 = 130;

/// Exit code of a refusal after something was written.
const WRITTEN: u8 = 4;

/// Why nothing was answered.
#[derive(Debug)]
pub struct Refusal {
    /// What is wrong, with what to do about it.
    pub words: String,
    /// 2 for arguments, 3 for files; 4 when something was written all the same.
    pub exit: u8,
    /// Files and folders that were written all the same, as the grower calls them.
    pub written: Vec<String>,
    /// Whether more words on the command line would do: a person at a terminal is asked for them.
    pub wants_more: bool,
}

impl Refusal {
    /// The arguments, or a code in them, were not understood.
    pub fn arguments(words: impl std::fmt::Display) -> Refusal {
        Refusal {
            words: words.to_string(),
            exit: 2,
            written: Vec::new(),
            wants_more: false,
        }
    }

    /// A recording was refused.
    pub fn slip(slip: &Slip) -> Refusal {
        match slip {
            Slip::Unread(_) => Refusal::files(slip.to_string()),
            _ => Refusal {
                wants_more: matches!(slip, Slip::Missing(..)),
                ..Refusal::arguments(slip)
            },
        }
    }

    /// A file could not be read or written.
    pub fn files(words: impl Into<String>) -> Refusal {
        Refusal {
            words: words.into(),
            exit: 3,
            written: Vec::new(),
            wants_more: false,
        }
    }

    /// Says that something had been written before.
    pub fn after(mut self, written: &[String]) -> Refusal {
        self.written.extend_from_slice(written);
        if !self.written.is_empty() {
            self.exit = WRITTEN;
        }
        self
    }
}

/// A path in words, line breaks shown.
pub(super) fn shown(path: &Path) -> String {
    visible(&path.to_string_lossy()).into_owned()
}
