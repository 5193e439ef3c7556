//! Which parents hang on a single ramet? A sole ramet is one rotten stem away from the end of its line.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::observation::parent_of::set_nothing;
use crate::observation::pieces_here;
use crate::record::parents;
use crate::registry::{Pair, PlantRow};
use std::collections::BTreeMap;

/// What a plant is parent of: as mother surely, as father surely, as one of several possible mothers, and fathers.
#[derive(Default)]
struct Offspring<'t> {
    of_side: [Vec<&'t str>; 4],
}

const SIDES: [&str; 4] = [
    "mother of",
    "father of",
    "perhaps mother of",
    "perhaps father of",
];

impl Offspring<'_> {
    fn is_sure(&self) -> bool {
        self.of_side[..2].iter().any(|of| !of.is_empty())
    }
}

/// Crosses named in full before the rest is only counted.
const NAMED: usize = 4;

/// A note for every living parent of which one ramet is left.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let mut of_plant: BTreeMap<PlantRow, Offspring> = BTreeMap::new();
    let crosses = context.registry.crosses.iter();
    for cross in crosses.filter(|cross| !set_nothing(cross)) {
        for parent in parents(&cross.page) {
            if let Some(plant) = context.plant(parent.code) {
                let offspring = of_plant.entry(plant).or_default();
                let of = |pair: &Pair| match parent.bore_the_seed {
                    true => pair.seed,
                    false => pair.pollen,
                };
                let pairs = &context.registry[cross.origin].pairs;
                let perhaps = pairs.iter().any(|pair| of(pair) != Some(plant));
                let side = usize::from(!parent.bore_the_seed) + 2 * usize::from(perhaps);
                let side = &mut offspring.of_side[side];
                if side.last() != Some(&cross.page.code) {
                    side.push(cross.page.code);
                }
            }
        }
    }
    of_plant
        .iter()
        .filter_map(|(plant, offspring)| of_parent(context, *plant, offspring))
        .collect()
}

fn of_parent(context: &CheckContext, plant: PlantRow, offspring: &Offspring) -> Option<Finding> {
    let registry = context.registry;
    let code = registry.code(plant);
    let pieces = pieces_here(registry, plant, context.today);
    let finding = match pieces {
        1 => Finding::note(
            Code("sole-ramet"),
            match offspring.is_sure() {
                true => format!("{code} is a parent and a single plant"),
                false => format!("{code} is a possible parent and a single plant"),
            },
        )
        .found(told(offspring))
        .needed("a second piece, as a safeguard")
        .help("take a cutting or divide it; record it under `ramets`"),
        0 if ended_by_ramets(context, plant) => Finding::note(
            Code("no-ramet-left"),
            format!("every piece of {code} has died or left, but no fate of {code} is recorded"),
        )
        .found(told(offspring))
        .needed("nothing, if no piece is left: the plant ended with its last one")
        .help("record the piece that is left, if there is one"),
        _ => return None,
    };
    Some(finding.at(registry.place(plant)))
}

/// Whether every ramet of a plant has come to its end, none of them with another grower, and nothing is said of the plant itself.
fn ended_by_ramets(context: &CheckContext, plant: PlantRow) -> bool {
    let (registry, ramets) = (context.registry, context.registry.ramets(plant));
    let mut fates = ramets.iter().filter_map(|piece| piece.fate.as_ref());
    let is_elsewhere = fates.any(|fate| fate.handed_on().is_some());
    registry.fate(plant).is_none() && !ramets.is_empty() && !is_elsewhere
}

fn told(offspring: &Offspring) -> String {
    let told: Vec<String> = SIDES
        .iter()
        .zip(&offspring.of_side)
        .filter(|(_, crosses)| !crosses.is_empty())
        .map(|(side, crosses)| {
            let named = crosses[..crosses.len().min(NAMED)].join(", ");
            match crosses.len().saturating_sub(NAMED) {
                0 => format!("{side} {named}"),
                more => format!("{side} {named} and {more} more"),
            }
        })
        .collect();
    told.join("; ")
}
