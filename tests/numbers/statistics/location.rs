//! Differences of means: `04_variance_and_location_tests.json` and `04_open_data_extras.json`.

use super::tables::{close, close_interval, iris, number, numbers, table};
use podbook::statistics::location::*;
use podbook::statistics::{Confidence, StatisticsError};

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
