//! The worth of a plan reckoned a second way: from the readings on the pages, by full matrices, and from the tables of
//! `kinship` and `pair`. Nothing here comes from the planner but the pods it chose.

use crate::bench_top::BenchTop;
use crate::plan::{report, season};
use serde_json::Value;
use std::collections::BTreeMap;

/// Parts of the whole variance at a heritability of 0.4: inherited, permanent, sitting, pod; then the error. The means of
/// species vary as much as the whole.
const PARTS: [f64; 5] = [0.4, 0.2, 0.05, 0.05, 0.3];
/// What is not inherited, in units of what is inherited inside a species.
const NOT_INHERITED: f64 = (1.0 - PARTS[0]) / PARTS[0];
/// Traits by the place of their column, with the weights of the goals.
const WEIGHTS: [(usize, f64); 2] = [(0, 2.0), (1, -1.0)];
/// Seedlings of a pod, and what inbreeding costs, by the goals.
const SEEDLINGS: i32 = 12;
const COST: f64 = 2.0;
/// S in units of V: of the lower end of `spread_ratio`, of the plan, of the upper end.
const SPECIES_DIFFER: [f64; 3] = [1.0, 4.0, 8.0];

/// A plant with its readings, the page they stand on, and its shares of species.
struct Plant {
    code: String,
    page: usize,
    read: Vec<f64>,
    shares: BTreeMap<&'static str, f64>,
}

impl Plant {
    /// Each founder counts as a pod, the seedlings share theirs.
    fn pod(&self) -> &str {
        if self.page == 0 { &self.code } else { "P1" }
    }
}

/// Rows such as `["A1", "5", "1.6"]` of the two pages.
fn plants() -> Vec<Plant> {
    let pages = [
        include_str!("season/clones.ron"),
        include_str!("season/crosses/X19-01.ron"),
    ];
    let mut plants = Vec::new();
    for (page, text) in pages.iter().enumerate() {
        let rows = text.split("rows: [").nth(1).unwrap();
        for row in rows.split('[').skip(1) {
            let cells: Vec<&str> = row.split('"').skip(1).step_by(2).collect();
            let code = match page {
                0 => cells[0].to_owned(),
                _ => format!("X19-01-{}", cells[0]),
            };
            plants.push(Plant {
                shares: shares(&code),
                read: cells[1..]
                    .iter()
                    .map(|cell| cell.parse().unwrap())
                    .collect(),
                code,
                page,
            });
        }
    }
    plants
}

fn shares(code: &str) -> BTreeMap<&'static str, f64> {
    let shares: &[(&str, f64)] = match code {
        "A1" | "B2" => &[("veitchii", 1.0)],
        "A2" => &[("lowii", 1.0)],
        "A3" => &[("ventricosa", 1.0)],
        "B1" => &[("burbidgeae", 1.0)],
        "B3" => &[("hamata", 1.0)],
        _ => &[("veitchii", 0.5), ("burbidgeae", 0.5)],
    };
    shares.iter().copied().collect()
}

fn same_species(one: &Plant, other: &Plant) -> f64 {
    let shared = one.shares.iter();
    let shared = shared.filter_map(|(of, share)| Some(share * other.shares.get(of)?));
    shared.sum()
}

/// Kinship of every two plants, from the table of pairs.
fn kinship(top: &BenchTop, plants: &[Plant]) -> Vec<Vec<f64>> {
    let codes: Vec<&str> = plants.iter().map(|plant| plant.code.as_str()).collect();
    let run = top.run(&[&["kinship", "--json"], &codes[..]].concat());
    let table: Value = serde_json::from_str(&run.stdout).unwrap_or_else(|_| panic!("{run}"));
    let at = |code: &Value| codes.iter().position(|of| code == of).unwrap();
    let mut kinship = vec![vec![f64::NAN; codes.len()]; codes.len()];
    for pair in table["pairs"].as_array().unwrap() {
        let (a, b) = (at(&pair["a"]), at(&pair["b"]));
        kinship[a][b] = pair["kinship"].as_f64().unwrap();
        kinship[b][a] = kinship[a][b];
    }
    kinship
}

