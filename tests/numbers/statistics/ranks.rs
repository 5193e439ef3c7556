//! Rank tests: `04_variance_and_location_tests.json`, `05_selection.json` (ordinal), and every arrangement by hand.

use super::location::samples;
use super::tables::{IRIS, close, iris, number, numbers, table};
use podbook::statistics::StatisticsError;
use podbook::statistics::multinomial::Found;
use podbook::statistics::ordinal::normal_scores;
use podbook::statistics::rank_sum::mann_whitney;
use podbook::statistics::ranks::kruskal_wallis;

/// Fisher's iris (1936), three species; H as SciPy gives it.
#[test]
fn iris_by_ranks() {
    let file = table!("04_variance_and_location_tests.json");
    for column in ["sepal_length", "sepal_width", "petal_length"] {
        let row = &file["multi_sample"][format!("iris_{column}")];
        let groups: Vec<Vec<f64>> = IRIS.iter().map(|species| iris(species, column)).collect();
        let test = kruskal_wallis(&groups).unwrap();
        close(test.h, number(&row["kruskal_H"]), 1e-12);
        close(test.p_chi_square, number(&row["kruskal_p"]), 1e-10);
        assert_eq!(test.p_exact, None);
    }
    // Petal width is not in the table; the value is from methods notes, two decimals.
    let widths: Vec<Vec<f64>> = IRIS
        .iter()
        .map(|species| iris(species, "petal_width"))
        .collect();
    assert!((kruskal_wallis(&widths).unwrap().h - 131.19).abs() < 0.005);
}

/// Three pods of 4, 5 and 3: all 27,720 arrangements.
#[test]
fn three_small_pods() {
    let row = &table!("04_variance_and_location_tests.json")["multi_sample"]["worked_3_pods"];
    let groups: Vec<Vec<f64>> = row["data"]
        .as_array()
        .unwrap()
        .iter()
        .map(numbers)
        .collect();
    let test = kruskal_wallis(&groups).unwrap();
    close(test.h, number(&row["kruskal_H"]), 1e-12);
    close(test.p_chi_square, number(&row["kruskal_p_chi2"]), 1e-11);
    let (p, found) = test.p_exact.unwrap();
    close(p, number(&row["exact_permutation_p"]), 1e-12);
    assert_eq!(found, Found::Listed(row["permutations"].as_u64().unwrap()));
}

/// Ordinal banding of three pods of twenty; kinds as numbers.
#[test]
fn ordered_kinds() {
    let row = &table!("05_selection.json")["ordinal"];
    let pods: Vec<Vec<u64>> = ["P1", "P2", "P3"]
        .map(|pod| super::tables::counts(&row["counts"][pod]))
        .to_vec();
    let spread_out = |counts: &Vec<u64>| -> Vec<f64> {
        counts
            .iter()
            .enumerate()
            .flat_map(|(kind, &k)| std::iter::repeat_n(kind as f64, k as usize))
            .collect()
    };
    let test = kruskal_wallis(&pods.iter().map(spread_out).collect::<Vec<_>>()).unwrap();
    close(test.h, number(&row["kruskal_H"]), 1e-12);
    close(test.p_chi_square, number(&row["kruskal_p"]), 1e-11);
    let pooled: Vec<u64> = (0..4)
        .map(|kind| pods.iter().map(|pod| pod[kind]).sum())
        .collect();
    let scores = normal_scores(&pooled).unwrap();
    for (found, expected) in scores.iter().zip(numbers(&row["normal_scores"])) {
        close(*found, expected, 1e-12);
    }
    for (pod, name) in pods.iter().zip(["P1", "P2", "P3"]) {
        let mean = pod
            .iter()
            .zip(&scores)
            .map(|(&k, score)| k as f64 * score)
            .sum::<f64>()
            / 20.0;
        close(mean, number(&row["pod_mean_score"][name]), 1e-12);
    }
}

/// SciPy's asymptotic values with ties and continuity corrected; U also of the table.
#[test]
fn mann_whitney_as_in_the_table() {
    for (name, row) in table!("04_variance_and_location_tests.json")["two_sample"]
        .as_object()
        .unwrap()
    {
        let (first, second) = samples(name, row);
        let test = mann_whitney(&first, &second).unwrap();
        close(test.u, number(&row["mannwhitney_U"]), 1e-12);
        close(test.p_normal, number(&row["mannwhitney_p"]), 1e-10);
    }
}

