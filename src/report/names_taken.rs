//! Founders whose names a figure takes as right although they may be wrong, in words.

use crate::analysis::names_taken::NamesTaken;
use crate::wording::listed;
use std::fmt::{Display, Formatter, Result};

/// `the name of Cf1 is provisional; Ali1 is known by a hybrid name alone`.
impl Display for NamesTaken {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let provisional = listed(&self.provisional);
        match self.provisional.len() {
            0 => {}
            1 => write!(out, "the name of {provisional} is provisional")?,
            _ => write!(out, "the names of {provisional} are provisional")?,
        }
        if !self.provisional.is_empty() && !self.by_hybrid_name.is_empty() {
            out.write_str("; ")?;
        }
        let by_name = listed(&self.by_hybrid_name);
        match self.by_hybrid_name.len() {
            0 => Ok(()),
            1 => write!(out, "{by_name} is known by a hybrid name alone"),
            _ => write!(out, "{by_name} are known by hybrid names alone"),
        }
    }
}

impl NamesTaken {
    /// Of what an expected spread takes as right.
    pub fn behind_a_spread(&self) -> String {
        format!(
            "{self}: the expected spread takes each such name as right; if one is wrong, seedlings may vary more or less"
        )
    }

    /// Of what a formula takes as right.
    pub fn behind_a_formula(&self) -> String {
        format!("{self}: the formula holds only if each such name is right")
    }
}
