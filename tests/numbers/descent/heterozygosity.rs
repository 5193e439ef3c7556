//! Interspecific heterozygosity and two-copy chances.

use podbook::ancestry::{
    Composition, FounderDescent, Founders, Heterozygosities, Part, two_copies,
};
use podbook::lineage::{Origin, OriginRow, Pedigree, PlantRow};

use crate::rational::{Rational, float, parse, ratio, zero};
use crate::shares::{species_by_row, worked};
use crate::tables::SplitMix64;
use crate::worlds::{random_pedigree, worlds};

#[test]
fn heterozygosity_of_the_worked_pedigree() {
    let (named, founders, rows) = worked();
    let solved = Heterozygosities::of(&named.pedigree, &founders).unwrap();
    for row in rows.as_array().unwrap() {
        let name = row["name"].as_str().unwrap();
        let found = solved.heterozygosity(&named.pedigree, &founders, named.row(name));
        let exact = float(&parse(row["H_exact"].as_str().unwrap()));
        assert_eq!((found.certain, found.possible), (exact, exact), "{name}");
        assert!(!found.assumes_equal_chances);
    }
}

#[test]
fn unknown_parents_widen_and_labels_count() {
    let mut pedigree = Pedigree::default();
    let [a, b] = [0, 1].map(|_| pedigree.add_founder());
    let received = pedigree.add_founder();
    let half = Composition::from_counts(&[(Part::Species(0), 1), (Part::Species(1), 1)]).unwrap();
    let sides = [half, Composition::pure(Part::Species(0))];
    let founders: Founders = [
        (a, FounderDescent::Species(0)),
        (b, FounderDescent::Species(1)),
        (received, FounderDescent::Sides(Box::new(sides))),
    ]
    .into_iter()
    .collect();
    let mut child = |seed, pollen| {
        let pod = pedigree.add_origin(Origin::certain(seed, pollen));
        pedigree.add_offspring(pod)
    };
    let open = child(Some(a), None);
    let blank = child(None, None);
    let back = child(Some(open), Some(b));
    let labelled = child(Some(received), Some(b));
    let solved = Heterozygosities::of(&pedigree, &founders).unwrap();
    let of = |plant| {
        let found = solved.heterozygosity(&pedigree, &founders, plant);
        (found.certain, found.possible)
    };
    assert_eq!(of(open), (0.0, 1.0));
    assert_eq!(of(blank), (0.0, 1.0));
    assert_eq!(of(back), (0.5, 1.0));
    assert_eq!(of(received), (0.5, 0.5));
    assert_eq!(of(labelled), (0.75, 0.75));
}

/// Mean over worlds of the chance that both copies of a plant are one copy of one unknown founder.
fn mean_unknown_twice(pedigree: &Pedigree) -> Vec<Rational> {
    let mut mean = vec![zero(); pedigree.len()];
    for world in worlds(pedigree) {
        let own = world.identical_of(&world.unknown);
        for (row, &at) in world.plants.iter().enumerate() {
            mean[row] += own[at].clone() * world.probability.clone();
        }
    }
    mean
}

/// Mean over worlds of the chances for pairs of categories: species 0 to 2, and 3 for unknown.
pub fn mean_two_copies(pedigree: &Pedigree) -> Vec<Vec<Vec<Rational>>> {
    let mut mean = vec![vec![vec![zero(); 4]; 4]; pedigree.len()];
    for world in worlds(pedigree) {
        let mut species = vec![3; world.parents.len()];
        for (row, &at) in world.plants.iter().enumerate() {
            if !world.unknown[at] {
                species[at] = row % 3;
            }
        }
        let own = world.two_copies(&species, 4);
        for (row, &at) in world.plants.iter().enumerate() {
            for a in 0..4 {
                for b in 0..4 {
                    mean[row][a][b] += own[at][a][b].clone() * world.probability.clone();
                }
            }
        }
    }
    mean
}

