//! One measure in one pod: `04_description_bootstrap.json` (worked sets and Fisher's iris, 1936).

use super::tables::{IRIS, close, close_interval, iris, number, numbers, table};
use podbook::statistics::describe::*;
use podbook::statistics::{Confidence, StatisticsError};

fn rows() -> Vec<(Vec<f64>, serde_json::Value)> {
    let file = table!("04_description_bootstrap.json");
    let rows = file["description"].as_object().unwrap();
    let values = |name: &str, row: &serde_json::Value| match name.strip_prefix("iris_") {
        Some(rest) => {
            let (species, column) = rest.split_once('_').unwrap();
            iris(species, column)
        }
        None => numbers(&row["data"]),
    };
    rows.iter()
        .map(|(name, row)| (values(name, row), row.clone()))
        .collect()
}

/// Computed by numpy and SciPy. The skewness, Shapiro and bootstrap columns and the interval of the SD are not used: no report prints them.
#[test]
fn every_row_of_the_table() {
    let rows = rows();
    assert_eq!(rows.len(), 4 + 4 * IRIS.len());
    for (values, row) in rows {
        let all: Vec<Option<f64>> = values.iter().copied().map(Some).collect();
        let found = describe(&all).unwrap();
        for (figure, name) in [
            (found.n as f64, "n"),
            (found.mean, "mean"),
            (found.sd.unwrap(), "sd"),
            (found.cv.unwrap(), "cv"),
            (found.median, "median"),
            (found.quartiles.0, "q25_type7"),
            (found.quartiles.1, "q75_type7"),
            (quantile(&values, 0.1).unwrap(), "q10_type7"),
            (quantile(&values, 0.9).unwrap(), "q90_type7"),
            (found.smallest, "min"),
            (found.largest, "max"),
        ] {
            close(figure, number(&row[name]), 1e-12);
        }
        close_interval(
            mean_interval(&values, Confidence::P95).unwrap(),
            &row["mean_ci95"],
            1e-11,
        );
    }
}

/// Twelve seedlings of one sowing, centimetres (an invented tray): n = 12, median 6.4, mean 6.2, SD 2.3, 4.5 times.
#[test]
fn a_tray_of_twelve() {
    let tray = [9.8, 8.9, 8.4, 7.1, 6.9, 6.6, 6.2, 5.8, 5.1, 3.9, 3.4, 2.2].map(Some);
    let found = describe(&tray).unwrap();
    assert_eq!(found.n, 12);
    close(found.median, 6.4, 1e-12);
    assert!((found.mean - 6.2).abs() < 0.05 && (found.sd.unwrap() - 2.3).abs() < 0.05);
    assert!((found.largest / found.smallest - 4.5).abs() < 0.05);
}

/// Twin: the coefficient of variation's interval, term by term, with the quantile of an independent library.
#[test]
fn cv_interval_by_hand() {
    let values = [3.1, 4.4, 4.9, 6.0, 9.5];
    let cv: f64 = 0.43482331128115037; // table, n5
    let (t, half) = (2.3060041352041662, 0.125);
    let (centre, error) = (cv.ln() + half, (half + cv * cv / 5.0).sqrt());
    let found = cv_interval(&values, Confidence::P95).unwrap();
    close(found.low, (centre - t * error).exp(), 1e-11);
    close(found.high, (centre + t * error).exp(), 1e-11);
}

#[test]
fn awkward_trays() {
    let too_few = |found, needed| StatisticsError::TooFew { found, needed };
    assert_eq!(describe(&[]), Err(too_few(0, 1)));
    assert_eq!(describe(&[None, None]), Err(too_few(0, 1)));
    assert_eq!(
        describe(&[Some(1.0), Some(f64::NAN)]),
        Err(StatisticsError::NotFinite)
    );
    let one = describe(&[Some(4.0), None]).unwrap();
    assert_eq!(
        (one.n, one.missing, one.mean, one.median, one.quartiles),
        (1, 1, 4.0, 4.0, (4.0, 4.0))
    );
    assert_eq!((one.sd, one.cv), (Err(too_few(1, 2)), Err(too_few(1, 2))));
    let alike = describe(&[Some(0.1), Some(0.1), Some(0.1)]).unwrap();
    assert_eq!((alike.sd, alike.cv), (Ok(0.0), Ok(0.0)));
    assert_eq!(
        mean_interval(&[0.1; 3], Confidence::P95),
        Err(StatisticsError::NoSpread)
    );
    assert_eq!(
        cv_interval(&[0.1; 3], Confidence::P95),
        Err(StatisticsError::NoSpread)
    );
    assert_eq!(
        cv_interval(&[1.0, 2.0], Confidence::P95),
        Err(too_few(2, 3))
    );
    assert_eq!(
        describe(&[Some(-1.0), Some(1.0)]).unwrap().cv,
        Err(StatisticsError::NotPositive)
    );
}
