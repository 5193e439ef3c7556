//! The shares under each possible pair of parents.

use super::error::ParentageError;
use super::share::Share;
use crate::analysis::kinship::{DrawnOf, drawn_of};
use crate::context::Context;
use crate::lineage::{Pair, PlantRow};
use crate::registry::OriginRow;

/// One possible pair of parents.
#[derive(Clone, Debug, PartialEq)]
pub struct Possibility {
    /// The pair.
    pub parents: DrawnOf,
    /// What is chosen further back; empty where the unit's own parents are what is open.
    pub further_back: Vec<Choice>,
    /// How likely, 0 to 1; `None` when no weights are stated.
    pub chance: Option<f64>,
    /// Shares of its seedlings, largest first.
    pub shares: Vec<Share>,
}

/// Ancestors, and the pair their parents are if they are this one.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Ancestors that have it together, ascending; at least one.
    pub of: Vec<PlantRow>,
    /// The pair.
    pub pair: Pair,
    /// The pair in codes.
    pub parents: DrawnOf,
    /// How likely, 0 to 1; `None` when no weights are stated.
    pub chance: Option<f64>,
}

/// All possible pairs of an origin; none when there is only one.
///
/// # Errors
/// When the line is too long for exact shares.
pub(super) fn possibilities(
    context: &Context,
    origin: OriginRow,
) -> Result<Vec<Possibility>, ParentageError> {
    let (lineage, descent) = (context.lineage(), context.descent());
    let of = &lineage.pedigree[origin];
    if of.pairs.len() < 2 {
        return Ok(Vec::new());
    }
    let chances = of.weights().map(|_| of.chances());
    let possible = of.pairs.iter().enumerate().map(|(at, pair)| {
        let shares = descent.shares_of_pair(lineage, pair)?.into_iter();
        Ok(Possibility {
            parents: drawn_of(context, origin, pair),
            further_back: Vec::new(),
            chance: chances.as_ref().map(|chances| chances[at]),
            shares: shares.map(|share| Share::new(share, None)).collect(),
        })
    });
    possible.collect()
}

/// Whether no species has a share whichever the parents are.
pub(super) fn nothing_in_common(possible: &[Possibility]) -> bool {
    let has = |of: &Possibility, row: &Share| of.shares.iter().any(|one| one.of == row.of);
    let in_each = |row: &Share| possible.iter().all(|of| has(of, row));
    !possible.is_empty() && !possible.iter().any(|of| of.shares.iter().any(in_each))
}
