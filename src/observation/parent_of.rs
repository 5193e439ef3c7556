//! Of how many crosses a plant is a parent, surely and perhaps; and which plant bore a zone.

use crate::lineage::{Lineage, Link, PlantRow};
use crate::record::Pollination;
use crate::registry::{Cross, OriginRow, PlantOrRamet, Registry, Target};
use crate::wording::counted;
use std::collections::BTreeSet;

/// Crosses of which a plant is a parent, without those that set no pod.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct ParentOf {
    /// Those of which it is one whichever of the possible parents is the true one.
    pub sure: usize,
    /// Those of which it may be one: its pollen was in a mixture, or it is one of several possible parents.
    pub perhaps: usize,
}

/// Counts the crosses of a plant: those on one side of it, or all.
pub fn parent_of(
    registry: &Registry,
    lineage: &Lineage,
    plant: PlantRow,
    side: Option<Link>,
) -> ParentOf {
    let links = lineage.offspring_of(plant).into_iter();
    let of_side = links.filter(|(_, link)| side.is_none_or(|side| side == *link));
    let origins: BTreeSet<OriginRow> = of_side.map(|(origin, _)| origin).collect();
    let mut of = ParentOf::default();
    for origin in origins {
        // Plants mixed up across crosses have origins of their own, which no one pollinated.
        let Some(cross) = registry.cross_of_origin(origin) else {
            continue;
        };
        if set_nothing(&registry[cross]) {
            continue;
        }
        let mut pairs = registry[origin].pairs.iter();
        let is_sure = pairs.all(|pair| match side {
            Some(Link::Pollen) => pair.pollen == Some(plant),
            Some(_) => pair.seed == Some(plant),
            None => [pair.seed, pair.pollen].contains(&Some(plant)),
        });
        match is_sure {
            true => of.sure += 1,
            false => of.perhaps += 1,
        }
    }
    of
}

/// The plant that bore a zone, or its ramet where that is written down; `None` where several may have.
pub fn mother(registry: &Registry, cross: &Cross, of: &Pollination) -> Option<PlantOrRamet> {
    let named = of.plant.and_then(|code| registry.target(code));
    if let Some(named) = named.and_then(Target::plant_or_ramet) {
        return Some(named);
    }
    let pairs = &registry[cross.origin].pairs;
    let seed = pairs.first()?.seed?;
    let is_sure = pairs.iter().all(|pair| pair.seed == Some(seed));
    is_sure.then_some(PlantOrRamet::whole(seed))
}

/// Whether every zone was counted and no pod was found, and nothing else came of the cross.
pub fn set_nothing(cross: &Cross) -> bool {
    let page = &cross.page;
    let counted =
        |zones: &[Pollination]| !zones.is_empty() && zones.iter().all(|zone| zone.set == Some(0));
    counted(&page.pollinations)
        && page.pods.is_empty()
        && page.seed_lots.is_empty()
        && page.sowings.is_empty()
        && page.community_pots.is_empty()
        && cross.seedlings.is_empty()
}

impl ParentOf {
    /// That it is a parent of which no spare is on record; `None` of a parent of none.
    pub fn one_piece_left(self, plant: &str) -> Option<String> {
        let parent = self.words("a parent")?;
        Some(format!(
            "{plant} is {parent} and has one piece on record here"
        ))
    }

    /// `seed parent of 2 crosses, perhaps of 1 more`; `None` of a parent of none.
    pub fn words(self, role: &str) -> Option<String> {
        let crosses = |n: usize| counted(n, "cross", "crosses");
        match (self.sure, self.perhaps) {
            (0, 0) => None,
            (sure, 0) => Some(format!("{role} of {}", crosses(sure))),
            (0, perhaps) => Some(format!("perhaps {role} of {}", crosses(perhaps))),
            (sure, perhaps) => Some(format!(
                "{role} of {}, perhaps of {perhaps} more",
                crosses(sure)
            )),
        }
    }
}
