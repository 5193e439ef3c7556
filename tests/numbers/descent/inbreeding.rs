//! Inbreeding, kinship of pairs, products and the inverse against tables.

use podbook::kinship::{Kinship, Meeting};
use podbook::lineage::{FounderStock, Founding, Origin, Pedigree, PlantRow};
use serde_json::Value;

use crate::inverse::{dense_inverse, log_determinant, times, trace};
use crate::rational::{float, parse};
use crate::tables::{Named, json, text};

fn solved(pedigree: &Pedigree) -> Kinship<'_> {
    Kinship::of(pedigree, &Founding::unrelated()).unwrap()
}

fn exact(value: &Value) -> f64 {
    float(&parse(value.as_str().unwrap()))
}

/// A founder wholly of one stock.
fn wholly(stock: u32) -> FounderStock {
    FounderStock {
        sides: [vec![(stock, 1.0)], vec![(stock, 1.0)]],
        batch: None,
    }
}

pub fn close(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() <= 1e-12 * wanted.abs().max(1.0)
}

#[test]
fn six_animals() {
    let table = json("02_pedigree6.json");
    let mut pedigree = Pedigree::default();
    for row in table["pedigree"].as_array().unwrap() {
        let parent = |side: usize| {
            row[side]
                .as_u64()
                .unwrap()
                .checked_sub(1)
                .map(|row| PlantRow(row as u32))
        };
        match (parent(0), parent(1)) {
            (None, None) => pedigree.add_founder(),
            (seed, pollen) => {
                let origin = pedigree.add_origin(Origin::certain(seed, pollen));
                pedigree.add_offspring(origin)
            }
        };
    }
    let kinship = solved(&pedigree);
    let plants: Vec<PlantRow> = pedigree.plants().collect();
    let of_all = kinship.table(&plants);
    let inverse = kinship.inverse_parts().unwrap();
    let found = dense_inverse(&inverse);
    for i in 0..6 {
        assert_eq!(
            kinship.inbreeding(plants[i]),
            table["F"][i].as_f64().unwrap()
        );
        let own = inverse
            .contributions
            .iter()
            .find(|contribution| contribution.row == i)
            .unwrap()
            .mendelian_variance;
        assert_eq!(own, exact(&table["D"][i]), "D of {i}");
        for j in 0..6 {
            let a = table["A"][i][j].as_f64().unwrap();
            assert_eq!(2.0 * kinship.pair(plants[i], plants[j]), a);
            assert_eq!(2.0 * of_all.get(i, j), a);
            assert!(
                close(found[i][j], table["Ainv"][i][j].as_f64().unwrap()),
                "{i} {j}"
            );
        }
        // Columns of A as products with unit vectors.
        let unit: Vec<f64> = (0..6).map(|j| f64::from(u8::from(i == j))).collect();
        let column = kinship.product(&unit);
        (0..6).for_each(|j| assert_eq!(column[j], table["A"][j][i].as_f64().unwrap()));
    }
    assert!(close(
        log_determinant(&inverse),
        table["logdet_A"].as_f64().unwrap()
    ));
    assert!(close(
        log_determinant(&inverse),
        table["sum_log_D"].as_f64().unwrap()
    ));
    assert!(inverse.extra.is_empty());
}

