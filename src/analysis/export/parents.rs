//! Which parents of a plant are recorded as one plant each. A side in doubt stays empty: no candidate is filled in.

use crate::evidence::{Direction, Evidence, Side, Statement, Unit};
use crate::lineage::PlantRow;
use crate::registry::PlantKind;

/// The parents of one plant, as far as each is one plant on record.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct KnownParents {
    /// Bore the seed.
    pub seed: Option<PlantRow>,
    /// Gave the pollen.
    pub pollen: Option<PlantRow>,
    /// Parents that are named, but have no record of their own: a species, a side of a label, some seedling of a cross.
    pub without_record: Vec<PlantRow>,
}

/// The known parents of a plant; none for a founder.
pub fn known_parents(evidence: &Evidence, plant: PlantRow) -> KnownParents {
    let registry = evidence.registry();
    let statement = evidence.statement(Unit::Plant(plant));
    let (Some(origin), Some(statement)) = (registry.origin_of(plant), statement) else {
        return KnownParents::default();
    };
    if !Unit::Plant(plant).mixed_up_with(registry).is_empty() {
        return KnownParents::default();
    }
    let pairs = &registry[origin].pairs;
    let mut known = KnownParents::default();
    let mut one = |side: Side| {
        let of = |pair: &crate::registry::Pair| match side {
            Side::Seed => pair.seed,
            Side::Pollen => pair.pollen,
        };
        let first = of(&pairs[0])?;
        if pairs.iter().any(|pair| of(pair) != Some(first)) || is_doubted(&statement, side) {
            return None;
        }
        if registry.kind(first) == PlantKind::Unseen {
            known.without_record.push(first);
            return None;
        }
        Some(first)
    };
    (known.seed, known.pollen) = (one(Side::Seed), one(Side::Pollen));
    known
}

/// Whether another plant may stand on this side: the direction is lost, the page or the envelope speaks of several, control
/// flowers let stray pollen in, or a parent had been mixed up.
fn is_doubted(statement: &Statement, side: Side) -> bool {
    let mut doubts = statement.doubts.iter();
    statement.direction == Direction::Lost || doubts.any(|(_, doubt)| doubt.leaves_open(side))
}
