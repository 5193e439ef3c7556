//! A parent as written: what may stand where a parent must come.

use crate::naming::formula::{Leaf, Qualifier, Sex, Unknown};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::token::{self, Kind};

use super::frame::{Frame, ParentName, Role};
use super::parser::{How, Parser, bare, parse};

impl Parser<'_> {
    /// Reads one token where a parent must come.
    pub(super) fn parent(&mut self) -> Result<(), Refusal> {
        if self.frame().role == Role::Clones {
            self.same_species_again();
            return Ok(());
        }
        if self.marks_a_plant() && self.species_understood() {
            return Ok(());
        }
        match self.here().kind.clone() {
            Kind::Word => self.word_as_parent(),
            Kind::Sign => self.sign_before_parent(),
            Kind::Open(close) => self.open_group(close),
            Kind::Close => self.close_bracket(),
            Kind::Single => self.quoted_parent(),
            Kind::Double => self.labelled_parent(),
            Kind::Question if self.doubts_what_follows() => self.doubt_before(1),
            Kind::Question => self.unknown_parent(1, Unknown::NotRecorded),
            Kind::Female => self.sex_before_parent(Sex::Female),
            Kind::Male => self.sex_before_parent(Sex::Male),
            Kind::Star => self.refuse(
                RefusalCode::DoseMisplaced,
                "a dose `*` belongs in Purdy notation, as in maxima*2/veitchii",
            ),
            Kind::Comma | Kind::Plus | Kind::Equals | Kind::Stroke(_) => {
                let text = format!("a parent is needed before `{}`", self.here().text);
                self.refuse(RefusalCode::ParentMissing, text)
            }
        }
    }

    /// `? lowii`: a doubt in front, not a parent.
    fn doubts_what_follows(&mut self) -> bool {
        let first = self.frame().parents.is_empty();
        let plant = |text: &str| {
            self.vocabulary.is_genus(text) || self.vocabulary.means_a_plant(&bare(text))
        };
        let word = self.peek(1).filter(|next| next.kind == Kind::Word);
        first && (word.is_some_and(|next| plant(&next.text)) || self.opens_formula(1))
    }

    fn open_group(&mut self, close: usize) -> Result<(), Refusal> {
        let inside = self.raw(self.at + 1, close);
        if let Some(sex) = sex_word(&inside) {
            self.at = close;
            return self.sex_before_parent(sex);
        }
        let column = self.here().column;
        self.frames.push(Frame::new(Role::Group, column));
        self.at += 1;
        Ok(())
    }

    pub(super) fn sex_before_parent(&mut self, sex: Sex) -> Result<(), Refusal> {
        if self
            .frame()
            .sex
            .replace(sex)
            .is_some_and(|before| before != sex)
        {
            return self.refuse(RefusalCode::SexTwice, "this parent is marked both ♀ and ♂");
        }
        self.at += 1;
        Ok(())
    }

    pub(super) fn unknown_parent(&mut self, words: usize, how: Unknown) -> Result<(), Refusal> {
        let part = self.builder.leaf(Leaf::Unknown(how));
        self.add_parent(part, None);
        self.at += words;
        Ok(())
    }

    /// A name in single quotes: a cultivar, or a Latin name somebody put quotes around.
    fn quoted_parent(&mut self) -> Result<(), Refusal> {
        let name = self.here().text.clone();
        self.quotes_hold_something(&name)?;
        if let Some(epithet) = self.latin_within(&name) {
            return self.latin_in_quotes(&name, &epithet);
        }
        self.drop_name_sign(&format!("'{}'", shown(&name)), "a cultivar");
        self.quoted_leaf(name)
    }

    /// A name in double quotes: a label kept as received, or a Latin name somebody put quotes around. It is never taken
    /// for a cultivar, not even for one that is spelt like it.
    fn labelled_parent(&mut self) -> Result<(), Refusal> {
        let text = self.here().text.clone();
        self.quotes_hold_something(&text)?;
        if let Some(epithet) = self.latin_within(&text) {
            return self.latin_in_quotes(&text, &epithet);
        }
        if let Some(taxon) = self.taxon_in_quotes(&text) {
            self.quotes_not_meant(&text);
            self.frame().genus = true;
            self.add_parent(taxon, None);
            self.at += 1;
            return Ok(());
        }
        self.drop_name_sign(&format!("\"{}\"", shown(&text)), "a label");
        self.note_label(&text);
        let part = self.builder.leaf(Leaf::Label { text: text.clone() });
        self.frame().genus = true;
        self.add_parent(part, Some(ParentName::Label(text)));
        self.at += 1;
        Ok(())
    }

    fn note_label(&mut self, text: &str) {
        let mut note = format!(
            "\"{}\" is kept as a label, as received; double quotes make no cultivar",
            shown(text)
        );
        if let Some(row) = self.vocabulary.cultivar(text) {
            let epithet = shown(&row.epithet);
            note.push_str(&format!(
                "; '{epithet}' is on record: if that clone is meant, write it in single quotes"
            ));
        } else if self.reads_as_formula(text) {
            note.push_str("; if it is the formula, write it without the quotes");
        }
        self.notes.say(NoteCode::LabelKept, note);
    }

    fn reads_as_formula(&self, text: &str) -> bool {
        token::cut(text, self.vocabulary)
            .and_then(|cut| parse(cut, self.vocabulary, How::PLAIN))
            .is_ok_and(|parsed| parsed.formula.len() > 1)
    }

    fn quotes_hold_something(&self, text: &str) -> Result<(), Refusal> {
        if text.is_empty() {
            return self.refuse(
                RefusalCode::EpithetMissing,
                "nothing stands between the quotes",
            );
        }
        Ok(())
    }

    /// The epithet in `Ventrata`, `N. ×ventrata`: nothing but one known epithet with its genus and sign.
    fn latin_within(&self, name: &str) -> Option<String> {
        let before = |word: &&str| self.vocabulary.is_genus(word) || matches!(*word, "x" | "×");
        let mut words = name.split_whitespace().skip_while(before);
        let epithet = bare(words.next()?.trim_start_matches('×'));
        let known = self.vocabulary.species(&epithet).is_some() || self.is_hybrid_word(&epithet);
        (known && words.next().is_none()).then_some(epithet)
    }

    fn latin_in_quotes(&mut self, name: &str, epithet: &str) -> Result<(), Refusal> {
        self.quotes_not_meant(name);
        self.latin_parent(epithet)
    }

    fn quotes_not_meant(&mut self, name: &str) {
        let text = format!(
            "`{}` is a Latin epithet; quotes are for cultivars and labels and were dropped",
            shown(name)
        );
        self.notes.say(NoteCode::QuotesNotMeant, text);
    }

    fn drop_name_sign(&mut self, quoted: &str, kind: &str) {
        if self.frame().name_sign.is_some() {
            let text = format!("the sign before {quoted} was dropped: {kind} takes none");
            self.notes.say(NoteCode::SignBeforeQuoted, text);
        }
    }

    pub(super) fn quoted_leaf(&mut self, name: String) -> Result<(), Refusal> {
        let row = self.vocabulary.cultivar(&name).cloned();
        let established = row.as_ref().is_some_and(|row| row.established);
        if !established {
            let text = format!(
                "'{}' is kept as received; that it is an established cultivar was not verified",
                shown(&name)
            );
            self.notes.say(NoteCode::QuotedNotVerified, text);
        }
        let name = row.as_ref().map_or(name, |row| row.epithet.clone());
        let formula = row.and_then(|row| row.formula).filter(|_| self.expand);
        let part = match formula.and_then(|formula| self.text_as_part(&formula)) {
            Some(part) => {
                self.builder
                    .marks(part)
                    .tags
                    .push(crate::naming::formula::Tag::Cultivar(name.clone()));
                part
            }
            None => self.builder.leaf(Leaf::Quoted {
                epithet: name.clone(),
            }),
        };
        self.frame().genus = true;
        self.add_parent(part, Some(ParentName::Quoted(name)));
        self.at += 1;
        Ok(())
    }

    /// `sp.` with the words that tell it from other unnamed species.
    pub(super) fn unnamed_parent(&mut self) -> Result<(), Refusal> {
        self.at += 1;
        let mut words = Vec::new();
        while let Some(token) = self.peek(0) {
            let plain = token.kind == Kind::Word
                && words.len() < 6
                && self.is_plain(&bare(&token.text), &token.text);
            if !(plain || (words.is_empty() && matches!(token.kind, Kind::Single | Kind::Double))) {
                break;
            }
            let quoted = token.kind != Kind::Word;
            words.push(token.text.clone());
            self.at += 1;
            if quoted {
                break;
            }
        }
        let label = Some(words.join(" ")).filter(|label| !label.is_empty());
        self.note_genus();
        let part = self.builder.leaf(Leaf::Unnamed { label });
        self.add_parent(part, None);
        Ok(())
    }

    pub(super) fn qualify(&mut self, qualifier: Qualifier) -> Result<(), Refusal> {
        self.frame().qualifier = Some(qualifier);
        self.at += 1;
        Ok(())
    }

    /// Remembers that this parent came without its genus.
    pub(super) fn note_genus(&mut self) {
        if !self.frame().genus {
            self.genus_missing = true;
        }
    }

    /// The label's text between two tokens, single spaces between words.
    pub(super) fn raw(&self, from: usize, to: usize) -> String {
        let mut text = String::new();
        for token in self.tokens[from..to].iter().take(64) {
            let glued = text.is_empty()
                || matches!(token.kind, Kind::Comma | Kind::Close)
                || text.ends_with(['(', '[', '{']);
            if !glued {
                text.push(' ');
            }
            text.push_str(&token.text);
        }
        text
    }
}

/// The sex a word or sign marks.
pub(super) fn sex_word(word: &str) -> Option<Sex> {
    match word.to_lowercase().as_str() {
        "f" | "female" | "♀" => Some(Sex::Female),
        "m" | "male" | "♂" => Some(Sex::Male),
        _ => None,
    }
}

/// A word of the label fit to be quoted in a message: cut when it is long.
pub(super) fn shown(word: &str) -> String {
    let mut text: String = word.chars().take(40).collect();
    if text.len() < word.len() {
        text.push('…');
    }
    text
}
