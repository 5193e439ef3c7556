//! Error of a reading: the table of Shrout & Fleiss 1979 (from memory), `siblings_extra.json` (SciPy), a twin by pairs, one by
//! least squares, coverage simulated.

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
    assert_eq!(found.df, 15.0);
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

/// Twelve plants read three times; figures by SciPy.
#[test]
fn three_readings_of_each_plant() {
    let rows = [
        [6.8, 6.6, 6.8],
        [8.5, 8.9, 8.7],
        [7.5, 7.8, 7.7],
        [9.1, 9.0, 9.4],
        [9.0, 9.3, 9.7],
        [5.0, 4.9, 5.4],
        [4.6, 4.9, 4.9],
        [10.8, 10.2, 10.7],
        [6.8, 6.4, 6.5],
        [6.5, 7.0, 6.6],
        [12.0, 11.3, 11.7],
        [7.9, 8.5, 8.6],
    ];
    let found = of(&[rows.map(|row| row.to_vec()).to_vec()]);
    assert_eq!(found.df, 22.0);
    close(found.error_sd, 0.253_709_847_796_037_4, 1e-11);
    close(found.error_between.low, 0.196_217_888_818_093_7, 1e-9);
    close(found.error_between.high, 0.359_088_588_358_887, 1e-9);
    close(found.repeatability, 0.985_345_689_942_624_2, 1e-10);
    close(
        found.repeatability_between.low,
        0.961_826_382_885_462_3,
        1e-8,
    );
    close(
        found.repeatability_between.high,
        0.995_385_315_610_216_7,
        1e-8,
    );
}

/// Twin by least squares: an effect of each plant and each reading of its table, whatever is left is error. Tables of two,
/// three and four readings; the mean squares among plants as they are expected of the pooled readings.
#[test]
fn tables_of_different_length_by_least_squares() {
    let mut random = SplitMix64::new(41);
    for sizes in [[(5, 2), (4, 3)], [(3, 4), (7, 2)], [(2, 3), (2, 2)]] {
        let tables = sizes.map(|(plants, times)| -> Vec<Vec<f64>> {
            let shift: Vec<f64> = (0..times).map(|_| random.normal()).collect();
            (0..plants)
                .map(|_| {
                    let plant = 6.0 + random.normal();
                    let read = shift.iter().map(|shift| plant + shift);
                    read.map(|size| size + 0.3 * random.normal()).collect()
                })
                .collect()
        });
        let (mut rest, mut df, mut among, mut plants) = (0.0, 0.0, 0.0, 0.0);
        for table in &tables {
            let (n, k) = (table.len() as f64, table[0].len() as f64);
            rest += left_by_least_squares(table);
            df += (n - 1.0) * (k - 1.0);
            let means: Vec<f64> = table
                .iter()
                .map(|row| row.iter().sum::<f64>() / k)
                .collect();
            let grand = means.iter().sum::<f64>() / n;
            among += k * means.iter().map(|of| (of - grand).powi(2)).sum::<f64>();
            plants += n - 1.0;
        }
        let found = of(&tables);
        assert_eq!(found.df, df);
        close(found.error_sd, (rest / df).sqrt(), 1e-9);
        // Expected of the mean square among plants: the error and `times` the variance of plants.
        let times: f64 = sizes
            .iter()
            .map(|&(n, k)| (n - 1) as f64 * k as f64 / plants)
            .sum();
        let of_plants = (among / plants - rest / df) / times;
        let share = of_plants / (of_plants + rest / df);
        close(found.repeatability, share, 1e-9);
    }
}

/// What plants and readings leave of a table: both fitted in turn until nothing changes.
fn left_by_least_squares(table: &[Vec<f64>]) -> f64 {
    let mut left: Vec<Vec<f64>> = table.to_vec();
    for _ in 0..50 {
        for row in &mut left {
            let mean = row.iter().sum::<f64>() / row.len() as f64;
            row.iter_mut().for_each(|value| *value -= mean);
        }
        for at in 0..left[0].len() {
            let mean = left.iter().map(|row| row[at]).sum::<f64>() / left.len() as f64;
            left.iter_mut().for_each(|row| row[at] -= mean);
        }
    }
    left.iter().flatten().map(|value| value * value).sum()
}

/// Ten plants read twice and six read three times, as above: pooled limits hold.
#[test]
fn limits_of_tables_of_different_length_hold() {
    let mut random = SplitMix64::new(43);
    let (mut error, mut share) = (0, 0);
    let runs = 4_000;
    for _ in 0..runs {
        let mut tray = |plants: usize, times: usize| -> Vec<Vec<f64>> {
            (0..plants)
                .map(|_| {
                    let plant = random.normal();
                    (0..times).map(|_| plant + 0.25 * random.normal()).collect()
                })
                .collect()
        };
        let found = of(&[tray(10, 2), tray(6, 3)]);
        error += usize::from(found.error_between.holds(0.25));
        share += usize::from(found.repeatability_between.holds(1.0 / 1.0625));
    }
    for held in [error, share] {
        let held = held as f64 / runs as f64;
        assert!((0.935..0.965).contains(&held), "{held}");
    }
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
    let shifted = |by: f64| {
        let plants = [3.1, 4.7, 5.3, 8.9].iter();
        plants
            .map(|size| vec![*size, size + by])
            .collect::<Vec<_>>()
    };
    assert_eq!(
        repeatability(&[shifted(0.4), shifted(-0.7)], Confidence::P95),
        Err(StatisticsError::NoSpread),
        "each table has its own change"
    );
    let once = vec![vec![1.0], vec![2.0], vec![3.0]];
    let twice = vec![vec![1.0, 1.1], vec![2.0, 2.2], vec![3.0, 3.0]];
    assert!(repeatability(&[once, twice], Confidence::P95).is_err());
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
