//! What is seen of a spread and passed on of a selection: the worked example, a simulated twin.

use super::tables::{Draws, close};
use podbook::statistics::describe::sample_sd;
use podbook::statistics::heritability::*;
use podbook::statistics::random::SplitMix64;
use podbook::statistics::sample_size::plants_needed;

/// A backcross and a cross inside a species, variances 2.5 and 0.5 (`01_segregation_variance.json`, V = 1, S = 4). All
/// inherited, their ratio is √5, seen with 19 plants of each; at heritability 0.4 it is √(4/2), which takes 80.
#[test]
fn eighty_not_nineteen() {
    close(seen_ratio(2.5, 0.5, 1.0).unwrap(), 5.0_f64.sqrt(), 1e-15);
    close(seen_ratio(2.5, 0.5, 0.4).unwrap(), 2.0_f64.sqrt(), 1e-15);
    let needed = |h2: f64| plants_needed(seen_ratio(2.5, 0.5, h2).unwrap(), 0.05, 0.8).unwrap();
    assert_eq!((needed(1.0), needed(0.4)), (19, 80));
}

/// Twin: plants made of an inherited and another part, their spread measured.
#[test]
fn the_ratio_by_simulation() {
    let mut random = SplitMix64::new(23);
    let h2: f64 = 0.4;
    let rest = ((1.0 - h2) / h2).sqrt();
    let mut pod = |variance: f64| -> Vec<f64> {
        (0..40_000)
            .map(|_| variance.sqrt() * random.normal() + rest * random.normal())
            .collect()
    };
    let (a, b) = (sample_sd(&pod(4.5)).unwrap(), sample_sd(&pod(0.5)).unwrap());
    close(a / b, seen_ratio(4.5, 0.5, h2).unwrap(), 0.02);
}

/// Twin: the best quarter of parents by what is seen, their offspring made from what is inherited.
#[test]
fn the_response_by_simulation() {
    let mut random = SplitMix64::new(31);
    let h2: f64 = 0.4;
    let mut plants: Vec<(f64, f64)> = (0..80_000)
        .map(|_| {
            let inherited = h2.sqrt() * random.normal();
            (inherited + (1.0 - h2).sqrt() * random.normal(), inherited)
        })
        .collect();
    plants.sort_by(|a, b| b.0.total_cmp(&a.0));
    let best = &plants[..20_000];
    let mean = |of: fn(&(f64, f64)) -> f64| best.iter().map(of).sum::<f64>() / 20_000.0;
    close(response(mean(|p| p.0), h2).unwrap(), mean(|p| p.1), 0.02);
}

#[test]
fn awkward_heritabilities() {
    assert!(seen_ratio(1.0, 1.0, 0.0).is_err() && seen_ratio(1.0, 1.0, 1.1).is_err());
    assert_eq!(
        (seen_variance(2.5, 1.0), heritability_within(2.5, 1.0)),
        (2.5, 1.0)
    );
    assert_eq!(
        (heritability_within(2.5, 0.0), heritability_within(0.0, 1.0)),
        (0.0, 0.0)
    );
    assert!(seen_ratio(1.0, 0.0, 1.0).is_err() && seen_ratio(-1.0, 1.0, 0.4).is_err());
    assert_eq!(response(-2.0, 0.25), Ok(-0.5));
}
