//! What a word means where a parent must come: genus, qualifier, epithet, code; and what to offer when it means nothing known.

use crate::naming::formula::{Direction, Leaf, PartId, Qualifier, Unknown};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::token::{self, Kind};

use super::frame::{Called, Frame, Join, ParentName, Role};
use super::operand::{sex_word, shown};
use super::parser::{How, Parser, bare, parse};
use crate::naming::sift::is_hybrid;

impl Parser<'_> {
    /// Reads a word where a parent must come.
    pub(super) fn word_as_parent(&mut self) -> Result<(), Refusal> {
        let text = self.here().text.clone();
        let word = bare(&text);
        let known = self.vocabulary.species(&word).is_some();
        if self.hybrid_ahead() > 0 {
            return self.hybrid_before();
        }
        let doubts = self.doubt_ahead();
        if doubts > 0 {
            return self.doubt_before(doubts);
        }
        match word.as_str() {
            "nat" | "natural" | "wild" if is_hybrid(&self.word_ahead(1)) => self.natural_before(),
            "aff" | "affinis" => self.qualify(Qualifier::Affinis),
            "cf" => self.qualify(Qualifier::Confer),
            "sp" | "spec" | "species" => self.unnamed_parent(),
            "unknown" | "unk" | "unidentified" => self.unknown_words(),
            "op" => self.open_pollinated(1),
            "open" => self.open_pollinated(1 + self.follows(&["pollinated", "pollination"])),
            "mixed" => self.mixed_parent(),
            "selfed" | "self" | "sib" | "sibling"
                if self.frame().joins.last() == Some(&Join::Cross) =>
            {
                self.crossed_within()
            }
            "female" | "male" | "♀" | "♂" => {
                self.sex_before_parent(sex_word(&word).unwrap_or(crate::naming::Sex::Female))
            }
            _ if !known && self.is_genus_here(&text) => self.genus(),
            _ => self.latin_parent(&text),
        }
    }

    fn genus(&mut self) -> Result<(), Refusal> {
        self.frame().genus = true;
        self.at += 1;
        Ok(())
    }

    /// A word that stands for the genus and is followed by something to be of that genus.
    fn is_genus_here(&self, text: &str) -> bool {
        self.vocabulary.is_genus(text)
    }

    /// `maxima × self`, `maxima × sib`: the sign is dropped and the word read as if it followed the plant.
    fn crossed_within(&mut self) -> Result<(), Refusal> {
        self.frame().joins.pop();
        self.after_parent()
    }

    /// How many of the next words are among these.
    fn follows(&self, words: &[&str]) -> usize {
        (1..)
            .take_while(|&ahead| words.contains(&self.word_ahead(ahead).as_str()))
            .count()
    }

    /// `lowii × OP` is pollen from anywhere; `OP lowii` is lowii left to it, for no plant that bore seed is "open pollination".
    fn open_pollinated(&mut self, words: usize) -> Result<(), Refusal> {
        let column = self.here().column;
        let sign = usize::from(matches!(self.peek(words), Some(next) if next.kind == Kind::Sign));
        if !self.frame().is_untouched() || !self.plant_ahead(words + sign) {
            return self.unknown_parent(words, Unknown::OpenPollinated);
        }
        self.frame().open_pollinated = Some(column);
        self.at += words + sign;
        Ok(())
    }

    /// Whether a name stands so many tokens ahead, perhaps behind brackets or marks of sex.
    pub(super) fn plant_ahead(&self, ahead: usize) -> bool {
        let begins = |kind: &Kind| matches!(kind, Kind::Open(_) | Kind::Female | Kind::Male);
        let first = (ahead..).find_map(|ahead| match self.peek(ahead) {
            Some(token) if begins(&token.kind) => None,
            token => Some(token),
        });
        first.flatten().is_some_and(|token| match token.kind {
            Kind::Single | Kind::Double => true,
            Kind::Word => self.names_a_plant(&token.text),
            _ => false,
        })
    }

    fn names_a_plant(&self, text: &str) -> bool {
        let word = bare(text);
        self.vocabulary.species(&word).is_some()
            || self.vocabulary.accepted(&word).is_some()
            || self.vocabulary.decoded(&word).is_some()
            || self.is_hybrid_word(&word)
            || self.vocabulary.is_genus(text)
    }

    fn unknown_words(&mut self) -> Result<(), Refusal> {
        let more = self.follows(&[
            "pollen", "father", "mother", "parent", "male", "female", "seed", "species", "hybrid",
        ]);
        match (0..=more).any(|ahead| is_hybrid(&self.word_ahead(ahead))) {
            true => self.hybrid_alone(1 + more),
            false => self.unknown_parent(1 + more, Unknown::NotRecorded),
        }
    }

    fn mixed_parent(&mut self) -> Result<(), Refusal> {
        let words = 1 + self.follows(&["pollen", "of"]);
        if let Some(token) = self.peek(words)
            && matches!(token.kind, Kind::Open(_))
        {
            let column = token.column;
            self.frames.push(Frame::new(Role::Mixed, column));
            self.at += words + 1;
            return Ok(());
        }
        self.unknown_parent(words, Unknown::MixedPollen)
    }

    /// Reads an epithet, code or name as a parent.
    pub(super) fn latin_parent(&mut self, text: &str) -> Result<(), Refusal> {
        let lower = bare(text);
        let vocabulary = self.vocabulary;
        let accepted = vocabulary
            .accepted(&lower)
            .filter(|_| vocabulary.species(&lower).is_none());
        if let Some(accepted) = accepted {
            let evidence = vocabulary.evidence_of(&lower);
            let evidence = evidence
                .map(|text| format!(" ({text})"))
                .unwrap_or_default();
            self.notes.say(
                NoteCode::SynonymRead,
                format!("`{lower}` is read as {accepted}, the name in use{evidence}"),
            );
        }
        let epithet = accepted.unwrap_or(&lower).to_owned();
        if vocabulary.species(&epithet).is_some() {
            self.note_case(text);
            return self.species_parent(&epithet);
        }
        if vocabulary.named_hybrid(&epithet).is_some() {
            return self.hybrid_parent(&epithet);
        }
        self.coded_parent(text, &lower)
    }

    fn coded_parent(&mut self, text: &str, lower: &str) -> Result<(), Refusal> {
        if let Some(epithet) = self.vocabulary.decoded(lower).map(str::to_owned) {
            self.notes.say(
                NoteCode::CodeRead,
                format!("the declared code {} is read as {epithet}", shown(text)),
            );
            if self.vocabulary.named_hybrid(&epithet).is_some() {
                return self.hybrid_parent(&epithet);
            }
            return self.species_parent(&epithet);
        }
        if let Some(epithet) = self.glued_sign(lower) {
            return self.hybrid_with_sign(&epithet);
        }
        if let Some((one, other)) = self.hyphen_pair(lower) {
            return self.hyphen_parent(&one, &other);
        }
        if self.vocabulary.cultivar(text).is_some() {
            return self.quoted_leaf(text.to_owned());
        }
        if let Some(epithet) = self.hybrid_grown_on(lower) {
            self.species_parent(&epithet)?;
            return self.hybrid_behind(0);
        }
        if let Some(species) = self.sign_grown_on_species(lower) {
            return self.sign_before_species(text, &species);
        }
        let signed = self.frame().name_sign.is_some();
        let words = self.name_before_formula();
        let is_slip = words == 1 && !self.vocabulary.near(lower).is_empty();
        if words > 0 && !is_slip {
            return self.keep_name(words, signed);
        }
        if self.is_unlisted_name(text, signed) {
            return self.keep_name(1, signed);
        }
        self.unknown_word(text, lower)
    }

    /// `natural hybrid lowii × ventricosa`
    fn natural_before(&mut self) -> Result<(), Refusal> {
        let whole = &mut self.frame().whole;
        (whole.natural, whole.hybrid) = (true, Some(Called::Hybrid));
        self.skip(2)
    }

    /// `xlowii`: a hybrid sign grown onto a species, which is no hybrid's name.
    fn sign_grown_on_species(&self, lower: &str) -> Option<String> {
        let rest = self.behind_grown_sign(lower)?;
        self.vocabulary.species(rest).map(|_| rest.to_owned())
    }

    /// What follows a hybrid sign grown onto a word, as the vocabulary writes it.
    fn behind_grown_sign<'w>(&'w self, lower: &'w str) -> Option<&'w str> {
        let rest = lower.strip_prefix(['x', '\u{445}', 'χ'])?;
        Some(self.vocabulary.accepted(rest).unwrap_or(rest))
    }

    fn sign_before_species(&mut self, text: &str, species: &str) -> Result<(), Refusal> {
        let column = self.here().column;
        let text = format!(
            "`{}` at column {column} is a hybrid sign before the species {species}; its other parent is missing",
            shown(text)
        );
        let refusal = Refusal::new(RefusalCode::NotANamedHybrid, column, text);
        Err(refusal.with_readings(vec![format!("({species} × ?, direction unknown)")]))
    }

    fn note_case(&mut self, text: &str) {
        if text.chars().any(char::is_uppercase) {
            let text = format!("`{}` is an epithet and was put in lower case", shown(text));
            self.notes.say(NoteCode::EpithetLowered, text);
        }
    }

    fn species_parent(&mut self, epithet: &str) -> Result<(), Refusal> {
        self.note_genus();
        let qualifier = self.frame().qualifier;
        if self.frame().name_sign.is_some() {
            return self.refuse(RefusalCode::NotANamedHybrid, format!("{epithet} is a species, not a named hybrid; take the sign away or name the other parent"));
        }
        let leaf = Leaf::Species {
            epithet: epithet.to_owned(),
            qualifier,
            infraspecific: None,
        };
        let part = self.builder.leaf(leaf);
        self.add_parent(part, None);
        self.at += 1;
        Ok(())
    }

    fn hybrid_with_sign(&mut self, epithet: &str) -> Result<(), Refusal> {
        self.frame().name_sign = Some(self.here().column);
        self.hybrid_parent(epithet)
    }

    /// A named hybrid: read as its parents where these are known well enough, else kept as a label.
    fn hybrid_parent(&mut self, epithet: &str) -> Result<(), Refusal> {
        self.note_genus();
        let quoted = self.here().kind != Kind::Word;
        if self.frame().name_sign.is_none() && !quoted {
            self.notes.say(
                NoteCode::SignMissingBeforeName,
                format!("{epithet} is a named hybrid; its sign was left out"),
            );
        }
        let part = self.expanded(epithet);
        self.add_parent(part, Some(ParentName::Hybrid(epithet.to_owned())));
        self.at += 1;
        Ok(())
    }

    fn expanded(&mut self, epithet: &str) -> PartId {
        let row = self
            .vocabulary
            .named_hybrid(epithet)
            .cloned()
            .unwrap_or_default();
        let (status, formula) = (&row.status, &row.formula);
        let expand = row.expand && self.expand && self.frame().qualifier.is_none();
        if expand && let Some(part) = self.text_as_part(formula) {
            let text = format!(
                "×{epithet} ({status}) is read as {formula}; which parent bore the seed is not known"
            );
            self.notes.say(NoteCode::NameExpanded, text);
            return part;
        }
        let text =
            format!("×{epithet} ({status}) is kept as a label; its parents are told as {formula}");
        self.notes.say(NoteCode::NameKept, text);
        self.builder.leaf(Leaf::NamedHybrid {
            epithet: epithet.to_owned(),
        })
    }

    /// The formula a vocabulary gives for a name, direction not vouched for; `None` when it cannot be read.
    pub(super) fn text_as_part(&mut self, formula: &str) -> Option<PartId> {
        let cut = token::cut(formula, self.vocabulary).ok()?;
        let parsed = parse(cut, self.vocabulary, How::LISTED).ok()?;
        let part = self.builder.copy_of(&parsed.formula);
        let copied = parsed.formula.len();
        self.builder
            .last_crosses_mut(copied)
            .for_each(|cross| cross.direction = Direction::Unknown);
        Some(part)
    }

    /// `xventrata`: a sign glued to a named hybrid.
    fn glued_sign(&self, lower: &str) -> Option<String> {
        let rest = self.behind_grown_sign(lower)?;
        self.vocabulary.named_hybrid(rest).map(|_| rest.to_owned())
    }

    fn hyphen_pair(&self, lower: &str) -> Option<(String, String)> {
        let (one, other) = lower.split_once(['-', '–'])?;
        let known = |word: &str| self.vocabulary.species(word).is_some();
        (known(one) && known(other)).then(|| (one.to_owned(), other.to_owned()))
    }

    fn hyphen_parent(&mut self, one: &str, other: &str) -> Result<(), Refusal> {
        self.note_genus();
        let text = format!(
            "{one}-{other} is a formula, not an epithet; which parent bore the seed is not known: ask"
        );
        self.notes.say(NoteCode::HyphenReadAsFormula, text);
        let (first, second) = (self.builder.species(one), self.builder.species(other));
        let part = self.builder.cross(first, second, Direction::Unknown);
        self.add_parent(part, None);
        self.at += 1;
        Ok(())
    }
}
