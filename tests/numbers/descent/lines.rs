//! Very long lines and very broad pods: answered, without overflow.

use podbook::kinship::Kinship;
use podbook::lineage::{Donor, Founding, Origin, Pair, Pedigree, PlantRow};

use crate::tables::SplitMix64;

fn solved(pedigree: &Pedigree) -> Kinship<'_> {
    Kinship::of(pedigree, &Founding::unrelated()).unwrap()
}

fn cross(pedigree: &mut Pedigree, seed: PlantRow, pollen: PlantRow) -> PlantRow {
    let origin = pedigree.add_origin(Origin::certain(Some(seed), Some(pollen)));
    pedigree.add_offspring(origin)
}

#[test]
fn a_million_generations() {
    let mut pedigree = Pedigree::default();
    let [a, b] = [0, 1].map(|_| pedigree.add_founder());
    let mut sibs = [a, b];
    for _ in 0..300_000 {
        let origin = pedigree.add_origin(Origin::certain(Some(sibs[0]), Some(sibs[1])));
        sibs = [0, 1].map(|_| pedigree.add_offspring(origin));
    }
    let mut back = cross(&mut pedigree, a, b);
    for _ in 0..1_000_000 {
        back = cross(&mut pedigree, back, a);
    }
    let kinship = solved(&pedigree);
    assert!((kinship.inbreeding(sibs[0]) - 1.0).abs() < 1e-12);
    assert!((kinship.inbreeding(back) - 0.5).abs() < 1e-12);
    assert!((kinship.pair(back, a) - 0.5).abs() < 1e-12);
    assert!((kinship.pair(sibs[0], sibs[1]) - 1.0).abs() < 1e-12);
    assert_eq!(kinship.inbreeding(PlantRow(4)), 0.25);
    // A few exact ones, from F = ¼ (1 + 2 F' + F").
    let (mut before, mut last) = (0.0, 0.0);
    for generation in 2..12 {
        let next = 0.25 * (1.0 + 2.0 * last + before);
        assert_eq!(kinship.inbreeding(PlantRow(2 * generation)), next);
        (before, last) = (last, next);
    }
    let marked: Vec<f64> = pedigree
        .plants()
        .map(|plant| f64::from(u8::from(plant == a)))
        .collect();
    assert!((0.5 * kinship.product(&marked)[back.index()] - 0.5).abs() < 1e-12);
}

#[test]
fn a_million_seedlings() {
    let mut pedigree = Pedigree::default();
    let mut parents: Vec<PlantRow> = (0..50).map(|_| pedigree.add_founder()).collect();
    let mut rng = SplitMix64(5);
    let mut pods = Vec::new();
    for _ in 0..2_500 {
        let [seed, pollen] = [0, 1].map(|_| parents[rng.below(parents.len())]);
        let origin = pedigree.add_origin(Origin::certain(Some(seed), Some(pollen)));
        let plants: Vec<PlantRow> = (0..400).map(|_| pedigree.add_offspring(origin)).collect();
        parents.push(plants[rng.below(400)]);
        pods.push((plants, seed, pollen));
    }
    let kinship = solved(&pedigree);
    let inbreeding = pedigree.plants().map(|plant| kinship.inbreeding(plant));
    assert_eq!(
        inbreeding.filter(|f| (0.0..=1.0).contains(f)).count(),
        1_000_050
    );
    for (plants, seed, pollen) in pods.iter().step_by(250) {
        let inbreeding = kinship.pair(*seed, *pollen);
        assert_eq!(kinship.inbreeding(plants[0]), inbreeding);
        assert_eq!(kinship.inbreeding(plants[399]), inbreeding);
        let sibs =
            0.25 * (kinship.pair(*seed, *seed) + kinship.pair(*pollen, *pollen) + 2.0 * inbreeding);
        assert_eq!(kinship.pair(plants[1], plants[2]), sibs);
    }
    let ones = vec![1.0; pedigree.len()];
    let total: f64 = kinship.product(&ones).iter().sum::<f64>() / 2.0;
    let size = pedigree.len() as f64;
    let all: Vec<PlantRow> = pedigree.plants().collect();
    assert!((kinship.diversity(&all).mean_kinship - total / (size * size)).abs() < 1e-12);
}

/// Seed parent, pollen parent and the chance of the pair.
type ChancePair = (Option<usize>, Option<usize>, f64);

/// Narrow and deep, where walks are given up for a table of what is still in use: against the dense table, with
/// unknown and uncertain parents among them. Pods of one plant, so that both kinds of donor are alike.
#[test]
fn deep_narrow_pedigrees_agree_with_the_dense_table() {
    for seed in 0..4 {
        let mut rng = SplitMix64(seed);
        let size = 1200;
        let mut pedigree = Pedigree::default();
        let mut parents: Vec<Vec<ChancePair>> = vec![Vec::new(); 6];
        (0..6).for_each(|_| {
            pedigree.add_founder();
        });
        for row in 6..size {
            let pick = |rng: &mut SplitMix64| Some(row - 1 - rng.below(6));
            let mut pairs = vec![(pick(&mut rng), pick(&mut rng), 1.0)];
            match rng.below(8) {
                0 => pairs[0].1 = None,
                1 => {
                    pairs = vec![
                        (pick(&mut rng), pick(&mut rng), 0.75),
                        (pick(&mut rng), None, 0.25),
                    ]
                }
                _ => {}
            }
            let donor = if rng.below(2) == 0 {
                Donor::WholePod
            } else {
                Donor::EachSeed
            };
            let plant = |row: Option<usize>| row.map(|row| PlantRow(row as u32));
            let listed = pairs.iter().map(|&(seed, pollen, chance)| Pair {
                seed: plant(seed),
                pollen: plant(pollen),
                weight: (4.0 * chance) as u32,
                cases: 1,
            });
            let origin = pedigree.add_origin(Origin {
                pairs: listed.collect(),
                donor,
                may_be_of: Vec::new(),
            });
            pedigree.add_offspring(origin);
            parents.push(pairs);
        }
        let mut table = vec![vec![0.0; size]; size];
        for x in 0..size {
            let of = |table: &[Vec<f64>], parent: Option<usize>, y: usize| {
                parent.map_or(0.0, |parent| table[parent][y])
            };
            for y in 0..x {
                let sum = parents[x]
                    .iter()
                    .map(|&(s, d, chance)| chance * 0.5 * (of(&table, s, y) + of(&table, d, y)));
                let value: f64 = sum.sum();
                table[x][y] = value;
                table[y][x] = value;
            }
            let inbreeding = parents[x]
                .iter()
                .map(|&(s, d, chance)| chance * 0.5 * s.map_or(0.0, |s| of(&table, d, s)));
            table[x][x] = 1.0 + inbreeding.sum::<f64>();
        }
        let kinship = solved(&pedigree);
        for x in 0..size {
            let found = kinship.inbreeding(PlantRow(x as u32));
            assert!(
                (found - (table[x][x] - 1.0)).abs() < 1e-11,
                "{x} {found} {}",
                table[x][x]
            );
        }
        for _ in 0..50 {
            let (x, y) = (rng.below(size), rng.below(size));
            let found = kinship.pair(PlantRow(x as u32), PlantRow(y as u32));
            assert!((2.0 * found - table[x][y]).abs() < 1e-11, "{x} {y}");
        }
    }
}
