//! Formulas of a registry's plants and crosses as plain text.

use super::plants::{Names, TopOf};
use crate::naming::{TooLong, Writing, breeder, formula_only};

impl Names<'_, '_> {
    /// The name in breeder order with its basis.
    ///
    /// # Errors
    /// When it is too long to write out.
    pub fn in_full(&self, top: TopOf) -> Result<String, TooLong> {
        breeder(
            &self.formula(top, false),
            &Writing::plain(self.vocabulary()),
        )
    }

    /// The formula without its basis.
    ///
    /// # Errors
    /// When it is too long to write out.
    pub fn formula_alone(&self, top: TopOf) -> Result<String, TooLong> {
        formula_only(
            &self.formula(top, false),
            &Writing::plain(self.vocabulary()),
        )
    }
}
