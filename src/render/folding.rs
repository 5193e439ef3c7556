//! Text in columns: cells and numbers as text, filled up to a width, folded at blanks.

use crate::report::Cell;
use crate::text::one_line;
use crate::wording::stays_with_next;
use std::borrow::Cow;
use unicode_width::UnicodeWidthStr;

/// A cell's text: numbers with their decimals, a minus sign, `–` for what is not known.
pub fn cell_text(cell: &Cell) -> Cow<'_, str> {
    match cell {
        Cell::Text(text) => one_line(text),
        Cell::Number(number, decimals) => number_text(*number, *decimals).into(),
        Cell::Count(count) => count.to_string().into(),
        Cell::Missing => "–".into(),
    }
}

/// A number with fixed decimals; never "-0".
pub fn number_text(number: f64, decimals: u8) -> String {
    if !number.is_finite() {
        return "–".to_owned();
    }
    crate::wording::number(number, usize::from(decimals))
}

/// Text filled up with blanks to a width, on the left when it is to stand `right`.
pub fn pad(text: &str, width: usize, right: bool) -> String {
    let blanks = " ".repeat(width.saturating_sub(text.width()));
    if right {
        blanks + text
    } else {
        text.to_owned() + &blanks
    }
}

/// Folds a line at blanks, and a Purdy pedigree too long for a line behind its strokes; further lines start with `indent`.
/// Existing leading blanks are kept.
pub fn fold(text: &str, indent: &str, width: usize, out: &mut String) {
    let text = one_line(text);
    let lead: String = text.chars().take_while(|c| *c == ' ').collect();
    let mut line = lead.clone();
    // Kept beside the line: measuring it anew at every word takes the square of its length.
    let mut taken = lead.len();
    let mut is_empty = true;
    let room = width.saturating_sub(indent.width());
    let words = unbroken(&text[lead.len()..]).flat_map(|word| pieces(word, room));
    for (gap, word) in words {
        let of_word = word.width();
        if !is_empty && taken + gap.len() + of_word > width {
            out.push_str(line.trim_end());
            out.push('\n');
            line.clear();
            line.push_str(indent);
            taken = indent.width();
            is_empty = true;
        }
        if !is_empty {
            line.push_str(gap);
            taken += gap.len();
        }
        line.push_str(word);
        taken += of_word;
        is_empty = false;
    }
    out.push_str(line.trim_end());
    out.push('\n');
}

/// A word with the blank before it; where it is too long for a line and a Purdy pedigree, its parts, each with the strokes
/// behind it. An address on the web has two strokes as well and stays whole.
fn pieces(word: &str, room: usize) -> Vec<(&'static str, &str)> {
    if !word.contains("//") || word.contains("://") || word.width() <= room {
        return vec![(" ", word)];
    }
    let mut pieces = Vec::new();
    let (mut from, mut gap) = (0, " ");
    let ends = word.match_indices('/').map(|(at, _)| at + 1);
    let is_last_stroke =
        |end: &usize| word[*end..].starts_with(|c: char| c != '/' && !c.is_ascii_digit());
    for end in ends.filter(is_last_stroke) {
        pieces.push((gap, &word[from..end]));
        (from, gap) = (end, "");
    }
    pieces.push((gap, &word[from..]));
    pieces
}

/// The words of a line, each with those that [`stays_with_next`] joins to it.
pub fn unbroken(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let left = rest?;
        let stays = |at: &usize| {
            let word = left[..*at].rsplit(' ').next().unwrap_or("");
            let next = left[at + 1..].split(' ').next().unwrap_or("");
            stays_with_next(word, next)
        };
        let mut breaks = left.match_indices(' ').map(|(at, _)| at);
        let end = breaks.find(|at| !stays(at));
        rest = end.map(|at| &left[at + 1..]);
        Some(&left[..end.unwrap_or(left.len())])
    })
}
