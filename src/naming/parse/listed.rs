//! A name that stands in neither list: kept as a label, its parentage unknown, where it looks like a name.

use crate::naming::formula::{Leaf, Part};
use crate::naming::notes::{NoteCode, Refusal};
use crate::naming::sift::{is_doubt, is_hybrid};
use crate::naming::token::Kind;

use super::frame::{Join, ParentName};
use super::operand::shown;
use super::parser::{Parser, bare};

/// Endings of Latin epithets, as hybrids are given.
const ENDINGS: [&str; 12] = [
    "a", "ae", "is", "ii", "i", "us", "um", "ensis", "oides", "e", "ans", "ens",
];

impl Parser<'_> {
    /// Whether a word may be the epithet of a hybrid that no list holds.
    pub(super) fn looks_like_a_name(&self, text: &str, signed: bool) -> bool {
        let word = bare(text);
        let letters = word.chars().count();
        let plain = word
            .chars()
            .all(|letter| letter.is_ascii_lowercase() || letter == '-');
        let latin = ENDINGS.iter().any(|ending| word.ends_with(ending));
        plain
            && (5..=30).contains(&letters)
            && (signed || latin)
            && !is_doubt(&word)
            && !is_hybrid(&word)
            && self.is_plain(&word, text)
            && self.vocabulary.decoded(&word).is_none()
            && self.vocabulary.accepted(&word).is_none()
    }

    /// Keeps the words at hand as a name of unknown standing; `sign` says whether a sign stood before them.
    pub(super) fn keep_name(&mut self, words: usize, sign: bool) -> Result<(), Refusal> {
        let name = self.raw(self.at, self.at + words);
        let label = if sign { format!("×{name}") } else { name };
        let text = format!(
            "`{}` is in neither list, of species or of named hybrids; it is kept as a label",
            shown(&label)
        );
        self.notes.say(NoteCode::NameNotListed, text);
        self.note_genus();
        let part = self.builder.leaf(Leaf::Label {
            text: label.clone(),
        });
        self.add_parent(part, Some(ParentName::Label(label)));
        self.skip(words)
    }

    /// How many words before a bracketed formula make a name that no list holds: `Red Lantern (lowii × ventricosa)`.
    pub(super) fn name_before_formula(&self) -> usize {
        let mut words = 0;
        while let Some(token) = self.peek(words) {
            match token.kind {
                Kind::Word if words < 6 && self.is_plain_ahead(words) => words += 1,
                Kind::Open(close) if words > 0 => {
                    let open = self.at + words;
                    let crossing = self.signs[close] > self.signs[open];
                    return if crossing { words } else { 0 };
                }
                _ => return 0,
            }
        }
        0
    }

    fn is_plain_ahead(&self, ahead: usize) -> bool {
        let Some(token) = self.peek(ahead) else {
            return false;
        };
        let word = bare(&token.text);
        self.is_plain(&word, &token.text)
            && !self.vocabulary.means_a_plant(&word)
            && !is_doubt(&word)
            && !is_hybrid(&word)
    }

    /// `veitchii 'A' × 'B'`, `veitchii clone 1 × clone 2`: the species before the sign is meant again.
    pub(super) fn species_understood(&mut self) -> bool {
        let frame = self.frame();
        if frame.joins.last() != Some(&Join::Cross) || frame.genus {
            return false;
        }
        let Some(before) = frame.parents.last().map(|parent| parent.part) else {
            return false;
        };
        let marked = self.builder.marks(before).is_individual();
        let Part::Leaf(leaf @ Leaf::Species { .. }) = self.builder.part(before) else {
            return false;
        };
        if !marked {
            return false;
        }
        let leaf = leaf.clone();
        let text = format!(
            "the second parent is written short; {} is understood",
            leaf.name()
        );
        self.notes.say(NoteCode::SpeciesUnderstood, text);
        let part = self.builder.leaf(leaf);
        self.add_parent(part, None);
        true
    }

    /// Whether what stands at hand marks one plant out and names none: `'B'`, `#2`, `clone 2`, `(B)`.
    pub(super) fn marks_a_plant(&self) -> bool {
        let short = |text: &str| {
            let letters = text
                .chars()
                .filter(|letter| letter.is_alphanumeric())
                .count();
            letters == 1 || (!text.is_empty() && text.chars().all(|letter| letter.is_ascii_digit()))
        };
        let Some(token) = self.peek(0) else {
            return false;
        };
        match token.kind {
            Kind::Single => short(&token.text),
            Kind::Word => {
                token.text.starts_with('#') || matches!(bare(&token.text).as_str(), "clone" | "cl")
            }
            Kind::Open(close) if close == self.at + 2 => {
                let inside = &self.tokens[self.at + 1];
                let sexed = super::operand::sex_word(&inside.text).is_some();
                inside.kind == Kind::Word && short(&inside.text) && !sexed
            }
            _ => false,
        }
    }
}
