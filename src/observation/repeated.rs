//! How well the grower reads a trait: plants read twice within a week, anywhere in the registry.
//!
//! Two sittings make a table when they are dated to the day, not more than a week apart and share plants; each sitting
//! is of one table at most. What all plants grew in between is not counted as error, what some grew more than others is,
//! so the error comes out rather too large than too small. Readings left out of comparisons are left out here.

use crate::lineage::PlantRow;
use crate::observation::series::readings_of;
use crate::observation::trait_unit::TraitUnit;
use crate::record::Day;
use crate::registry::{Column, Registry, SittingHead, SittingRow, TraitRow};
use crate::statistics::Confidence;
use crate::statistics::repeatability::{Repeatability, repeatability};

/// Days within which a second reading of a plant is one of the same size (ours).
const SOON: i32 = 7;

impl TraitUnit {
    /// The same with how well the grower reads the trait, from plants read twice.
    pub fn with_own_readings(self, registry: &Registry, index: TraitRow) -> TraitUnit {
        let own = own_readings(registry, index, &self);
        TraitUnit { own, ..self }
    }
}

/// How well a trait is read, in the unit shown; `None` where too few plants were read twice.
pub(crate) fn own_readings(
    registry: &Registry,
    index: TraitRow,
    unit: &TraitUnit,
) -> Option<Repeatability> {
    let tables: Vec<Vec<Vec<f64>>> = twice_read(registry, index)
        .into_iter()
        .map(|(sittings, plants)| table(registry, (index, unit), sittings, &plants))
        .collect();
    repeatability(&tables, Confidence::P95).ok()
}

/// Pairs of sittings soon after one another, and the plants that stand in both.
fn twice_read(registry: &Registry, index: TraitRow) -> Vec<([SittingRow; 2], Vec<PlantRow>)> {
    let has_trait = |head: &SittingHead| {
        let mut columns = head.columns.iter();
        columns.any(|column| matches!(column, Column::Trait { index: of, .. } if *of == index))
    };
    let all = registry.all_sittings();
    let mut dated: Vec<(Day, SittingRow)> = all
        .filter(|(_, head)| has_trait(head))
        .filter_map(|(at, head)| {
            let when = registry.when(head.sitting.on);
            when.is_exact().then_some((when.first, at))
        })
        .collect();
    dated.sort_unstable();
    let mut used = vec![false; dated.len()];
    let mut found = Vec::new();
    for [first, second] in soon_after(registry, &dated) {
        if used[first] || used[second] {
            continue;
        }
        let sittings = [dated[first].1, dated[second].1];
        let plants = in_both(registry, sittings);
        if plants.len() > 1 {
            (used[first], used[second]) = (true, true);
            found.push((sittings, plants));
        }
    }
    found
}

/// Pairs of dated sittings, at most a week apart, that share a plant; in the order of their days. One pass over the rows of
/// all sittings, each plant remembering where it was read last.
fn soon_after(registry: &Registry, dated: &[(Day, SittingRow)]) -> Vec<[usize; 2]> {
    let mut last: Vec<Option<Read>> = vec![None; registry.plants().len()];
    let mut earlier: Vec<Read> = Vec::new();
    let mut pairs = Vec::new();
    for (at, &(day, sitting)) in dated.iter().enumerate() {
        for plant in registry[sitting].row_plants() {
            let mut before = last[plant.index()];
            let nearest = before;
            while let Some(read) = before.filter(|read| day.0 - dated[read.at as usize].0.0 <= SOON)
            {
                let other = read.at as usize;
                if other != at && pairs.last() != Some(&[other, at]) {
                    pairs.push([other, at]);
                }
                before = read.before.map(|index| earlier[index as usize]);
            }
            let before = nearest.map(|read| {
                earlier.push(read);
                earlier.len() as u32 - 1
            });
            last[plant.index()] = Some(Read {
                at: at as u32,
                before,
            });
        }
    }
    pairs.sort_unstable();
    pairs.dedup();
    pairs
}

/// That a plant was read at a sitting, and the reading before that.
#[derive(Clone, Copy)]
struct Read {
    at: u32,
    before: Option<u32>,
}

/// The plants of two sittings, in order.
fn in_both(registry: &Registry, [first, second]: [SittingRow; 2]) -> Vec<PlantRow> {
    let (a, b) = (&registry[first], &registry[second]);
    let mut here: Vec<PlantRow> = a.row_plants().collect();
    here.sort_unstable();
    here.dedup();
    let mut both: Vec<PlantRow> = b.row_plants().collect();
    both.retain(|plant| here.binary_search(plant).is_ok());
    both.sort_unstable();
    both.dedup();
    both
}

/// The two readings of each plant that has both, of the same pitcher class.
fn table(
    registry: &Registry,
    (index, unit): (TraitRow, &TraitUnit),
    sittings: [SittingRow; 2],
    plants: &[PlantRow],
) -> Vec<Vec<f64>> {
    let readings = readings_of(registry, plants, index).by_plant();
    let of_plant = readings.chunk_by(|a, b| a.plant == b.plant);
    let both = of_plant.filter_map(|same| {
        let [first, second] = sittings.map(|at| same.iter().find(|of| of.sitting == at));
        let (first, second) = (first?, second?);
        let values = vec![unit.shown(first.value), unit.shown(second.value)];
        (first.pitcher == second.pitcher).then_some(values)
    });
    both.collect()
}
