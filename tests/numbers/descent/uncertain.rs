//! Parents that are one of several: against the published example and against the mean over all worlds.

use podbook::kinship::{Draw, Kinship, Taken, possible_inbreeding, possible_kinship, unknowns};
use podbook::lineage::{
    Donor, FounderStock, Founding, IbdSolution, Origin, Pair, Pedigree, PlantRow,
};
use serde_json::Value;

use crate::inbreeding::close;
use crate::inverse::{dense_inverse, times};
use crate::rational::{float, parse, ratio};
use crate::tables::{SplitMix64, json};
use crate::worlds::{mean_kinship, random_pedigree, worlds};

/// The example's base plants with a pod of three from one of four fathers.
fn example(donor: Donor) -> Pedigree {
    let table = json("02_uncertain_pollen.json");
    let mut pedigree = Pedigree::default();
    for row in table["base_pedigree"].as_array().unwrap() {
        match (row[0].as_i64().unwrap(), row[1].as_i64().unwrap()) {
            (-1, -1) => pedigree.add_founder(),
            (seed, pollen) => {
                let [seed, pollen] = [seed, pollen].map(|row| Some(PlantRow(row as u32)));
                let origin = pedigree.add_origin(Origin::certain(seed, pollen));
                pedigree.add_offspring(origin)
            }
        };
    }
    let plant = |value: &Value| Some(PlantRow(value.as_u64().unwrap() as u32));
    let candidates = table["candidates"].as_array().unwrap().iter();
    let chances = table["probabilities"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| parse(p.as_str().unwrap()) * ratio(8, 1));
    let pairs = candidates.zip(chances).map(|(candidate, chance)| Pair {
        seed: plant(&table["seed_plant"]),
        pollen: plant(candidate),
        weight: float(&chance) as u32,
        cases: 1,
    });
    let origin = pedigree.add_origin(Origin {
        pairs: pairs.collect(),
        donor,
        may_be_of: Vec::new(),
    });
    for _ in 0..table["pod_size"].as_u64().unwrap() {
        pedigree.add_offspring(origin);
    }
    pedigree
}

fn fraction(value: &Value) -> f64 {
    float(&parse(value.as_str().unwrap()))
}

#[test]
fn each_seed_its_own_father() {
    let table = &json("02_uncertain_pollen.json")["independent_donors"];
    let pedigree = example(Donor::EachSeed);
    let kinship = Kinship::of(&pedigree, &Founding::unrelated()).unwrap();
    let plants: Vec<PlantRow> = pedigree.plants().collect();
    let inverse = kinship.inverse_parts().unwrap();
    let found = dense_inverse(&inverse);
    for i in 0..10 {
        for j in 0..10 {
            assert_eq!(
                2.0 * kinship.pair(plants[i], plants[j]),
                fraction(&table["A"][i][j]),
                "{i} {j}"
            );
            assert!(
                close(found[i][j], table["Ainv"][i][j].as_f64().unwrap()),
                "{i} {j}"
            );
        }
    }
    assert_eq!(
        inverse.contributions[inverse.contributions.len() - 1].mendelian_variance,
        fraction(&table["D_sib"])
    );
    assert_eq!(
        2.0 * kinship.pair(plants[7], plants[8]),
        fraction(&table["sib_sib"])
    );
    assert_eq!(kinship.inbreeding(plants[7]), fraction(&table["sib_F"]));
}

