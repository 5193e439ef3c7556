//! Other words after a parent: a variety without its rank, a parent without its sign, words of a label, a name after `=`.

use crate::naming::formula::{Leaf, Part, Rank, Tag};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::token::{Kind, Token};

use crate::naming::sift::{is_doubt, is_hybrid};

use super::operand::shown;
use super::parser::{Parser, bare};

/// Words of the trade that stand bare beside a name.
const TRADE_WORDS: &str = "hl ll hl/ll ll/hl sg wc tc iv cg s.l s.s s.lat s.str highland lowland seed-grown wild-collected";

pub(super) fn is_trade_word(word: &str) -> bool {
    TRADE_WORDS.split(' ').any(|of| of == word)
}

impl Parser<'_> {
    /// Any other word: a variety without its rank, a parent without its sign, or words of a label.
    pub(super) fn other_word(&mut self, text: &str, word: &str) -> Result<(), Refusal> {
        if !text.chars().any(char::is_alphanumeric) {
            return self.skip(1);
        }
        if let Some(rank) = self.variety_here(word) {
            self.notes.say(
                NoteCode::RankRestored,
                format!(
                    "{word} is a name below the species; {} was added",
                    rank.short()
                ),
            );
            return self.name_below(rank, word.to_owned(), 1);
        }
        let known = self.vocabulary.species(word).is_some() || self.is_hybrid_word(word);
        let genus = self.vocabulary.is_genus(text)
            && matches!(self.peek(1), Some(next) if next.kind == Kind::Word);
        if known || genus {
            return self.sign_missing(text);
        }
        let words = self.label_words();
        let label: Vec<&str> = self.tokens[self.at..self.at + words]
            .iter()
            .map(|token| token.text.as_str())
            .collect();
        let label = label.join(" ");
        self.notes.say(
            NoteCode::LabelKept,
            format!("`{}` is no name and is kept as a label", shown(&label)),
        );
        if label.chars().all(|letter| letter.is_ascii_digit()) {
            return self.individual(Tag::Label(label), words);
        }
        self.tag(Tag::Label(label));
        self.skip(words)
    }

    pub(super) fn sign_missing<T>(&self, text: &str) -> Result<T, Refusal> {
        self.refuse(
            RefusalCode::SignMissing,
            format!("a sign is missing before `{}`", shown(text)),
        )
    }

    fn variety_here(&mut self, word: &str) -> Option<Rank> {
        let part = self.current()?;
        let Part::Leaf(Leaf::Species {
            epithet,
            infraspecific: None,
            ..
        }) = self.builder.part(part)
        else {
            return None;
        };
        let row = self.vocabulary.species(epithet)?;
        row.varieties
            .iter()
            .find(|variety| variety.epithet == word)
            .map(|variety| variety.rank)
    }

    /// How many words from here on belong to one label; at most twelve.
    fn label_words(&mut self) -> usize {
        let start = self.at;
        let mut words = 1;
        while words < 12 {
            self.at = start + words;
            let plain = match self.peek(0) {
                Some(token) if token.kind == Kind::Word => {
                    self.is_plain(&bare(&token.text), &token.text)
                }
                _ => false,
            };
            if !plain {
                break;
            }
            words += 1;
        }
        self.at = start;
        words
    }

    /// Whether a word means nothing of its own and so belongs to a label.
    pub(super) fn is_plain(&self, word: &str, text: &str) -> bool {
        const OTHER_USE: &str = "clone cl var ssp subsp forma nat natural direction mixed f m open";
        !self.is_joining_word(word)
            && !OTHER_USE.split(' ').any(|of| of == word)
            && !is_trade_word(word)
            && !text.starts_with('#')
            && !is_hybrid(word)
            && !is_doubt(word)
            && self.generation_ahead().is_none()
            && self.vocabulary.species(word).is_none()
            && !self.is_hybrid_word(word)
            && !self.vocabulary.is_genus(text)
    }

    /// How many tokens so far ahead make a name of unknown standing: quotes, or words up to the end or a bracket.
    fn name_of_whole(&self, ahead: usize) -> Option<usize> {
        let first = self.peek(ahead)?;
        if matches!(first.kind, Kind::Single | Kind::Double) {
            return Some(1);
        }
        let mut words = 0;
        while let Some(token) = self.peek(ahead + words) {
            let word = bare(&token.text);
            match token.kind {
                Kind::Close => break,
                Kind::Word if words < 6 && !self.vocabulary.means_a_plant(&word) => words += 1,
                _ => return None,
            }
        }
        (words > 0).then_some(words)
    }

    /// `lowii × ventricosa = Red Lantern`: the formula is the parentage, the name stands beside it.
    fn keep_name_of_whole(&mut self, ahead: usize, words: usize) -> Result<(), Refusal> {
        let from = self.at + ahead;
        let quoted = self.tokens[from].kind == Kind::Single;
        let name = self.raw(from, from + words);
        let text = format!(
            "`{}` is a name of unknown status beside the formula, which is the parentage",
            shown(&name)
        );
        self.notes.say(NoteCode::NameBesideFormula, text);
        let tag = if quoted {
            Tag::Cultivar(name)
        } else {
            Tag::Label(name)
        };
        let hybrid = |token: &Token| is_hybrid(&bare(&token.text));
        let hybrid = self.tokens[from..from + words].iter().any(hybrid);
        if self.frame().joins.is_empty() {
            self.tag(tag);
            if hybrid {
                self.no_species_bred(self.tokens[from].column)?;
                self.hybrid_of_unknown();
            }
        } else {
            self.frame().whole.tags.push(tag);
        }
        self.skip(ahead + words)
    }

    /// `= kinabaluensis`: a name to be checked against the formula.
    pub(super) fn equals_name(&mut self) -> Result<(), Refusal> {
        let mut ahead = 1;
        while self
            .peek(ahead)
            .is_some_and(|next| next.kind == Kind::Sign || self.vocabulary.is_genus(&next.text))
        {
            ahead += 1;
        }
        let word = self.word_ahead(ahead);
        let word = self.vocabulary.accepted(&word).unwrap_or(&word).to_owned();
        if self.vocabulary.named_hybrid(&word).is_none() {
            if let Some(words) = self.name_of_whole(ahead) {
                return self.keep_name_of_whole(ahead, words);
            }
            return self.refuse(
                RefusalCode::NotANamedHybrid,
                format!(
                    "`{}` after `=` is not in the list of named hybrids",
                    shown(&word)
                ),
            );
        }
        let column = self.here().column;
        self.frame().names.push((word, column));
        self.skip(ahead + 1)
    }
}