#[test]
fn random_uncertain_pedigrees_agree_with_the_full_recursion() {
    let mut rng = SplitMix64(2024);
    for round in 0..40 {
        let pedigree = random_pedigree(&mut rng, 4, 7, round % 4);
        let founders = species_by_row(&pedigree);
        let solved = Heterozygosities::of(&pedigree, &founders).unwrap();
        let plants: Vec<PlantRow> = pedigree.plants().collect();
        let copies = two_copies(&pedigree, &founders, &plants).unwrap();
        let mean = mean_two_copies(&pedigree);
        let twice = mean_unknown_twice(&pedigree);
        for plant in pedigree.plants() {
            let j = &mean[plant.index()];
            let known = |a: usize, b: usize| a < 3 && b < 3;
            let sum = |keep: &dyn Fn(usize, usize) -> bool| {
                let all = (0..4).flat_map(|a| (0..4).map(move |b| (a, b)));
                all.filter(|&(a, b)| keep(a, b))
                    .fold(zero(), |sum, (a, b)| sum + &j[a][b])
            };
            let certain = sum(&|a, b| known(a, b) && a != b);
            let possible = ratio(1, 1) - sum(&|a, b| known(a, b) && a == b);
            let possible = possible - &twice[plant.index()];
            let found = solved.heterozygosity(&pedigree, &founders, plant);
            assert!(
                (found.certain - float(&certain)).abs() < 1e-14,
                "{found:?} {certain}"
            );
            assert!(
                (found.possible - float(&possible)).abs() < 1e-14,
                "{found:?} {possible}"
            );
            let number = |part: Part| match part {
                Part::Species(number) => number as usize,
                _ => 3,
            };
            for (part, same) in &copies[plant.index()].same {
                let a = number(*part);
                assert!(
                    (same.both - float(&j[a][a])).abs() < 1e-14,
                    "{part:?} {same:?} {}",
                    j[a][a]
                );
            }
            let listed = copies[plant.index()].same.iter().map(|(_, same)| same.both);
            let listed = listed.chain(
                copies[plant.index()]
                    .differing
                    .iter()
                    .map(|(_, chance)| *chance),
            );
            assert!((listed.sum::<f64>() - 1.0).abs() < 1e-13);
            for ([one, other], chance) in &copies[plant.index()].differing {
                let (a, b) = (number(*one), number(*other));
                assert!((chance - float(&(j[a][b].clone() + j[b][a].clone()))).abs() < 1e-14);
            }
        }
    }
}

/// A million generations of sib crosses: heterozygosity runs out and nothing overflows.
#[test]
fn a_million_generations_are_answered() {
    let mut pedigree = Pedigree::default();
    let [a, b] = [0, 1].map(|_| pedigree.add_founder());
    let founders: Founders = [
        (a, FounderDescent::Species(0)),
        (b, FounderDescent::Species(1)),
    ]
    .into_iter()
    .collect();
    let mut parents = [a, b];
    for _ in 0..500_000 {
        let pod = pedigree.add_origin(Origin::certain(Some(parents[0]), Some(parents[1])));
        parents = [0, 1].map(|_| pedigree.add_offspring(pod));
    }
    let solved = Heterozygosities::of(&pedigree, &founders).unwrap();
    let last = solved.heterozygosity(&pedigree, &founders, parents[0]);
    assert!(
        last.certain.abs() < 1e-12 && last.possible.abs() < 1e-12,
        "{last:?}"
    );
    assert_eq!(solved.heterozygosity_of_origin(OriginRow(0)).certain, 1.0);
    assert_eq!(solved.heterozygosity_of_origin(OriginRow(3)).certain, 0.375);
}