/// The table's extra row is the unseen father f; ours is the mean m of both parents, so f = 2 m − seed parent.
#[test]
fn one_father_for_the_whole_pod() {
    let table = &json("02_uncertain_pollen.json")["single_donor"];
    let pedigree = example(Donor::WholePod);
    let kinship = Kinship::of(&pedigree, &Founding::unrelated()).unwrap();
    let plants: Vec<PlantRow> = pedigree.plants().collect();
    // The table's order: 0 to 6, the father 7, siblings 8 to 10.
    let at = |i: usize| if i < 7 { i } else { i + 1 };
    for i in 0..10 {
        for j in 0..10 {
            let wanted = fraction(&table["A"][at(i)][at(j)]);
            assert_eq!(2.0 * kinship.pair(plants[i], plants[j]), wanted, "{i} {j}");
        }
    }
    let inverse = kinship.inverse_parts().unwrap();
    assert_eq!(inverse.extra.len(), 1);
    let extra = inverse
        .contributions
        .iter()
        .find(|contribution| contribution.row == 10)
        .unwrap();
    assert_eq!(
        4.0 * extra.mendelian_variance,
        fraction(&table["D_phantom"])
    );
    assert_eq!(
        inverse.contributions[inverse.contributions.len() - 1].mendelian_variance,
        fraction(&table["D_sib"])
    );
    assert_eq!(
        2.0 * kinship.pair(plants[7], plants[8]),
        fraction(&table["sib_sib"])
    );
    assert_eq!(kinship.inbreeding(plants[7]), fraction(&table["sib_F"]));
    // With u' = M u for u' = (…, m) and u = (…, f), m = ½ f + ½ seed parent: A⁻¹(u) = Mᵀ A⁻¹(u') M.
    let ours = dense_inverse(&inverse);
    let mut change = vec![vec![0.0; 11]; 11];
    for i in 0..10 {
        change[i][at(i)] = 1.0;
    }
    change[10][7] = 0.5;
    change[10][0] = 0.5;
    for i in 0..11 {
        for j in 0..11 {
            let sum: f64 = (0..11)
                .flat_map(|k| (0..11).map(move |l| (k, l)))
                .map(|(k, l)| change[k][i] * ours[k][l] * change[l][j])
                .sum();
            assert!(
                close(sum, table["Ainv"][i][j].as_f64().unwrap()),
                "{i} {j} {sum}"
            );
        }
    }
}

#[test]
fn random_uncertain_pedigrees_agree_with_the_mean_over_worlds() {
    let mut rng = SplitMix64(77);
    for round in 0..120 {
        let pedigree = random_pedigree(&mut rng, 4, 7, round % 5);
        let kinship = Kinship::of(&pedigree, &Founding::unrelated()).unwrap();
        let mean = mean_kinship(&pedigree);
        let plants: Vec<PlantRow> = pedigree.plants().collect();
        let table = kinship.table(&plants);
        let weighted = round % 5 > 0;
        for one in &plants {
            let column: Vec<f64> = plants
                .iter()
                .map(|other| f64::from(u8::from(one == other)))
                .collect();
            let product = kinship.product(&column);
            for other in &plants {
                let wanted = float(&mean[one.index()][other.index()]);
                let found = kinship.pair(*one, *other);
                let paths = kinship.paths(*one, *other, usize::MAX);
                let along: f64 = paths.paths.iter().map(|path| path.kinship).sum();
                if weighted {
                    // Thirds are no binary fractions.
                    assert!(
                        (found - wanted).abs() < 1e-14,
                        "{one:?} {other:?} {found} {wanted}"
                    );
                } else {
                    assert_eq!(found, wanted, "{one:?} {other:?}");
                }
                assert!((table.get(one.index(), other.index()) - wanted).abs() < 1e-14);
                assert!((0.5 * product[other.index()] - wanted).abs() < 1e-14);
                assert!(
                    !paths.complete || (along - wanted).abs() < 1e-13,
                    "{paths:?} {wanted}"
                );
                assert!(paths.complete || along <= wanted + 1e-13);
            }
            let inbreeding = 2.0 * float(&mean[one.index()][one.index()]) - 1.0;
            assert!((kinship.inbreeding(*one) - inbreeding).abs() < 1e-14);
        }
        // Without extra rows the inverse undoes the matrix; with them see below.
        if let Ok(inverse) = kinship.inverse_parts()
            && inverse.extra.is_empty()
        {
            let x: Vec<f64> = (0..plants.len()).map(|i| (i % 7) as f64 - 3.0).collect();
            let back = times(&inverse, &kinship.product(&x));
            x.iter()
                .zip(&back)
                .for_each(|(x, back)| assert!((x - back).abs() < 1e-9, "{x} {back}"));
        }
    }
}