/// Grows a regular system of mating; returns F by generation.
fn system(name: &str) -> Vec<f64> {
    let mut named = Named::default();
    let mut by_generation: Vec<PlantRow> = Vec::new();
    let plant = |named: &mut Named, seed: String, pollen: String| {
        let name = format!("p{}", named.pedigree.len());
        named.add(&name, Some(&seed), Some(&pollen));
        name
    };
    let founder = |named: &mut Named| {
        let name = format!("p{}", named.pedigree.len());
        named.add(&name, None, None);
        name
    };
    let first = founder(&mut named);
    let second = founder(&mut named);
    by_generation.push(named.row(&first));
    let mut current = match name {
        "selfing" => vec![first.clone(), first.clone()],
        "circular" => vec![
            first.clone(),
            second,
            founder(&mut named),
            founder(&mut named),
        ],
        _ => vec![first.clone(), second],
    };
    for _ in 0..15 {
        let mut next = Vec::new();
        match name {
            "full sibs" => (0..2)
                .for_each(|_| next.push(plant(&mut named, current[0].clone(), current[1].clone()))),
            "selfing" => {
                let child = plant(&mut named, current[0].clone(), current[1].clone());
                next = vec![child.clone(), child];
            }
            "backcross" => {
                next = vec![
                    first.clone(),
                    plant(&mut named, current[0].clone(), current[1].clone()),
                ]
            }
            "younger parent" => {
                let child = plant(&mut named, current[0].clone(), current[1].clone());
                next = vec![current[1].clone(), child];
            }
            _ => (0..4).for_each(|i| {
                next.push(plant(
                    &mut named,
                    current[i].clone(),
                    current[(i + 1) % 4].clone(),
                ))
            }),
        }
        by_generation.push(named.row(&next[next.len() - 1]));
        current = next;
    }
    let kinship = solved(&named.pedigree);
    by_generation
        .into_iter()
        .map(|row| kinship.inbreeding(row))
        .collect()
}

#[test]
fn systems_of_mating() {
    let mut rows = 0;
    for line in text("02_systems_of_mating.csv").lines().skip(1) {
        let fields: Vec<&str> = line.rsplitn(4, ',').collect();
        let [_, value, generation, name] = fields[..] else {
            panic!("{line}")
        };
        let wanted = float(&parse(value));
        let own = match name.trim_matches('"').split([' ', '(']).next().unwrap() {
            "full_sib_line" => "full sibs",
            "selfing" => "selfing",
            "recurrent_backcross_to_one_plant" => "backcross",
            "parent_x_offspring_younger_parent" => "younger parent",
            "circular_half_sib_k4" => "circular",
            other => {
                assert_eq!(
                    one_step(other.strip_prefix("one_step:").unwrap()),
                    wanted,
                    "{line}"
                );
                rows += 1;
                continue;
            }
        };
        assert_eq!(
            system(own)[generation.parse::<usize>().unwrap()],
            wanted,
            "{line}"
        );
        rows += 1;
    }
    assert_eq!(rows, 88);
}

/// F of one plant `x` from the named mating.
fn one_step(mating: &str) -> f64 {
    let crosses: &[(&str, &str, &str)] = match mating {
        "full_sib_mating" => &[("a", "1", "2"), ("b", "1", "2"), ("x", "a", "b")],
        "half_sib_mating" => &[("a", "1", "2"), ("b", "1", "3"), ("x", "a", "b")],
        "parent_offspring" => &[("a", "1", "2"), ("x", "a", "1")],
        "uncle_niece" => &[
            ("a", "1", "2"),
            ("b", "1", "2"),
            ("c", "b", "3"),
            ("x", "a", "c"),
        ],
        "first_cousins" => &[
            ("a", "1", "2"),
            ("b", "1", "2"),
            ("c", "a", "3"),
            ("d", "b", "4"),
            ("x", "c", "d"),
        ],
        "double_first_cousins" => &[
            ("a", "1", "2"),
            ("b", "1", "2"),
            ("c", "3", "4"),
            ("d", "3", "4"),
            ("e", "a", "c"),
            ("f", "b", "d"),
            ("x", "e", "f"),
        ],
        "BC1_plant" => &[("a", "1", "2"), ("x", "a", "1")],
        "BC1_sibs_mated" => &[
            ("a", "1", "2"),
            ("b", "a", "1"),
            ("c", "a", "1"),
            ("x", "b", "c"),
        ],
        other => panic!("{other}"),
    };
    let mut named = Named::default();
    ["1", "2", "3", "4"].iter().for_each(|name| {
        named.add(name, None, None);
    });
    crosses.iter().for_each(|(name, seed, pollen)| {
        named.add(name, Some(seed), Some(pollen));
    });
    solved(&named.pedigree).inbreeding(named.row("x"))
}

