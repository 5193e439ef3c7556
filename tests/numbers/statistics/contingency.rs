//! Pods against pods by counts: `04_contingency.json`, and every assignment of seedlings one by one.

use super::tables::{close, counts, number, table};
use podbook::statistics::StatisticsError;
use podbook::statistics::contingency::compare_pods;
use podbook::statistics::distribution::ln_factorial;
use podbook::statistics::multinomial::Found;
use podbook::statistics::random::SplitMix64;

fn rows(value: &serde_json::Value) -> Vec<Vec<u64>> {
    value.as_array().unwrap().iter().map(counts).collect()
}

/// Computed by an independent listing and by SciPy; wine: UCI, Forina et al. 1991.
#[test]
fn every_row_of_the_table() {
    for row in table!("04_contingency.json").as_array().unwrap() {
        let test = compare_pods(&rows(&row["table"])).unwrap();
        close(test.chi_square.0, number(&row["chi2"]), 1e-12);
        close(test.chi_square.1, number(&row["p_chi2"]), 1e-10);
        close(test.p_exact, number(&row["p_fisher"]), 1e-9);
        assert_eq!(
            test.found,
            Found::Listed(row["tables_enumerated"].as_u64().unwrap())
        );
    }
}

/// Twin: all 3⁹ ways to give nine seedlings their kinds, kept if the margins are right.
#[test]
fn equals_the_listing_of_every_assignment() {
    let seen = vec![vec![3, 0, 1], vec![0, 2, 1], vec![1, 0, 1]];
    let pod_of = [0, 0, 0, 0, 1, 1, 1, 2, 2];
    let columns = [4, 2, 3];
    let mut tables = std::collections::BTreeMap::<Vec<u64>, f64>::new();
    for code in 0..3_usize.pow(9) {
        let mut cells = vec![0; 9];
        (0..9).for_each(|i| cells[pod_of[i] * 3 + code / 3_usize.pow(i as u32) % 3] += 1);
        if (0..3).all(|j| cells[j] + cells[3 + j] + cells[6 + j] == columns[j]) {
            *tables.entry(cells).or_default() += 1.0;
        }
    }
    let all: f64 = tables.values().sum();
    let at = tables[&seen.concat()];
    let p = tables
        .values()
        .filter(|&&ways| ways <= at + 0.5)
        .sum::<f64>()
        / all;
    let test = compare_pods(&seen).unwrap();
    close(test.p_exact, p, 1e-11);
    assert_eq!(test.found, Found::Listed(tables.len() as u64));
}

/// Five pods by four kinds, one of them rare, so that expected counts are small and tables too many to list. The
/// probability drawn must agree with one from shuffling the kinds over the plants, another way and another seed.
#[test]
fn sampling_agrees_with_shuffling() {
    let rows = vec![
        vec![20, 15, 1, 12],
        vec![15, 12, 3, 20],
        vec![15, 20, 0, 9],
        vec![18, 7, 5, 14],
        vec![9, 9, 1, 12],
    ];
    let test = compare_pods(&rows).unwrap();
    assert_eq!(test.found, Found::Sampled(20_000));
    assert_eq!(compare_pods(&rows).unwrap(), test, "the same every time");
    let cells =
        |row: usize, kind: usize| std::iter::repeat_n((row, kind), rows[row][kind] as usize);
    let plants: Vec<(usize, usize)> = (0..5)
        .flat_map(|r| (0..4).flat_map(move |k| cells(r, k)))
        .collect();
    let mut kinds: Vec<usize> = plants.iter().map(|plant| plant.1).collect();
    let ln_chance = |kinds: &[usize]| {
        let mut counts = [[0_u64; 4]; 5];
        plants
            .iter()
            .zip(kinds)
            .for_each(|(plant, &kind)| counts[plant.0][kind] += 1);
        -counts
            .iter()
            .flatten()
            .map(|&count| ln_factorial(count))
            .sum::<f64>()
    };
    let (mut random, seen) = (SplitMix64::new(61), ln_chance(&kinds));
    let mut as_rare = 0;
    for _ in 0..20_000 {
        random.shuffle(&mut kinds);
        as_rare += i32::from(ln_chance(&kinds) <= seen + 1e-7);
    }
    assert!(
        (test.p_exact - f64::from(as_rare) / 20_000.0).abs() < 0.012,
        "{test:?} {as_rare}"
    );
}

#[test]
fn many_plants_are_left_to_chi_square() {
    let rows = [
        vec![20, 15, 30, 12],
        vec![25, 22, 18, 20],
        vec![15, 30, 22, 19],
        vec![28, 17, 21, 24],
    ];
    for factor in [1, 100, 20_000] {
        let larger: Vec<Vec<u64>> = rows
            .iter()
            .map(|row| row.iter().map(|k| k * factor).collect())
            .collect();
        let test = compare_pods(&larger).unwrap();
        assert_eq!(
            (test.found, test.p_exact),
            (Found::ByChiSquare, test.chi_square.1)
        );
    }
    let too_many = compare_pods(&[vec![u64::MAX, 1], vec![3, 4]]);
    assert!(matches!(too_many, Err(StatisticsError::OutOfRange { .. })));
}

/// Two pods and three kinds, every count large: listed exactly while there are at most 5,000 tables, however they lie.
/// Twin: the tables counted one by one.
#[test]
fn two_pods_are_listed_up_to_the_stated_number_of_tables() {
    let (mut listed, mut left) = (0, 0);
    for size in 20..120_u64 {
        let rows = [vec![size, size + 7, 30], vec![size + 3, size, 40]];
        let first: u64 = rows[0].iter().sum();
        let column = |at: usize| rows[0][at] + rows[1][at];
        let third = |a: u64, b: u64| first.checked_sub(a + b).is_some_and(|c| c <= column(2));
        let tables: u64 = (0..=column(0))
            .map(|a| (0..=column(1)).filter(|&b| third(a, b)).count() as u64)
            .sum();
        let test = compare_pods(&rows).unwrap();
        if tables <= 5_000 {
            assert_eq!(test.found, Found::Listed(tables), "{rows:?}");
            listed += 1;
        } else {
            assert_eq!(test.found, Found::ByChiSquare, "{rows:?}");
            left += 1;
        }
    }
    assert!(listed > 10 && left > 10, "{listed} {left}");
}

#[test]
fn awkward_tables() {
    assert_eq!(
        compare_pods(&[]),
        Err(StatisticsError::TooFew {
            found: 0,
            needed: 2
        })
    );
    assert_eq!(
        compare_pods(&[vec![3, 4]]),
        Err(StatisticsError::TooFew {
            found: 1,
            needed: 2
        })
    );
    assert_eq!(
        compare_pods(&[vec![3, 4], vec![0, 0]]),
        Err(StatisticsError::TooFew {
            found: 1,
            needed: 2
        })
    );
    assert_eq!(
        compare_pods(&[vec![3, 0], vec![5, 0]]),
        Err(StatisticsError::NoSpread)
    );
    assert_eq!(
        compare_pods(&[vec![3, 0], vec![5]]),
        Err(StatisticsError::Unpaired { left: 2, right: 1 })
    );
    let with_empty = compare_pods(&[vec![3, 0, 1], vec![0, 0, 0], vec![1, 0, 4]]).unwrap();
    assert_eq!(with_empty, compare_pods(&[vec![3, 1], vec![1, 4]]).unwrap());
    assert_eq!(
        compare_pods(&[vec![1, 0], vec![0, 1]]).unwrap().p_exact,
        1.0
    );
}
