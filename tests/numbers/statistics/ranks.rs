//! Rank tests: `04_variance_and_location_tests.json`, `05_selection.json` (ordinal), and every arrangement by hand.

use super::tables::{IRIS, close, iris, number, numbers, table};
use podbook::statistics::StatisticsError;
use podbook::statistics::multinomial::Found;
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
}