#[test]
fn what_is_assumed_and_unknown_is_told() {
    let mut pedigree = Pedigree::default();
    let [a, b, c] = [0, 1, 2].map(|_| pedigree.add_founder());
    let pair = |seed, pollen| Pair {
        seed: Some(seed),
        pollen,
        weight: 0,
        cases: 1,
    };
    let origin = pedigree.add_origin(Origin {
        pairs: vec![pair(a, Some(b)), pair(a, None)],
        donor: Donor::WholePod,
        may_be_of: Vec::new(),
    });
    let [first, second] = [0, 1].map(|_| pedigree.add_offspring(origin));
    let origin = pedigree.add_origin(Origin::certain(Some(first), Some(c)));
    let child = pedigree.add_offspring(origin);
    let origin = pedigree.add_origin(Origin::certain(Some(c), None));
    let [open, _] = [0, 1].map(|_| pedigree.add_offspring(origin));
    let kinship = Kinship::of(&pedigree, &Founding::unrelated()).unwrap();
    assert!(kinship.assumes_equal_chances(first) && kinship.assumes_equal_chances(child));
    assert!(!kinship.assumes_equal_chances(open) && !kinship.assumes_equal_chances(a));
    let told = |plants: &[PlantRow]| {
        let told = unknowns(&pedigree, plants);
        (told.founders, told.parents, told.uncertain)
    };
    assert_eq!(told(&[child]), (3, 1, 1));
    assert_eq!(told(&[first, second]), (2, 1, 1));
    assert_eq!(told(&[open]), (1, 1, 0));
    assert_eq!(told(&[open, PlantRow(open.0 + 1)]), (1, 2, 0));
}

/// Pod-mates of one unknown father are full siblings; of an unknown father each, half siblings.
#[test]
fn an_unknown_father_is_one_for_a_pod_or_one_for_each_seed() {
    for (donor, wanted) in [(Donor::WholePod, 0.25), (Donor::EachSeed, 0.125)] {
        let mut pedigree = Pedigree::default();
        let seed = Some(pedigree.add_founder());
        let origin = pedigree.add_origin(Origin {
            pairs: vec![Pair {
                seed,
                pollen: None,
                weight: 0,
                cases: 1,
            }],
            donor,
            may_be_of: Vec::new(),
        });
        let [one, other] = [0, 1].map(|_| pedigree.add_offspring(origin));
        let kinship = Kinship::of(&pedigree, &Founding::unrelated()).unwrap();
        assert_eq!(kinship.pair(one, other), wanted);
        assert_eq!(kinship.pair(one, one), 0.5);
    }
}

/// Seedlings of one pod of unknown parents share their mother; their fathers need not be one.
#[test]
fn a_pod_of_unknown_parents_has_one_mother() {
    let mut pedigree = Pedigree::default();
    let mut origin = Origin::certain(None, None);
    origin.donor = Donor::OneMother;
    let origin = pedigree.add_origin(origin);
    let [one, other] = [0, 1].map(|_| pedigree.add_offspring(origin));
    let kinship = Kinship::of(&pedigree, &Founding::unrelated()).unwrap();
    assert_eq!(kinship.pair(one, other), 0.125);
    let paths = kinship.paths(one, other, 5);
    assert!(paths.complete);
    let lines: Vec<f64> = paths.paths.iter().map(|path| path.kinship).collect();
    assert_eq!(lines, [0.125]);
    let told = unknowns(&pedigree, &[one, other]);
    assert_eq!((told.founders, told.parents, told.uncertain), (0, 3, 0));
}

