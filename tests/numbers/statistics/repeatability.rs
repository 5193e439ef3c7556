//! Error of a reading: the table of Shrout & Fleiss 1979 (from memory), `siblings_extra.json` (SciPy), a twin by pairs,
//! coverage simulated.

use super::tables::{Draws, close, number, numbers, table};
use podbook::statistics::random::SplitMix64;
use podbook::statistics::repeatability::*;
use podbook::statistics::{Confidence, StatisticsError};

fn of(tables: &[Vec<Vec<f64>>]) -> Repeatability {
    repeatability(tables, Confidence::P95).unwrap()
}

/// Six targets by four judges: mean squares 11.24 and 1.02, ICC(3,1) 0.71 as printed there.
#[test]
fn shrout_and_fleiss() {
    let rows = [
        [9, 2, 5, 8],
        [6, 1, 3, 2],
        [8, 4, 6, 8],
        [7, 1, 2, 6],
        [10, 5, 6, 9],
        [6, 2, 4, 7],
    ];
    let rows = rows.map(|row| row.map(f64::from).to_vec()).to_vec();
    let found = of(&[rows]);
    assert_eq!((found.plants, found.df), (6, 15.0));
    assert!((found.error_sd * found.error_sd - 1.02).abs() < 0.005);
    assert!(
        (found.repeatability - 0.71).abs() < 0.006,
        "{}",
        found.repeatability
    );
}

#[test]
fn every_row_of_the_table() {
    let file = table!("siblings_extra.json");
    for row in file["repeatability"].as_array().unwrap() {
        let tables = row["tables"].as_array().unwrap().iter();
        let tables: Vec<Vec<Vec<f64>>> = tables
            .map(|table| table.as_array().unwrap().iter().map(numbers).collect())
            .collect();
        let found = of(&tables);
        close(found.error_sd, number(&row["error_sd"]), 1e-11);
        close(found.error_between.low, number(&row["error_low"]), 1e-9);
        close(found.error_between.high, number(&row["error_high"]), 1e-9);
        close(found.repeatability, number(&row["icc"]), 1e-10);
        close(
            found.repeatability_between.low,
            number(&row["icc_low"]),
            1e-8,
        );
        close(
            found.repeatability_between.high,
            number(&row["icc_high"]),
            1e-8,
        );
    }
}

/// Twin: for two readings the error is the spread of the differences over √2; what all grew drops out.
#[test]
fn two_readings_by_their_differences() {
    let first = [1.8, 2.4, 3.9, 5.0, 2.2];
    let second = [2.1, 2.4, 4.4, 5.2, 2.3];
    let rows: Vec<Vec<f64>> = first.iter().zip(second).map(|(a, b)| vec![*a, b]).collect();
    let d: Vec<f64> = first.iter().zip(second).map(|(a, b)| b - a).collect();
    let mean = d.iter().sum::<f64>() / 5.0;
    let variance = d.iter().map(|d| (d - mean) * (d - mean)).sum::<f64>() / 4.0;
    let found = of(std::slice::from_ref(&rows));
    close(found.error_sd, (variance / 2.0).sqrt(), 1e-12);
    let grown: Vec<Vec<f64>> = rows.iter().map(|row| vec![row[0], row[1] + 0.7]).collect();
    close(of(&[grown]).error_sd, found.error_sd, 1e-12);
}

/// Two trays of eight plants read twice, true error 0.25 among plants that differ by 1: both limits hold 94 to 96 times
/// in 100, and the estimate is right on average.
#[test]
fn limits_hold_what_they_state() {
    let mut random = SplitMix64::new(17);
    let (mut error, mut share, mut sum) = (0, 0, 0.0);
    let runs = 6_000;
    for _ in 0..runs {
        let mut tray = |level: f64| -> Vec<Vec<f64>> {
            (0..8)
                .map(|_| {
                    let plant = level + random.normal();
                    (0..2).map(|_| plant + 0.25 * random.normal()).collect()
                })
                .collect()
        };
        let found = of(&[tray(5.0), tray(9.0)]);
        error += usize::from(found.error_between.holds(0.25));
        share += usize::from(found.repeatability_between.holds(1.0 / 1.0625));
        sum += found.error_sd * found.error_sd;
    }
    for held in [error, share] {
        let held = held as f64 / runs as f64;
        assert!((0.94..0.96).contains(&held), "{held}");
    }
    close(sum / runs as f64, 0.0625, 0.02);
}

#[test]
fn awkward_tables() {
    assert!(repeatability(&[], Confidence::P95).is_err());
    let same = vec![vec![1.0, 1.0], vec![2.0, 2.0], vec![3.0, 3.0]];
    assert_eq!(
        repeatability(&[same], Confidence::P95),
        Err(StatisticsError::NoSpread)
    );
    let ragged = vec![vec![1.0, 1.2], vec![2.0], vec![3.0, 3.3]];
    assert!(repeatability(&[ragged], Confidence::P95).is_err());
    let singles = vec![
        vec![vec![1.0, 1.1]],
        vec![vec![2.0, 2.2]],
        vec![vec![3.0, 3.1]],
    ];
    assert!(
        repeatability(&singles, Confidence::P95).is_err(),
        "one plant a table"
    );
}
