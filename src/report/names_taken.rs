//! Founders whose names a figure takes as right although they may be wrong, in words.

use crate::analysis::names_taken::NamesTaken;
use crate::wording::{joined, listed};
use std::fmt::{Display, Formatter, Result};

/// `the name of Cf1 is provisional; Ali1 is known by a hybrid name alone`.
impl Display for NamesTaken {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let provisional = match self.provisional.len() {
            0 => None,
            1 => Some(format!(
                "the name of {} is provisional",
                self.provisional[0]
            )),
            _ => Some(format!(
                "the names of {} are provisional",
                listed(&self.provisional)
            )),
        };
        let by_name = match self.by_hybrid_name.len() {
            0 => None,
            1 => Some(format!(
                "{} is known by a hybrid name alone",
                self.by_hybrid_name[0]
            )),
            _ => Some(format!(
                "{} are known by hybrid names alone",
                listed(&self.by_hybrid_name)
            )),
        };
        out.write_str(&joined(provisional.into_iter().chain(by_name), "; "))
    }
}

impl NamesTaken {
    /// Of what an expected spread goes by.
    pub fn behind_a_spread(&self) -> String {
        format!("{self}: if such a name is wrong, seedlings may vary more or less than expected")
    }

    /// Of what a formula takes as right.
    pub fn behind_a_formula(&self) -> String {
        format!("{self}: the formula holds only if each such name is right")
    }
}
