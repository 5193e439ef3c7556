//! What follows a parent: the next sign, or what is marked on this one.

use crate::naming::formula::{Infraspecific, Leaf, PartId, Rank, Sex, Tag};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::sift::{is_doubt, is_hybrid};
use crate::naming::token::Kind;

use super::frame::{Generation, Join, Role};
use super::label::is_trade_word;
use super::operand::{sex_word, shown};
use super::parser::{Parser, bare};

impl Parser<'_> {
    /// Reads one token after a parent.
    pub(super) fn after_parent(&mut self) -> Result<(), Refusal> {
        match self.here().kind {
            Kind::Sign => self.sign_after_parent(),
            Kind::Word => self.word_after_parent(),
            Kind::Open(close) => self.bracket_after_parent(close),
            Kind::Close => self.close_bracket(),
            Kind::Single => self.single_quoted_mark(),
            Kind::Double => self.label_mark(self.here().text.clone()),
            Kind::Question => self.doubt_behind(1),
            Kind::Female => self.sex_mark(Sex::Female),
            Kind::Male => self.sex_mark(Sex::Male),
            Kind::Comma => self.comma(),
            Kind::Plus => self.with_pollen_of(),
            Kind::Equals => self.equals_name(),
            Kind::Star => self.refuse(
                RefusalCode::DoseMisplaced,
                "a dose `*` belongs in Purdy notation, as in maxima*2/veitchii",
            ),
            Kind::Stroke(_) => self.refuse(
                RefusalCode::PurdyMixed,
                "a stroke inside brackets: write either Purdy notation or brackets with signs",
            ),
        }
    }

    fn sign_after_parent(&mut self) -> Result<(), Refusal> {
        self.join(Join::Cross);
        Ok(())
    }

    fn comma(&mut self) -> Result<(), Refusal> {
        if self.frame().role == Role::Mixed {
            self.join(Join::With);
        } else {
            self.at += 1;
        }
        Ok(())
    }

    /// `lowii + maxima` is pollen of both; in "hybrid between lowii and maxima" they were crossed.
    fn with_pollen_of(&mut self) -> Result<(), Refusal> {
        if self.frame().whole.hybrid.is_some() && self.frame().joins.is_empty() {
            self.frame().direction_unknown = true;
            return self.joined(Join::Cross);
        }
        self.joined(Join::With)
    }

    fn word_after_parent(&mut self) -> Result<(), Refusal> {
        let text = self.here().text.clone();
        let word = bare(&text);
        if let Some((generation, words)) = self.generation_ahead() {
            return self.generation_mark(generation, words);
        }
        let (hybrid, doubts) = (self.hybrid_ahead(), self.doubt_ahead());
        if hybrid > 0 {
            return self.hybrid_behind(hybrid);
        }
        if doubts > 0 {
            return self.doubt_behind(doubts);
        }
        let cited = self.citation(self.at, self.end);
        if cited > 0 {
            return self.set_authors_aside(cited);
        }
        match word.as_str() {
            "aff" | "affinis" | "cf" | "sp" => self.doubt_behind(1),
            "crossed" if self.word_ahead(1) == "with" => {
                self.at += 1;
                self.joined(Join::Cross)
            }
            "or" => self.joined(Join::Or),
            "and" => self.with_pollen_of(),
            "by" | "cross" => self.joined(Join::Cross),
            "female" | "male" | "f" | "m" if text != "f." => {
                self.sex_mark(sex_word(&word).unwrap_or(Sex::Female))
            }
            "clone" | "cl" => self.clone_mark(),
            "unnamed" if self.word_ahead(1) == "clone" => self.skip(2),
            "var" | "v" | "variety" => self.below_species(Rank::Variety),
            "subsp" | "ssp" | "subspecies" => self.below_species(Rank::Subspecies),
            "f" | "fo" | "forma" | "form" => self.below_species(Rank::Forma),
            "nat" | "natural" => {
                let more = usize::from(is_hybrid(&self.word_ahead(1)));
                self.natural_hybrid(1 + more)
            }
            "wild" if is_hybrid(&self.word_ahead(1)) => self.natural_hybrid(2),
            "direction" if self.word_ahead(1) == "unknown" => {
                self.frame().direction_unknown = true;
                self.skip(2)
            }
            "mixed" if self.word_ahead(1) == "pollen" => {
                self.generation_mark(Generation::MixedPollen, 2)
            }
            _ if text.starts_with('#') => self.individual(Tag::Clone(text), 1),
            _ if is_trade_word(&word) => self.tag_word(Tag::Word(text)),
            _ => self.other_word(&text, &word),
        }
    }

    fn joined(&mut self, join: Join) -> Result<(), Refusal> {
        self.join(join);
        Ok(())
    }

    pub(super) fn skip(&mut self, words: usize) -> Result<(), Refusal> {
        self.at += words;
        Ok(())
    }

    fn tag_word(&mut self, tag: Tag) -> Result<(), Refusal> {
        self.tag(tag);
        self.skip(1)
    }

    /// Marks the parent last read; behind what was said of the whole, the whole.
    pub(super) fn tag(&mut self, tag: Tag) {
        let frame = self.frame();
        let of_whole = !frame.generations.is_empty() || !frame.whole.tags.is_empty();
        if frame.is_cross() && of_whole {
            frame.whole.tags.push(tag);
        } else if let Some(part) = self.current() {
            self.builder.marks(part).tags.push(tag);
        }
    }

    pub(super) fn current(&mut self) -> Option<PartId> {
        self.frame().parents.last().map(|parent| parent.part)
    }

    pub(super) fn sex_mark(&mut self, sex: Sex) -> Result<(), Refusal> {
        let before = self.frame().parents.last_mut().and_then(|parent| {
            parent.sex_behind = true;
            parent.sex.replace(sex)
        });
        if before.is_some_and(|before| before != sex) {
            return self.refuse(RefusalCode::SexTwice, "this parent is marked both ♀ and ♂");
        }
        self.skip(1)
    }

    /// `clone A`, `clone 1`: the next word, whatever it is.
    fn clone_mark(&mut self) -> Result<(), Refusal> {
        let Some(next) = self.peek(1).filter(|next| {
            matches!(next.kind, Kind::Word | Kind::Single | Kind::Double) || next.text == "X"
        }) else {
            return self.skip(1);
        };
        let name = next.text.clone();
        self.individual(Tag::Clone(name), 2)
    }

    fn single_quoted_mark(&mut self) -> Result<(), Refusal> {
        let name = self.here().text.clone();
        let letters = name
            .chars()
            .filter(|letter| letter.is_alphanumeric())
            .count();
        if letters == 0 {
            return self.refuse(
                RefusalCode::EpithetMissing,
                "nothing stands between the quotes",
            );
        }
        if letters == 1 || name.chars().all(|letter| letter.is_ascii_digit()) {
            let text = format!(
                "'{}' cannot be a cultivar epithet (a single letter or only digits); kept as clone {0}",
                shown(&name)
            );
            self.notes.say(NoteCode::QuotedAsClone, text);
            return self.individual(Tag::Clone(name), 1);
        }
        let row = self.vocabulary.cultivar(&name);
        if !row.is_some_and(|row| row.established) {
            let text = format!(
                "'{}' is kept as received; that it is an established cultivar was not verified",
                shown(&name)
            );
            self.notes.say(NoteCode::QuotedNotVerified, text);
        }
        self.individual(Tag::Cultivar(name), 1)
    }

    fn label_mark(&mut self, label: String) -> Result<(), Refusal> {
        self.notes.say(
            NoteCode::LabelKept,
            format!(
                "\"{}\" is kept as a label, not a cultivar epithet",
                shown(&label)
            ),
        );
        self.tag_word(Tag::Label(label))
    }

    /// `var. globosa`; the rank is mended, the epithet put in lower case.
    fn below_species(&mut self, rank: Rank) -> Result<(), Refusal> {
        let Some(next) = self
            .peek(1)
            .filter(|next| next.kind == Kind::Word && !self.is_joining_word(&next.text))
            .filter(|next| !is_hybrid(&bare(&next.text)) && !is_doubt(&bare(&next.text)))
        else {
            let text = format!(
                "`{}` is {} and needs an epithet; for a female plant write (f) or ♀",
                self.here().text,
                rank.short()
            );
            return self.refuse(RefusalCode::EpithetMissing, text);
        };
        let epithet = bare(&next.text);
        if self.here().text != rank.short() {
            self.notes.say(
                NoteCode::RankRestored,
                format!("`{}` is written {}", self.here().text, rank.short()),
            );
        }
        self.name_below(rank, epithet, 2)
    }

    pub(super) fn name_below(
        &mut self,
        rank: Rank,
        epithet: String,
        words: usize,
    ) -> Result<(), Refusal> {
        if let Some(part) = self.current()
            && let Some(Leaf::Species {
                infraspecific: below @ None,
                ..
            }) = self.builder.leaf_mut(part)
        {
            *below = Some(Infraspecific { rank, epithet });
            return self.skip(words);
        }
        self.refuse(
            RefusalCode::NotUnderstood,
            "a rank below the species follows a species, once",
        )
    }
}
