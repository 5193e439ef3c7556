//! Optimal contributions: the frontier of eight candidates in `06_planning.json` (exact conditions over all 2⁸ supports).

use podbook::planning::contributions::*;

use super::seasons::*;

struct Eight {
    merit: Vec<f64>,
    female: Vec<bool>,
    kinship: Vec<f64>,
}

impl Eight {
    fn of_table() -> Self {
        let table = table();
        let names = || FEMALES.iter().chain(&MALES);
        let rows = table["optimal_contributions"]["instance"]["kinship_exact"]
            .as_array()
            .unwrap();
        Self {
            merit: names().map(|name| merit(&table, name)).collect(),
            female: (0..8).map(|at| at < 4).collect(),
            kinship: rows
                .iter()
                .flat_map(|row| row.as_array().unwrap())
                .map(fraction)
                .collect(),
        }
    }

    fn candidates(&self) -> Candidates<'_> {
        Candidates {
            merit: &self.merit,
            female: &self.female,
            kinship: &self.kinship,
        }
    }
}

fn check(found: &Contributions, row: &serde_json::Value, within: f64) {
    for (at, name) in FEMALES.iter().chain(&MALES).enumerate() {
        let expected = row["c"][name].as_f64().unwrap();
        assert!(
            (found.shares[at] - expected).abs() < within,
            "{name}: {found:?} {row}"
        );
    }
    assert!(
        (found.gain - row["gain"].as_f64().unwrap()).abs() < 10.0 * within,
        "{row}"
    );
    assert!(
        (found.coancestry - row["group_coancestry"].as_f64().unwrap()).abs() < within,
        "{row}"
    );
}

#[test]
fn the_frontier_of_the_table() {
    let eight = Eight::of_table();
    let table = table();
    for row in table["optimal_contributions"]["frontier"]
        .as_array()
        .unwrap()
    {
        let weight = row["lambda_"].as_f64().unwrap();
        check(&optimal(&eight.candidates(), weight).unwrap(), row, 1e-9);
    }
}

#[test]
fn the_largest_gain_under_a_cap() {
    let eight = Eight::of_table();
    let table = table();
    for row in table["optimal_contributions"]["constrained"]
        .as_array()
        .unwrap()
    {
        let found = within_coancestry(&eight.candidates(), row["K"].as_f64().unwrap()).unwrap();
        check(&found, row, 1e-7);
        let weight = row["lambda_"].as_f64().unwrap();
        assert!((found.weight - weight).abs() < 1e-6 * weight);
    }
    let least = table["optimal_contributions"]["min_coancestry"]
        .as_f64()
        .unwrap();
    assert_eq!(
        within_coancestry(&eight.candidates(), least - 1e-4),
        Err(NoContributions::BelowLeast)
    );
    assert!(within_coancestry(&eight.candidates(), 0.5).unwrap().gain > 11.49);
}

#[test]
fn the_conditions_of_an_optimum_hold_for_sixty() {
    // Karush-Kuhn-Tucker on a kinship made of random founders' contributions: the gradient is level where a share is
    // positive and no higher where it is zero.
    let n = 60;
    let mut lot = 12_345_u64;
    let mut draw = || {
        lot = lot
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (lot >> 40) as f64 / (1u64 << 24) as f64
    };
    let factors: Vec<Vec<f64>> = (0..n).map(|_| (0..20).map(|_| draw()).collect()).collect();
    let merit: Vec<f64> = (0..n).map(|_| 10.0 * draw()).collect();
    let female: Vec<bool> = (0..n).map(|at| at % 2 == 0).collect();
    let mut kinship = vec![0.0; n * n];
    for i in 0..n {
        for j in 0..n {
            let shared: f64 = factors[i].iter().zip(&factors[j]).map(|(a, b)| a * b).sum();
            kinship[i * n + j] = 0.02 * shared + if i == j { 0.3 } else { 0.0 };
        }
    }
    let candidates = Candidates {
        merit: &merit,
        female: &female,
        kinship: &kinship,
    };
    for weight in [0.1, 1.0, 10.0, 100.0, 1000.0] {
        let found = optimal(&candidates, weight).unwrap();
        let gradient = |i: usize| {
            let row: f64 = (0..n)
                .map(|j| 2.0 * kinship[i * n + j] * found.shares[j])
                .sum();
            merit[i] - weight * row
        };
        for sex in [true, false] {
            let of_sex: Vec<usize> = (0..n).filter(|&i| female[i] == sex).collect();
            let sum: f64 = of_sex.iter().map(|&i| found.shares[i]).sum();
            assert!((sum - 0.5).abs() < 1e-12);
            let used: Vec<usize> = of_sex
                .iter()
                .copied()
                .filter(|&i| found.shares[i] > 1e-12)
                .collect();
            let level = gradient(used[0]);
            assert!(
                used.iter()
                    .all(|&i| (gradient(i) - level).abs() < 1e-8 * (1.0 + weight))
            );
            assert!(
                of_sex
                    .iter()
                    .all(|&i| gradient(i) <= level + 1e-8 * (1.0 + weight))
            );
            assert!(of_sex.iter().all(|&i| found.shares[i] >= 0.0));
        }
    }
}

#[test]
fn one_sex_is_refused() {
    let merit = [1.0, 2.0];
    let kinship = [0.5, 0.0, 0.0, 0.5];
    let candidates = Candidates {
        merit: &merit,
        female: &[true, true],
        kinship: &kinship,
    };
    assert_eq!(optimal(&candidates, 1.0), Err(NoContributions::OneSex));
}
