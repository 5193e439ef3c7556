//! Fast, medium, slow: a tray of twelve, `04_growth.json` (classes and their reliability), a simulated twin.

use super::growth::pods;
use super::tables::{Draws, close, number, numbers, table};
use podbook::statistics::Scale;
use podbook::statistics::StatisticsError;
use podbook::statistics::classes::*;
use podbook::statistics::random::SplitMix64;
use podbook::statistics::trend::slope;

fn third(standing: &Standing) -> Third {
    match standing {
        Standing::Classed(third) => *third,
        other => panic!("{other:?}"),
    }
}

/// Twelve plants of one sowing at 20 months, centimetres (an invented tray): thirds 9.8–7.1, 6.9–5.8, 5.1–2.2; the
/// fourth lies within the reading error of 0.7 cm of the fifth and the sixth, the eighth and ninth on its very edge.
#[test]
fn a_tray_of_twelve() {
    let tray = [9.8, 8.9, 8.4, 7.1, 6.9, 6.6, 6.2, 5.8, 5.1, 3.9, 3.4, 2.2];
    let found: Vec<Third> = thirds(&tray.map(Some)).unwrap().iter().map(third).collect();
    let of = |class: Third| found.iter().filter(|f| **f == class).count();
    assert_eq!([Third::Fast, Third::Medium, Third::Slow].map(of), [4, 4, 4]);
    assert!(found.is_sorted_by(|a, b| a >= b));
    let classed: Vec<(f64, Third)> = tray.into_iter().zip(found).collect();
    let found = ties(&classed, 0.7);
    let tied = (0..12).filter(|&i| !found[i].nearest.is_empty());
    let tied: Vec<usize> = tied.map(|i| i + 1).collect();
    assert_eq!(tied, [4, 5, 6, 8, 9]);
    assert!((reading_error(READING_SD) - 0.7).abs() < 0.01);
}

/// A plant exactly on a boundary stands in the upper third: of six the two that share places 2 and 3, u = 2/6, are medium,
/// the two that share 4 and 5, u = 4/6, are fast.
#[test]
fn a_boundary_belongs_to_the_third_above() {
    let of = |tray: [f64; 6]| -> Vec<Third> {
        let standings = thirds(&tray.map(Some)).unwrap();
        standings.iter().map(third).collect()
    };
    use Third::{Fast, Medium, Slow};
    let low = of([1.0, 2.0, 2.0, 4.0, 5.0, 6.0]);
    assert_eq!(low, [Slow, Medium, Medium, Medium, Fast, Fast]);
    let high = of([1.0, 2.0, 3.0, 4.0, 4.0, 6.0]);
    assert_eq!(high, [Slow, Slow, Medium, Fast, Fast, Fast]);
}

#[test]
fn classes_of_the_table() {
    let file = table!("04_growth.json");
    let slopes: Vec<(String, f64)> = pods()
        .into_iter()
        .map(|(name, readings)| (name, slope(readings.into_iter(), Scale::Log).unwrap()))
        .collect();
    for pod in ["P1", "P2", "P3"] {
        let row = &file["classes"][pod];
        let own: Vec<Option<f64>> = slopes
            .iter()
            .filter(|s| s.0.starts_with(pod))
            .map(|s| Some(s.1))
            .collect();
        let blup: Vec<Option<f64>> = numbers(&row["blup_slope"]).into_iter().map(Some).collect();
        for (values, name) in [(own, "class_ols"), (blup, "class_blup")] {
            let found: Vec<String> = thirds(&values)
                .unwrap()
                .iter()
                .map(|s| format!("{:?}", third(s)).to_lowercase())
                .collect();
            let expected: Vec<&str> = row[name]
                .as_array()
                .unwrap()
                .iter()
                .map(|v| v.as_str().unwrap())
                .collect();
            assert_eq!(found, expected, "{pod} {name}");
        }
    }
}

/// The table simulates twelve siblings; in a large sowing the chance is a little higher, since cuts are then certain.
#[test]
fn chance_right_near_the_table() {
    for row in table!("04_growth.json")["class_reliability"]
        .as_array()
        .unwrap()
    {
        let (right, fast_called_slow) = chance_right(number(&row["reliability"])).unwrap();
        assert!(
            (right - number(&row["p_correct"])).abs() < 0.03,
            "{right} {row}"
        );
        assert!(
            (fast_called_slow - number(&row["p_true_fast_called_slow"])).abs() < 0.02,
            "{fast_called_slow} {row}"
        );
    }
    let (right, wrong) = chance_right(0.0).unwrap();
    close(right, 1.0 / 3.0, 1e-4);
    close(wrong, 1.0 / 3.0, 1e-4);
    assert!(chance_right(1.0).unwrap().0 > 0.999 && chance_right(1.2).is_err());
}