/// A mixed-up plant that came out of a pod has the father of that pod, whichever he was: with pod-mates of one of two
/// fathers it is full sibling or stranger, and of one unknown father full sibling.
#[test]
fn a_mixed_up_plant_shares_the_father_of_the_pod_it_is_of() {
    let mut pedigree = Pedigree::default();
    let [mother, one, two, a, b] = [0, 1, 2, 3, 4].map(|_| pedigree.add_founder());
    let pair = |seed, pollen| Pair {
        seed: Some(seed),
        pollen,
        weight: 0,
        cases: 1,
    };
    let doubled = |pair: Pair| Pair { cases: 2, ..pair };
    let fathers = [pair(mother, Some(one)), pair(mother, Some(two))];
    let unknown = pair(mother, None);
    let strangers = pair(a, Some(b));
    // Pod-mates, and the kinship expected: of the mother alone it is 1/8, of both parents 1/4.
    for (pairs, ways) in [
        (fathers.to_vec(), [(0.0, 0.5), (0.25, 0.5)]),
        (vec![unknown], [(0.0, 0.5), (0.25, 0.5)]),
    ] {
        let mut pedigree = pedigree.clone();
        let pod = pedigree.add_origin(Origin {
            pairs: pairs.clone(),
            donor: Donor::WholePod,
            may_be_of: Vec::new(),
        });
        let mate = pedigree.add_offspring(pod);
        let other = pedigree.add_origin(Origin::certain(strangers.seed, strangers.pollen));
        let mixed = pedigree.add_origin(Origin {
            pairs: match pairs.len() {
                1 => vec![pairs[0], strangers],
                _ => [&pairs[..], &[doubled(strangers)]].concat(),
            },
            donor: Donor::EachSeed,
            may_be_of: vec![(pod, 1), (other, 1)],
        });
        let mixed = pedigree.add_offspring(mixed);
        let founding = Founding::unrelated();
        let kinship = Kinship::of(&pedigree, &founding).unwrap();
        assert_eq!(kinship.pair(mate, mixed), 0.125);
        let possible = possible_kinship(&pedigree, &founding, [mate, mixed]).unwrap();
        assert_eq!(possible.unwrap().outcomes(), ways);
    }
}

/// Inverts a small dense matrix by elimination with row exchange.
fn invert(mut matrix: Vec<Vec<f64>>) -> Vec<Vec<f64>> {
    let n = matrix.len();
    for (i, row) in matrix.iter_mut().enumerate() {
        row.extend((0..n).map(|j| f64::from(u8::from(i == j))));
    }
    for column in 0..n {
        let best = (column..n)
            .max_by(|&a, &b| matrix[a][column].abs().total_cmp(&matrix[b][column].abs()))
            .unwrap();
        matrix.swap(column, best);
        let pivot = matrix[column].clone();
        for (i, row) in matrix.iter_mut().enumerate() {
            let factor = if i == column {
                1.0 - 1.0 / pivot[column]
            } else {
                row[column] / pivot[column]
            };
            row.iter_mut()
                .zip(&pivot)
                .for_each(|(cell, pivot)| *cell -= factor * pivot);
        }
    }
    matrix.into_iter().map(|row| row[n..].to_vec()).collect()
}

/// With stocks, batches and shared unknown draws the inverse has extra rows; inverted back, the plants' block is A.
#[test]
fn the_inverse_with_extra_rows_belongs_to_the_matrix() {
    let mut rng = SplitMix64(404);
    let mut with_extra = 0;
    for round in 0..60 {
        let pedigree = random_pedigree(&mut rng, 5, 6, round % 4);
        let mut founding = Founding::with_background(vec![0.125, 0.25, 0.0]);
        for row in 0..5 {
            let side = |rng: &mut SplitMix64| vec![(rng.below(3) as u32, 0.5), (2, 0.25)];
            let batch = (rng.below(3) == 0).then_some(1);
            founding.declare(
                PlantRow(row),
                FounderStock {
                    sides: [side(&mut rng), side(&mut rng)],
                    batch,
                },
            );
        }
        if round % 2 == 0 {
            founding.declare_unknown_parents(1);
        }
        let kinship = Kinship::of(&pedigree, &founding).unwrap();
        let plants: Vec<PlantRow> = pedigree.plants().collect();
        let table = kinship.table(&plants);
        let inverse = kinship.inverse_parts().unwrap();
        with_extra += usize::from(!inverse.extra.is_empty());
        let back = invert(dense_inverse(&inverse));
        for one in &plants {
            let unit: Vec<f64> = plants
                .iter()
                .map(|other| f64::from(u8::from(one == other)))
                .collect();
            let product = kinship.product(&unit);
            for other in &plants {
                let a = 2.0 * kinship.pair(*one, *other);
                assert!(
                    (back[one.index()][other.index()] - a).abs() < 1e-10,
                    "{one:?} {other:?}"
                );
                assert_eq!(2.0 * table.get(one.index(), other.index()), a);
                assert!((product[other.index()] - a).abs() < 1e-14);
                let paths = kinship.paths(*one, *other, usize::MAX);
                let along: f64 = paths.paths.iter().map(|path| path.kinship).sum();
                assert!(
                    !paths.complete || (2.0 * along - a).abs() < 1e-12,
                    "{paths:?} {a}"
                );
            }
        }
    }
    assert!(with_extra > 50);
}

