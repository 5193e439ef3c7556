//! Differences in spread: `04_variance_and_location_tests.json`, and power by simulation.

use super::location::samples;
use super::tables::{Draws, IRIS, close, iris, number, table};
use podbook::statistics::random::SplitMix64;
use podbook::statistics::sample_size::plants_needed;
use podbook::statistics::spread_scale::SpreadScale;
use podbook::statistics::variance::*;
use podbook::statistics::{Confidence, StatisticsError};

/// Computed by SciPy 1.17.1 and closed forms (Nakagawa et al. 2015, from memory). The table's limits of lnVR and
/// lnCVR use the normal quantile; ours use Student's and are wider (see `calibration`).
#[test]
fn every_row_of_two_samples() {
    for (name, row) in table!("04_variance_and_location_tests.json")["two_sample"]
        .as_object()
        .unwrap()
    {
        let (first, second) = samples(name, row);
        let groups = [first.clone(), second.clone()];
        let median = equal_spread(&groups).unwrap();
        close(median.f, number(&row["brown_forsythe_W"]), 1e-10);
        close(median.p, number(&row["brown_forsythe_p"]), 1e-9);
        let spread = ln_variability_ratio(&first, &second, Confidence::P95).unwrap();
        close(spread.estimate, number(&row["lnVR"]), 1e-11);
        close(spread.standard_error, number(&row["lnVR_se"]), 1e-12);
        let for_size = ln_cv_ratio(&first, &second, Confidence::P95).unwrap();
        close(for_size.estimate, number(&row["lnCVR"]), 1e-11);
        close(for_size.standard_error, number(&row["lnCVR_se"]), 1e-12);
        for (found, name) in [(spread, "lnVR_ci95"), (for_size, "lnCVR_ci95")] {
            let limits = super::tables::numbers(&row[name]);
            assert!(found.interval.low < limits[0] && limits[1] < found.interval.high);
        }
    }
}

/// Fisher's iris (1936), three species.
#[test]
fn iris_spread_and_means() {
    let file = table!("04_variance_and_location_tests.json");
    for column in ["sepal_length", "sepal_width", "petal_length"] {
        let row = &file["multi_sample"][format!("iris_{column}")];
        let groups: Vec<Vec<f64>> = IRIS.iter().map(|species| iris(species, column)).collect();
        let median = equal_spread(&groups).unwrap();
        close(median.f, number(&row["brown_forsythe_W"]), 1e-9);
        close(median.p, number(&row["brown_forsythe_p"]), 1e-9);
        let means = one_way(&groups).unwrap();
        close(means.f, number(&row["anova_F"]), 1e-10);
        close(means.p, number(&row["anova_p"]), 1e-9);
    }
}

/// Twin: analysis of variance of the distances from the median, written out.
#[test]
fn brown_forsythe_by_hand() {
    let groups = [vec![1.0, 2.0, 4.0], vec![2.0, 2.5, 3.0, 9.0]];
    // Medians 2 and 2.75; distances 1 0 2 and 0.75 0.25 0.25 6.25; means 1 and 1.875; all 1.5.
    let between = 3.0 * 0.25 + 4.0 * 0.140625;
    let within = 2.0 + (1.265625 + 2.640625 * 2.0 + 19.140625);
    close(
        equal_spread(&groups).unwrap().f,
        between / (within / 5.0),
        1e-12,
    );
}

/// Simulated power of Brown & Forsythe's test with the number of plants the formula names.
#[test]
fn plants_needed_reach_the_power_asked_for() {
    let mut random = SplitMix64::new(20);
    for ratio in [1.5, 2.0, 3.0] {
        let n = plants_needed(ratio, 0.05, 0.8).unwrap();
        let tries = 2_000;
        let found = (0..tries).filter(|_| {
            let mut pod = |sd: f64| (0..n).map(|_| sd * random.normal()).collect::<Vec<f64>>();
            equal_spread(&[pod(1.0), pod(ratio)]).unwrap().p <= 0.05
        });
        let power = found.count() as f64 / f64::from(tries);
        assert!(
            (0.75..=0.86).contains(&power),
            "ratio {ratio}: {n} plants reach {power}"
        );
    }
}

#[test]
fn more_plants_for_smaller_differences() {
    let numbers: Vec<usize> = [1.02, 1.1, 1.25, 1.5, 2.0, 4.0]
        .map(|r| plants_needed(r, 0.05, 0.8).unwrap())
        .to_vec();
    assert!(
        numbers.windows(2).all(|pair| pair[0] > pair[1]),
        "{numbers:?}"
    );
    assert_eq!(plants_needed(0.5, 0.05, 0.8), plants_needed(2.0, 0.05, 0.8));
    assert_eq!(
        plants_needed(1.0, 0.05, 0.8),
        Err(StatisticsError::NoSpread)
    );
    assert_eq!(
        plants_needed(-2.0, 0.05, 0.8),
        Err(StatisticsError::NotPositive)
    );
    assert_eq!(
        plants_needed(1.0001, 0.05, 0.8),
        Err(StatisticsError::OutOfReach { limit: 100_000 })
    );
    assert!(plants_needed(2.0, 0.0, 0.8).is_err() && plants_needed(f64::NAN, 0.05, 0.8).is_err());
}

#[test]
fn awkward_groups() {
    let too_few = |found, needed| Err(StatisticsError::TooFew { found, needed });
    assert_eq!(equal_spread(&[vec![1.0, 2.0]]), too_few(1, 2));
    assert_eq!(equal_spread(&[vec![1.0, 2.0], vec![1.0]]), too_few(1, 2));
    assert_eq!(
        equal_spread(&[vec![1.0, 1.0], vec![2.0, 2.0]]),
        Err(StatisticsError::NoSpread)
    );
    // Two plants lie equally far from their middle: no spread of distances within groups.
    assert_eq!(
        equal_spread(&[vec![1.0, 2.0], vec![2.0, 5.0]]),
        Err(StatisticsError::NoSpread)
    );
    assert_eq!(
        SpreadScale::Proportion.equal_spread(&[vec![0.0, 2.0], vec![2.0, 5.0]]),
        Err(StatisticsError::NotPositive)
    );
    assert!(
        ln_variability_ratio(&[1.0, 1.0], &[2.0, 3.0], Confidence::P95)
            == Err(StatisticsError::NoSpread)
    );
    assert!(
        ln_cv_ratio(&[-1.0, 1.0], &[2.0, 3.0], Confidence::P95)
            == Err(StatisticsError::NotPositive)
    );
    assert!(ln_variability_ratio(&[1.0], &[2.0, 3.0], Confidence::P95).is_err());
}