/// A plant of a hybrid's name alone passes on any of the name's species: 0 or 1 here is nothing of one of them, or all.
#[test]
fn a_hybrids_name_alone_may_pass_on_any_of_its_species() {
    let mut pedigree = Pedigree::default();
    let [a, c, named, other] = [0; 4].map(|_| pedigree.add_founder());
    let of = |one, two| {
        let counts = [(Part::Species(one), 1), (Part::Species(two), 1)];
        FounderDescent::Named(Box::new(Composition::from_counts(&counts).unwrap()))
    };
    let founders: Founders = [
        (a, FounderDescent::Species(0)),
        (c, FounderDescent::Species(2)),
        (named, of(0, 1)),
        (other, of(1, 3)),
    ]
    .into_iter()
    .collect();
    let mut child = |seed, pollen| {
        let pod = pedigree.add_origin(Origin::certain(Some(seed), Some(pollen)));
        pedigree.add_offspring(pod)
    };
    let [with_a, with_c] = [a, c].map(|plant| child(named, plant));
    let (both, back_to_c, back_to_a) = (child(named, other), child(with_c, c), child(with_c, a));
    // The name of species 0 and 1 is not behind this one, so species 0 and 3 are not joined.
    let apart = child(a, other);
    let solved = Heterozygosities::of(&pedigree, &founders).unwrap();
    let of = |plant| {
        let found = solved.heterozygosity(&pedigree, &founders, plant);
        (found.certain, found.possible)
    };
    assert_eq!(of(with_a), (0.0, 1.0));
    assert_eq!(of(with_c), (1.0, 1.0));
    assert_eq!(of(both), (0.0, 1.0));
    assert_eq!(of(back_to_c), (0.5, 0.5));
    assert_eq!(of(back_to_a), (0.5, 1.0));
    assert_eq!(of(apart), (1.0, 1.0));
}

/// A figure does not hang on what else grows in the house: not on a hybrid's name of other plants, nor on what others of a
/// batch of seed are called.
#[test]
fn a_neighbour_changes_nothing() {
    let mut pedigree = Pedigree::default();
    let [a, b, named, mate, odd, odder] = [0; 6].map(|_| pedigree.add_founder());
    let counts = [(Part::Species(0), 1), (Part::Species(1), 1)];
    let name = FounderDescent::Named(Box::new(Composition::from_counts(&counts).unwrap()));
    let mut child = |seed, pollen| {
        let pod = pedigree.add_origin(Origin::certain(Some(seed), Some(pollen)));
        pedigree.add_offspring(pod)
    };
    let primary = child(a, b);
    let (of_name, of_one_species, of_batch) =
        (child(named, a), child(odder, mate), child(odd, odder));
    let founders: Founders = [
        (a, FounderDescent::Species(0)),
        (b, FounderDescent::Species(1)),
        (named, name),
        (mate, FounderDescent::Species(2)),
        (odd, FounderDescent::Species(3)),
        (odder, FounderDescent::Species(2)),
    ]
    .into_iter()
    .collect();
    // Two that came as one batch of seed and bear unlike names.
    let founders = founders.with_batches([(odd, 0), (odder, 0)].into());
    let solved = Heterozygosities::of(&pedigree, &founders).unwrap();
    let of = |plant| {
        let found = solved.heterozygosity(&pedigree, &founders, plant);
        (found.certain, found.possible)
    };
    assert_eq!(of(primary), (1.0, 1.0));
    assert_eq!(of(of_name), (0.0, 1.0));
    assert_eq!(of(of_one_species), (0.0, 0.0));
    assert_eq!(of(of_batch), (1.0, 1.0));
}

/// Species 1 here is a provisional name; a plant of it may be of any species.
#[test]
fn a_provisional_name_may_be_any_species() {
    let mut pedigree = Pedigree::default();
    let [a, provisional, c] = [0; 3].map(|_| pedigree.add_founder());
    let founders: Founders = [a, provisional, c]
        .into_iter()
        .map(|plant| (plant, FounderDescent::Species(plant.0)))
        .collect();
    let founders = founders.with_provisional([1].into());
    let mut child = |seed, pollen| {
        let pod = pedigree.add_origin(Origin::certain(Some(seed), Some(pollen)));
        pedigree.add_offspring(pod)
    };
    let crossed = child(a, provisional);
    let (back, third, alone) = (child(crossed, a), child(crossed, c), child(a, c));
    let solved = Heterozygosities::of(&pedigree, &founders).unwrap();
    let of = |plant| {
        let found = solved.heterozygosity(&pedigree, &founders, plant);
        (found.certain, found.possible)
    };
    assert_eq!(of(provisional), (0.0, 1.0));
    assert_eq!(of(crossed), (0.0, 1.0));
    assert_eq!(of(back), (0.0, 0.5));
    assert_eq!(of(third), (0.5, 1.0));
    assert_eq!(of(alone), (1.0, 1.0));
}
