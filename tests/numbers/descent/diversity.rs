//! Diversity of sets: published measures on worked examples, and brute force.

use podbook::kinship::{
    Kinship, effective_ancestors, marginal_ancestors, representation, sole_lines,
};
use podbook::lineage::{Donor, Founding, Origin, OriginRow, Pair, Pedigree, PlantRow};

use crate::rational::{float, parse};
use crate::tables::{Named, SplitMix64, json};
use crate::worlds::random_pedigree;

fn close(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() < 1e-14 * wanted.abs().max(1.0)
}

#[test]
fn worked_examples() {
    let table = json("03_diversity.json");
    for (name, example) in table["examples"].as_object().unwrap() {
        let named = Named::of(&example["pedigree"], ["id", "seed", "pollen"]);
        let rows = |field: &str| -> Vec<PlantRow> {
            example[field]
                .as_array()
                .unwrap()
                .iter()
                .map(|id| named.row(id.as_str().unwrap()))
                .collect()
        };
        let exact = |field: &str| float(&parse(example[field].as_str().unwrap()));
        let set = rows("reference");
        let found = representation(&named.pedigree, &set);
        assert_eq!(
            found.founders.len() as u64,
            example["n_founders"].as_u64().unwrap()
        );
        for (id, value) in example["founder_contributions"].as_object().unwrap() {
            let row = named.row(id);
            let contribution = found
                .founders
                .iter()
                .find(|founder| founder.0 == row)
                .unwrap()
                .1;
            assert_eq!(
                contribution,
                float(&parse(value.as_str().unwrap())),
                "{name} {id}"
            );
        }
        assert_eq!(
            found.effective_founders,
            exact("effective_founders"),
            "{name}"
        );
        let chosen = marginal_ancestors(&named.pedigree, &set, usize::MAX);
        assert_eq!(
            chosen
                .iter()
                .map(|ancestor| ancestor.plant.unwrap())
                .collect::<Vec<_>>(),
            rows("ancestors_in_order"),
            "{name}"
        );
        for (at, ancestor) in chosen.iter().enumerate() {
            let wanted = float(&parse(
                example["marginal_contributions"][at].as_str().unwrap(),
            ));
            assert_eq!(ancestor.contribution, wanted, "{name} {at}");
            assert_eq!(
                ancestor.tied,
                example["tie_at_step"][at].as_bool().unwrap(),
                "{name} {at}"
            );
        }
        assert!(
            close(effective_ancestors(&chosen), exact("effective_ancestors")),
            "{name}"
        );
        let half = (1..=chosen.len())
            .find(|&n| chosen[..n].iter().map(|a| a.contribution).sum::<f64>() >= 0.5);
        assert_eq!(
            half.unwrap() as u64,
            example["n_ancestors_for_50pct"].as_u64().unwrap()
        );
        let kinship = Kinship::of(&named.pedigree, &Founding::unrelated()).unwrap();
        let diversity = kinship.diversity(&set);
        assert!(
            close(diversity.mean_kinship, exact("mean_kinship")),
            "{name}"
        );
        assert!(
            close(diversity.gene_diversity(), exact("gene_diversity")),
            "{name}"
        );
        assert!(
            close(
                diversity.genome_equivalents(),
                exact("founder_genome_equivalents_1_over_2MK")
            ),
            "{name}"
        );
        assert_eq!(
            diversity.mean_inbreeding,
            example["mean_F"]
                .as_f64()
                .or_else(|| Some(exact("mean_F")))
                .unwrap()
        );
        for (at, &plant) in set.iter().enumerate() {
            let id = named.rows.iter().find(|row| *row.1 == plant).unwrap().0;
            let wanted = float(&parse(
                example["mean_kinship_by_plant"][id].as_str().unwrap(),
            ));
            assert!(close(diversity.of_plants[at], wanted), "{name} {id}");
        }
    }
}

