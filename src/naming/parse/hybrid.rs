//! The word hybrid: of a species it means that the other parent is not known; of a formula it says no more.

use crate::naming::formula::{
    Cross, Direction, Leaf, NATURAL_HYBRID, Part, PartId, Relation, Tag, Unknown,
};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::sift::{hybrid_words, is_hybrid};
use crate::naming::token::Kind;

use super::frame::{Called, Frame};
use super::operand::shown;
use super::parser::Parser;

impl Parser<'_> {
    /// How many words at hand call a plant a hybrid.
    pub(super) fn hybrid_ahead(&self) -> usize {
        let word = self.word_ahead(0);
        match self.vocabulary.means_a_plant(&word) {
            true => 0,
            false => hybrid_words(&word),
        }
    }

    /// `hybrid of lowii`, `hybrid lowii × ventricosa`, `lowii × hybrid`.
    pub(super) fn hybrid_before(&mut self) -> Result<(), Refusal> {
        let of = usize::from(matches!(
            self.word_ahead(1).as_str(),
            "of" | "between" | "from" | "with"
        ));
        if !self.parent_at(1 + of) {
            return self.hybrid_alone(1);
        }
        let called = match of {
            0 => Called::Hybrid,
            _ => Called::HybridOf,
        };
        let frame = self.frame();
        if frame.parents.is_empty() {
            frame.whole.hybrid = Some(called);
        } else {
            frame.next_hybrid = Some(called);
        }
        self.skip(1 + of)
    }

    /// Whether a parent may begin so many tokens ahead.
    fn parent_at(&self, ahead: usize) -> bool {
        match self.peek(ahead) {
            Some(token) => match token.kind {
                Kind::Single | Kind::Double | Kind::Open(_) => true,
                Kind::Word => {
                    let word = self.word_ahead(ahead);
                    self.vocabulary.means_a_plant(&word)
                        || self.vocabulary.is_genus(&token.text)
                        || matches!(word.as_str(), "cf" | "aff" | "sp")
                }
                Kind::Sign => {
                    self.peek(ahead + 1).is_some() && self.frames.len() == 1 && ahead == 1
                }
                _ => false,
            },
            None => false,
        }
    }

    /// The word hybrid and no name: it stays to be seen, as a label of unknown parentage.
    pub(super) fn hybrid_alone(&mut self, words: usize) -> Result<(), Refusal> {
        let text = self.raw(self.at, self.at + words);
        let note = format!(
            "`{}` names no parent; its parents are not known",
            shown(&text)
        );
        self.notes.say(NoteCode::HybridOfUnknown, note);
        self.note_genus();
        let part = self.builder.leaf(Leaf::Label { text });
        self.add_parent(part, None);
        self.skip(words)
    }

    /// `veitchii hybrid`: of a species, its other parent is not known. At the end of a cross it may be of the whole, and of
    /// a hybrid's name it may say no more, or that the name is one parent only.
    pub(super) fn hybrid_behind(&mut self, words: usize) -> Result<(), Refusal> {
        let column = self
            .peek(0)
            .map_or_else(|| self.end_column(), |token| token.column);
        self.skip(words)?;
        let Some(parent) = self.frame().parents.last().cloned() else {
            return Ok(());
        };
        self.no_species_bred(column)?;
        let named = parent.name.is_some() && !self.formula_ahead();
        let may_be_parent = named || self.is_of_one(parent.part);
        if may_be_parent && self.frame().is_cross() && self.only_marks_ahead() {
            self.frame().hybrid_behind = Some(column);
            return Ok(());
        }
        let text = "`hybrid` behind a hybrid's name may say no more than the name, or mean a cross of it with a plant not named; write which";
        let question = Refusal::new(RefusalCode::HybridOfWhich, column, text);
        match named && self.ask(question, 2)? > 0 {
            true => self.give_partner(),
            false => self.hybrid_of_unknown(),
        }
        Ok(())
    }

    /// An F2 of a hybrid is no sib cross of a species.
    pub(super) fn no_species_bred(&mut self, column: usize) -> Result<(), Refusal> {
        let text = "an F2 of a hybrid has another parent behind it";
        match self.frame().parents.last() {
            Some(parent) if parent.taken_for_sibs => {
                Err(Refusal::new(RefusalCode::FilialNeedsACross, column, text))
            }
            _ => Ok(()),
        }
    }

    /// Whether a formula in brackets comes next: it, not the word hybrid, gives the parentage of the name.
    fn formula_ahead(&self) -> bool {
        self.opens_formula(0)
    }

    /// Whether the token so far ahead opens a bracket with a crossing sign in it.
    pub(super) fn opens_formula(&self, ahead: usize) -> bool {
        self.peek(ahead).is_some_and(|next| match next.kind {
            Kind::Open(close) => self.signs[close] > self.signs[self.at + ahead],
            _ => false,
        })
    }

    /// `lowii × rajah hybrid`, once all of it is read: of the whole, or of its last parent.
    pub(super) fn hybrid_is_of_one(&mut self, frame: &mut Frame) -> Result<(), Refusal> {
        let Some(column) = frame.hybrid_behind.filter(|_| !frame.whole.natural) else {
            return Ok(());
        };
        let text =
            "`hybrid` at the end may be said of the whole cross or of its last parent; write which";
        let of_last = self.ask(Refusal::new(RefusalCode::HybridOfWhich, column, text), 2)? > 0;
        match frame.parents.last_mut() {
            Some(last) if of_last => last.part = self.partnered(last.part),
            _ => frame.whole.hybrid = Some(Called::Hybrid),
        }
        Ok(())
    }

    /// Gives the parent last read an unknown partner, where it is not a cross already.
    pub(super) fn hybrid_of_unknown(&mut self) {
        if let Some(part) = self.current() {
            let made = self.hybrid_part(part);
            self.put_last(made);
        }
    }

    /// Gives the parent last read an unknown partner, whatever it is.
    pub(super) fn give_partner(&mut self) {
        if let Some(part) = self.current() {
            let made = self.partnered(part);
            self.put_last(made);
        }
    }

    fn put_last(&mut self, part: PartId) {
        if let Some(parent) = self.frame().parents.last_mut() {
            parent.part = part;
        }
    }

    /// A hybrid of this part and a plant not known; a cross or a name is one already.
    pub(super) fn hybrid_part(&mut self, part: PartId) -> PartId {
        if self.is_of_one(part) {
            return self.partnered(part);
        }
        self.hybrid_says_no_more();
        part
    }

    fn hybrid_says_no_more(&mut self) {
        let text = "the word hybrid says no more than what it stands beside";
        self.notes.say(NoteCode::HybridSaysNoMore, text);
    }

    /// A species, named or not.
    pub(super) fn is_species(&self, part: PartId) -> bool {
        matches!(
            self.builder.part(part),
            Part::Leaf(Leaf::Species { .. } | Leaf::Unnamed { .. })
        )
    }

    /// Of one species whatever else is said of it, or of one of several species.
    fn is_of_one(&self, part: PartId) -> bool {
        let several = match self.builder.part(part) {
            Part::OneOf(parts) => parts.iter().all(|one| self.is_species(*one)),
            _ => false,
        };
        several || self.is_species(part) || self.parent_set(part).is_some_and(|set| set.len() == 1)
    }

    /// What a part was bred from by generations within it: of `lowii F2` and `lowii sib cross` that is lowii.
    pub(super) fn bred_from(&self, part: PartId) -> PartId {
        let mut base = part;
        while let Part::Cross(Cross {
            relation: Relation::Sib | Relation::Filial | Relation::SelfReported,
            seed,
            ..
        }) = self.builder.part(base)
        {
            base = *seed;
        }
        base
    }

    /// The part with an unknown partner; generations said of it are of the hybrid, and what is marked on them stays.
    pub(super) fn partnered(&mut self, part: PartId) -> PartId {
        let text = "a plant is called a hybrid; its other parent is not known, nor which one bore the seed";
        self.notes.say(NoteCode::HybridOfUnknown, text);
        let (base, mut bred) = (self.bred_from(part), Vec::new());
        let mut at = part;
        while let (true, Part::Cross(cross)) = (at != base, self.builder.part(at)) {
            let (relation, seed) = (cross.relation, cross.seed);
            bred.push((relation, self.builder.marks(at).clone()));
            at = seed;
        }
        let other = self.builder.leaf(Leaf::Unknown(Unknown::NotRecorded));
        let hybrid = self.builder.cross(base, other, Direction::Unknown);
        bred.into_iter()
            .rev()
            .fold(hybrid, |parent, (relation, marks)| {
                let made = self.builder.within(parent, relation);
                *self.builder.marks(made) = marks;
                made
            })
    }

    /// `natural hybrid`, `nat. hyb.`: of a cross it leaves no seed parent, of a species no second parent.
    pub(super) fn natural_hybrid(&mut self, words: usize) -> Result<(), Refusal> {
        self.skip(words)?;
        let Some(part) = self.current() else {
            return Ok(());
        };
        if self.frame().is_cross() && self.only_marks_ahead() {
            self.note_natural();
            self.frame().whole.natural = true;
            return Ok(());
        }
        self.no_species_bred(self.end_column())?;
        let made = self.hybrid_part(part);
        self.natural_says_no_seed_parent(self.bred_from(made));
        let tag = Tag::Word(NATURAL_HYBRID.to_owned());
        self.builder.marks(made).tags.push(tag);
        self.put_last(made);
        Ok(())
    }

    pub(super) fn natural_says_no_seed_parent(&mut self, part: PartId) {
        self.note_natural();
        if let Some(cross) = self.builder.cross_mut(part) {
            cross.direction = Direction::Unknown;
        }
    }

    fn note_natural(&mut self) {
        let text = "a natural hybrid: its parents are listed in no order of sex, so no seed parent is known";
        self.notes.say(NoteCode::NaturalHybrid, text);
    }

    /// `maxima-Hybride`: a species and the word hybrid grown together.
    pub(super) fn hybrid_grown_on(&self, lower: &str) -> Option<String> {
        let (name, hybrid) = lower.rsplit_once(['-', '–', '_'])?;
        let name = self.vocabulary.accepted(name).unwrap_or(name);
        (is_hybrid(hybrid) && self.vocabulary.species(name).is_some()).then(|| name.to_owned())
    }
}
