//! A page as somebody else might have laid it out: other blanks, tabs, line breaks, commas and comments, the same records.

use crate::chance::Chance;
use crate::pieces::{Piece, pieces};

/// The manner of one page.
struct Manner {
    line_break: &'static str,
    indent: &'static str,
    /// Chances in a hundred, between two tokens, of a line break, of a comment; and of a comma before a closing bracket.
    breaks: usize,
    comments: usize,
    trailing: usize,
}

/// The page in a manner drawn by lot. The records are the same.
pub fn laid_out(text: &str, chance: &mut Chance) -> String {
    let manner = Manner {
        line_break: chance.word(&["\n", "\n", "\r\n"]),
        indent: chance.word(&["    ", "  ", "\t", ""]),
        breaks: *chance.pick(&[0, 10, 40, 90]),
        comments: *chance.pick(&[0, 3, 10, 30]),
        trailing: *chance.pick(&[0, 50, 100]),
    };
    let mut page = Page {
        out: String::new(),
        depth: 0,
        comments: 0,
    };
    let tokens = tokens(text, &manner, chance);
    for (at, token) in tokens.iter().enumerate() {
        let next = tokens.get(at + 1).map_or("", String::as_str);
        page.put(token);
        // `known(` stays together, and so does `Some(`.
        let is_word = token.chars().all(|c| c.is_alphanumeric() || c == '_');
        if !(is_word && next == "(") {
            page.gap(token, &manner, chance);
        }
    }
    page.out.push_str(chance.word(&["", "\n", "\r\n", "\n\n"]));
    page.out
}

struct Page {
    out: String,
    depth: usize,
    comments: usize,
}

impl Page {
    fn put(&mut self, token: &str) {
        match token {
            "(" | "[" => self.depth += 1,
            ")" | "]" => self.depth = self.depth.saturating_sub(1),
            _ => {}
        }
        self.out.push_str(token);
    }

    fn gap(&mut self, after: &str, manner: &Manner, chance: &mut Chance) {
        if chance.in_hundred(manner.comments) {
            self.comments += 1;
            let number = self.comments;
            let comment = match chance.below(4) {
                0 => format!(
                    " // {number}: keep \"this\" ({manner_end}",
                    manner_end = "[,"
                ),
                1 => format!("/*{number}*/"),
                2 => format!(" /* {number} /* within */ */ "),
                _ => format!(" /* {number},{}two lines */", manner.line_break),
            };
            self.out.push_str(&comment);
            if comment.starts_with(" //") {
                return self.new_line(manner);
            }
        }
        if chance.in_hundred(manner.breaks) && after != ":" {
            self.new_line(manner);
        } else if chance.in_hundred(60) {
            self.out.push_str(chance.word(&[" ", " ", "  ", "\t"]));
        }
    }

    fn new_line(&mut self, manner: &Manner) {
        self.out.push_str(manner.line_break);
        self.out.push_str(&manner.indent.repeat(self.depth));
    }
}

/// The tokens, with commas before closing brackets put in or taken out.
fn tokens(text: &str, manner: &Manner, chance: &mut Chance) -> Vec<String> {
    let mut tokens: Vec<String> = Vec::new();
    for piece in pieces(text) {
        let Piece::Token(token) = piece else { continue };
        if matches!(token.as_str(), ")" | "]") {
            let last = tokens.last().map_or("", String::as_str);
            let wanted = chance.in_hundred(manner.trailing);
            match last {
                "," if !wanted => drop(tokens.pop()),
                "(" | "[" | "," => {}
                _ if wanted => tokens.push(",".to_owned()),
                _ => {}
            }
        }
        tokens.push(token);
    }
    tokens
}
