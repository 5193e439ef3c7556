//! Words of records in a page, and links to pages of the album.

use crate::report::album::{Door, Files};
use crate::text::Xml;
use crate::wording::Name;
use maud::{Markup, PreEscaped, html};

/// Where a page lies, so that it can name others.
#[derive(Clone, Copy)]
pub(super) struct Here<'a> {
    pub files: &'a Files,
    /// What leads from the page's folder to the album's: nothing, or `../`.
    pub up: &'static str,
}

/// Words as they are read.
pub(super) fn say(text: &str) -> Markup {
    PreEscaped(Xml::of(text).to_string())
}

/// A name with its Latin in italics.
pub(super) fn name(of: &Name) -> Markup {
    html! {
        @for run in of {
            @if run.italic { i { (say(&run.text)) } } @else { (say(&run.text)) }
        }
    }
}

/// A name without its italics.
pub(super) fn plain(of: &Name) -> String {
    of.iter().map(|run| run.text.as_str()).collect()
}

impl Here<'_> {
    /// What leads to a page.
    pub fn to(self, path: &str) -> Markup {
        // A `~` is safe in an address, and nothing else but letters, digits, `-` and `_` is in a path.
        say(&format!("{}{path}", self.up))
    }

    /// A link to a page.
    pub fn door(self, door: &Door) -> Markup {
        html! { a href=(self.to(&door.path)) { (say(&door.id)) } }
    }

    /// Words in which every code of the album is a link.
    pub fn linked(self, text: &str) -> Markup {
        let mut out = String::new();
        let mut rest = text;
        while !rest.is_empty() {
            let end = rest.find(is_between).unwrap_or(rest.len());
            let (word, behind) = rest.split_at(end);
            out += &self.linked_word(word);
            let end = behind.find(|letter| !is_between(letter));
            let (between, next) = behind.split_at(end.unwrap_or(behind.len()));
            out += &say(between).into_string();
            rest = next;
        }
        PreEscaped(out)
    }

    /// Our own words: what stands between two backticks at the keyboard, such as a command, is code.
    pub fn remark(self, text: &str) -> Markup {
        let parts: Vec<&str> = text.split('`').collect();
        if parts.len().is_multiple_of(2) {
            return self.linked(text);
        }
        html! {
            @for (at, part) in parts.into_iter().enumerate() {
                @if at % 2 == 1 { code { (self.linked(part)) } } @else { (self.linked(part)) }
            }
        }
    }

    /// A code, also with its piece or its pod behind it.
    fn linked_word(self, word: &str) -> String {
        let mut code = word;
        while !code.is_empty() {
            if let Some(path) = self.files.of_code(code) {
                let link =
                    html! { a href=(self.to(path)) { (say(code)) } (say(&word[code.len()..])) };
                return link.into_string();
            }
            code = code.rsplit_once('-').map_or("", |(front, _)| front);
        }
        say(word).into_string()
    }
}

/// What no code holds.
fn is_between(letter: char) -> bool {
    letter.is_whitespace() || "\"'`“”()[]{}<>,;:./\\|&?*".contains(letter)
}

/// Said where scripts are switched off, with what to do instead.
pub(super) fn needs_scripts(instead: &str) -> Markup {
    html! { noscript { p { strong { "Recording needs scripts. Switch them on, or " (instead) "." } } } }
}