/// The two examples of the methods page whose pedigree is told in words only: a set of the last hundred of a random
/// pedigree of a thousand.
#[test]
fn last_hundred_of_a_thousand() {
    let mut named = Named::default();
    for line in crate::tables::text("02_random_n1000.csv").lines().skip(1) {
        let row: Vec<&str> = line.split(',').collect();
        let parent = |field: usize| (row[field] != "-1").then_some(row[field]);
        named.add(row[0], parent(1), parent(2));
    }
    let plants: Vec<PlantRow> = named.pedigree.plants().collect();
    let set = &plants[900..];
    let found = representation(&named.pedigree, set);
    let rounded =
        |value: f64, wanted: f64| assert!((value - wanted).abs() <= 0.0005, "{value} {wanted}");
    rounded(found.effective_founders, 8.580);
    rounded(
        effective_ancestors(&marginal_ancestors(&named.pedigree, set, usize::MAX)),
        7.991,
    );
    let kinship = Kinship::of(&named.pedigree, &Founding::unrelated()).unwrap();
    rounded(kinship.diversity(set).mean_kinship, 0.16378);
    rounded(kinship.diversity(set).genome_equivalents(), 3.053);
}

#[test]
fn a_loss_is_what_the_rest_would_have() {
    let mut rng = SplitMix64(31);
    for round in 0..20 {
        let pedigree = random_pedigree(&mut rng, 5, 10, round % 3);
        let kinship = Kinship::of(&pedigree, &Founding::unrelated()).unwrap();
        let set: Vec<PlantRow> = pedigree.plants().skip(4).collect();
        let whole = kinship.diversity(&set);
        for (at, _) in set.iter().enumerate() {
            let rest: Vec<PlantRow> = set
                .iter()
                .enumerate()
                .filter(|&(other, _)| other != at)
                .map(|(_, &plant)| plant)
                .collect();
            let without = kinship.diversity(&rest);
            let wanted = whole.gene_diversity() - without.gene_diversity();
            assert!(
                (whole.loss[at] - wanted).abs() < 1e-13,
                "{} {wanted}",
                whole.loss[at]
            );
        }
        let table = kinship.table(&set);
        let sum: f64 = (0..set.len()).flat_map(|i| table.row(i).to_vec()).sum();
        assert!((whole.mean_kinship - sum / (set.len() * set.len()) as f64).abs() < 1e-13);
    }
}

#[test]
fn contributions_sum_to_one_with_what_is_unknown() {
    let mut rng = SplitMix64(8);
    for _ in 0..50 {
        let pedigree = random_pedigree(&mut rng, 4, 9, 6);
        let set: Vec<PlantRow> = pedigree.plants().skip(6).collect();
        let found = representation(&pedigree, &set);
        let known: f64 = found.founders.iter().map(|founder| founder.1).sum();
        assert!((known + found.unknown - 1.0).abs() < 1e-13);
        assert!((found.unknown_contributions.iter().sum::<f64>() - found.unknown).abs() < 1e-13);
        let chosen = marginal_ancestors(&pedigree, &set, usize::MAX);
        let explained: f64 = chosen.iter().map(|ancestor| ancestor.contribution).sum();
        assert!((explained - 1.0).abs() < 1e-9, "{explained}");
        assert!(
            (found.effective_founders - brute_effective_founders(&pedigree, &set)).abs() < 1e-9
        );
    }
}

/// A line of descent of one gene from a plant of the set up to a founder, with its chance.
type Line = (Vec<PlantRow>, f64);

/// All lines of a certain pedigree.
fn lines(pedigree: &Pedigree, set: &[PlantRow]) -> Vec<Line> {
    let mut open: Vec<Line> = set
        .iter()
        .map(|&plant| (vec![plant], 1.0 / set.len() as f64))
        .collect();
    let mut closed = Vec::new();
    while let Some((line, chance)) = open.pop() {
        match pedigree.origin(line[line.len() - 1]) {
            None => closed.push((line, chance)),
            Some(origin) => {
                for parent in [origin.pairs[0].seed, origin.pairs[0].pollen]
                    .into_iter()
                    .flatten()
                {
                    open.push(([&line[..], &[parent]].concat(), chance * 0.5));
                }
            }
        }
    }
    closed
}