/// Twin: every choice of five out of eleven plants, with ties.
#[test]
fn mann_whitney_equals_the_listing_of_every_choice() {
    let (first, second) = ([3.2, 4.1, 4.1, 6.0, 7.7], [4.1, 5.0, 8.1, 8.1, 9.0, 9.9]);
    let all = [&first[..], &second[..]].concat();
    let pairs = |chosen: u32| -> f64 {
        let (mut a, mut b) = (vec![], vec![]);
        (0..11).for_each(|i| {
            if chosen >> i & 1 == 1 {
                a.push(all[i])
            } else {
                b.push(all[i])
            }
        });
        let win = |x: f64, y: f64| {
            if x > y {
                1.0
            } else if x == y {
                0.5
            } else {
                0.0
            }
        };
        a.iter()
            .map(|&x| b.iter().map(|&y| win(x, y)).sum::<f64>())
            .sum()
    };
    let choices: Vec<u32> = (0..1 << 11).filter(|c: &u32| c.count_ones() == 5).collect();
    let seen = pairs(0b11111);
    let as_far = choices
        .iter()
        .filter(|&&c| (pairs(c) - 15.0).abs() >= (seen - 15.0).abs() - 1e-9)
        .count();
    let test = mann_whitney(&first, &second).unwrap();
    close(test.u, seen, 1e-12);
    close(
        test.p_exact.unwrap(),
        as_far as f64 / choices.len() as f64,
        1e-12,
    );
    close(mann_whitney(&second, &first).unwrap().p(), test.p(), 1e-12);
}

/// For two groups the permutation of H and the exact rank sum ask the same question.
#[test]
fn two_groups_by_either_test() {
    let (first, second) = (
        vec![3.2, 4.1, 4.1, 6.0, 7.7],
        vec![4.1, 5.0, 8.1, 8.1, 9.0, 9.9],
    );
    let kruskal = kruskal_wallis(&[first.clone(), second.clone()]).unwrap();
    close(
        kruskal.p(),
        mann_whitney(&first, &second).unwrap().p(),
        1e-12,
    );
}

#[test]
fn sampling_agrees_with_chi_square_where_listing_is_too_long() {
    let pod = |from: f64| (0..5).map(|i| from + 1.7 * i as f64).collect::<Vec<f64>>();
    let test = kruskal_wallis(&[pod(1.0), pod(2.1), pod(0.4), pod(3.3)]).unwrap();
    let (p, found) = test.p_exact.unwrap();
    assert!(matches!(found, Found::Sampled(_)));
    assert!((p - test.p_chi_square).abs() < 0.03, "{test:?}");
}

#[test]
fn awkward_groups() {
    let too_few = |found, needed| Err(StatisticsError::TooFew { found, needed });
    assert_eq!(kruskal_wallis(&[]), too_few(0, 2));
    assert_eq!(kruskal_wallis(&[vec![1.0, 2.0], vec![]]), too_few(1, 2));
    assert_eq!(kruskal_wallis(&[vec![1.0], vec![2.0]]), too_few(2, 3));
    assert_eq!(
        kruskal_wallis(&[vec![4.0, 4.0], vec![4.0]]),
        Err(StatisticsError::NoSpread)
    );
    assert!(mann_whitney(&[], &[1.0]).is_err() && mann_whitney(&[1.0], &[1.0]).is_err());
    assert_eq!(mann_whitney(&[1.0], &[2.0]).unwrap().p(), 1.0);
    assert!(normal_scores(&[0, 7, 0]).is_err());
    assert!(
        normal_scores(&[0, 7, 3, 0])
            .unwrap()
            .iter()
            .all(|score| score.is_finite())
    );
    let one_against_many: Vec<f64> = (0..2_400).map(f64::from).collect();
    close(
        mann_whitney(&[-1.0], &one_against_many).unwrap().p(),
        2.0 / 2_401.0,
        1e-12,
    );
}
