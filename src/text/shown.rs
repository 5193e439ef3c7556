//! Text as it may be shown: nothing in it moves the cursor, turns the reading direction or cannot be seen.
//!
//! Every form of an answer and every finding starts from here; what else a place asks for is left to the type of that
//! place ([`Terminal`](super::Terminal), [`Xml`](super::Xml), [`Markdown`](super::Markdown), the cells of CSV and the
//! values of DOT). Which characters Unicode counts as controls, joiners and marks: UnicodeData and PropList, version
//! 16, from memory.

use std::borrow::Cow;

use unicode_normalization::char::is_combining_mark;

/// Stands for a character that cannot be seen and has no sign of its own.
const UNSEEN: char = '\u{fffd}';
/// Bears a combining mark that has no letter to stand on.
const BEARER: char = '\u{25cc}';

/// The text with every character seen: controls as their signs (`␛`), others that are unseen as `�`, a combining mark
/// without a letter on `◌`. Directions need no closing then, because no mark of direction is left.
pub fn visible(text: &str) -> Cow<'_, str> {
    shown(text, visible_char)
}

/// As [`visible`], in one line: a line break or tab is a blank.
pub fn one_line(text: &str) -> Cow<'_, str> {
    shown(text, |c| match c {
        '\n' | '\r' | '\t' => ' ',
        c => visible_char(c),
    })
}

/// Laid-out lines with every character seen, one for one, so that columns stay columns: line breaks stay, and a mark
/// without a letter is left to the texts the lines were made of.
pub(super) fn visible_lines(text: &str) -> String {
    let sign = |c| if c == '\n' { c } else { visible_char(c) };
    text.chars().map(sign).collect()
}

/// The character itself, or the sign of one that cannot be seen or does more than stand there.
pub fn visible_char(c: char) -> char {
    match c {
        ' '..='~' => c,
        '\0'..='\u{1f}' => char::from_u32(0x2400 + c as u32).unwrap_or(UNSEEN),
        '\u{7f}' => '␡',
        c if is_unseen(c) => UNSEEN,
        c => c,
    }
}

/// C1 controls, marks of direction, joiners, fillers, tags, variation selectors beyond those of emoji, and what is no
/// character. Joiners go too: an emoji of a family then stands as its members, and nothing hides between two letters.
fn is_unseen(c: char) -> bool {
    matches!(c,
        '\u{80}'..='\u{9f}'
        | '\u{ad}'
        | '\u{34f}'
        | '\u{61c}'
        | '\u{115f}' | '\u{1160}'
        | '\u{17b4}' | '\u{17b5}'
        | '\u{180b}'..='\u{180f}'
        | '\u{200b}'..='\u{200f}'
        | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}'
        | '\u{3164}'
        | '\u{fdd0}'..='\u{fdef}'
        | '\u{fe00}'..='\u{fe0d}'
        | '\u{feff}'
        | '\u{ffa0}'
        | '\u{fff0}'..='\u{fffb}'
        | '\u{1bca0}'..='\u{1bca3}'
        | '\u{1d173}'..='\u{1d17a}'
        | '\u{e0000}'..='\u{e0fff}')
        || c as u32 & 0xfffe == 0xfffe
}

fn shown(text: &str, sign: impl Fn(char) -> char) -> Cow<'_, str> {
    // Every byte is looked at, without a way out, because that is quicker on words as short as those of a table.
    let plain = |plain, byte| plain & matches!(byte, b' '..=b'~');
    if text.bytes().fold(true, plain) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut before = ' ';
    for c in text.chars() {
        if stands_alone(before, c) {
            out.push(BEARER);
        }
        out.push(sign(c));
        before = c;
    }
    Cow::Owned(out)
}

/// Whether a combining mark would join itself to a blank or to a sign of ours, such as a quotation mark. The marks that
/// make an emoji of a digit or sign are meant to.
fn stands_alone(before: char, c: char) -> bool {
    let joins = is_combining_mark(c) && !matches!(c, '\u{fe00}'..='\u{fe0f}' | '\u{20e3}');
    joins && !is_unseen(c) && (before.is_whitespace() || before.is_ascii_punctuation())
}
