//! The mixed model: `04_growth.json` (an independent dense REML and statsmodels; dietox equals published R values).

use super::growth::{dietox, pods};
use super::tables::{close, number, numbers, table};
use podbook::statistics::StatisticsError;
use podbook::statistics::matrix::{Matrix, dot};
use podbook::statistics::mixed::*;

#[track_caller]
fn within(found: f64, expected: f64, absolute: f64) {
    assert!(
        (found - expected).abs() <= absolute,
        "found {found}, expected {expected}"
    );
}

fn pod_rows(pod: &str) -> Vec<Row> {
    let siblings = pods()
        .into_iter()
        .filter(|(name, _)| name.starts_with(pod))
        .enumerate();
    let rows = siblings.flat_map(|(sibling, (_, readings))| {
        readings.into_iter().map(move |r| {
            let t = r.age / 10.0;
            Row {
                sibling,
                terms: vec![1.0, t, t * t],
                value: r.size.ln(),
            }
        })
    });
    rows.collect()
}

/// Three invented pods, ln span on 1, T, T² with T = months/10, level and slope by sibling.
#[test]
fn three_pods() {
    for (pod, row) in table!("04_growth.json")["mixed_model_log_scale"]["fits"]
        .as_object()
        .unwrap()
    {
        let fit = fit_mixed(&pod_rows(pod), Varies::LevelAndSlope).unwrap();
        assert!(fit.log_likelihood >= number(&row["loglik_reml"]) - 1e-7);
        within(fit.log_likelihood, number(&row["loglik_reml"]), 1e-5);
        for (i, (b, se)) in numbers(&row["beta"])
            .iter()
            .zip(numbers(&row["se"]))
            .enumerate()
        {
            within(fit.coefficients[i], *b, 1e-5);
            close(fit.standard_errors[i], se, 1e-3);
        }
        for i in 0..4 {
            within(
                fit.between.at(i / 2, i % 2),
                number(&row["G"][i / 2][i % 2]),
                2e-5,
            );
        }
        close(fit.within, number(&row["sigma2"]), 1e-3);
        for (deviation, expected) in fit
            .deviations
            .iter()
            .zip(row["blup"].as_object().unwrap().values())
        {
            within(deviation[0], number(&expected[0]), 1e-4);
            within(deviation[1], number(&expected[1]), 1e-4);
        }
    }
}

fn pig_rows() -> Vec<Row> {
    let rows = dietox()
        .into_iter()
        .enumerate()
        .flat_map(|(sibling, (_, _, weights))| {
            let row = move |(week, value): (usize, f64)| Row {
                sibling,
                terms: vec![1.0, week as f64 + 1.0],
                value,
            };
            weights
                .into_iter()
                .enumerate()
                .map(row)
                .collect::<Vec<Row>>()
        });
    rows.collect()
}

/// dietox, 861 weights: level only.
#[test]
fn pigs_by_level() {
    let row = &table!("04_growth.json")["dietox_random_intercept"];
    let fit = fit_mixed(&pig_rows(), Varies::Level).unwrap();
    within(fit.log_likelihood, number(&row["loglik_reml"]), 1e-3);
    close(fit.coefficients[0], number(&row["beta"][0]), 1e-5);
    close(fit.coefficients[1], number(&row["beta"][1]), 1e-6);
    close(fit.standard_errors[0], number(&row["se"][0]), 1e-4);
    close(fit.between.at(0, 0), number(&row["G"][0][0]), 1e-4);
    close(fit.within, number(&row["sigma2"]), 1e-5);
}

/// dietox: level and slope. Another program's default search stops at −2220.389; the top is at −2217.047.
#[test]
fn pigs_by_level_and_slope() {
    let row = &table!("04_growth.json")["dietox_random_slope"];
    let fit = fit_mixed(&pig_rows(), Varies::LevelAndSlope).unwrap();
    within(fit.log_likelihood, number(&row["loglik_reml"]), 1e-3);
    for i in 0..4 {
        within(
            fit.between.at(i / 2, i % 2),
            number(&row["G"][i / 2][i % 2]),
            2e-3,
        );
    }
    close(fit.within, number(&row["sigma2"]), 1e-4);
    close(fit.coefficients[1], number(&row["beta"][1]), 1e-5);
    close(fit.standard_errors[1], number(&row["se"][1]), 1e-3);
    assert!(fit.gradient < 1e-3);
    let pigs = dietox();
    for (pig, expected) in row["first_pigs_blup"].as_object().unwrap() {
        let at = pigs.iter().position(|p| p.0.to_string() == *pig).unwrap();
        within(fit.deviations[at][0], number(&expected[0]), 2e-3);
        within(fit.deviations[at][1], number(&expected[1]), 2e-3);
    }
}

