//! How an entry fared that a page sent.

use crate::recording::slip::Slip;
use crate::recording::voice::Voice;
use serde_json::{Value, json};

/// Recorded, or why not.
#[derive(Debug)]
pub enum Fared {
    /// It cannot be taken now and may be sent again, in words.
    Later(String),
    /// It does not fit, in words.
    Refused(String),
    /// A reading looks like a slip; a question.
    Sure(String),
    /// A row of a plant that has one, which the page did not know of.
    There {
        /// What that row has, and what this one would change.
        words: String,
        /// Whether this one would replace readings; otherwise it adds some.
        replaces: bool,
    },
    /// It is in the book.
    Recorded(Value),
}

impl Fared {
    /// The answer for the page.
    pub fn json(self, id: &str) -> Value {
        match self {
            Fared::Later(words) => json!({"id": id, "state": "later", "words": words}),
            Fared::Refused(words) => json!({"id": id, "state": "refused", "words": words}),
            Fared::Sure(words) => json!({"id": id, "state": "sure", "words": words}),
            Fared::There { words, replaces } => {
                let there = if replaces { "replace" } else { "add" };
                json!({"id": id, "state": "refused", "words": words, "there": there})
            }
            Fared::Recorded(report) => json!({"id": id, "state": "recorded", "report": report}),
        }
    }

    /// It does not fit.
    pub fn refused(why: impl std::fmt::Display) -> Fared {
        Fared::Refused(why.to_string())
    }
}

impl From<Slip> for Fared {
    fn from(why: Slip) -> Self {
        Fared::Refused(why.said(Voice::Page))
    }
}