/// Effective ancestors by listing every line of descent: an ancestor's marginal contribution is the chance of the
/// lines through it that pass no one chosen before.
#[test]
fn ancestors_agree_with_all_lines_listed() {
    let mut rng = SplitMix64(90);
    for _ in 0..40 {
        let pedigree = random_pedigree(&mut rng, 4, 9, 0);
        let set: Vec<PlantRow> = pedigree.plants().skip(pedigree.len() - 5).collect();
        let mut left = lines(&pedigree, &set);
        for ancestor in marginal_ancestors(&pedigree, &set, usize::MAX) {
            let through = |plant: PlantRow| {
                left.iter()
                    .filter(|line| line.0.contains(&plant))
                    .map(|line| line.1)
                    .sum::<f64>()
            };
            let best = pedigree.plants().map(through).fold(0.0, f64::max);
            let plant = ancestor.plant.unwrap();
            assert!((ancestor.contribution - best).abs() < 1e-12);
            assert!((through(plant) - best).abs() < 1e-12);
            left.retain(|line| !line.0.contains(&plant));
        }
        assert!(left.is_empty());
    }
}

/// The same ancestors in the same order when everything is counted from the start after each choice.
#[test]
fn ancestors_agree_with_a_count_from_the_start() {
    let mut rng = SplitMix64(91);
    for round in 0..60 {
        let pedigree = random_pedigree(&mut rng, 6, 20 + 4 * round, 0);
        let set: Vec<PlantRow> = pedigree.plants().skip(round % 9).step_by(2).collect();
        let size = set.len() as f64;
        let mut chosen = vec![false; pedigree.len()];
        for ancestor in marginal_ancestors(&pedigree, &set, usize::MAX) {
            let adds = added(&pedigree, &set, &chosen);
            let best = adds.iter().copied().fold(0.0, f64::max);
            let first = adds.iter().position(|&of| (of - best).abs() < 1e-12 * size);
            assert!((ancestor.contribution - best / size).abs() < 1e-12);
            assert_eq!(ancestor.plant.map(PlantRow::index), first);
            let ties = adds.iter().filter(|&&of| of == best).count();
            assert_eq!(ancestor.tied, ties > 1);
            chosen[first.unwrap()] = true;
        }
        assert!(
            added(&pedigree, &set, &chosen)
                .iter()
                .all(|&of| of < 1e-9 * size)
        );
    }
}

/// What each plant adds to the chosen ones, by one pass up for its count and one down for what is explained.
fn added(pedigree: &Pedigree, set: &[PlantRow], chosen: &[bool]) -> Vec<f64> {
    let mut counts = vec![0.0; pedigree.len()];
    set.iter().for_each(|plant| counts[plant.index()] += 1.0);
    let pair = |plant: PlantRow| pedigree.origin(plant).map(|origin| origin.pairs[0]);
    for plant in pedigree
        .plants()
        .rev()
        .filter(|plant| !chosen[plant.index()])
    {
        if let Some(pair) = pair(plant) {
            for parent in [pair.seed.unwrap(), pair.pollen.unwrap()] {
                counts[parent.index()] += 0.5 * counts[plant.index()];
            }
        }
    }
    let mut explained = vec![0.0; pedigree.len()];
    for plant in pedigree.plants() {
        explained[plant.index()] = match pair(plant) {
            _ if chosen[plant.index()] => 1.0,
            None => 0.0,
            Some(pair) => {
                let of = [pair.seed.unwrap(), pair.pollen.unwrap()]
                    .map(|parent| explained[parent.index()]);
                0.5 * (of[0] + of[1])
            }
        };
    }
    let of = counts.iter().zip(&explained).zip(chosen);
    of.map(|((count, explained), chosen)| {
        if *chosen {
            0.0
        } else {
            count * (1.0 - explained)
        }
    })
    .collect()
}

