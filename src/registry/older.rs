//! A parent is older than its descendants, whatever it was mixed up with later.
//!
//! A seedling may be mixed up with one of its own descendants: a mother and her seedling whose tags were swapped. As a
//! parent its code means the plant it was before, and that plant can be of no cross that descends from it. Those crosses
//! are left out of the crosses it may descend from. Its record still names all pods, so evidence still names the doubt.

use super::mating::{Mating, Side};
use super::muddled::{Member, Muddled};
use super::origin::Pair;
use super::parents::Named;
use super::plants::{KnownBy, Unseen};
use super::row_types::{CrossRow, PlantRow};
use super::whole::Registry;
use std::collections::BTreeSet;

/// A seedling by the cross of its page and its place there.
type Seedling = (CrossRow, u32);

/// Who is a parent of which cross, before rows are given.
struct Descent<'a, 't> {
    unseen: &'a [Unseen<'t>],
    matings: &'a [Mating<'t>],
    /// Seedlings of which it is not known which cross they are of.
    in_doubt: BTreeSet<Seedling>,
}

/// Takes from every seedling in doubt the crosses that descend from it. One that would be left without any keeps all: then
/// a parent on record is wrong, which the order of the crosses shows as a loop.
pub(super) fn leave_out_descendants(
    muddled: &mut [Muddled],
    unseen: &[Unseen],
    matings: &[Mating],
) {
    let in_doubt = muddled.iter().filter_map(Muddled::seedling).collect();
    let descent = Descent {
        unseen,
        matings,
        in_doubt,
    };
    let parents = descent.parents_in_doubt();
    for of in muddled {
        let Some(parent) = of.seedling().filter(|seedling| parents.contains(seedling)) else {
            continue;
        };
        let mut older = of.crosses.clone();
        older.retain(|&cross| !descent.descends(cross, parent));
        if !older.is_empty() {
            of.pods.retain(|of| older.contains(of));
            of.crosses = older;
        }
    }
}

impl Registry<'_> {
    /// Crosses a plant may be of by its record, but not as the parent it was before it was mixed up, since they descend
    /// from it; in order, none for nearly every plant.
    pub fn descendants_it_may_be_of(&self, plant: PlantRow) -> Vec<CrossRow> {
        let pods = self.pods_it_may_be_of(plant).into_iter();
        let crosses: BTreeSet<CrossRow> = pods.map(|pod| pod.cross).collect();
        let Some(origin) = self.origin_of(plant) else {
            return Vec::new();
        };
        let own = &self[origin].pairs;
        let alike = |a: &Pair, b: &Pair| (a.seed, a.pollen) == (b.seed, b.pollen);
        let is_in = |pair: &Pair| own.iter().any(|one| alike(one, pair));
        let is_left_out = |cross: &CrossRow| {
            let pairs = &self[self[*cross].origin].pairs;
            !pairs.iter().all(is_in)
        };
        crosses.into_iter().filter(is_left_out).collect()
    }
}

impl Muddled {
    fn seedling(&self) -> Option<Seedling> {
        match self.member {
            Member::Seedling(local) => Some((self.cross, local)),
            Member::Pot(_) => None,
        }
    }
}

impl Descent<'_, '_> {
    fn sides(&self, cross: CrossRow) -> impl Iterator<Item = Side<'_>> {
        let pairs = self.matings[cross.index()].pairs.iter();
        pairs.flat_map(|&(seed, pollen, _)| [seed, pollen])
    }

    /// Those in doubt that are a parent.
    fn parents_in_doubt(&self) -> BTreeSet<Seedling> {
        if self.in_doubt.is_empty() {
            return BTreeSet::new();
        }
        let crosses = CrossRow::all(self.matings.len());
        let sides = crosses.flat_map(|cross| self.sides(cross));
        let named = sides.filter_map(|side| match side {
            Side::Plant(Named::Seedling { cross, local }, _) => Some((cross, local)),
            _ => None,
        });
        named
            .filter(|seedling| self.in_doubt.contains(seedling))
            .collect()
    }

    /// Whether a cross has a seedling among its ancestors. Past others in doubt it is not known, so they end the walk.
    fn descends(&self, cross: CrossRow, from: Seedling) -> bool {
        let mut seen = BTreeSet::from([cross]);
        let mut to_come = vec![cross];
        while let Some(cross) = to_come.pop() {
            for side in self.sides(cross) {
                let of = match side {
                    Side::Plant(Named::Seedling { cross, local }, _) if (cross, local) == from => {
                        return true;
                    }
                    Side::Plant(Named::Seedling { cross, local }, _) => {
                        (!self.in_doubt.contains(&(cross, local))).then_some(cross)
                    }
                    Side::Unseen(at, _) => match self.unseen[at as usize].known_by {
                        KnownBy::SeedlingOf(cross) => Some(cross),
                        _ => None,
                    },
                    _ => None,
                };
                to_come.extend(of.filter(|&of| seen.insert(of)));
            }
        }
        false
    }
}
