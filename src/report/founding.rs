//! What is assumed of founders when kinship is computed: batches as recorded, background kinship as stated.

use super::descent::Descent;
use crate::ancestry::Part;
use crate::lineage::{FounderStock, Founding, Lineage, PlantRow};
use crate::registry::Registry;

/// The assumptions, and what of them had to be used.
pub struct Assumed {
    /// For the kinship engine.
    pub founding: Founding,
    /// Founders recorded as raised from a shared batch of seed.
    pub batches: usize,
    /// Species with a stated background kinship.
    pub backgrounds: usize,
}

/// Founders are unrelated, except full siblings of one batch and species with a stated background kinship.
pub fn founding(registry: &Registry, lineage: &Lineage, descent: &Descent) -> Assumed {
    let theta = |name: &str| {
        let row = registry.taxa.species.iter().find(|row| row.epithet == name);
        row.and_then(|row| row.background_kinship)
            .unwrap_or(0.0)
            .clamp(0.0, 1.0)
    };
    let background: Vec<f64> = descent.species.iter().map(|name| theta(name)).collect();
    let backgrounds = background.iter().filter(|theta| **theta > 0.0).count();
    let mut founding = Founding::with_background(background);
    let mut batches: Vec<&str> = registry
        .founders()
        .iter()
        .filter_map(|founder| founder.batch)
        .collect();
    batches.sort_unstable();
    let shared = |batch: &str| batches.iter().filter(|other| **other == batch).count() > 1;
    let mut in_batch = 0;
    for (row, founder) in registry.founders().iter().enumerate() {
        let plant = PlantRow(row as u32);
        let mut stock = stock(descent, lineage, plant);
        if let Some(batch) = founder.batch.filter(|batch| shared(batch)) {
            let number = batches.partition_point(|other| *other < batch);
            stock = stock.in_batch(number as u32);
            in_batch += 1;
        }
        founding.declare(plant, stock);
    }
    Assumed {
        founding,
        batches: in_batch,
        backgrounds,
    }
}

/// The species a founder's gene copies come from.
fn stock(descent: &Descent, lineage: &Lineage, plant: PlantRow) -> FounderStock {
    let shares = descent.shares_of(lineage, plant).unwrap_or_default();
    let mixture: Vec<(u32, f64)> = shares
        .iter()
        .filter_map(|(part, share)| match part {
            Part::Species(species) => Some((*species, share.as_f64())),
            _ => None,
        })
        .collect();
    FounderStock {
        sides: [mixture.clone(), mixture],
        batch: None,
    }
}
