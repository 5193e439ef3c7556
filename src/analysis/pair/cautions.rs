//! What to keep in mind before this pollination.

use crate::analysis::kinship::Assumption;
use crate::analysis::pair::answer::{PairInbreeding, PairOptions, PairReport};
use crate::analysis::pair::impossible::End;
use crate::analysis::set_aside::SetAside;

/// One thing to keep in mind.
#[derive(Clone, Debug, PartialEq)]
pub enum Caution {
    /// A remark on the seedlings' formula, as naming words it.
    Name(String),
    /// A parent stands elsewhere.
    Elsewhere(End),
    /// Only pollen in hand is left of the pollen parent.
    OnlyPollenLeft(End),
    /// What kinship assumes.
    Kinship(Assumption),
    /// Seedlings are inbred.
    Inbred {
        /// How closely.
        degree: Degree,
        /// Whether that depends on who the parents were.
        perhaps: bool,
    },
    /// What the spread assumes.
    Spread,
    /// Pods set aside from the spread of a trait, by its name.
    SetAside(String, SetAside),
    /// What the midparent is, and the heritability assumed.
    Midparent(f64),
    /// Whom to ask before anything crosses a border or is sold.
    Border,
}

/// How inbred seedlings are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Degree {
    /// From 1/16.
    Some,
    /// From 1/8.
    Close,
    /// From 1/4.
    VeryClose,
}

impl PairReport {
    pub(crate) fn to_keep_in_mind(&self, options: PairOptions) -> Vec<Caution> {
        let assumptions = self.inbreeding.rests_on.assumptions().into_iter();
        let mut told: Vec<Caution> = assumptions.map(Caution::Kinship).collect();
        told.extend(inbred(&self.inbreeding));
        told.push(Caution::Spread);
        let aside = self.traits.iter().filter(|row| row.set_aside.pods() > 0);
        told.extend(aside.map(|row| Caution::SetAside(row.name.clone(), row.set_aside)));
        if !self.traits.is_empty() {
            told.push(Caution::Midparent(options.heritability));
        }
        told.push(Caution::Border);
        told
    }
}

fn inbred(inbreeding: &PairInbreeding) -> Option<Caution> {
    let most = inbreeding.may_be.last();
    let degree = match most.map_or(inbreeding.expected, |of| of.value) {
        most if most >= 0.25 => Degree::VeryClose,
        most if most >= 0.125 => Degree::Close,
        most if most >= 0.0625 => Degree::Some,
        _ => return None,
    };
    Some(Caution::Inbred {
        degree,
        perhaps: !inbreeding.may_be.is_empty(),
    })
}
