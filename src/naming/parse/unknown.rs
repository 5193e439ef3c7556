//! A word that means nothing known: another genus, a code not declared, a slip; and what to offer for it.

use crate::naming::notes::{Refusal, RefusalCode};
use crate::naming::token::{Kind, is_letter_sign};

use crate::naming::vocabulary::starter;

use crate::naming::sift::is_other_genus;

use super::operand::shown;
use super::parser::{Parser, bare};

/// No two epithets together are longer, in bytes.
const LONGEST_PAIR: usize = 80;

impl Parser<'_> {
    /// A name that no list holds and that is no slip, no shortened epithet and no other genus.
    pub(super) fn is_unlisted_name(&self, text: &str, signed: bool) -> bool {
        let lower = bare(text);
        let name = lower.strip_prefix('x').filter(|rest| rest.len() > 5);
        let slips = match signed {
            true => self.near_hybrids(&lower),
            false => self.vocabulary.near(name.unwrap_or(&lower)),
        };
        self.looks_like_a_name(text, signed)
            && slips.is_empty()
            && self.vocabulary.beginning_with(&lower).is_empty()
            && (signed || !self.names_second_genus(text, &lower))
            && self.grown_together(&lower).is_none()
            && starter().species(&lower).is_none()
    }

    pub(super) fn unknown_word(&self, text: &str, lower: &str) -> Result<(), Refusal> {
        let column = self.here().column;
        if lower.contains('/') {
            let text = format!(
                "`{}` at column {column} has strokes among signs: write either Purdy notation or signs with brackets",
                shown(text)
            );
            return self.refuse(RefusalCode::PurdyMixed, text);
        }
        if self.names_second_genus(text, lower) {
            let genus = self.vocabulary.genus();
            return self.refuse(
                RefusalCode::SecondGenus,
                format!(
                    "`{}` at column {column} names another genus; only {genus} is kept here",
                    shown(text)
                ),
            );
        }
        if self.frame_has_name_sign() {
            return self.refuse(
                RefusalCode::NotANamedHybrid,
                format!("`{}` is not in the list of named hybrids", shown(text)),
            );
        }
        if let Some((one, other)) = self.grown_together(lower) {
            let text = format!(
                "`{}` at column {column} is {one} and {other} with no room round the sign",
                shown(text)
            );
            let apart = Refusal::new(RefusalCode::UnknownEpithet, column, text);
            return Err(apart.with_readings(vec![format!("({one} × {other})")]));
        }
        let begun = if lower.chars().count() >= 2 {
            self.vocabulary.beginning_with(lower)
        } else {
            Vec::new()
        };
        let word = shown(text);
        let (code, text, offered) = if begun.is_empty() {
            let near = self.vocabulary.near(lower);
            let listed = match starter().species(lower) {
                Some(_) => {
                    "is a species of the starter list that this registry's species.ron does not have; add it there, as `(epithet: \"…\")` at least"
                }
                None => {
                    "is neither a known species or named hybrid nor a declared code; put a cultivar name or a label in quotes"
                }
            };
            let text = format!("`{word}` at column {column} {listed}");
            (RefusalCode::UnknownEpithet, text, near)
        } else {
            let text = format!(
                "`{word}` at column {column} is not a declared code; it may begin {}",
                list(&begun)
            );
            (RefusalCode::UndeclaredCode, text, begun)
        };
        Err(Refusal::new(code, column, text).with_readings(offered))
    }

    /// `ventricosaxspathulata`: two known epithets and a letter x between them.
    fn grown_together<'w>(&self, word: &'w str) -> Option<(&'w str, &'w str)> {
        let known =
            |part: &str| self.vocabulary.species(part).is_some() || self.is_hybrid_word(part);
        let signs = word.match_indices(is_letter_sign);
        let pairs = signs.map(|(at, sign)| (&word[..at], &word[at + sign.len()..]));
        pairs
            .filter(|_| word.len() <= LONGEST_PAIR)
            .find(|(one, other)| known(one) && known(other))
    }

    fn frame_has_name_sign(&self) -> bool {
        self.frames
            .last()
            .is_some_and(|frame| frame.name_sign.is_some())
    }

    /// Another genus: one of the known ones, or a capital word or initial before an epithet.
    fn names_second_genus(&self, text: &str, lower: &str) -> bool {
        let followed = |known: bool| {
            self.peek(1).is_some_and(|next| {
                let word = bare(&next.text);
                next.kind == Kind::Word
                    && (self.vocabulary.species(&word).is_some()
                        || (!known && word == next.text && !self.is_joining_word(&word)))
            })
        };
        let initial = text.chars().count() == 2
            && text.ends_with('.')
            && text.chars().all(|c| c.is_uppercase() || c == '.');
        let capital = text.chars().next().is_some_and(char::is_uppercase)
            && text.chars().skip(1).all(char::is_lowercase);
        is_other_genus(lower)
            || (initial && followed(false))
            || (capital && lower.len() > 3 && followed(true))
    }

    /// Words that join or follow parents and are never part of a label.
    pub(super) fn is_joining_word(&self, word: &str) -> bool {
        matches!(
            bare(word).as_str(),
            "or" | "and"
                | "by"
                | "cross"
                | "sib"
                | "selfed"
                | "op"
                | "f1"
                | "f2"
                | "f3"
                | "female"
                | "male"
        )
    }
}

/// A few names for a message.
fn list(names: &[String]) -> String {
    let first: Vec<&str> = names.iter().take(6).map(String::as_str).collect();
    let more = if names.len() > 6 {
        format!(" and {} more", names.len() - 6)
    } else {
        String::new()
    };
    format!("{}{more}", first.join(", "))
}
