//! Which generation a formula of two species is, counted from their first cross.

use super::leaf::{Certainty, Leaf};
use super::part::{Formula, Part, PartId, Relation};
use super::structure::{Structure, backcross, leaves};
use std::collections::BTreeSet;

/// What a line of two species is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineOfTwo {
    /// The second generation within one cross, or so many; sibs of the first are the second.
    Filial(u32),
    /// Crossed back to one of the two.
    Backcross {
        /// The recurrent species, as named within its genus.
        to: String,
        /// How often.
        times: u32,
    },
}

/// The generation that a formula states; none of the first cross itself, of any other line, and where a name is not sure.
pub fn line_of_two(formula: &Formula) -> Option<LineOfTwo> {
    let is_sure = |(id, part): (PartId, &Part)| {
        let is_named = match part {
            Part::Leaf(leaf) => leaf.sure_species().is_some(),
            Part::Cross(cross) => cross.relation != Relation::SelfReported,
            Part::OneOf(_) | Part::Mixed(_) => false,
        };
        is_named && formula.marks(id).certainty == Certainty::Stated
    };
    let names: BTreeSet<String> = leaves(formula).map(Leaf::name).collect();
    if names.len() != 2 || !formula.parts().all(is_sure) {
        return None;
    }
    let structure = Structure::of(formula);
    let (mut number, mut at) = (1, formula.top());
    while let Part::Cross(cross) = formula.part(at)
        && cross.relation != Relation::Plain
    {
        number += 1;
        at = cross.seed;
    }
    let is_pure = |side| structure.only_taxon(side).is_some();
    match formula.part(at) {
        Part::Cross(cross) if is_pure(cross.seed) && is_pure(cross.pollen) => {
            (number > 1).then_some(LineOfTwo::Filial(number))
        }
        _ if number > 1 => None,
        _ => backcross(formula, &structure, at).map(|found| LineOfTwo::Backcross {
            to: found.recurrent,
            times: found.times as u32,
        }),
    }
}
