//! Differences of means: `04_variance_and_location_tests.json` and `04_open_data_extras.json`.

use super::tables::{close, close_interval, iris, number, numbers, table};
use podbook::statistics::location::*;
use podbook::statistics::random::SplitMix64;
use podbook::statistics::vague_means::welch_of_ranges;
use podbook::statistics::{Confidence, Interval, StatisticsError};

/// The two samples of a row of the table, worked or from Fisher's iris (1936).
pub fn samples(name: &str, row: &serde_json::Value) -> (Vec<f64>, Vec<f64>) {
    match name {
        "worked_hybrid_vs_species" => (numbers(&row["hybrid"]), numbers(&row["species"])),
        "iris_virginica_vs_setosa_petal_length" => (
            iris("virginica", "petal_length"),
            iris("setosa", "petal_length"),
        ),
        "iris_versicolor_vs_setosa_sepal_width" => (
            iris("versicolor", "sepal_width"),
            iris("setosa", "sepal_width"),
        ),
        other => panic!("unknown row {other}"),
    }
}

/// Computed by SciPy 1.17.1 and closed forms.
#[test]
fn every_row_of_two_samples() {
    for (name, row) in table!("04_variance_and_location_tests.json")["two_sample"]
        .as_object()
        .unwrap()
    {
        let (first, second) = samples(name, row);
        let test = welch(&first, &second, Confidence::P95).unwrap();
        close(test.t, number(&row["welch_t"]), 1e-12);
        close(test.df, number(&row["welch_df"]), 1e-12);
        close(test.p, number(&row["welch_p"]), 1e-11);
        close_interval(test.interval, &row["welch_ci95"], 1e-11);
        let effect = hedges_g(&first, &second, Confidence::P95).unwrap();
        close(effect.d, number(&row["d"]), 1e-12);
        close(effect.g, number(&row["g"]), 1e-12);
        close(
            hedges_correction((first.len() + second.len() - 2) as f64),
            number(&row["J"]),
            1e-12,
        );
        close_interval(effect.interval, &row["delta_ci95_nct"], 1e-7);
    }
}

/// Hedges' correction is close to 1 − 3/(4m − 1) (Hedges 1981, from memory).
#[test]
fn hedges_correction_near_its_approximation() {
    for m in [5.0, 20.0, 98.0] {
        assert!((hedges_correction(m) - (1.0 - 3.0 / (4.0 * m - 1.0))).abs() < 0.02 / m);
    }
}

/// Holm 1979, worked by hand: 0.01·4, 0.02·3, 0.03·2 held at the one before, 0.04.
#[test]
fn holm_by_hand() {
    let found = holm(&[0.03, 0.01, 0.04, 0.02]);
    for (found, expected) in found.iter().zip([0.06, 0.04, 0.06, 0.06]) {
        close(*found, expected, 1e-12);
    }
    assert_eq!(holm(&[]), Vec::<f64>::new());
    assert_eq!(holm(&[0.7, 0.6]), [1.0, 1.0]);
}

#[test]
fn awkward_groups() {
    let too_few = Err(StatisticsError::TooFew {
        found: 1,
        needed: 2,
    });
    assert_eq!(welch(&[1.0], &[1.0, 2.0], Confidence::P95), too_few);
    assert_eq!(
        welch(&[2.0, 2.0], &[3.0, 3.0], Confidence::P95),
        Err(StatisticsError::NoSpread)
    );
    assert!(hedges_g(&[2.0, 2.0], &[3.0, 3.0], Confidence::P95) == Err(StatisticsError::NoSpread));
    let half_alike = welch(&[2.0, 2.0, 2.0], &[3.0, 5.0], Confidence::P95).unwrap();
    assert_eq!((half_alike.difference, half_alike.df), (-2.0, 1.0));
    assert!(
        hedges_g(&[1.0, 2.0], &[1e6, 1e6 + 1.0], Confidence::P95)
            .unwrap()
            .interval
            .high
            .is_finite()
    );
    assert_eq!(
        welch(&[1.0, f64::INFINITY], &[1.0, 2.0], Confidence::P95),
        Err(StatisticsError::NotFinite)
    );
}

