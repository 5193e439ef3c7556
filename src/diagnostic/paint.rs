//! Colour for terminals, which never carries a meaning alone: what is coloured is also said in words.

use crate::text::Terminal;

/// What a piece of a drawing is, for its colour.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Tone {
    /// The word for a fault, and its underline.
    Fault,
    /// The word for a warning, and its underline.
    Warning,
    /// The word for a note, and its underline.
    Note,
    /// Line numbers, rules and other scaffolding.
    Frame,
    /// A line of help.
    Help,
    /// The title.
    Title,
}

/// Whether to colour.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Paint {
    /// Text only.
    #[default]
    Plain,
    /// ANSI colours.
    Ansi,
}

impl Paint {
    /// The text in its tone.
    pub fn paint(self, tone: Tone, text: &str) -> Terminal {
        if self == Paint::Plain || text.is_empty() {
            return Terminal::lines(text);
        }
        let colour = match tone {
            Tone::Fault => "1;31",
            Tone::Warning => "1;33",
            Tone::Note => "1;36",
            Tone::Frame => "34",
            Tone::Help => "32",
            Tone::Title => "1",
        };
        Terminal::coloured(colour, text)
    }
}