/// Twin: the restricted likelihood of one pod with all readings in one dense matrix.
#[test]
fn dense_likelihood() {
    let rows = pod_rows("P2");
    let fit = fit_mixed(&rows, Varies::LevelAndSlope).unwrap();
    let n = rows.len();
    let mut covariance = Matrix::zero(n, n);
    for i in 0..n {
        for j in 0..n {
            let pull = fit.between.times(&rows[i].terms[..2]);
            let shared = if rows[i].sibling == rows[j].sibling {
                dot(&pull, &rows[j].terms[..2])
            } else {
                0.0
            };
            *covariance.at_mut(i, j) = shared + if i == j { fit.within } else { 0.0 };
        }
    }
    let factor = covariance.factor().unwrap();
    let terms =
        Matrix::from_rows(&rows.iter().map(|row| row.terms.clone()).collect::<Vec<_>>()).unwrap();
    let weighted: Vec<Vec<f64>> = (0..3)
        .map(|j| factor.solve(terms.transposed().row(j)))
        .collect();
    let normal = Matrix::from_rows(&weighted)
        .unwrap()
        .product(&terms)
        .factor()
        .unwrap();
    let values: Vec<f64> = rows.iter().map(|row| row.value).collect();
    let coefficients = normal.solve(
        &weighted
            .iter()
            .map(|w| dot(w, &values))
            .collect::<Vec<f64>>(),
    );
    let fitted = terms.times(&coefficients);
    let residual: Vec<f64> = values.iter().zip(&fitted).map(|(y, f)| y - f).collect();
    let squares = dot(&residual, &factor.solve(&residual));
    let constant = (n as f64 - 3.0) * std::f64::consts::TAU.ln();
    let dense = -0.5 * (constant + factor.ln_determinant() + normal.ln_determinant() + squares);
    close(fit.log_likelihood, dense, 1e-11);
    for (i, coefficient) in coefficients.iter().enumerate() {
        close(fit.coefficients[i], *coefficient, 1e-9);
        close(
            fit.standard_errors[i],
            normal.inverse().at(i, i).sqrt(),
            1e-8,
        );
    }
    let of_first: f64 = (0..n)
        .filter(|&i| rows[i].sibling == 0)
        .map(|i| factor.solve(&residual)[i])
        .sum();
    let slope_of_first: f64 = (0..n)
        .filter(|&i| rows[i].sibling == 0)
        .map(|i| factor.solve(&residual)[i] * rows[i].terms[1])
        .sum();
    close(
        fit.deviations[0][0],
        dot(&[of_first, slope_of_first], fit.between.row(0)),
        1e-7,
    );
}

/// Twin: with equal numbers per sibling and level only, REML equals the analysis of variance.
#[test]
fn balanced_level_equals_analysis_of_variance() {
    let row = &table!("05_selection.json")["balanced_full_sib"];
    let rows: Vec<Row> = row["y"]
        .as_array()
        .unwrap()
        .iter()
        .enumerate()
        .flat_map(|(sibling, values)| {
            numbers(values).into_iter().map(move |value| Row {
                sibling,
                terms: vec![1.0],
                value,
            })
        })
        .collect();
    let fit = fit_mixed(&rows, Varies::Level).unwrap();
    close(fit.between.at(0, 0), number(&row["sigma2_family"]), 1e-5);
    close(fit.within, number(&row["sigma2_within"]), 1e-5);
    within(fit.log_likelihood, number(&row["loglik_reml"]), 1e-6);
}

#[test]
fn awkward_pods() {
    let row = |sibling: usize, t: f64, value: f64| Row {
        sibling,
        terms: vec![1.0, t],
        value,
    };
    assert!(matches!(
        fit_mixed(&[], Varies::Level),
        Err(StatisticsError::TooFew { .. })
    ));
    let two: Vec<Row> = (0..10)
        .map(|i| row(i % 2, i as f64, (i * i % 7) as f64))
        .collect();
    assert_eq!(
        fit_mixed(&two, Varies::Level),
        Err(StatisticsError::TooFew {
            found: 2,
            needed: 3
        })
    );
    let alike: Vec<Row> = (0..12).map(|i| row(i % 4, (i / 4) as f64, 1.0)).collect();
    assert_eq!(
        fit_mixed(&alike, Varies::Level),
        Err(StatisticsError::NotFitted)
    );
    let no_age: Vec<Row> = (0..12).map(|i| row(i % 4, 2.0, i as f64)).collect();
    assert_eq!(
        fit_mixed(&no_age, Varies::Level),
        Err(StatisticsError::NotFitted)
    );
    let nan = vec![row(0, 1.0, f64::NAN); 9];
    assert_eq!(
        fit_mixed(&nan, Varies::Level),
        Err(StatisticsError::NotFinite)
    );
    let gap: Vec<Row> = (0..15)
        .map(|i| row(i % 3 * 2, (i / 3) as f64, (i * 7 % 11) as f64))
        .collect();
    assert_eq!(fit_mixed(&gap, Varies::Level).unwrap().deviations[1], [0.0]);
}
