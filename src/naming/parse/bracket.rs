//! A bracket after a parent: its sex, place or clone, the parents of a name, a name to be checked, or a remark on the order.

use std::collections::BTreeSet;

use crate::naming::formula::{Certainty, Direction, Leaf, Part, PartId, Tag, Unknown};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::token::Kind;

use super::frame::{Frame, ParentName, Role};

use super::operand::{sex_word, shown};
use super::parser::{Basis, Parser, bare};

impl Parser<'_> {
    /// Reads a bracket that follows a parent; `close` is the place of its closing token.
    pub(super) fn bracket_after_parent(&mut self, close: usize) -> Result<(), Refusal> {
        let inside = self.raw(self.at + 1, close);
        if inside.is_empty() {
            return self.refuse(
                RefusalCode::BracketsEmpty,
                "nothing stands between these brackets",
            );
        }
        if let Some(read) = self.said_in_bracket(close) {
            return read;
        }
        let formula = self.signs[close] > self.signs[self.at] || self.bred_for_epithet(close);
        if formula && !self.names_a_hybrid(close) {
            return self.formula_after_parent();
        }
        if let Some(sex) = sex_word(&inside) {
            self.at = close;
            return self.sex_mark(sex);
        }
        if self.backcross_in_bracket(&inside)? || self.remark(&inside) {
            self.at = close + 1;
            return Ok(());
        }
        if self.tokens[self.at + 1].kind == Kind::Equals && !self.names_a_hybrid(close) {
            let end = std::mem::replace(&mut self.end, close);
            self.at += 1;
            let named = self.equals_name();
            self.end = end;
            named?;
            self.at = close + 1;
            return Ok(());
        }
        match self.second_species(close)? {
            true => Ok(()),
            false => self.generation_or_tag(close, inside),
        }
    }

    /// `'Abc' (N. lowii sib cross)`: behind an epithet in single quotes, a plant with a generation said of it is the
    /// parentage too, although no sign stands in the bracket.
    fn bred_for_epithet(&mut self, close: usize) -> bool {
        let named = self.frame().parents.last().map(|parent| &parent.name);
        if !matches!(named, Some(Some(ParentName::Quoted(_)))) {
            return false;
        }
        let inside = close - self.at;
        let plant = self.plant_ahead(1)
            || self.peek(1).is_some_and(|next| next.kind == Kind::Question)
            || self.word_ahead(1) == "mixed";
        plant && (2..inside).any(|ahead| self.generation_at(ahead).is_some())
    }

    fn generation_or_tag(&mut self, close: usize, inside: String) -> Result<(), Refusal> {
        let open = self.at;
        self.at += 1;
        if let Some((generation, words)) = self.generation_ahead()
            && self.at + words == close
        {
            self.generation_mark(generation, words)?;
            self.at = close + 1;
            return Ok(());
        }
        self.at = open;
        if self.names_a_hybrid(close) {
            let name = bare(&self.tokens[close - 1].text);
            let name = self.vocabulary.accepted(&name).unwrap_or(&name).to_owned();
            let column = self.here().column;
            self.frame().names.push((name, column));
        } else if self.says_hybrid(close) {
            // `(hybrid from Bario)`: the words stay to be seen, and the plant is no pure species.
            self.tag(Tag::Label(inside));
            return self.hybrid_behind(close + 1 - open);
        } else {
            // Written out with blanks, an asterisk or a sign would be read as one of a cross.
            if inside
                .split(' ')
                .any(|word| matches!(word, "*" | "x" | "X" | "×"))
            {
                return self.refuse(
                    RefusalCode::NotUnderstood,
                    "what stands in brackets here is neither a place nor a cross",
                );
            }
            let tag = self.tag_in_bracket(inside);
            if let Tag::Place(place) = &tag {
                let place = shown(place);
                let at_end =
                    self.frames.len() == 1 && self.frames[0].is_cross() && self.only_marks_ahead();
                let text = match at_end {
                    true => format!(
                        "({place}) may be said of the plant or of its last parent; it is kept with the parent, and `(… × …) ({place})` would be of the plant"
                    ),
                    false => format!("({place}) is kept as the place or form of that parent"),
                };
                self.notes.say(NoteCode::LabelKept, text);
            }
            if matches!(tag, Tag::Clone(_) | Tag::Plant(_)) {
                return self.individual(tag, close + 1 - self.at);
            }
            self.tag(tag);
        }
        self.at = close + 1;
        Ok(())
    }

    /// The bracket holds a hybrid epithet and nothing more than its genus or sign.
    pub(super) fn names_a_hybrid(&self, close: usize) -> bool {
        let (last, before) = (close - 1, self.at + 1..close - 1);
        let word = &self.tokens[last];
        before.len() <= 3
            && word.kind == Kind::Word
            && self.is_hybrid_word(&word.text)
            && self.tokens[before].iter().all(|token| {
                matches!(token.kind, Kind::Sign | Kind::Equals)
                    || self.vocabulary.is_genus(&token.text)
            })
    }

    fn tag_in_bracket(&self, inside: String) -> Tag {
        let clone = inside.strip_prefix("clone ").map(str::to_owned);
        let digits = inside.chars().all(|letter| letter.is_ascii_digit());
        let year = digits && inside.len() == 4;
        let individual = inside.chars().count() == 1 || (digits && !year);
        match clone {
            Some(clone) => Tag::Clone(clone),
            None if individual => Tag::Clone(inside),
            None if year => Tag::Label(inside),
            None if self.here().text == "[" => Tag::Plant(inside),
            None if inside.starts_with('#') => Tag::Clone(inside),
            None => Tag::Place(inside),
        }
    }

    /// Remarks on the order of parents, on certainty, on the pollen; whether the bracket was one.
    fn remark(&mut self, inside: &str) -> bool {
        let said = inside.to_lowercase();
        if said == "alphabetical" {
            self.basis = Basis::Unknown;
            return true;
        }
        let (open, order) = match said.strip_prefix("direction unknown") {
            Some(rest) => (true, rest.trim_start_matches("; ")),
            None => (false, said.as_str()),
        };
        match order_said(order.trim_end_matches(" in brackets")) {
            Some(basis) => self.basis = basis,
            None if open && order.is_empty() => self.basis = Basis::Unsaid,
            None => return self.remark_on_parent(&said),
        }
        if open {
            self.frame().direction_unknown = true;
        }
        true
    }

    fn remark_on_parent(&mut self, said: &str) -> bool {
        let Some(part) = self.current() else {
            return false;
        };
        match said {
            "claimed" => self.builder.marks(part).certainty = Certainty::Claimed,
            "open pollinated" | "op" => return self.pollen_remark(part, Unknown::OpenPollinated),
            "mixed pollen" => return self.pollen_remark(part, Unknown::MixedPollen),
            "father probable" => self.doubt_part(),
            "parents in doubt"
            | "parents further back in doubt"
            | "a father further back probable" => self.frame().whole.doubted = true,
            _ => return false,
        }
        true
    }

    fn pollen_remark(&mut self, part: PartId, how: Unknown) -> bool {
        match self.builder.leaf_mut(part) {
            Some(Leaf::Unknown(unknown)) => {
                *unknown = how;
                true
            }
            None => {
                how == Unknown::MixedPollen && matches!(self.builder.part(part), Part::Mixed(_))
            }
            _ => false,
        }
    }

    /// A formula in brackets after a parent: the parents of a name, or two clones of one species.
    fn formula_after_parent(&mut self) -> Result<(), Refusal> {
        let column = self.here().column;
        let Some(parent) = self.frame().parents.last().cloned() else {
            return self.sign_missing("(");
        };
        let role = match self.builder.part(parent.part) {
            _ if parent.name.is_some() => Role::Parentage,
            Part::Leaf(Leaf::Species { .. }) if !self.epithet_after_bracket() => Role::Clones,
            _ => return self.sign_missing("("),
        };
        self.frames.push(Frame::new(role, column));
        self.at += 1;
        Ok(())
    }

    fn epithet_after_bracket(&self) -> bool {
        let first = (1..).find_map(|ahead| match self.peek(ahead) {
            Some(token) if token.kind == Kind::Word && self.vocabulary.is_genus(&token.text) => {
                None
            }
            Some(token) if matches!(token.kind, Kind::Female | Kind::Male | Kind::Open(_)) => None,
            token => Some(token),
        });
        first.flatten().is_some_and(|token| {
            let word = bare(&token.text);
            token.kind == Kind::Word
                && (self.vocabulary.species(&word).is_some() || self.is_hybrid_word(&word))
        })
    }

    /// In `rajah (clone A × clone B)` each side is a plant of the species before the bracket.
    pub(super) fn same_species_again(&mut self) {
        let around = self
            .frames
            .len()
            .checked_sub(2)
            .and_then(|around| self.frames[around].parents.last());
        let leaf = around.and_then(|parent| match self.builder.part(parent.part) {
            Part::Leaf(leaf) => Some(leaf.clone()),
            _ => None,
        });
        let part = self
            .builder
            .leaf(leaf.unwrap_or(Leaf::Unknown(Unknown::NotRecorded)));
        self.add_parent(part, None);
    }

    /// Puts the formula of a bracket in the place of the name or species before it.
    pub(super) fn give_parentage(&mut self, part: PartId, column: usize) -> Result<(), Refusal> {
        let Some(parent) = self.frame().parents.last_mut() else {
            return Ok(());
        };
        // The formula now stands in the name's place: a second one, or the word hybrid, is no longer said of the name.
        let (named, name) = (parent.part, parent.name.take());
        let part = match &name {
            Some(ParentName::Hybrid(epithet)) => self.check_name(part, epithet, column)?,
            _ => part,
        };
        let named = self.builder.marks(named).clone();
        if named.is_natural_hybrid() {
            self.natural_says_no_seed_parent(self.bred_from(part));
        }
        let marks = self.builder.marks(part);
        marks.tags.extend(named.tags);
        marks.certainty = marks.certainty.max(named.certainty);
        match name {
            Some(ParentName::Quoted(epithet)) if marks.cultivar().is_none() => {
                marks.tags.insert(0, Tag::Cultivar(epithet));
            }
            Some(ParentName::Label(label)) => marks.tags.insert(0, Tag::Label(label)),
            _ => {}
        }
        if let Some(parent) = self.frame().parents.last_mut() {
            parent.part = part;
        }
        Ok(())
    }

    /// Checks a hybrid epithet on the label against the species of the formula it stands beside, and gives the formula;
    /// where the two contradict each other and the name is believed, that of the name.
    pub(super) fn check_name(
        &mut self,
        part: PartId,
        name: &str,
        column: usize,
    ) -> Result<PartId, Refusal> {
        if !self.check_names {
            return Ok(part);
        }
        let row = self
            .vocabulary
            .named_hybrid(name)
            .cloned()
            .unwrap_or_default();
        let named = self.vocabulary.parents_of(&row);
        let Some(set) = self.parent_set(part).filter(|_| !named.is_empty()) else {
            let text = format!("×{name} could not be checked: not all parents are known");
            self.notes.say(NoteCode::NameNotChecked, text);
            return Ok(part);
        };
        if set == named {
            self.notes.say(
                NoteCode::NameFits,
                format!("×{name} ({}) fits the formula", row.status),
            );
            self.unordered.extend(row.natural.then_some(part));
            return Ok(part);
        }
        let text = format!(
            "×{name} is {}, but the formula is of {}; one of them is wrong",
            listed(&named),
            listed(&set)
        );
        let refusal = Refusal::new(RefusalCode::NameContradictsFormula, column, text);
        match self.ask(refusal.clone(), 2)? {
            0 => Ok(part),
            _ => self.text_as_part(&row.formula).ok_or(refusal),
        }
    }

    /// A natural hybrid's name lists its two parents in no order of sex, unless the label marks or states one.
    pub(super) fn leave_unordered(&mut self) {
        for part in std::mem::take(&mut self.unordered) {
            let base = self.bred_from(part);
            let Part::Cross(cross) = *self.builder.part(base) else {
                continue;
            };
            let leaf = |side| matches!(self.builder.part(side), Part::Leaf(_));
            if cross.direction == Direction::Assumed && leaf(cross.seed) && leaf(cross.pollen) {
                self.natural_says_no_seed_parent(base);
            }
        }
    }
}

/// What a remark says of the order of parents; that only unmarked crosses are meant goes without saying, for marks come first.
fn order_said(said: &str) -> Option<Basis> {
    let unmarked = ["unmarked crosses: ", "unmarked cross: ", "unmarked: "];
    let order = unmarked
        .iter()
        .find_map(|start| said.strip_prefix(start))
        .unwrap_or(said);
    match order {
        "seed parent first" | "♀ first" | "f first" | "female first" => Some(Basis::SeedFirst),
        "seed parent assumed first" | "♀ assumed first" | "f assumed first" => {
            Some(Basis::SeedAssumedFirst)
        }
        _ => None,
    }
}

/// A few epithets for a message.
fn listed(set: &BTreeSet<String>) -> String {
    let first: Vec<String> = set.iter().take(6).map(|name| shown(name)).collect();
    let more = if set.len() > 6 { ", …" } else { "" };
    format!("{}{more}", first.join(", "))
}
