//! A name as typed, taken apart: genus, sign, quotes, trade designation, Group, what follows the epithet.

use crate::naming::vocabulary::Vocabulary;

/// How the epithet was set off.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SetOff {
    /// Single quotes.
    Single,
    /// Double quotes.
    Double,
    /// `cv.` or `var.` before it.
    Abbreviation,
    /// Nothing.
    #[default]
    Bare,
}

/// A name as typed, taken apart.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Typed {
    /// The epithet itself, spaces put in order, curly apostrophes made straight.
    pub epithet: String,
    /// How it was set off.
    pub set_off: SetOff,
    /// A sign stood before it.
    pub sign: bool,
    /// Words between genus and epithet: a species or parentage.
    pub before: Option<String>,
    /// Brackets behind it: parentage.
    pub after: Option<String>,
    /// The trade designation beside it.
    pub trade: Option<String>,
    /// It was typed as a Group.
    pub group: bool,
    /// It was typed as a grex.
    pub grex: bool,
    /// It was typed as a parent of seed: `'X' × …`, `'X' selfed`, `seedling of 'X'`.
    pub seedling: bool,
}

/// Takes a name apart.
pub fn take_apart(text: &str, vocabulary: &Vocabulary) -> Typed {
    let text = straight(text);
    let mut typed = Typed::default();
    let (before, inside, after) = quoted(&text, &mut typed.set_off);
    match inside {
        Some(inside) => {
            typed.epithet = inside;
            around(&before, &after, vocabulary, &mut typed);
        }
        None => bare(&before, vocabulary, &mut typed),
    }
    typed
}

/// Straight quotes, single spaces, no invisible marks.
fn straight(text: &str) -> String {
    let text: String = text
        .chars()
        .filter(|letter| !matches!(letter, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}' | '\u{ad}'))
        .map(|letter| match letter {
            '‘' | '’' | '‛' | '`' | '´' | '′' => '\'',
            '“' | '”' | '„' | '″' => '"',
            letter => letter,
        })
        .collect();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What stands before, inside and after the outermost quotes.
fn quoted(text: &str, set_off: &mut SetOff) -> (String, Option<String>, String) {
    let opening = |quote: char| {
        text.char_indices()
            .position(|(at, letter)| letter == quote && opens(text, at))
    };
    let (quote, kind) = match (opening('\''), opening('"')) {
        (Some(single), Some(double)) if double < single => ('"', SetOff::Double),
        (Some(_), _) => ('\'', SetOff::Single),
        (None, Some(_)) => ('"', SetOff::Double),
        (None, None) => return (text.to_owned(), None, String::new()),
    };
    let open = text
        .char_indices()
        .find(|(at, letter)| *letter == quote && opens(text, *at))
        .map_or(0, |(at, _)| at);
    let rest = &text[open + 1..];
    let Some(close) = closing(rest, quote) else {
        return (text.to_owned(), None, String::new());
    };
    *set_off = kind;
    (
        text[..open].trim().to_owned(),
        Some(rest[..close].trim().to_owned()),
        rest[close + 1..].trim().to_owned(),
    )
}

/// The last closing quote, since a plural may end in an apostrophe; but an earlier one before a cross or a word on seed.
fn closing(rest: &str, quote: char) -> Option<usize> {
    let closing = |(at, letter): &(usize, char)| *letter == quote && closes(rest, *at);
    let before_seed = rest
        .char_indices()
        .filter(closing)
        .find(|(at, _)| follows_seed(rest[at + 1..].trim_start()));
    let last = || rest.char_indices().rev().find(closing);
    before_seed.or_else(last).map(|(at, _)| at)
}

/// A quote opens at the start of a word; elsewhere it is an apostrophe.
fn opens(text: &str, at: usize) -> bool {
    !text[..at]
        .chars()
        .next_back()
        .is_some_and(char::is_alphanumeric)
}

fn closes(rest: &str, at: usize) -> bool {
    !rest[at + 1..]
        .chars()
        .next()
        .is_some_and(char::is_alphanumeric)
}

fn around(before: &str, after: &str, vocabulary: &Vocabulary, typed: &mut Typed) {
    let mut words: Vec<&str> = before
        .split(' ')
        .filter(|word| !word.is_empty() && *word != "(")
        .collect();
    if words.first().is_some_and(|word| vocabulary.is_genus(word)) {
        words.remove(0);
    }
    if words.last().is_some_and(|word| is_sign(word)) {
        typed.sign = true;
        words.pop();
    }
    if words.last().is_some_and(|word| is_abbreviation(word)) {
        words.pop();
    }
    let lower = words.join(" ").to_lowercase();
    typed.seedling = lower.contains("seedling") || lower.contains("sibling") || follows_seed(after);
    typed.after = Some(after.to_owned()).filter(|after| after.starts_with('('));
    match trade(&words.join(" ")) {
        Some(trade) => typed.trade = Some(trade),
        None if !words.is_empty() => typed.before = Some(words.join(" ")),
        None => {}
    }
}

fn is_sign(word: &str) -> bool {
    matches!(word, "×" | "x" | "X" | "✕" | "✖")
}

fn is_abbreviation(word: &str) -> bool {
    matches!(word.to_lowercase().as_str(), "cv." | "cv" | "var." | "var")
}

/// A name marked ™ or ®, without the mark and the bracket that follows.
fn trade(words: &str) -> Option<String> {
    let words = words.trim_end_matches('(').trim();
    let name = words
        .strip_suffix(['™', '®'])
        .or_else(|| words.strip_suffix("(TM)"))
        .or_else(|| words.strip_suffix("(R)"))?;
    Some(name.trim().to_owned())
}

/// What stands after an epithet says that the plant was raised from its seed.
fn follows_seed(after: &str) -> bool {
    let first = after.split(' ').next().unwrap_or_default().to_lowercase();
    is_sign(&first)
        || matches!(
            first.as_str(),
            "selfed" | "self" | "sib" | "sibling" | "seedling" | "seedlings" | "f1" | "f2" | "op"
        )
}

fn bare(text: &str, vocabulary: &Vocabulary, typed: &mut Typed) {
    let mut text = text.trim();
    let first = text.split(' ').next().unwrap_or_default();
    if vocabulary.is_genus(first) && text.len() > first.len() && !first.is_empty() {
        text = text[first.len()..].trim();
    }
    let first = text.split(' ').next().unwrap_or_default();
    if is_sign(first) && text.len() > first.len() {
        typed.sign = true;
        text = text[first.len()..].trim();
    } else if is_abbreviation(first) {
        typed.set_off = SetOff::Abbreviation;
        text = text[first.len()..].trim();
    }
    let inner = text
        .strip_prefix('(')
        .and_then(|text| text.strip_suffix(')'))
        .unwrap_or(text);
    let (name, last) = inner.rsplit_once(' ').unwrap_or(("", inner));
    match last.to_lowercase().as_str() {
        "group" if !name.is_empty() => (typed.group, text) = (true, name),
        "gx" | "gx." | "grex" => (typed.grex, text) = (true, name),
        _ => {}
    }
    if let Some(name) = trade(text) {
        typed.trade = Some(name);
        text = "";
    }
    typed.epithet = text.trim().to_owned();
}
