//! A sign where a parent must come: of a hybrid's name, of a formula in brackets, or a parent is missing.

use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::token::{Kind, Token};

use super::frame::Join;
use super::operand::shown;
use super::parser::{Parser, bare};

impl Parser<'_> {
    /// A sign where a parent must come belongs to a name (`×mixta`) or means that a parent is missing.
    pub(super) fn sign_before_parent(&mut self) -> Result<(), Refusal> {
        let column = self.here().column;
        if self.frame().name_sign.is_some() {
            return self.refuse(
                RefusalCode::ParentMissing,
                format!("two signs in a row at column {column}; a parent is missing between them"),
            );
        }
        if self.frame().joins.last() == Some(&Join::Or) {
            self.at += 1;
            return Ok(());
        }
        if self.sign_before_formula() {
            let text =
                "the sign before the bracket names nothing; the formula in it is the parentage";
            self.notes.say(NoteCode::HybridSaysNoMore, text);
            return self.skip(1);
        }
        let named = match self.peek(1) {
            Some(next) if next.kind == Kind::Word => {
                self.is_hybrid_word(&next.text) || self.is_unlisted_name(&next.text, true)
            }
            Some(next) => matches!(next.kind, Kind::Single | Kind::Double),
            None => false,
        };
        if !named {
            return self.sign_without_name(column);
        }
        self.frame().name_sign = Some(column);
        self.at += 1;
        Ok(())
    }

    /// `N. × (lowii × ventricosa)`
    pub(super) fn sign_before_formula(&mut self) -> bool {
        self.frame().parents.is_empty() && self.opens_formula(1)
    }

    pub(super) fn sign_without_name(&mut self, column: usize) -> Result<(), Refusal> {
        let side = if self.frame().parents.is_empty() {
            "before"
        } else {
            "between the two signs, before"
        };
        let mut ahead = 1;
        while self
            .peek(ahead)
            .is_some_and(|next| self.vocabulary.is_genus(&next.text))
        {
            ahead += 1;
        }
        if let Some(next) = self.peek(ahead).filter(|next| next.kind == Kind::Word)
            && self.vocabulary.species(&bare(&next.text)).is_none()
            && self.vocabulary.accepted(&bare(&next.text)).is_none()
        {
            return self.not_listed(next, side, column);
        }
        self.refuse(
            RefusalCode::ParentMissing,
            format!(
                "a parent is missing {side} the sign at column {column}; write `?` if it is not known"
            ),
        )
    }

    /// `N. x briggsiana`: most likely a hybrid's name that the list does not hold.
    pub(super) fn not_listed(&self, name: &Token, side: &str, sign: usize) -> Result<(), Refusal> {
        let text = format!(
            "`{}` at column {} is not in the list of named hybrids; write its parents, or, if the sign at column {sign} crosses, the parent that is missing {side} it",
            shown(&name.text),
            name.column
        );
        let near = self.near_hybrids(&bare(&name.text));
        let refusal = Refusal::new(RefusalCode::NotANamedHybrid, name.column, text);
        Err(refusal.with_readings(near))
    }

    /// Named hybrids that a mistyped word may mean; never a species.
    pub(super) fn near_hybrids(&self, word: &str) -> Vec<String> {
        let near = self.vocabulary.near(word).into_iter();
        near.filter(|near| self.is_hybrid_word(near)).collect()
    }

    pub(super) fn is_hybrid_word(&self, word: &str) -> bool {
        let word = bare(word);
        let word = self.vocabulary.accepted(&word).unwrap_or(&word);
        self.vocabulary.named_hybrid(word).is_some()
    }
}
