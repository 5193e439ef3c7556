//! Exact shares, generations and effective numbers.

use podbook::ancestry::{Composition, FounderDescent, Founders, Generations, Part, Shares};
use podbook::lineage::{Donor, Origin, Pair, Pedigree, PlantRow};
use proptest::prelude::*;

use crate::rational::{Rational, float, parse, ratio, zero};
use crate::tables::{Named, SplitMix64, json};
use crate::worlds::{random_pedigree, worlds};
use podbook::numeric::{Fraction, nearest};

/// The share of one part, zero if absent.
pub fn share_of(composition: &Composition, wanted: Part) -> Fraction {
    let found = composition.shares().into_iter();
    let found = found.filter(|&(part, _)| part == wanted);
    let mut found = found.map(|(_, share)| share);
    found
        .next()
        .unwrap_or_else(|| Fraction::new(0u32.into(), 1u32.into()))
}

/// The worked hybrid pedigree with its founders' species.
pub fn worked() -> (Named, Founders, serde_json::Value) {
    let table = json("01_fractions_heterozygosity.json");
    let named = Named::of(
        &table["individuals"],
        ["name", "seed_parent", "pollen_parent"],
    );
    let species = ["A", "B", "C", "D"];
    let founders = species.iter().enumerate().map(|(number, letter)| {
        (
            named.row(&format!("sp{letter}")),
            FounderDescent::Species(number as u32),
        )
    });
    let founders = founders.collect();
    (named, founders, table["individuals"].clone())
}

#[test]
fn shares_and_generations_of_the_worked_pedigree() {
    let (named, founders, rows) = worked();
    let shares = Shares::of(&named.pedigree, &founders);
    let generations = Generations::of(&named.pedigree);
    for row in rows.as_array().unwrap() {
        let name = row["name"].as_str().unwrap();
        let plant = named.row(name);
        let composition = shares.composition(&named.pedigree, plant).unwrap();
        for (number, letter) in ["A", "B", "C", "D"].iter().enumerate() {
            let wanted = row["fractions"][letter].as_str().map_or(zero(), parse);
            let share = share_of(&composition, Part::Species(number as u32));
            assert_eq!(parse(&share.to_string()), wanted, "{name} {letter}");
            assert_eq!(nearest(&share), float(&wanted));
        }
        assert_eq!(
            composition.species_count() as u64,
            row["n_species"].as_u64().unwrap()
        );
        let text = |field: &str| float(&parse(row[field].as_str().unwrap()));
        let generation = generations.generation(&named.pedigree, plant);
        assert_eq!(
            u64::from(generation.longest),
            row["gen_longest"].as_u64().unwrap(),
            "{name}"
        );
        assert_eq!(
            u64::from(generation.shortest),
            row["gen_shortest"].as_u64().unwrap(),
            "{name}"
        );
        assert_eq!(generation.mean, text("gen_mean"), "{name}");
    }
}

fn pair(seed: PlantRow, pollen: Option<PlantRow>, weight: u32) -> Pair {
    Pair {
        seed: Some(seed),
        pollen,
        weight,
        cases: 1,
    }
}

fn three_species() -> (Pedigree, Founders, [PlantRow; 3]) {
    let mut pedigree = Pedigree::default();
    let rows = [0, 1, 2].map(|_| pedigree.add_founder());
    let founders = rows
        .iter()
        .map(|&row| (row, FounderDescent::Species(row.0)))
        .collect();
    (pedigree, founders, rows)
}

fn told(shares: &Shares, composition: &Composition) -> String {
    let part = |part: Part| match part {
        Part::Species(number) => ["A", "B", "C", "D"][number as usize].to_owned(),
        Part::Unknown => "unknown".to_owned(),
        Part::OneOf(set) => format!("{:?}", shares.members(set)),
    };
    composition
        .shares()
        .into_iter()
        .map(|(p, share)| format!("{} {share}", part(p)))
        .collect::<Vec<_>>()
        .join(", ")
}

#[test]
fn one_of_several_fathers_is_never_split_without_weights() {
    let (mut pedigree, founders, [a, b, c]) = three_species();
    let pod = pedigree.add_origin(Origin {
        pairs: vec![pair(a, Some(b), 0), pair(a, Some(c), 0)],
        donor: Donor::WholePod,
        may_be_of: Vec::new(),
    });
    let child = pedigree.add_offspring(pod);
    let back = pedigree.add_origin(Origin::certain(Some(child), Some(b)));
    let grandchild = pedigree.add_offspring(back);
    let shares = Shares::of(&pedigree, &founders);
    let composition = shares.composition(&pedigree, child).unwrap();
    assert_eq!(
        told(&shares, &composition),
        "A 1/2, [Species(1), Species(2)] 1/2"
    );
    let composition = shares.composition(&pedigree, grandchild).unwrap();
    assert_eq!(
        told(&shares, &composition),
        "A 1/4, B 1/2, [Species(1), Species(2)] 1/4"
    );
}