#[test]
fn random_pedigrees_bit_for_bit() {
    for (csv, meta) in [
        ("02_random_n1000.csv", "02_random_n1000_meta.json"),
        ("02_random_n200_deep.csv", "02_random_n200_deep_meta.json"),
    ] {
        let mut named = Named::default();
        let rows: Vec<Vec<String>> = text(csv)
            .lines()
            .skip(1)
            .map(|line| line.split(',').map(str::to_owned).collect())
            .collect();
        for row in &rows {
            let parent = |field: usize| (row[field] != "-1").then_some(row[field].as_str());
            named.add(&row[0], parent(1), parent(2));
        }
        let kinship = solved(&named.pedigree);
        let meta = json(meta);
        let x: Vec<f64> = (0..rows.len())
            .map(|i| ((7 * i + 3) % 11) as f64 - 5.0)
            .collect();
        let product = kinship.product(&x);
        let inverse = kinship.inverse_parts().unwrap();
        let mut own = vec![0.0; rows.len()];
        inverse
            .contributions
            .iter()
            .for_each(|contribution| own[contribution.row] = contribution.mendelian_variance);
        for (i, row) in rows.iter().enumerate() {
            let number = |field: usize| row[field].parse::<f64>().unwrap();
            assert_eq!(
                kinship.inbreeding(PlantRow(i as u32)),
                number(4),
                "{csv} F of {i}"
            );
            assert_eq!(
                number(4),
                number(5) / libm::exp2(number(6)),
                "the table's own fraction"
            );
            assert_eq!(own[i], number(7), "{csv} D of {i}");
            assert_eq!(product[i], number(8), "{csv} Ax of {i}");
        }
        for pair in meta["kinship_pairs"].as_array().unwrap() {
            let [one, other] = [0, 1].map(|side| PlantRow(pair[side].as_u64().unwrap() as u32));
            assert_eq!(
                kinship.pair(one, other),
                pair[2].as_f64().unwrap(),
                "{csv} {pair}"
            );
            let table = kinship.table_between(&[one], &[other]);
            assert_eq!(table.get(0, 0), pair[2].as_f64().unwrap(), "{csv} {pair}");
        }
        let plants: Vec<PlantRow> = named.pedigree.plants().collect();
        let last = &plants[plants.len() - 100..];
        let figure = |name: &str| meta[name].as_f64().unwrap();
        assert!(close(
            kinship.diversity(&plants).mean_kinship,
            figure("mean_kinship_all_incl_self")
        ));
        assert!(close(
            kinship.diversity(last).mean_kinship,
            figure("mean_kinship_last100_incl_self")
        ));
        let table = kinship.table(last);
        let apart: f64 = (0..100)
            .flat_map(|i| (0..100).map(move |j| (i, j)))
            .filter(|(i, j)| i != j)
            .map(|(i, j)| table.get(i, j))
            .sum();
        assert!(close(
            apart / 9900.0,
            figure("mean_kinship_last100_excl_self")
        ));
        let inbreeding: Vec<f64> = plants
            .iter()
            .map(|&plant| kinship.inbreeding(plant))
            .collect();
        assert!(close(
            inbreeding.iter().sum::<f64>() / inbreeding.len() as f64,
            figure("mean_F")
        ));
        assert_eq!(
            inbreeding[meta["argmax_F"].as_u64().unwrap() as usize],
            figure("max_F")
        );
        assert_eq!(
            inbreeding.iter().filter(|&&f| f > 0.0).count() as u64,
            meta["n_inbred"].as_u64().unwrap()
        );
        assert!(
            close(log_determinant(&inverse), figure("logdet_A")),
            "{}",
            log_determinant(&inverse)
        );
        let trace = trace(&inverse);
        assert!(close(trace, figure("trace_Ainv")), "{trace}");
        // The inverse undoes the matrix.
        let back = times(&inverse, &product);
        x.iter()
            .zip(&back)
            .for_each(|(x, back)| assert!((x - back).abs() < 1e-10));
    }
}

