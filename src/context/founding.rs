//! What is assumed of founders when kinship is computed: batches as recorded, background kinship as stated.

use super::descent::Descent;
use crate::ancestry::Part;
use crate::lineage::{FounderStock, Founding, Lineage, PlantRow};
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
    let mut batches: Vec<&str> = registry
        .founders()
        .iter()
        .filter_map(|founder| founder.batch)
        .collect();
    batches.sort_unstable();
    // Sorted, so the others of a batch stand beside it.
    let first_of = |batch: &str| batches.partition_point(|other| *other < batch);
    let shared = |batch: &str| batches.get(first_of(batch) + 1) == Some(&batch);
    for (row, founder) in registry.founders().iter().enumerate() {
        let plant = PlantRow::new(row);
        let mut stock = stock(descent, lineage, plant);
        if let Some(batch) = founder.batch.filter(|batch| shared(batch)) {
            let number = first_of(batch);
            stock = stock.in_batch(number as u32);
        }
        founding.declare(plant, stock);
    }
    founding
}

/// The species a founder's gene copies come from.
fn stock(descent: &Descent, lineage: &Lineage, plant: PlantRow) -> FounderStock {
    let shares = descent.shares_of(lineage, plant).unwrap_or_default();
    let mixture: Vec<(u32, f64)> = shares
        .iter()
        .filter_map(|(part, share)| match part {
            Part::Species(species) => Some((*species, nearest(share))),
            _ => None,
        })
        .collect();
    FounderStock {
        sides: [mixture.clone(), mixture],
        batch: None,
    }
}