/// Twin: the limits of all ways in which each value stands at an end of its range.
#[test]
fn limits_of_ranges_are_those_of_all_their_ends() {
    let mut random = SplitMix64::new(7);
    let mut range = |width: f64| {
        let low = 10.0 * random.uniform();
        let high = low + (width * random.uniform() - 1.0).max(0.0);
        Interval { low, high }
    };
    for round in 0..300 {
        let width = [1.0, 2.0, 4.0, 12.0][round % 4];
        let first: Vec<Interval> = (0..2 + round % 5).map(|_| range(width)).collect();
        let second: Vec<Interval> = (0..2 + round % 4).map(|_| range(width)).collect();
        let all = |ranges: &[Interval]| -> Vec<Vec<f64>> {
            let ways = 0..1u32 << ranges.len();
            let of = |way: u32| {
                let ends = ranges.iter().enumerate();
                let ends = ends.map(|(at, of)| if way >> at & 1 == 1 { of.high } else { of.low });
                ends.collect()
            };
            ways.map(of).collect()
        };
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        let seconds = all(&second);
        for one in all(&first) {
            for other in &seconds {
                if let Ok(of) = welch(&one, other, Confidence::P95) {
                    low = low.min(of.interval.low);
                    high = high.max(of.interval.high);
                }
            }
        }
        let found = welch_of_ranges(&first, &second, Confidence::P95).unwrap();
        close(found.low, low, 1e-9);
        close(found.high, high, 1e-9);
    }
}

/// Of many values the limits are looked for by steps: no way drawn by lot is farther out.
#[test]
fn limits_of_many_ranges_hold_all_values() {
    let mut random = SplitMix64::new(11);
    for round in 0..20 {
        let width = [0.2, 1.0, 3.0, 8.0][round % 4];
        let mut ranges = |n: usize| -> Vec<Interval> {
            let mut range = || {
                let low = 5.0 + 4.0 * random.uniform();
                Interval {
                    low,
                    high: low + width * random.uniform(),
                }
            };
            (0..n).map(|_| range()).collect()
        };
        let (first, second) = (ranges(8 + round), ranges(7 + round));
        let found = welch_of_ranges(&first, &second, Confidence::P95).unwrap();
        for _ in 0..500 {
            let mut within = |ranges: &[Interval]| -> Vec<f64> {
                let part = |of: &Interval, part: f64| of.low + part * (of.high - of.low);
                let ends = random.uniform() < 0.7;
                let drawn = |of: &Interval| {
                    let at = random.uniform();
                    part(of, if ends { at.round() } else { at })
                };
                ranges.iter().map(drawn).collect()
            };
            let of = welch(&within(&first), &within(&second), Confidence::P95).unwrap();
            assert!(found.low <= of.interval.low && of.interval.high <= found.high);
        }
    }
}

/// Without vague values they are the limits of the values, to the last bit; without any spread there are none.
#[test]
fn ranges_of_one_value() {
    let exact = |values: &[f64]| -> Vec<Interval> {
        let one = |value: &f64| Interval::around(*value, 0.0);
        values.iter().map(one).collect()
    };
    let (first, second) = ([4.1, 7.3, 5.2], [2.2, 9.9, 3.1, 0.7]);
    let of = welch(&first, &second, Confidence::P95).unwrap();
    let found = welch_of_ranges(&exact(&first), &exact(&second), Confidence::P95).unwrap();
    assert_eq!(found, of.interval);
    let alike = exact(&[3.0, 3.0]);
    assert_eq!(
        welch_of_ranges(&alike, &alike, Confidence::P95),
        Err(StatisticsError::NoSpread)
    );
    let many: Vec<Interval> = (0..1000)
        .map(|n| Interval {
            low: f64::from(n),
            high: f64::from(n + 5),
        })
        .collect();
    let found = welch_of_ranges(&many, &exact(&[1.0, 2.0]), Confidence::P95).unwrap();
    assert!(
        found.high > 498.5 + 5.0 - 1.5 && found.low < 498.5 - 1.5,
        "{found:?}"
    );
}