/// Founder contributions through explicit worlds, unknown parents standing in as founders.
fn brute_effective_founders(pedigree: &Pedigree, set: &[PlantRow]) -> f64 {
    let mut known = vec![0.0; pedigree.len()];
    // One of each side: for a whole origin, or for each of its plants.
    let mut unknown: std::collections::BTreeMap<(OriginRow, usize, usize), f64> =
        Default::default();
    let mut values = vec![0.0; pedigree.len()];
    set.iter()
        .for_each(|plant| values[plant.index()] += 1.0 / set.len() as f64);
    for plant in pedigree.plants().rev() {
        let value = values[plant.index()];
        let Some(own) = pedigree.origin_row(plant) else {
            known[plant.index()] = value;
            continue;
        };
        let mut of: Vec<(OriginRow, u32)> = pedigree[own].may_be_of.clone();
        if of.is_empty() {
            of.push((own, 1));
        }
        let pods: u32 = of.iter().map(|of| of.1).sum();
        for (index, each) in of {
            let origin = &pedigree[index];
            let value = value * f64::from(each) / f64::from(pods);
            for (pair, chance) in origin.pairs.iter().zip(origin.chances()) {
                for (side, parent) in [pair.seed, pair.pollen].into_iter().enumerate() {
                    let whose = match (origin.donor, side) {
                        (Donor::WholePod, _) | (Donor::OneMother, 0) => usize::MAX,
                        _ => plant.index(),
                    };
                    *match parent {
                        Some(parent) => &mut values[parent.index()],
                        None => unknown.entry((index, whose, side)).or_default(),
                    } += 0.5 * chance * value;
                }
            }
        }
    }
    1.0 / known
        .iter()
        .chain(unknown.values())
        .map(|p| p * p)
        .sum::<f64>()
}

#[test]
fn a_line_on_one_plant_is_named() {
    let mut pedigree = Pedigree::default();
    let [a, b, c] = [0, 1, 2].map(|_| pedigree.add_founder());
    let mut cross = |pair: [PlantRow; 2], plants: usize| {
        let origin = pedigree.add_origin(Origin::certain(Some(pair[0]), Some(pair[1])));
        (0..plants)
            .map(|_| pedigree.add_offspring(origin))
            .collect::<Vec<_>>()
    };
    let first = cross([a, b], 2);
    let second = cross([first[0], c], 1);
    assert_eq!(
        sole_lines(&pedigree, &[first[1], second[0]]),
        [(c, second[0])]
    );
    assert_eq!(
        sole_lines(&pedigree, &[second[0]]),
        [(a, second[0]), (b, second[0]), (c, second[0])]
    );
    assert_eq!(
        sole_lines(&pedigree, &[c, second[0]]),
        [(a, second[0]), (b, second[0])]
    );
}

/// The same bits however many processors take part.
#[test]
fn parallel_equals_serial() {
    let mut rng = SplitMix64(4);
    let mut pedigree = random_pedigree(&mut rng, 8, 60, 5);
    let pair = |pollen| Pair {
        seed: Some(PlantRow(0)),
        pollen,
        weight: 0,
        cases: 1,
    };
    let origin = pedigree.add_origin(Origin {
        pairs: vec![pair(Some(PlantRow(3))), pair(None)],
        donor: Donor::EachSeed,
        may_be_of: Vec::new(),
    });
    (0..5).for_each(|_| {
        pedigree.add_offspring(origin);
    });
    let set: Vec<PlantRow> = pedigree.plants().skip(20).collect();
    let kinship = Kinship::of(&pedigree, &Founding::unrelated()).unwrap();
    let run = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap();
        pool.install(|| kinship.table(&set))
    };
    assert_eq!(run(1), run(4));
}
