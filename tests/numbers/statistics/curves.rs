//! Growth curves: `04_growth.json` (fits by an independent optimiser, series without noise), and by hand.

use super::tables::{close, number, numbers, table};
use podbook::statistics::StatisticsError;
use podbook::statistics::curves::*;
use podbook::statistics::growth::Reading;

fn series(row: &serde_json::Value) -> Vec<Reading> {
    let pair = |(age, size): (f64, f64)| Reading { age, size };
    numbers(&row["t"])
        .into_iter()
        .zip(numbers(&row["y"]))
        .map(pair)
        .collect()
}

/// The shape of a fit of the table on the logarithm; `None` for one on the sizes themselves, which no report makes.
fn on_logs(name: &str) -> Option<Shape> {
    Some(match name.strip_suffix("_log")? {
        "exponential" => Shape::Exponential,
        "monomolecular" => Shape::Monomolecular,
        "logistic" => Shape::Logistic,
        _ => Shape::Gompertz,
    })
}

/// Where the table calls a fit settled, parameters, errors and AICc agree to 1e-4. Where the parameters run away only
/// the sum of squares is compared, and ours may be lower, never higher.
#[test]
fn every_fit_of_the_table() {
    for (name, row) in table!("04_growth.json")["growth_curves"]
        .as_object()
        .unwrap()
    {
        let Some(fits) = row["fits"].as_object() else {
            continue;
        };
        for (fit_name, expected) in fits {
            let Some(shape) = on_logs(fit_name) else {
                continue;
            };
            let found = fit_curve(&series(row), shape).unwrap();
            let rss = number(&expected["rss"]);
            assert!(
                found.rss <= rss * (1.0 + 1e-7),
                "{name} {fit_name}: {} above {rss}",
                found.rss
            );
            assert!(
                found.rss >= rss * 0.999,
                "{name} {fit_name}: {} far below {rss}",
                found.rss
            );
            if expected["check_tolerance"] == "rel 1e-4" {
                for (i, (p, se)) in numbers(&expected["params"])
                    .iter()
                    .zip(numbers(&expected["se"]))
                    .enumerate()
                {
                    close(found.parameters[i], *p, 1e-4);
                    close(found.standard_errors[i], se, 1e-3);
                }
                close(found.aicc.unwrap(), number(&expected["aicc"]), 1e-6);
            }
        }
    }
}

/// The rule: at least seven ages, final size below three times the largest reading, error below the final size. The
/// table's own flag differs for one fit: dietox pig 4601, Gompertz on logs, has a final size of 308.5 against a largest
/// reading of 98.6, which is 3.13 times, and is flagged as settled although the stated rule says it is not.
#[test]
fn offered_by_the_stated_rule() {
    let mut disagreements = Vec::new();
    for (name, row) in table!("04_growth.json")["growth_curves"]
        .as_object()
        .unwrap()
    {
        let Some(fits) = row["fits"].as_object() else {
            continue;
        };
        for (fit_name, expected) in fits {
            let Some(shape) = on_logs(fit_name) else {
                continue;
            };
            let found = fit_curve(&series(row), shape).unwrap();
            if found.identified != expected["identified"].as_bool().unwrap() {
                disagreements.push(format!(
                    "{name} {fit_name} {:.2}",
                    found.parameters[0] / 98.59998
                ));
            }
        }
    }
    assert_eq!(disagreements, ["dietox pig 4601 gompertz_log 3.13"]);
}

/// Series computed from a curve give its parameters back.
#[test]
fn series_without_noise() {
    for (name, row) in table!("04_growth.json")["growth_curves"]
        .as_object()
        .unwrap()
    {
        let Some(shape) = name.strip_prefix("noise_free_") else {
            continue;
        };
        let shape = on_logs(&format!("{shape}_log")).unwrap();
        let found = fit_curve(&series(row), shape).unwrap();
        for (found, expected) in found.parameters.iter().zip(numbers(&row["true"])) {
            close(*found, expected, 1e-7);
        }
        assert_eq!(fit_all(&series(row)).unwrap()[0].shape, shape, "{name}");
    }
}

/// Twin: the logistic of one pod by scanning a grid around the answer; nothing nearby is lower.
#[test]
fn nothing_near_the_answer_is_lower() {
    let row = &table!("04_growth.json")["growth_curves"]["P1 pod means"];
    let readings = series(row);
    let found = fit_curve(&readings, Shape::Logistic).unwrap();
    let rss = |parameters: &[f64]| -> f64 {
        readings
            .iter()
            .map(|r| (r.size.ln() - Shape::Logistic.size(parameters, r.age).ln()).powi(2))
            .sum()
    };
    close(rss(&found.parameters), found.rss, 1e-9);
    for i in 0..3 {
        for factor in [0.99, 0.999, 1.001, 1.01] {
            let mut other = found.parameters.clone();
            other[i] *= factor;
            assert!(rss(&other) > found.rss);
        }
    }
}

/// A young series is offered the exponential only.
#[test]
fn six_ages_hold_no_final_size() {
    let young: Vec<Reading> = (1..=6)
        .map(|i| Reading {
            age: f64::from(i),
            size: 10.0 / (1.0 + 9.0 * (-0.8 * f64::from(i)).exp()),
        })
        .collect();
    let fits = fit_all(&young).unwrap();
    assert!(fits[0].identified && fits[0].shape == Shape::Exponential);
    assert!(fits[1..].iter().all(|fit| !fit.identified));
    close(fits[0].size_at(0.0), fits[0].parameters[0], 1e-15);
}

#[test]
fn awkward_series() {
    let plant = |sizes: &[f64]| -> Vec<Reading> {
        sizes
            .iter()
            .enumerate()
            .map(|(i, &size)| Reading {
                age: i as f64,
                size,
            })
            .collect()
    };
    assert_eq!(
        fit_all(&[]),
        Err(StatisticsError::TooFew {
            found: 0,
            needed: 3
        })
    );
    assert_eq!(
        fit_all(&plant(&[1.0, 2.0])),
        Err(StatisticsError::TooFew {
            found: 2,
            needed: 3
        })
    );
    assert_eq!(fit_all(&plant(&[2.0; 9])), Err(StatisticsError::NoSpread));
    assert_eq!(
        fit_all(&plant(&[1.0, 0.0, 2.0])),
        Err(StatisticsError::NotPositive)
    );
    assert_eq!(
        fit_all(&plant(&[1.0, f64::NAN, 2.0])),
        Err(StatisticsError::NotFinite)
    );
    let three = fit_all(&plant(&[1.0, 2.0, 5.0])).unwrap();
    assert_eq!((three.len(), three[0].aicc), (1, None));
    let shrinking = fit_all(&plant(&[9.0, 8.0, 7.5, 6.0, 5.0, 4.4, 4.0, 3.1])).unwrap();
    assert!(shrinking[0].parameters[1] < 0.0 || shrinking[0].shape != Shape::Exponential);
    for fit in fit_all(&plant(&[1e-6, 5.0, 5.0, 5.0, 5.0, 5.0, 5.0, 5.0])).unwrap() {
        assert!(fit.parameters.iter().all(|p| p.is_finite()) && !fit.rss.is_nan());
    }
}
