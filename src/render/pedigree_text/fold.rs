//! Lines of the width of the terminal: broken at blanks, indented by generation, without control characters.

use crate::text::one_line;
use crate::wording::Name;
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// Deepest indentation; deeper generations stay there and say how deep they are.
const DEEPEST: usize = 12;

/// Holds a share and its species together when a line is broken; written as a blank.
pub const TIE: char = '\u{a0}';

/// A line under its indentation, broken where it is too long; what follows is indented further.
pub fn indented(depth: usize, text: &str, width: usize) -> String {
    let (steps, told) = match depth {
        0..=DEEPEST => (depth, text.to_string()),
        _ => (DEEPEST, format!("[{depth} back] {text}")),
    };
    let margin = " ".repeat((steps * 3).min(width / 2));
    let hang = format!("{margin}      ");
    let first = width.saturating_sub(hang.len()).max(12);
    let mut out = String::new();
    if told.width() + margin.len() <= width {
        return format!("{margin}{told}\n");
    }
    for (rank, line) in broken(&told, first).lines().enumerate() {
        let before = if rank == 0 { &margin } else { &hang };
        out.push_str(&format!("{before}{line}\n"));
    }
    out
}

/// A name without its faces.
pub fn flat(name: &Name) -> String {
    plain(&name.iter().map(|run| run.text.as_str()).collect::<String>())
}

/// Text with every character seen, and no blanks around it.
pub fn plain(text: &str) -> String {
    one_line(text).trim().to_string()
}

/// The line cut to the width, with an ellipsis where something was left out.
fn fitted(line: &str, width: usize) -> String {
    if line.width() <= width {
        return line.to_string();
    }
    let (mut out, mut used) = (String::new(), 1);
    for letter in line.chars() {
        used += letter.width().unwrap_or(0);
        if used > width {
            break;
        }
        out.push(letter);
    }
    out.push('…');
    out
}

/// Text broken at blanks into lines of the width.
pub fn broken(text: &str, width: usize) -> String {
    let (mut out, mut line) = (String::new(), String::new());
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        if !line.is_empty() && line.width() + 1 + word.width() > width {
            out.push_str(&fitted(&line, width));
            out.push('\n');
            line.clear();
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    out.push_str(&fitted(&line, width));
    out.push('\n');
    out
}