/// A pedigree deep and broad at once is refused after the stated steps, not worked on for ever.
#[test]
fn too_much_is_refused() {
    let mut rng = SplitMix64(6);
    let mut pedigree = Pedigree::default();
    (0..12_000).for_each(|_| {
        pedigree.add_founder();
    });
    for _ in 0..12_000 {
        let parent =
            |rng: &mut SplitMix64| Some(PlantRow((pedigree.len() - 1 - rng.below(12_000)) as u32));
        let origin = Origin::certain(parent(&mut rng), parent(&mut rng));
        let origin = pedigree.add_origin(origin);
        pedigree.add_offspring(origin);
    }
    let unrelated = Founding::unrelated();
    let refused = IbdSolution::solve_within(&pedigree, &unrelated, 1000).unwrap_err();
    assert!(refused.to_string().contains("too deep and too broad"));
    assert!(IbdSolution::solve_within(&pedigree, &unrelated, 1 << 30).is_ok());
}

/// Of a pedigree with very many paths some are told, the largest first, and the rest is left in the figure.
#[test]
fn paths_are_capped() {
    let mut pedigree = Pedigree::default();
    let mut sibs = [0, 1].map(|_| pedigree.add_founder());
    for _ in 0..40 {
        let origin = pedigree.add_origin(Origin::certain(Some(sibs[0]), Some(sibs[1])));
        sibs = [0, 1].map(|_| pedigree.add_offspring(origin));
    }
    let kinship = Kinship::of(&pedigree, &Founding::unrelated()).unwrap();
    let paths = kinship.paths(sibs[0], sibs[1], 12);
    assert_eq!(paths.paths.len(), 12);
    assert!(!paths.complete);
    let told: f64 = paths.paths.iter().map(|path| path.kinship).sum();
    assert!(
        told < paths.kinship && told > 0.5 * paths.kinship,
        "{told} {}",
        paths.kinship
    );
}

/// Values with their chances, ascending, equal values together.
fn gathered(mut values: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    values.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut together: Vec<(f64, f64)> = Vec::new();
    for (value, chance) in values {
        match together.last_mut() {
            Some((last, sum)) if (value - *last).abs() < 1e-12 => *sum += chance,
            _ => together.push((value, chance)),
        }
    }
    together
}

fn same(found: &[(f64, f64)], wanted: &[(f64, f64)]) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-12;
    found.len() == wanted.len()
        && found
            .iter()
            .zip(wanted)
            .all(|(a, b)| near(a.0, b.0) && near(a.1, b.1))
}

