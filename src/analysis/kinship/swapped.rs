//! Two seedlings whose labels were swapped: each may be of either cross, but both cannot be of one.

use super::kindred::{Kindred, Source};
use crate::kinship::{Draw, Possible, Taken, Way};
use crate::lineage::PlantRow;
use crate::registry::{MixUp, Registry};

impl Kindred<'_, '_, '_> {
    /// Whether two plants were mixed up with each other and with no others, and each may be of the same two crosses.
    /// Otherwise each draws its parents for itself.
    pub(super) fn swapped(&self, [one, other]: [PlantRow; 2]) -> bool {
        let Source::Registry(evidence) = &self.source else {
            return false;
        };
        let registry = evidence.registry();
        let origins = [one, other].map(|plant| self.pedigree.origin(plant));
        let [Some(first), Some(second)] = origins else {
            return false;
        };
        matches!(first.may_be_of[..], [(_, 1), (_, 1)])
            && first.may_be_of == second.may_be_of
            && mixed_up_only_with(registry, one, other)
            && mixed_up_only_with(registry, other, one)
    }
}

fn mixed_up_only_with(registry: &Registry, plant: PlantRow, other: PlantRow) -> bool {
    let open: Vec<&MixUp> = registry.open_mix_ups(plant).collect();
    matches!(open[..], [of] if of.with == [registry.code(other)])
}

/// The ways in which the two are of different crosses, their chances made to sum to 1 again.
pub(super) fn apart(possible: Possible, [one, other]: [PlantRow; 2]) -> Possible {
    let cross = |way: &Way, plant: PlantRow| {
        let mut drawn = way.drawn.iter();
        match drawn.find(|(draw, _)| *draw == Draw::Seed(plant))?.1 {
            Taken::PairOf(cross, _) | Taken::ParentsOf(cross) => Some(cross),
            Taken::Pair(_) => None,
        }
    };
    let mut ways = possible.ways;
    ways.retain(|way| match (cross(way, one), cross(way, other)) {
        (Some(one), Some(other)) => one != other,
        // Where a draw makes no difference to the figure, neither does which of the two it was.
        _ => true,
    });
    let all: f64 = ways.iter().map(|way| way.chance).sum();
    ways.iter_mut().for_each(|way| way.chance /= all);
    Possible { ways }
}

/// The figure to be expected.
pub(super) fn mean(possible: &Possible) -> f64 {
    let parts = possible.ways.iter().map(|way| way.chance * way.value);
    parts.sum()
}
