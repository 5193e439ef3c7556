//! Where the last parent of a cross needs brackets of its own, so that what stands behind it is not read of the whole.

use crate::naming::formula::{Certainty, Cross, Formula, Leaf, Part, PartId};

use super::basis::Manner;

/// A number, an epithet, a doubt or "natural hybrid" behind the last parent would be read of the whole cross; a number
/// or epithet not where the first parent bears one too.
pub(super) fn needs_own_brackets(formula: &Formula, manner: Manner, cross: &Cross) -> bool {
    let marks = |id: PartId| formula.marks(id);
    let individual = |id: PartId| manner.tags && marks(id).is_individual();
    let said_of_whole = match marks(cross.pollen).certainty {
        Certainty::Doubtful => true,
        Certainty::Stated | Certainty::Claimed => {
            manner.tags && marks(cross.pollen).is_natural_hybrid()
        }
    };
    let quoted = matches!(formula.part(cross.seed), Part::Leaf(Leaf::Quoted { .. }));
    let last = matches!(formula.part(cross.pollen), Part::Leaf(_));
    let number = last && individual(cross.pollen) && !individual(cross.seed) && !quoted;
    said_of_whole || number
}
