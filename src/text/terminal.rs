//! Text for a terminal: the only form in which words reach standard output and standard error.

use std::fmt;
use std::ops::Deref;

use super::shown::visible_lines;

/// Lines for a terminal. No control character stands in them but line breaks and colours of our own, because the only
/// ways to make one show every other ([`visible`](super::visible)).
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Terminal(String);

impl Terminal {
    /// Lines as laid out.
    pub fn lines(text: &str) -> Self {
        Self(visible_lines(text))
    }

    /// A text in a colour, given as the parameters of "select graphic rendition" (ECMA-48, 8.3.117), such as `1;31`.
    ///
    /// # Panics
    /// If they hold anything but digits and `;`.
    pub fn coloured(colour: &'static str, text: &str) -> Self {
        let plain = |byte| matches!(byte, b'0'..=b'9' | b';');
        assert!(colour.bytes().all(plain), "`{colour}` is no colour");
        let text = visible_lines(text);
        Self(format!("\u{1b}[{colour}m{text}\u{1b}[0m"))
    }

    /// Adds more at the end.
    pub fn push(&mut self, more: &Terminal) {
        self.0.push_str(&more.0);
    }

    /// Adds a text at the end.
    pub fn say(&mut self, text: &str) {
        self.0.push_str(&visible_lines(text));
    }
}

impl Deref for Terminal {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Terminal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}