#[test]
fn alternatives_that_agree_leave_nothing_open_and_sets_flatten() {
    let (mut pedigree, founders, [a, b, c]) = three_species();
    let open = pedigree.add_origin(Origin {
        pairs: vec![pair(a, Some(b), 0), pair(a, Some(c), 0)],
        donor: Donor::WholePod,
        may_be_of: Vec::new(),
    });
    let hybrid = pedigree.add_offspring(open);
    let second = Origin {
        pairs: vec![pair(hybrid, Some(a), 0), pair(c, None, 0)],
        donor: Donor::EachSeed,
        may_be_of: Vec::new(),
    };
    let second = pedigree.add_origin(second);
    let mixed = pedigree.add_offspring(second);
    let same = pedigree.add_origin(Origin {
        pairs: vec![pair(a, Some(b), 0), pair(b, Some(a), 0)],
        donor: Donor::EachSeed,
        may_be_of: Vec::new(),
    });
    let sure = pedigree.add_offspring(same);
    let shares = Shares::of(&pedigree, &founders);
    let text = |plant| told(&shares, &shares.composition(&pedigree, plant).unwrap());
    assert_eq!(
        text(mixed),
        "[Species(0), Species(1), Species(2), Unknown] 1"
    );
    assert_eq!(text(sure), "A 1/2, B 1/2");
}

#[test]
fn stated_weights_give_the_weighted_mean() {
    let (mut pedigree, founders, [a, b, c]) = three_species();
    let pairs = vec![pair(a, Some(b), 2), pair(a, Some(c), 1)];
    let pod = pedigree.add_origin(Origin {
        pairs,
        donor: Donor::EachSeed,
        may_be_of: Vec::new(),
    });
    let child = pedigree.add_offspring(pod);
    let half_stated = vec![pair(a, Some(b), 2), pair(a, Some(c), 0)];
    let pod = pedigree.add_origin(Origin {
        pairs: half_stated,
        donor: Donor::EachSeed,
        may_be_of: Vec::new(),
    });
    let unsure = pedigree.add_offspring(pod);
    let shares = Shares::of(&pedigree, &founders);
    let text = |plant| told(&shares, &shares.composition(&pedigree, plant).unwrap());
    assert_eq!(text(child), "A 1/2, B 1/3, C 1/6");
    assert_eq!(text(unsure), "A 1/2, [Species(1), Species(2)] 1/2");
}

#[test]
fn unknown_parents_and_received_labels_keep_their_share() {
    let (mut pedigree, founders, [a, b, c]) = three_species();
    let received = pedigree.add_founder();
    let label = Composition::from_counts(&[(Part::Species(1), 3), (Part::Unknown, 1)]).unwrap();
    let side = Composition::pure(Part::Species(2));
    let of_label = FounderDescent::Sides(Box::new([label, side]));
    let founders: Founders = [a, b, c]
        .map(|plant| (plant, founders.descent(plant).clone()))
        .into_iter()
        .chain([(received, of_label)])
        .collect();
    let stranger = pedigree.add_founder();
    let pod = pedigree.add_origin(Origin::certain(Some(received), None));
    let child = pedigree.add_offspring(pod);
    let pod = pedigree.add_origin(Origin::certain(Some(stranger), Some(a)));
    let other = pedigree.add_offspring(pod);
    let shares = Shares::of(&pedigree, &founders);
    let text = |plant| told(&shares, &shares.composition(&pedigree, plant).unwrap());
    assert_eq!(text(received), "B 3/8, C 1/2, unknown 1/8");
    assert_eq!(text(child), "B 3/16, C 1/4, unknown 9/16");
    assert_eq!(text(other), "A 1/2, unknown 1/2");
}

/// Backcrossing outgrows 128 bits after 127 generations, is exact to the limit, and is refused beyond.
#[test]
fn a_line_of_a_million_generations_is_answered_or_refused() {
    let (mut pedigree, founders, [a, b, _]) = three_species();
    let mut last = b;
    let mut line = Vec::new();
    for _ in 0..1_000_000 {
        let pod = pedigree.add_origin(Origin::certain(Some(last), Some(a)));
        last = pedigree.add_offspring(pod);
        line.push(last);
    }
    let shares = Shares::of(&pedigree, &founders);
    for (generation, &plant) in line.iter().enumerate().take(999) {
        let composition = shares.composition(&pedigree, plant).unwrap();
        let share = share_of(&composition, Part::Species(1));
        assert_eq!(share.numer(), &1u32.into());
        assert_eq!(share.denom().bits(), generation as u64 + 2);
    }
    assert!(shares.composition(&pedigree, line[999]).is_err());
    assert!(shares.composition(&pedigree, last).is_err());
    let generations = Generations::of(&pedigree);
    assert_eq!(generations.generation(&pedigree, last).longest, 1_000_000);
    assert_eq!(generations.generation(&pedigree, last).shortest, 1);
}

