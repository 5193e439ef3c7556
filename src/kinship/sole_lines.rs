//! Founders whose line hangs on one plant of a set: its death would end the line.

use crate::lineage::{Pedigree, PlantRow};

/// Who in a set descends from a plant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Carriers {
    None,
    One(PlantRow),
    Several,
}

/// Founders with the only plant of the set that descends from them (or is the founder itself), ascending. Where
/// parents are one of several, a plant counts as a carrier of each possible line.
pub fn sole_lines(pedigree: &Pedigree, set: &[PlantRow]) -> Vec<(PlantRow, PlantRow)> {
    let above = pedigree.extract(set);
    let mut carriers = vec![Carriers::None; above.rows.len()];
    for row in set.iter().filter_map(|&plant| above.row(plant)) {
        carriers[row.index()] = Carriers::One(above.rows[row.index()]);
    }
    for plant in above.pedigree.plants().rev() {
        let below = carriers[plant.index()];
        for parent in above.pedigree.parents(plant) {
            let held = &mut carriers[parent.index()];
            *held = match (*held, below) {
                (Carriers::None, other) | (other, Carriers::None) => other,
                (one, other) if one == other => one,
                _ => Carriers::Several,
            };
        }
    }
    let founders = above
        .pedigree
        .plants()
        .filter(|&plant| above.pedigree.origin_row(plant).is_none());
    let alone = founders.filter_map(|plant| match carriers[plant.index()] {
        Carriers::One(carrier) => Some((above.rows[plant.index()], carrier)),
        _ => None,
    });
    alone.collect()
}
