//! Which hybrid name fits a formula: by the set of parent species, never by a part of it (Art. H.4.1).
//!
//! Order, nesting, generation and dose do not matter; rank does (Art. H.5). A suggestion carries its status; nothing here
//! replaces a formula by a name.

use std::collections::BTreeSet;

use super::formula::{Certainty, Formula, Part, leaves};
use super::vocabulary::{NamedHybridRow, Vocabulary};

/// A hybrid name that fits the parent set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Suggestion {
    /// The epithet without its sign.
    pub epithet: String,
    /// Nomenclatural status as the list states it.
    pub status: String,
    /// Whether it may be offered as a name; otherwise it is only an alias that labels bear.
    pub may_emit: bool,
    /// What stands behind the row.
    pub evidence: String,
    /// Year of publication, when known.
    pub year: Option<u16>,
    /// The rule it rests on.
    pub rule: &'static str,
    /// The cross is only claimed, so the name fits if the claim is true.
    pub if_claim_is_true: bool,
}

/// Why no hybrid name can be suggested.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoName {
    /// A parent is not known, provisional, only claimed or only labelled (Art. H.3.2 and our own caution).
    ParentsNotAllKnown,
    /// All parents are of one species.
    OneSpecies,
    /// No listed name has exactly these parents.
    NoneListed,
}

/// The names whose parent set is exactly that of the formula: those that may be given out first, then by year and epithet.
///
/// # Errors
/// Says why there is none.
pub fn suggest(formula: &Formula, vocabulary: &Vocabulary) -> Result<Vec<Suggestion>, NoName> {
    let set = parent_set(formula).ok_or(NoName::ParentsNotAllKnown)?;
    if set.len() < 2 {
        return Err(NoName::OneSpecies);
    }
    let claimed = formula.marks(formula.top()).certainty == Certainty::Claimed;
    let fits = |row: &&NamedHybridRow| vocabulary.parents_of(row) == set;
    let mut found: Vec<Suggestion> = vocabulary
        .named_hybrids()
        .filter(fits)
        .map(|row| suggestion(row, claimed))
        .collect();
    found.sort_by_key(|name| {
        (
            !name.may_emit,
            name.year.unwrap_or(u16::MAX),
            name.epithet.clone(),
        )
    });
    if found.is_empty() {
        Err(NoName::NoneListed)
    } else {
        Ok(found)
    }
}

/// The epithets of all parent species; `None` when an end may be no species, or a father is one of several. Of a
/// cross that is claimed as a whole they are those claimed.
fn parent_set(formula: &Formula) -> Option<BTreeSet<String>> {
    let open = |part: &Part| matches!(part, Part::OneOf(_) | Part::Mixed(_));
    let is_unsure = |(id, _)| {
        let certainty = formula.marks(id).certainty;
        certainty == Certainty::Doubtful || (certainty == Certainty::Claimed && id != formula.top())
    };
    if formula.parts().any(is_unsure) || formula.parts().any(|(_, part)| open(part)) {
        return None;
    }
    leaves(formula)
        .map(|leaf| leaf.sure_species().map(str::to_owned))
        .collect()
}

fn suggestion(row: &NamedHybridRow, if_claim_is_true: bool) -> Suggestion {
    Suggestion {
        epithet: row.epithet.clone(),
        status: row.status.clone(),
        may_emit: row.may_emit,
        evidence: row.evidence.clone(),
        year: row.year,
        rule: "H.4.1",
        if_claim_is_true,
    }
}