/// Twin: every pair of plants looked at. A plant is tied with each of the neighbouring third that lies within the error,
/// whatever lies between them and the boundary; the nearest three of a side are named.
#[test]
fn ties_are_between_plants() {
    let mut random = SplitMix64::new(5);
    let (mut seen, mut more) = (0, 0);
    for n in (6..30).cycle().take(600) {
        let tray = (0..n).map(|_| (20.0 + 90.0 * random.uniform()).round() / 10.0);
        let mut tray: Vec<f64> = tray.collect();
        tray.sort_by(|a, b| b.total_cmp(a));
        let found = thirds(&tray.iter().copied().map(Some).collect::<Vec<_>>()).unwrap();
        let found: Vec<Third> = found.iter().map(third).collect();
        let classed: Vec<(f64, Third)> = tray.iter().copied().zip(found.clone()).collect();
        let tied = ties(&classed, 1.5);
        let filled: std::collections::BTreeSet<Third> = found.iter().copied().collect();
        let place = |i: usize| filled.iter().position(|of| *of == found[i]).unwrap();
        for i in 0..n {
            let swaps = |j: &usize| {
                place(i).abs_diff(place(*j)) == 1 && (tray[i] - tray[*j]).abs() < 1.5 + 1e-6
            };
            let larger: Vec<usize> = (0..i).filter(swaps).collect();
            let smaller: Vec<usize> = (i..n).filter(swaps).collect();
            let named = larger.iter().rev().take(3).rev();
            let named: Vec<usize> = named.chain(smaller.iter().take(3)).copied().collect();
            assert_eq!(tied[i].nearest, named, "{tray:?} {i}");
            assert_eq!(tied[i].more, larger.len() + smaller.len() - named.len());
            seen += named.len();
            more += tied[i].more;
        }
    }
    assert!(seen > 500 && more > 100, "{seen} {more}");
}

/// Twin: a large simulated sowing.
#[test]
fn chance_right_by_simulation() {
    let mut random = SplitMix64::new(41);
    let n = 60_000;
    let truth: Vec<f64> = (0..n).map(|_| random.normal()).collect();
    let read: Vec<Option<f64>> = truth
        .iter()
        .map(|t| Some(0.7_f64.sqrt() * t + 0.3_f64.sqrt() * random.normal()))
        .collect();
    let by_truth = thirds(&truth.iter().copied().map(Some).collect::<Vec<_>>()).unwrap();
    let by_reading = thirds(&read).unwrap();
    let right = by_truth
        .iter()
        .zip(&by_reading)
        .filter(|(a, b)| a == b)
        .count() as f64
        / f64::from(n);
    assert!(
        (right - chance_right(0.7).unwrap().0).abs() < 0.006,
        "{right}"
    );
}

#[test]
fn awkward_trays() {
    assert_eq!(thirds(&[]), Ok(vec![]));
    assert_eq!(
        thirds(&[None, Some(3.0)]),
        Ok(vec![Standing::Unread, Standing::Unclassed])
    );
    let five = thirds(&[1.0, 2.0, 3.0, 4.0, 5.0].map(Some)).unwrap();
    assert!(five.iter().all(|s| *s == Standing::Unclassed));
    let alike = thirds(&[Some(4.0); 7]).unwrap();
    assert!(
        alike.iter().all(|s| third(s) == Third::Medium),
        "all alike are all in the middle"
    );
    let mixed = thirds(&[
        Some(1.0),
        None,
        Some(2.0),
        Some(3.0),
        Some(4.0),
        Some(5.0),
        Some(6.0),
    ])
    .unwrap();
    assert_eq!(mixed[1], Standing::Unread);
    assert_eq!(third(&mixed[0]), Third::Slow);
    assert_eq!(thirds(&[Some(f64::NAN)]), Err(StatisticsError::NotFinite));
    assert_eq!(
        reliability(&[2.0, 2.0], 0.25),
        Err(StatisticsError::NoSpread)
    );
    close(reliability(&[1.0, 2.0, 3.0], 0.5).unwrap(), 0.75, 1e-12);
    assert_eq!(reliability(&[1.0, 1.1], 5.0), Ok(0.0));
}