/// The solution of `matrix` x = `right`, by Gauss and Jordan.
fn solve(mut matrix: Vec<Vec<f64>>, mut right: Vec<f64>) -> Vec<f64> {
    for pivot in 0..right.len() {
        let by = matrix[pivot][pivot];
        matrix[pivot].iter_mut().for_each(|value| *value /= by);
        right[pivot] /= by;
        let (row, value) = (matrix[pivot].clone(), right[pivot]);
        for other in (0..right.len()).filter(|&other| other != pivot) {
            let by = matrix[other][pivot];
            for (cell, above) in matrix[other].iter_mut().zip(&row) {
                *cell -= by * above;
            }
            right[other] -= by * value;
        }
    }
    right
}

fn dot(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

/// Merit of every plant in one trait, in genetic standard deviations from the mean of all: the best linear unbiased
/// prediction with the covariances of the readings written out (Henderson 1975). With it the covariances of its errors.
fn merit(plants: &[Plant], kinship: &[Vec<f64>], column: usize) -> (Vec<f64>, Vec<Vec<f64>>) {
    let all = 0..plants.len();
    let each = |of: &dyn Fn(usize) -> f64| all.clone().map(of).collect::<Vec<f64>>();
    let [additive, permanent, sitting, pod, error] = PARTS;
    let if_so = |so: bool, part: f64| if so { part } else { 0.0 };
    let inherited =
        |a: usize, b: usize| 2.0 * additive * kinship[a][b] + same_species(&plants[a], &plants[b]);
    let covariance = |a: usize, b: usize| {
        inherited(a, b)
            + if_so(a == b, permanent + error)
            + if_so(plants[a].page == plants[b].page, sitting)
            + if_so(plants[a].pod() == plants[b].pod(), pod)
    };
    let matrix: Vec<Vec<f64>> = all.clone().map(|a| each(&|b| covariance(a, b))).collect();
    let read = each(&|plant| plants[plant].read[column]);
    let ones = solve(matrix.clone(), vec![1.0; plants.len()]);
    // Less what the mean takes up, which is estimated from the readings as well.
    let without_mean = |of: Vec<f64>| {
        let mean = dot(&ones, &of) / ones.iter().sum::<f64>();
        solve(
            matrix.clone(),
            of.iter().map(|value| value - mean).collect(),
        )
    };
    let weighed = without_mean(read.clone());
    let whole = dot(&read, &weighed) / (plants.len() - 1) as f64;
    let merit = each(&|a| all.clone().map(|b| inherited(a, b) * weighed[b]).sum());
    let mean = merit.iter().sum::<f64>() / plants.len() as f64;
    let scale = libm::sqrt(additive * whole);
    let explained = |b: usize| without_mean(each(&|a| inherited(a, b)));
    let explained: Vec<Vec<f64>> = all.clone().map(explained).collect();
    let row = |a: usize| each(&|reading| inherited(a, reading));
    let left = |a: usize, b: usize| (inherited(a, b) - dot(&row(a), &explained[b])) / additive;
    let errors = all.clone().map(|a| each(&|b| left(a, b))).collect();
    (each(&|plant| (merit[plant] - mean) / scale), errors)
}

/// The mean of the best of so many standard normal values, summed in fine steps.
fn expected_best(of: i32) -> f64 {
    let step = 1e-3;
    let at = |x: f64| {
        let density = libm::exp(-0.5 * x * x) / libm::sqrt(2.0 * std::f64::consts::PI);
        let below = 0.5 * libm::erfc(-x / std::f64::consts::SQRT_2);
        x * f64::from(of) * density * below.powi(of - 1) * step
    };
    (-9_000..9_000).map(|n| at(f64::from(n) * step)).sum()
}

/// Genetic variance of a pod in units of V, from the page of the pair, where a spread as read is set against that of a pod
/// of one species, whose variance is half of V.
fn genetic(top: &BenchTop, [seed, pollen]: [&str; 2], differ: f64) -> f64 {
    let run = top.run(&["pair", seed, pollen, "--json"]);
    let page: Value = serde_json::from_str(&run.stdout).unwrap_or_else(|_| panic!("{run}"));
    let variance = [0, 1].map(|at| {
        let ratio = page["spread_ratio"][at].as_f64().unwrap();
        (0.5 + NOT_INHERITED) * ratio.powi(2) - NOT_INHERITED
    });
    let [least, _, most] = SPECIES_DIFFER;
    variance[0] + (variance[1] - variance[0]) * (differ - least) / (most - least)
}

#[test]
fn the_worth_of_a_plan_is_the_sum_of_its_pods_reckoned_a_second_way() {
    // A daughter by her father must be made, so that inbreeding has its price.
    let must = "must: [(seed: \"X19-01-3\", pollen: \"B1\")],";
    let top = season().change("goals.ron", "most_inbreeding: 0.2,", must);
    let found = report(&top, &["--any-time"]);
    let plants = plants();
    let kinship = kinship(&top, &plants);
    let (merits, errors): (Vec<_>, Vec<_>) = WEIGHTS
        .iter()
        .map(|(column, _)| merit(&plants, &kinship, *column))
        .unzip();
    let weights = libm::sqrt(WEIGHTS.iter().map(|(_, weight)| weight * weight).sum());
    let best: f64 = weights * expected_best(SEEDLINGS);
    let (mut total, mut inbred) = ([0.0; 3], 0);
    // How often each plant's merit is in the worth; the mean of all counts against them all.
    let mut parts = vec![0.0; plants.len()];
    for row in found["plan"].as_array().unwrap() {
        let [seed, pollen] = ["seed", "pollen"].map(|side| row[side].as_str().unwrap());
        let at = |code: &str| plants.iter().position(|plant| plant.code == code).unwrap();
        let (a, b) = (at(seed), at(pollen));
        let of_traits = merits.iter().zip(WEIGHTS);
        let mean: f64 = of_traits
            .map(|(of, (_, weight))| 0.5 * weight * (of[a] + of[b]))
            .sum();
        let worth = SPECIES_DIFFER.map(|differ| {
            let variance = genetic(&top, [seed, pollen], differ);
            let accuracy = libm::sqrt(variance / (variance + NOT_INHERITED));
            mean + best * accuracy * libm::sqrt(variance) - COST * kinship[a][b]
        });
        let told = row["worth"].as_f64().unwrap();
        assert!(
            (told - worth[1]).abs() < 1e-9,
            "{seed} × {pollen}: {told} or {worth:?}"
        );
        inbred += u32::from(kinship[a][b] > 0.0);
        let pods = row["pods"].as_f64().unwrap();
        total
            .iter_mut()
            .zip(worth)
            .for_each(|(total, worth)| *total += worth * pods);
        [a, b]
            .iter()
            .for_each(|parent| parts[*parent] += 0.5 * pods);
    }
    let of_all = parts.iter().sum::<f64>() / plants.len() as f64;
    parts.iter_mut().for_each(|part| *part -= of_all);
    let spread = |errors: &Vec<Vec<f64>>| -> f64 {
        let rows: Vec<f64> = errors.iter().map(|row| dot(row, &parts)).collect();
        dot(&rows, &parts)
    };
    let of_traits = errors.iter().zip(WEIGHTS);
    let variance: f64 = of_traits
        .map(|(of, (_, weight))| weight * weight * spread(of))
        .sum();
    let may = &found["worth_give_or_take"];
    let told = may["error"].as_f64().unwrap();
    assert!(
        (told - variance.sqrt()).abs() < 1e-8,
        "{told} or {}",
        variance.sqrt()
    );
    for (at, told) in [(0, 0), (2, 1)] {
        let told = may["if_species_differ"][told].as_f64().unwrap();
        assert!((told - total[at]).abs() < 1e-8, "{told} or {total:?}");
    }
    let total = total[1];
    let told = found["worth"].as_f64().unwrap();
    assert!((told - total).abs() < 1e-8, "{told} or {total}");
    assert!(
        found["pods"].as_u64().unwrap() >= 3 && inbred > 0,
        "a plan that tells"
    );
    let printed = top.run(&["plan", "--any-time"]).stdout;
    assert!(printed.contains(&format!("worth {total:.2}")), "{printed}");
}
