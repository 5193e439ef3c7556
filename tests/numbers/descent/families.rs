//! Ancestors, descendants and parts of a pedigree, against closures built step by step.

use podbook::kinship::Kinship;
use podbook::lineage::{Founding, Origin, Pedigree, PlantRow};

use crate::tables::SplitMix64;
use crate::worlds::random_pedigree;

/// Adds parents (or offspring) until nothing changes.
fn closure(pedigree: &Pedigree, start: &[PlantRow], up: bool, rounds: usize) -> Vec<PlantRow> {
    let mut inside = start.to_vec();
    for _ in 0..rounds {
        let wider = pedigree.plants().filter(|&plant| {
            inside.contains(&plant)
                || pedigree.plants().any(|other| {
                    let (child, parent) = if up { (other, plant) } else { (plant, other) };
                    inside.contains(&other) && pedigree.parents(child).any(|named| named == parent)
                })
        });
        inside = wider.collect();
    }
    inside
}

#[test]
fn closures_agree() {
    let mut rng = SplitMix64(51);
    for round in 0..30 {
        let pedigree = random_pedigree(&mut rng, 4, 12, round % 6);
        let start: Vec<PlantRow> = (0..3)
            .map(|_| PlantRow(rng.below(pedigree.len()) as u32))
            .collect();
        assert_eq!(
            pedigree.with_ancestors(&start),
            closure(&pedigree, &start, true, 40)
        );
    }
}

#[test]
fn a_part_keeps_its_kinships() {
    let mut rng = SplitMix64(52);
    for round in 0..30 {
        let pedigree = random_pedigree(&mut rng, 4, 14, round % 6);
        let start: Vec<PlantRow> = (0..3)
            .map(|_| PlantRow(rng.below(pedigree.len()) as u32))
            .collect();
        let part = pedigree.extract(&start);
        let whole = Kinship::of(&pedigree, &Founding::unrelated()).unwrap();
        let alone = Kinship::of(&part.pedigree, &Founding::unrelated()).unwrap();
        for (at, &row) in part.rows.iter().enumerate() {
            assert_eq!(part.row(row), Some(PlantRow(at as u32)));
            let origin = part
                .pedigree
                .origin_row(PlantRow(at as u32))
                .map(|index| part.origins[index.index()]);
            assert_eq!(origin, pedigree.origin_row(row));
            for (beside, &other) in part.rows.iter().enumerate() {
                let (inside, outside) = (
                    alone.pair(PlantRow(at as u32), PlantRow(beside as u32)),
                    whole.pair(row, other),
                );
                assert!((inside - outside).abs() < 1e-15);
            }
        }
        let outside = pedigree.plants().find(|plant| !part.rows.contains(plant));
        assert_eq!(outside.and_then(|plant| part.row(plant)), None);
    }
}

#[test]
fn a_million_generations_are_walked() {
    let mut pedigree = Pedigree::default();
    let mut last = pedigree.add_founder();
    for _ in 0..1_000_000 {
        let origin = pedigree.add_origin(Origin::certain(Some(last), None));
        last = pedigree.add_offspring(origin);
    }
    assert_eq!(pedigree.with_ancestors(&[last]).len(), 1_000_001);
    assert_eq!(pedigree.extract(&[last]).pedigree.len(), 1_000_001);
}