/// What a kinship and an inbreeding may be: every world by itself, equal values added up; their mean is the expected one.
#[test]
fn what_a_kinship_may_be_agrees_with_all_worlds() {
    let mut rng = SplitMix64(2026);
    let mut several = 0;
    for round in 0..40 {
        let pedigree = random_pedigree(&mut rng, 4, 5, round % 5);
        let founding = Founding::unrelated();
        let kinship = Kinship::of(&pedigree, &founding).unwrap();
        let solved: Vec<_> = worlds(&pedigree)
            .into_iter()
            .map(|world| (world.kinship(), world))
            .collect();
        let twin = |x: usize, y: usize, inbreeding: bool| {
            let of = solved.iter().map(|(table, world)| {
                let value = float(&table[world.plants[x]][world.plants[y]]);
                let value = if inbreeding { 2.0 * value - 1.0 } else { value };
                (value, float(&world.probability))
            });
            gathered(of.collect())
        };
        for one in pedigree.plants() {
            let possible = possible_inbreeding(&pedigree, &founding, one)
                .unwrap()
                .unwrap();
            let wanted = twin(one.index(), one.index(), true);
            assert!(
                same(&possible.outcomes(), &wanted),
                "{one:?} {possible:?} {wanted:?}"
            );
            for other in pedigree.plants().step_by(2) {
                let possible = possible_kinship(&pedigree, &founding, [one, other]).unwrap();
                let possible = possible.unwrap();
                let wanted = twin(one.index(), other.index(), false);
                let found = possible.outcomes();
                assert!(
                    same(&found, &wanted),
                    "{one:?} {other:?} {possible:?} {wanted:?}"
                );
                let mean: f64 = found.iter().map(|(value, chance)| value * chance).sum();
                assert!((mean - kinship.pair(one, other)).abs() < 1e-12);
                let above: f64 = wanted
                    .iter()
                    .filter(|(value, _)| *value > 0.125)
                    .map(|of| of.1)
                    .sum();
                assert!((possible.chance_above(0.125) - above).abs() < 1e-12);
                several += usize::from(found.len() > 1);
            }
        }
    }
    assert!(several > 50, "only {several} pairs with several values");
}

/// One of three fathers is the brother of the mother, stated with weights 1, 1, 2; a draw that makes no difference is not
/// told, and very many are not gone through.
#[test]
fn each_possible_father_by_itself() {
    let mut pedigree = Pedigree::default();
    let [a, b, c, d] = [0, 1, 2, 3].map(|_| pedigree.add_founder());
    let family = pedigree.add_origin(Origin::certain(Some(a), Some(b)));
    let [mother, brother] = [0, 1].map(|_| pedigree.add_offspring(family));
    let pair = |pollen, weight| Pair {
        seed: Some(mother),
        pollen: Some(pollen),
        weight,
        cases: 1,
    };
    let pod = pedigree.add_origin(Origin {
        pairs: vec![pair(c, 1), pair(brother, 1), pair(d, 2)],
        donor: Donor::WholePod,
        may_be_of: Vec::new(),
    });
    let [one, other] = [0, 1].map(|_| pedigree.add_offspring(pod));
    let founding = Founding::unrelated();
    let kinship = |pair| {
        possible_kinship(&pedigree, &founding, pair)
            .unwrap()
            .unwrap()
    };
    let with_uncle = kinship([one, brother]);
    assert_eq!(with_uncle.outcomes(), [(0.125, 0.75), (0.375, 0.25)]);
    let draws: Vec<_> = with_uncle
        .ways
        .iter()
        .map(|way| way.drawn.clone())
        .collect();
    let draw = Draw::Pod(pod, one);
    let taken = [0, 1, 2].map(|place| [(draw, Taken::Pair(place))]);
    assert_eq!(draws, taken);
    // Pod-mates share the draw: full siblings whoever the father was, inbred by a quarter if it was the brother.
    assert_eq!(
        kinship([one, other]).outcomes(),
        [(0.25, 0.75), (0.375, 0.25)]
    );
    let inbred = possible_inbreeding(&pedigree, &founding, one)
        .unwrap()
        .unwrap();
    assert_eq!(inbred.outcomes(), [(0.0, 0.75), (0.25, 0.25)]);
    assert_eq!(inbred.chance_above(0.2), 0.25);
    assert_eq!(inbred.chance_above(0.25), 0.0);
    // Who the father was makes no difference to the kinship with the mother's other parent, a founder.
    let with_founder = kinship([one, a]);
    assert_eq!(
        with_founder.outcomes().len(),
        2,
        "the brother brings genes of it too"
    );
    let mut many = pedigree.clone();
    let mut last = one;
    for _ in 0..6 {
        let pairs = [c, d, brother].map(|pollen| Pair {
            seed: Some(last),
            pollen: Some(pollen),
            weight: 0,
            cases: 1,
        });
        let origin = many.add_origin(Origin {
            pairs: pairs.to_vec(),
            donor: Donor::EachSeed,
            may_be_of: Vec::new(),
        });
        last = many.add_offspring(origin);
    }
    assert_eq!(possible_inbreeding(&many, &founding, last), Ok(None));
}