#[test]
fn wrights_pedigrees_and_their_paths() {
    let table = json("02_wright_examples.json");
    let comet = Named::of(&table["favourite_comet"]["pedigree"], ["id", "sire", "dam"]);
    let kinship = solved(&comet.pedigree);
    for (name, result) in table["favourite_comet"]["results"].as_object().unwrap() {
        assert_eq!(
            kinship.inbreeding(comet.row(name)),
            exact(&result["F"]),
            "{name}"
        );
        let [pair] = comet.pedigree.origin(comet.row(name)).unwrap().pairs[..] else {
            panic!("{name}")
        };
        let paths = kinship.paths(pair.seed.unwrap(), pair.pollen.unwrap(), 100);
        assert!(paths.complete);
        assert_eq!(paths.kinship, exact(&result["F"]));
        let mut found: Vec<(u32, usize, usize, f64)> = paths
            .paths
            .iter()
            .map(|path| {
                let Meeting::Plant(ancestor) = path.meeting else {
                    panic!("{path:?}")
                };
                (
                    ancestor.0,
                    path.from_one.len(),
                    path.from_other.len(),
                    path.kinship,
                )
            })
            .collect();
        let mut wanted: Vec<(u32, usize, usize, f64)> = result["paths"]
            .as_array()
            .unwrap()
            .iter()
            .map(|path| {
                let steps = |field: &str| path[field].as_u64().unwrap() as usize;
                (
                    comet.row(path["ancestor"].as_str().unwrap()).0,
                    steps("n_seed"),
                    steps("n_pollen"),
                    exact(&path["term"]),
                )
            })
            .collect();
        found.sort_by(|a, b| a.partial_cmp(b).unwrap());
        wanted.sort_by(|a, b| a.partial_cmp(b).unwrap());
        assert_eq!(found, wanted, "{name}");
        for path in result["paths"].as_array().unwrap() {
            let rows = |side: &str| -> Vec<PlantRow> {
                path[side]
                    .as_array()
                    .unwrap()
                    .iter()
                    .map(|id| comet.row(id.as_str().unwrap()))
                    .collect()
            };
            let (one, other) = (rows("path_seed"), rows("path_pollen"));
            let here = |path: &podbook::kinship::Path| {
                let Meeting::Plant(meeting) = path.meeting else {
                    panic!("{path:?}")
                };
                let ends = |from: &[PlantRow]| [from, &[meeting]].concat();
                ends(&path.from_one) == one && ends(&path.from_other) == other
            };
            assert!(paths.paths.iter().any(here), "{name} {path}");
        }
    }
    // Wright's coefficient of relationship from kinship and inbreeding.
    for (names, wanted) in table["favourite_comet"]
        .get("relationship_Wright_R")
        .or(table.get("relationship_Wright_R"))
        .unwrap()
        .as_object()
        .unwrap()
    {
        let (one, other) = names.split_once('-').unwrap();
        let [one, other] = [comet.row(one), comet.row(other)];
        let scale = libm::sqrt((1.0 + kinship.inbreeding(one)) * (1.0 + kinship.inbreeding(other)));
        assert!(close(
            2.0 * kinship.pair(one, other) / scale,
            wanted.as_f64().unwrap()
        ));
    }
    let roan = Named::of(&table["roan_gauntlet"]["pedigree"], ["id", "sire", "dam"]);
    let kinship = solved(&roan.pedigree);
    assert_eq!(
        kinship.inbreeding(roan.row("RoanGauntlet")),
        exact(&table["roan_gauntlet"]["F"])
    );
    assert_eq!(
        kinship.inbreeding(roan.row("RoyalDuke")),
        exact(&table["roan_gauntlet"]["F_RoyalDuke"])
    );
    let paths = kinship.paths(roan.row("RoyalDuke"), roan.row("PrincessRoyal"), 100);
    assert_eq!(
        paths.paths.len() as u64,
        table["roan_gauntlet"]["n_paths"].as_u64().unwrap()
    );
    let terms: Vec<f64> = paths.paths.iter().map(|path| path.kinship).collect();
    assert_eq!(terms, [1.0 / 16.0, 1.0 / 16.0, 1.0 / 64.0]);
}

/// Kinships "one-other" of a JSON map.
fn check_pairs(kinship: &Kinship<'_>, row: &dyn Fn(&str) -> PlantRow, wanted: &Value) {
    for (names, value) in wanted.as_object().unwrap() {
        let (one, other) = names.split_once('-').unwrap();
        assert_eq!(kinship.pair(row(one), row(other)), exact(value), "{names}");
    }
}

