//! A RON text taken into its smallest pieces, by rules of its own: a second opinion on what is a comment.

/// One piece of a text.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Piece {
    /// A text in quotes, a word, a number or a sign.
    Token(String),
    /// `// …` without its line break, or `/* … */`.
    Comment(String),
    /// Blanks and line breaks.
    Blank(String),
}

/// The pieces of a text that is sound; joined they are the text again.
pub fn pieces(text: &str) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let (piece, length): (fn(String) -> Piece, usize) = if rest.starts_with("//") {
            (Piece::Comment, rest.find('\n').unwrap_or(rest.len()))
        } else if rest.starts_with("/*") {
            (Piece::Comment, block_comment(rest))
        } else if let Some(length) = raw_text(rest) {
            (Piece::Token, length)
        } else if first == '"' {
            (Piece::Token, quoted(rest))
        } else if first.is_whitespace() {
            let end = rest.find(|c: char| !c.is_whitespace());
            (Piece::Blank, end.unwrap_or(rest.len()))
        } else {
            let is_word = |c: char| c.is_alphanumeric() || "_.-+#!".contains(c);
            let end = rest.find(|c: char| !is_word(c)).unwrap_or(rest.len());
            (Piece::Token, end.max(first.len_utf8()))
        };
        pieces.push(piece(rest[..length].to_owned()));
        rest = &rest[length..];
    }
    pieces
}

/// The comments of a text, in order. A line comment loses the blanks at its end, which belong to the line.
pub fn comments(text: &str) -> Vec<String> {
    let comments = pieces(text).into_iter().filter_map(|piece| match piece {
        Piece::Comment(comment) => Some(comment.trim_end().to_owned()),
        _ => None,
    });
    comments.collect()
}

fn block_comment(text: &str) -> usize {
    let (mut depth, mut at) = (0, 0);
    loop {
        let rest = &text[at..];
        if rest.starts_with("/*") {
            (depth, at) = (depth + 1, at + 2);
        } else if rest.starts_with("*/") {
            (depth, at) = (depth - 1, at + 2);
        } else {
            at += rest.chars().next().map_or(1, char::len_utf8);
        }
        if depth == 0 {
            return at;
        }
    }
}

fn raw_text(text: &str) -> Option<usize> {
    let inside = text.strip_prefix('r')?;
    let hashes = inside.len() - inside.trim_start_matches('#').len();
    inside[hashes..].strip_prefix('"')?;
    let end = format!("\"{}", "#".repeat(hashes));
    let start = 1 + hashes + 1;
    Some(start + text[start..].find(&end)? + end.len())
}

fn quoted(text: &str) -> usize {
    let mut escaped = false;
    for (at, c) in text.char_indices().skip(1) {
        match c {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '"' => return at + 1,
            _ => {}
        }
    }
    text.len()
}

#[test]
fn pieces_are_the_text_and_comments_are_found() {
    let text = "// a\r\n(x: \"// \\\" no\", /* b /* c */ d */ y: r#\"/* \" */\"#,) // e";
    let joined: String = pieces(text)
        .into_iter()
        .map(|piece| match piece {
            Piece::Token(piece) | Piece::Comment(piece) | Piece::Blank(piece) => piece,
        })
        .collect();
    assert_eq!(joined, text);
    assert_eq!(comments(text), ["// a", "/* b /* c */ d */", "// e"]);
}
