//! A label sifted: the ends cleared, the genus mended, a name and its formula brought together.

use crate::naming::notes::{Note, NoteCode};
use crate::naming::token::{Cut, Kind, Token};
use crate::naming::vocabulary::Vocabulary;

use super::ends::Ends;
use super::facts::LabelFacts;

/// A label without what a seller put around the name.
pub struct Sifted {
    /// What is left to be read.
    pub cut: Cut,
    /// What was taken off.
    pub facts: LabelFacts,
    /// What was put right.
    pub notes: Vec<Note>,
}

/// Takes off what is no part of the name.
pub fn sift(mut cut: Cut, vocabulary: &Vocabulary) -> Sifted {
    let mut notes = Vec::new();
    genus_mended(&mut cut.tokens, vocabulary, &mut notes);
    let ends = Ends::of(&cut.tokens, vocabulary);
    let (kept, facts) = ends.taken_off();
    if kept.iter().any(|kept| *kept) {
        cut.tokens = remaining(cut.tokens, &kept);
    } else {
        return Sifted {
            cut,
            facts: LabelFacts::default(),
            notes,
        };
    }
    cut.tokens = formula_in_brackets(cut.tokens, vocabulary);
    if let Some(code) = &facts.stock_code {
        let text = format!("`{code}` is kept as a stock code, not as part of the name");
        notes.push(Note {
            code: NoteCode::StockCodeKept,
            text,
        });
    }
    if !facts.set_aside.is_empty() {
        let text = format!("set aside, not part of the name: {}", facts.aside_words());
        notes.push(Note {
            code: NoteCode::WordsSetAside,
            text,
        });
    }
    Sifted { cut, facts, notes }
}

/// `Nepnethes`: a slip of the genus, not another genus.
fn genus_mended(tokens: &mut [Token], vocabulary: &Vocabulary, notes: &mut Vec<Note>) {
    for token in tokens.iter_mut().filter(|token| token.kind == Kind::Word) {
        if vocabulary.is_genus_misspelt(&token.text) {
            let genus = vocabulary.genus();
            let text = format!("`{}` is read as {genus}, misspelt", token.text);
            notes.push(Note {
                code: NoteCode::GenusMisspelt,
                text,
            });
            token.text = genus.to_owned();
        }
    }
}

/// The tokens kept, brackets knowing their new places.
fn remaining(tokens: Vec<Token>, kept: &[bool]) -> Vec<Token> {
    let mut place = Vec::with_capacity(kept.len());
    let mut next = 0;
    for kept in kept {
        place.push(next);
        next += usize::from(*kept);
    }
    let of = tokens.into_iter().zip(kept).filter(|(_, kept)| **kept);
    of.map(|(mut token, _)| {
        if let Kind::Open(close) = &mut token.kind {
            *close = place[*close];
        }
        token
    })
    .collect()
}

/// `name = formula` becomes `name (formula)`, and `name (= formula)` too; `formula = name` stays.
fn formula_in_brackets(mut tokens: Vec<Token>, vocabulary: &Vocabulary) -> Vec<Token> {
    let Some(at) = tokens.iter().position(|token| token.kind == Kind::Equals) else {
        return tokens;
    };
    // A sign right behind a genus or at the start is of a name and crosses nothing.
    let crossing = |tokens: &[Token]| {
        let mut pairs = tokens.windows(2);
        pairs.any(|pair| pair[1].kind == Kind::Sign && !vocabulary.is_genus(&pair[0].text))
    };
    let close = tokens
        .iter()
        .enumerate()
        .find_map(|(open, token)| match token.kind {
            Kind::Open(close) if open + 1 == at => Some(close),
            _ => None,
        });
    let inside = |token: &Token| matches!(token.kind, Kind::Open(_));
    match close {
        Some(close) if crossing(&tokens[at + 1..close]) => {
            let mut kept = vec![true; tokens.len()];
            kept[at] = false;
            remaining(tokens, &kept)
        }
        None if !crossing(&tokens[..at])
            && !tokens[..at].iter().any(inside)
            && crossing(&tokens[at + 1..]) =>
        {
            let end = tokens.len();
            let column = tokens[end - 1].end;
            tokens[at].kind = Kind::Open(end);
            tokens[at].text = "(".to_owned();
            tokens.push(Token {
                kind: Kind::Close,
                text: ")".to_owned(),
                column,
                end: column,
            });
            tokens
        }
        _ => tokens,
    }
}
