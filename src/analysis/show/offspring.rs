//! The crosses a plant is a parent of.

use crate::context::Context;
use crate::lineage::{Link, PlantRow};
use crate::registry::CrossRow;

/// One cross a plant is a parent of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Offspring {
    /// The parent.
    pub parent: PlantRow,
    /// The cross.
    pub cross: CrossRow,
    /// On which side.
    pub side: Side,
    /// Whether it is so under every possible pair of parents.
    pub sure: bool,
}

/// A side of a cross.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// It bears the seed.
    Seed,
    /// It gives the pollen.
    Pollen,
}

/// The crosses of which a plant is, or may be, a parent, the oldest first.
pub fn offspring(context: &Context, plant: PlantRow) -> Vec<Offspring> {
    let registry = context.registry;
    let of = context.lineage().offspring_of(plant).into_iter();
    let crosses = of.filter_map(|(origin, link)| {
        let cross = registry.cross_of_origin(origin)?;
        let side = match link {
            Link::Pollen => Side::Pollen,
            _ => Side::Seed,
        };
        let sure = registry[origin].pairs.iter().all(|pair| match side {
            Side::Pollen => pair.pollen == Some(plant),
            Side::Seed => pair.seed == Some(plant),
        });
        Some(Offspring {
            parent: plant,
            cross,
            side,
            sure,
        })
    });
    crosses.collect()
}
