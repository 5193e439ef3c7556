//! Texts spelt with escapes, such as `"X22\u{2d}02"`, written out plainly at the same place.
//!
//! Codes and dates are borrowed from the file, so that their places are known; a text with escapes cannot be borrowed.
//! In a copy of equal length it stands spelt out where it was typed, with blanks after its closing quotation mark.

use super::typed::typed;
use crate::text::Outline;
use crate::text::outline::Kind;

/// The copy; `None` when nothing is to be spelt out. A text that holds a quotation mark, a backslash or a line break
/// when spelt out stays as typed: it would be no code.
pub fn spelt_out(text: &str) -> Option<String> {
    if !text.contains('\\') {
        return None;
    }
    let outline = Outline::of(text);
    let mut copy = String::with_capacity(text.len());
    for part in outline.parts() {
        let range = part.start as usize..part.end as usize;
        // Parts stand in the order of their first bytes; the names of fields are no parts.
        let plain = (part.kind == Kind::Text && range.start >= copy.len())
            .then(|| plain(&text[range.clone()]))
            .flatten();
        if let Some(plain) = plain {
            copy.push_str(&text[copy.len()..range.start]);
            copy.push('"');
            copy.push_str(&plain);
            copy.push('"');
            copy.extend(std::iter::repeat_n(' ', range.end - copy.len()));
        }
    }
    if copy.is_empty() {
        return None;
    }
    copy.push_str(&text[copy.len()..]);
    Some(copy)
}

/// What a text with escapes says, when it can stand in plain quotation marks in the same room.
fn plain(slice: &str) -> Option<String> {
    if !slice.starts_with('"') || !slice.contains('\\') {
        return None;
    }
    let plain = typed::<String>(slice).ok()?;
    let fits = plain.len() + 2 <= slice.len();
    let unfit = |letter: char| letter.is_control() || letter == '"' || letter == '\\';
    (fits && !plain.contains(unfit)).then_some(plain)
}