/// A line of equal crosses stays at one half however long it is.
#[test]
fn a_million_generations_of_sib_crosses_stay_exact() {
    let (mut pedigree, founders, [a, b, _]) = three_species();
    let mut parents = [a, b];
    for _ in 0..500_000 {
        let pod = pedigree.add_origin(Origin::certain(Some(parents[0]), Some(parents[1])));
        parents = [0, 1].map(|_| pedigree.add_offspring(pod));
    }
    let shares = Shares::of(&pedigree, &founders);
    let composition = shares.composition(&pedigree, parents[0]).unwrap();
    assert_eq!(told(&shares, &composition), "A 1/2, B 1/2");
}

#[test]
fn a_million_seedlings_share_their_pods() {
    let (mut pedigree, founders, [a, b, c]) = three_species();
    let mut parents = vec![a, b, c];
    let mut rng = SplitMix64(11);
    for _ in 0..2_500 {
        let pick = |rng: &mut SplitMix64| Some(parents[rng.below(parents.len())]);
        let (seed, pollen) = (pick(&mut rng), pick(&mut rng));
        let pod = pedigree.add_origin(Origin::certain(seed, pollen));
        let first = pedigree.add_offspring(pod);
        (1..400).for_each(|_| {
            pedigree.add_offspring(pod);
        });
        parents.push(first);
    }
    assert!(pedigree.len() > 1_000_000);
    let shares = Shares::of(&pedigree, &founders);
    for plant in pedigree.plants().step_by(997) {
        let sum = shares
            .composition(&pedigree, plant)
            .unwrap()
            .shares()
            .iter()
            .fold(zero(), |sum, (_, share)| sum + parse(&share.to_string()));
        assert_eq!(sum, ratio(1, 1));
    }
}

/// Shares by averaging over every world, founders of species by row number modulo 3, unknown parents kept apart.
fn expected(pedigree: &Pedigree, plant: PlantRow) -> Vec<Rational> {
    let mut mean = vec![zero(); 4];
    for world in worlds(pedigree) {
        let mut shares: Vec<Vec<Rational>> = Vec::new();
        for (x, parents) in world.parents.iter().enumerate() {
            shares.push(match parents {
                Some((s, d)) => (0..4)
                    .map(|k| (shares[*s][k].clone() + shares[*d][k].clone()) / ratio(2, 1))
                    .collect(),
                None => {
                    let species = if world.unknown[x] {
                        3
                    } else {
                        world.plants.iter().position(|&at| at == x).unwrap() % 3
                    };
                    (0..4).map(|k| ratio(i64::from(k == species), 1)).collect()
                }
            });
        }
        for (sum, share) in mean.iter_mut().zip(&shares[world.plants[plant.index()]]) {
            *sum += share.clone() * world.probability.clone();
        }
    }
    mean
}

pub fn species_by_row(pedigree: &Pedigree) -> Founders {
    let founders = pedigree
        .plants()
        .filter(|&plant| pedigree.origin_row(plant).is_none());
    founders
        .map(|plant| (plant, FounderDescent::Species(plant.0 % 3)))
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// With weights everywhere the shares are the mean over all worlds; without, the sure part never exceeds any
    /// world's and what is open fits what is left.
    #[test]
    fn shares_are_the_mean_over_all_worlds(seed in any::<u64>()) {
        let mut rng = SplitMix64(seed);
        let pedigree = random_pedigree(&mut rng, 4, 6, 3);
        let shares = Shares::of(&pedigree, &species_by_row(&pedigree));
        let weighted = pedigree.origins_touched(|origin| origin.weights().is_none());
        for plant in pedigree.plants() {
            let composition = shares.composition(&pedigree, plant).unwrap();
            let listed = composition.shares();
            let sum = listed.iter().fold(zero(), |sum, (_, share)| sum + parse(&share.to_string()));
            prop_assert_eq!(sum, ratio(1, 1));
            let mean = expected(&pedigree, plant);
            let parts = [Part::Species(0), Part::Species(1), Part::Species(2), Part::Unknown];
            for (part, wanted) in parts.into_iter().zip(&mean) {
                let sure = parse(&share_of(&composition, part).to_string());
                let open = listed.iter().filter(|(held, _)| matches!(held, Part::OneOf(set) if shares.members(*set).contains(&part)));
                let most = open.fold(sure.clone(), |sum, (_, share)| sum + parse(&share.to_string()));
                prop_assert!(sure <= *wanted && *wanted <= most);
                if !pedigree.origin_row(plant).is_some_and(|origin| weighted[origin.index()]) {
                    prop_assert_eq!(&sure, wanted);
                }
            }
        }
    }
}
