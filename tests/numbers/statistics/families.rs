//! Variance between and within pods: `05_selection.json`, dietox litters, and by hand.

use super::growth::dietox;
use super::tables::{close, number, numbers, table};
use podbook::statistics::StatisticsError;
use podbook::statistics::families::*;
use podbook::statistics::growth::Reading;
use podbook::statistics::trend::trend;

/// Ten pods of eight, simulated; analysis of variance, and REML of an independent program.
#[test]
fn balanced_pods() {
    let row = &table!("05_selection.json")["balanced_full_sib"];
    let pods: Vec<Vec<f64>> = row["y"].as_array().unwrap().iter().map(numbers).collect();
    let found = components(&pods).unwrap();
    close(found.mean_squares.0, number(&row["MSB"]), 1e-12);
    close(found.mean_squares.1, number(&row["MSW"]), 1e-12);
    close(found.between, number(&row["sigma2_family"]), 1e-12);
    close(found.correlation, number(&row["intraclass_t"]), 1e-12);
    close(found.standard_error, number(&row["se_t_fisher"]), 1e-12);
    let (h2, error) = found.heritability();
    close(h2, number(&row["h2_equals_2t"]), 1e-12);
    close(error, number(&row["se_h2"]), 1e-12);
    close(found.between, number(&row["REML"][0]), 1e-7);
    close(found.within, number(&row["REML"][1]), 1e-7);
}

#[test]
fn precision_of_heritability() {
    for row in table!("05_selection.json")["h2_precision"]
        .as_array()
        .unwrap()
    {
        let error = 2.0
            * correlation_error(
                0.5 * number(&row["true_h2"]),
                number(&row["sibs"]),
                number(&row["pods"]),
            );
        close(error, number(&row["se_h2"]), 1e-11);
    }
}

/// Unequal litters: slope of ln weight by week, 72 pigs in 21 litters.
#[test]
fn dietox_litters() {
    let row = &table!("04_growth.json")["dietox_litter_icc_of_log_growth_slope"];
    let mut litters = std::collections::BTreeMap::<u32, Vec<f64>>::new();
    for (_, litter, weights) in dietox() {
        let readings: Vec<Reading> = weights
            .iter()
            .enumerate()
            .map(|(i, &size)| Reading {
                age: i as f64 + 1.0,
                size,
            })
            .collect();
        litters
            .entry(litter)
            .or_default()
            .push(trend(&readings, false).unwrap().coefficients[1]);
    }
    let found = components(&litters.into_values().collect::<Vec<_>>()).unwrap();
    // Weights are to the tenth; the published file carries single-precision residue.
    close(found.mean_squares.0, number(&row["MSB"]), 1e-5);
    close(found.mean_squares.1, number(&row["MSW"]), 1e-5);
    close(found.siblings, number(&row["n0"]), 1e-12);
    close(found.correlation, number(&row["ICC"]), 1e-4);
    close(found.f.0, number(&row["F"]), 1e-5);
    close(found.f.1, number(&row["p"]), 1e-4);
}

#[test]
fn own_value_and_pod_mean() {
    for row in table!("05_selection.json")["own_plus_pod_index"]
        .as_array()
        .unwrap()
    {
        let found = own_and_pod(
            number(&row["h2"]),
            number(&row["n"]) as usize,
            number(&row["t"]),
        )
        .unwrap();
        close(found.own, number(&row["b_own"]), 1e-11);
        close(found.pod_mean, number(&row["b_pod_mean"]), 1e-11);
        close(found.accuracy, number(&row["accuracy"]), 1e-11);
        close(found.accuracy_own, number(&row["accuracy_own_only"]), 1e-11);
        close(
            found.accuracy_within,
            number(&row["accuracy_within_pod_deviation"]),
            1e-11,
        );
    }
    assert!(
        own_and_pod(0.4, 1, 0.2).is_err()
            && own_and_pod(1.4, 5, 0.8).is_err()
            && own_and_pod(0.4, 5, 0.1).is_err()
    );
}

/// Dempster & Lerner 1950.
#[test]
fn liability() {
    for row in table!("05_selection.json")["ordinal"]["dempster_lerner"]
        .as_array()
        .unwrap()
    {
        close(
            liability_factor(number(&row["p"])).unwrap(),
            number(&row["factor"]),
            1e-12,
        );
    }
    assert!(liability_factor(0.0).is_err() && liability_factor(1.0).is_err());
}

/// Twin: two pods by hand. Means 2 and 5, all 3.2; between 3·1.44 + 2·3.24 = 10.8; within 2 + 2 = 4.
#[test]
fn two_pods_by_hand() {
    let found = components(&[vec![1.0, 2.0, 3.0], vec![], vec![4.0, 6.0]]).unwrap();
    close(found.mean_squares.0, 10.8, 1e-12);
    close(found.mean_squares.1, 4.0 / 3.0, 1e-12);
    close(found.siblings, 5.0 - 13.0 / 5.0, 1e-12);
    close(found.between, (10.8 - 4.0 / 3.0) / 2.4, 1e-12);
}

#[test]
fn awkward_pods() {
    assert_eq!(
        components(&[]),
        Err(StatisticsError::TooFew {
            found: 0,
            needed: 2
        })
    );
    assert_eq!(
        components(&[vec![1.0], vec![2.0]]),
        Err(StatisticsError::TooFew {
            found: 2,
            needed: 3
        })
    );
    assert_eq!(
        components(&[vec![1.0, 1.0], vec![2.0, 2.0]]),
        Err(StatisticsError::NoSpread)
    );
    let opposed = components(&[vec![1.0, 3.0], vec![3.0, 1.0]]).unwrap();
    assert!(opposed.between < 0.0 && opposed.heritability().0 == 0.0);
}