#[test]
fn wild_batches_and_background_kinship() {
    let table = json("02_unknown_parents_species_groups.json");
    let named = Named::of(&table["pedigree"], ["id", "seed", "pollen"]);
    let kinship = solved(&named.pedigree);
    check_pairs(&kinship, &|id| named.row(id), &table["kinship_theta0"]);
    for (id, value) in table["F_theta0"].as_object().unwrap() {
        assert_eq!(kinship.inbreeding(named.row(id)), exact(value), "{id}");
    }
    let theta = [exact(&table["theta"]["A"]), exact(&table["theta"]["B"])];
    let mut founding = Founding::with_background(theta.to_vec());
    for (id, &row) in &named.rows {
        if named.pedigree.origin_row(row).is_none() {
            founding.declare(row, wholly(u32::from(id.starts_with('B'))));
        }
    }
    let kinship = Kinship::of(&named.pedigree, &founding).unwrap();
    check_pairs(&kinship, &|id| named.row(id), &table["kinship_theta"]);
    for (id, value) in table["F_theta"].as_object().unwrap() {
        assert_eq!(kinship.inbreeding(named.row(id)), exact(value), "{id}");
    }
}

/// The same without the unseen parents: founders of one batch are full siblings.
#[test]
fn batches_stand_for_unseen_parents() {
    let table = json("02_unknown_parents_species_groups.json");
    for (theta, kinships, inbreeding) in [
        ([0.0, 0.0], "kinship_theta0", "F_theta0"),
        (
            [exact(&table["theta"]["A"]), 0.0],
            "kinship_theta",
            "F_theta",
        ),
    ] {
        let mut named = Named::default();
        let mut founding = Founding::with_background(theta.to_vec());
        for (id, stock, batch) in [
            ("B_1", 1, None),
            ("w1", 0, Some(1)),
            ("w2", 0, Some(1)),
            ("w3", 0, Some(2)),
        ] {
            let row = named.add(id, None, None);
            founding.declare(
                row,
                FounderStock {
                    batch,
                    ..wholly(stock)
                },
            );
        }
        for (id, seed, pollen) in [
            ("h1", "w1", "B_1"),
            ("h2", "w2", "B_1"),
            ("h3", "w3", "B_1"),
            ("x", "h1", "h2"),
            ("y", "h1", "h3"),
        ] {
            named.add(id, Some(seed), Some(pollen));
        }
        let kinship = Kinship::of(&named.pedigree, &founding).unwrap();
        check_pairs(&kinship, &|id| named.row(id), &table[kinships]);
        for (id, value) in table[inbreeding].as_object().unwrap() {
            if named.rows.contains_key(id) {
                assert_eq!(kinship.inbreeding(named.row(id)), exact(value), "{id}");
            }
        }
        // Paths, products and the inverse know the unseen parents too.
        let paths = kinship.paths(named.row("h1"), named.row("h2"), 100);
        assert!(paths.complete);
        assert_eq!(
            paths.paths.iter().map(|path| path.kinship).sum::<f64>(),
            kinship.pair(named.row("h1"), named.row("h2"))
        );
        let inverse = kinship.inverse_parts().unwrap();
        assert_eq!(inverse.extra.len(), 4 + usize::from(theta[0] > 0.0));
    }
}

/// Two ramets crossed are a selfing.
#[test]
fn ramets_share_a_row() {
    let table = json("02_unknown_parents_species_groups.json");
    let mut named = Named::of(&table["pedigree"], ["id", "seed", "pollen"]);
    named.add("selfed", Some("x"), Some("x"));
    let kinship = solved(&named.pedigree);
    let clones = &table["clones"];
    assert_eq!(
        kinship.inbreeding(named.row("x")),
        exact(&clones["example_F_genet"])
    );
    assert_eq!(
        kinship.pair(named.row("x"), named.row("x")),
        exact(&clones["k_two_ramets"])
    );
    assert_eq!(
        kinship.inbreeding(named.row("selfed")),
        exact(&clones["F_if_two_ramets_crossed"])
    );
}
