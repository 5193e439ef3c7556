//! What is assumed of founders when kinship is computed: batches as recorded, background kinship as stated.

use super::descent::Descent;
use crate::ancestry::Part;
use crate::lineage::{FounderStock, Founding, Lineage, Mixture, PlantRow};
use crate::numeric::nearest;
use crate::registry::Registry;

/// Founders are unrelated, except full siblings of one batch and species with a stated background kinship.
pub fn founding(registry: &Registry, lineage: &Lineage, descent: &Descent) -> Founding {
    let theta = |name: &str| {
        let row = registry.taxa.species.iter().find(|row| row.epithet == name);
        row.and_then(|row| row.background_kinship)
            .unwrap_or(0.0)
            .clamp(0.0, 1.0)
    };
    let background: Vec<f64> = descent.species.iter().map(|name| theta(name)).collect();
    let mut founding = Founding::with_background(background);
    for plant in (0..registry.founders().len()).map(PlantRow::new) {
        let batch = descent.founders.batch(plant);
        let sides = sides(descent, lineage, plant);
        founding.declare(plant, FounderStock { sides, batch });
    }
    founding
}

/// The species a founder's gene copies come from.
fn sides(descent: &Descent, lineage: &Lineage, plant: PlantRow) -> [Mixture; 2] {
    let shares = descent.shares_of(lineage, plant).unwrap_or_default();
    let mixture: Vec<(u32, f64)> = shares
        .iter()
        .filter_map(|(part, share)| match part {
            Part::Species(species) => Some((*species, nearest(share))),
            _ => None,
        })
        .collect();
    [mixture.clone(), mixture]
}
