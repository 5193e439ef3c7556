//! Intervals for shares: `04_intervals_proportion.csv`, `04_open_data_extras.json`, and plain twins.

use super::tables::{close, close_interval, number, table};
use podbook::statistics::proportion::*;
use podbook::statistics::{Confidence, StatisticsError};

/// Wilson 1927; the table was computed by SciPy and statsmodels, which agree. Its columns of other intervals are not
/// used: no report prints them.
#[test]
fn every_row_of_the_table() {
    for line in include_str!("../data/04_intervals_proportion.csv")
        .lines()
        .skip(1)
    {
        let row: Vec<f64> = line.split(',').map(|v| v.parse().unwrap()).collect();
        let (k, n, level) = (
            row[0] as u64,
            row[1] as u64,
            Confidence::new(row[2]).unwrap(),
        );
        let found = wilson(k, n, level).unwrap();
        close(found.low, row[3], 1e-11);
        close(found.high, row[4], 1e-11);
    }
}

/// Wine cultivars of the UCI repository (Forina et al. 1991), alcohol above 13; counts as in the table.
#[test]
fn wine() {
    for row in table!("04_open_data_extras.json")["wine_proportion_alcohol_over_13"]
        .as_array()
        .unwrap()
    {
        let interval = wilson(
            row["k"].as_u64().unwrap(),
            row["n"].as_u64().unwrap(),
            Confidence::P95,
        )
        .unwrap();
        close_interval(interval, &row["wilson95"], 1e-12);
    }
}

/// Twin: the limits are the shares whose score statistic equals the normal quantile, found by scanning.
#[test]
fn wilson_limits_solve_the_score_equation() {
    let (k, n) = (7.0, 12.0);
    let far = |p: f64| (k / n - p).abs() / (p * (1.0 - p) / n).sqrt() > 1.959963984540054;
    let inside: Vec<f64> = (1..1_000_000)
        .map(|i| i as f64 / 1e6)
        .filter(|&p| !far(p))
        .collect();
    let found = wilson(7, 12, Confidence::P95).unwrap();
    assert!(
        (found.low - inside[0]).abs() < 2e-6
            && (found.high - inside[inside.len() - 1]).abs() < 2e-6
    );
}

#[test]
fn nothing_counted_and_too_many_counted() {
    assert_eq!(
        wilson(0, 0, Confidence::P95),
        Err(StatisticsError::TooFew {
            found: 0,
            needed: 1
        })
    );
    assert_eq!(
        wilson(4, 3, Confidence::P95),
        Err(StatisticsError::OutOfRange {
            found: 4.0,
            low: 0.0,
            high: 3.0
        })
    );
    assert_eq!(wilson(0, 1, Confidence::P95).unwrap().low, 0.0);
    assert_eq!(wilson(1, 1, Confidence::P95).unwrap().high, 1.0);
    assert!(Confidence::new(1.0).is_none() && Confidence::new(f64::NAN).is_none());
}

/// The chance of both sexes at 1:1. In the table the chance of two of each at n = 2 reads −0.5, because its formula
/// 1 − 2(n + 1)/2ⁿ takes the one-and-one outcome away twice; two plants can never be two of each, so it is 0.
#[test]
fn both_sexes_as_in_the_table_but_for_one_row() {
    for row in table!("04_segregation.json")["sex_probability"]
        .as_array()
        .unwrap()
    {
        let n = row["n"].as_u64().unwrap();
        close(
            both_sexes(n, 1, 0.5).unwrap(),
            number(&row["p_both_sexes"]),
            1e-12,
        );
        let two_each = if n == 2 {
            0.0
        } else {
            number(&row["p_at_least_2_each"])
        };
        close(both_sexes(n, 2, 0.5).unwrap(), two_each, 1e-12);
    }
}

/// Twin: every string of sexes of twelve plants, one by one.
#[test]
fn both_sexes_by_listing() {
    let share: f64 = 0.4;
    let listed: f64 = (0..1_u32 << 12)
        .map(|sexes| sexes.count_ones() as i32)
        .filter(|females| (3..=9).contains(females))
        .map(|females| share.powi(females) * (1.0 - share).powi(12 - females))
        .sum();
    close(both_sexes(12, 3, share).unwrap(), listed, 1e-12);
    assert_eq!(both_sexes(5, 0, 0.5), Ok(1.0));
    assert_eq!(both_sexes(0, 1, 0.5), Ok(0.0));
    assert!(both_sexes(5, 1, 1.5).is_err());
}
