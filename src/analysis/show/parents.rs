//! The parents of a plant, with what is uncertain about them.

use crate::context::Context;
use crate::evidence::{Direction, Unit};
use crate::lineage::PlantRow;
use crate::registry::{CrossRow, Donor, OriginRow};

/// The parents of a plant.
#[derive(Clone, Debug, PartialEq)]
pub struct Parents {
    /// Pairs it may have, seed parent first; a parent that is not known is `None`.
    pub pairs: Vec<[Option<PlantRow>; 2]>,
    /// Whether it is known which parent bore the seed.
    pub direction: Direction,
    /// How one of several pairs is the true one.
    pub one_of: OneOf,
    /// Crosses it may be of since it was mixed up, though they descend from it as the parent it was before.
    pub since_mixed_up: Vec<CrossRow>,
}

/// How the pairs are to be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OneOf {
    /// There is one pair only.
    Alone,
    /// One of the pairs is the true one.
    One,
    /// Each seed has one of the pairs.
    EachSeed,
}

/// The parents of a plant; `None` for a founder.
pub fn parents(context: &Context, plant: PlantRow) -> Option<Parents> {
    let registry = context.registry;
    let origin = registry.origin_of(plant)?;
    let is_muddled = !registry.pods_it_may_be_of(plant).is_empty();
    Some(Parents {
        since_mixed_up: registry.descendants_it_may_be_of(plant),
        ..of(context, (origin, Unit::Plant(plant)), is_muddled)
    })
}

/// The parents that the page of a cross names, whatever became of its seedlings.
pub fn parents_of_cross(context: &Context, cross: CrossRow) -> Parents {
    let origin = context.registry[cross].origin;
    of(context, (origin, Unit::Cross(cross)), false)
}

fn of(context: &Context, (origin, unit): (OriginRow, Unit), is_muddled: bool) -> Parents {
    let origin = &context.registry[origin];
    let own = context.evidence().statement(unit);
    let pairs = origin.pairs.iter();
    Parents {
        direction: own.map_or(Direction::Known, |own| own.direction),
        one_of: match (origin.pairs.len(), origin.donor) {
            (1, _) => OneOf::Alone,
            (_, Donor::EachSeed) if !is_muddled => OneOf::EachSeed,
            _ => OneOf::One,
        },
        pairs: pairs.map(|pair| [pair.seed, pair.pollen]).collect(),
        since_mixed_up: Vec::new(),
    }
}
