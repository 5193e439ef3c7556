//! Rank correlations: `siblings_extra.json` (SciPy), a twin by counting, coverage simulated.

use super::tables::{Draws, close, number, numbers, table};
use podbook::statistics::correlation::*;
use podbook::statistics::random::SplitMix64;
use podbook::statistics::{Confidence, StatisticsError};

fn rho(x: &[f64], y: &[f64]) -> RankCorrelation {
    spearman(x, y, Confidence::P95).unwrap()
}

#[test]
fn every_row_of_the_table() {
    let file = table!("siblings_extra.json");
    for row in file["spearman"].as_array().unwrap() {
        let found = rho(&numbers(&row["x"]), &numbers(&row["y"]));
        close(found.rho, number(&row["rho"]), 1e-12);
        let limits = found.interval.expect("limits");
        close(limits.low, number(&row["low"]), 1e-9);
        close(limits.high, number(&row["high"]), 1e-9);
    }
}

/// Twin without ties: `1 − 6 Σ d²/(n(n² − 1))`, ranks by counting.
#[test]
fn the_schoolbook_formula() {
    let mut random = SplitMix64::new(3);
    for n in 6..30 {
        let x: Vec<f64> = (0..n).map(|_| random.normal()).collect();
        let y: Vec<f64> = x.iter().map(|x| x + random.normal()).collect();
        let rank = |of: &[f64], at: usize| of.iter().filter(|v| **v < of[at]).count() as f64;
        let d: f64 = (0..n).map(|i| (rank(&x, i) - rank(&y, i)).powi(2)).sum();
        let n = n as f64;
        close(rho(&x, &y).rho, 1.0 - 6.0 * d / (n * (n * n - 1.0)), 1e-12);
    }
}

/// Normal pairs with Pearson correlation r have Spearman correlation (6/π) asin(r/2). The limits hold it 93 to 97.5
/// times in 100.
#[test]
fn limits_hold_what_they_state() {
    let mut random = SplitMix64::new(29);
    for (n, r) in [
        (8, 0.0),
        (8, 0.6),
        (12, 0.3),
        (20, 0.0),
        (20, 0.8),
        (50, 0.5),
    ] {
        let truth = 6.0 / std::f64::consts::PI * (f64::asin(r / 2.0));
        let mut held = 0;
        for _ in 0..4_000 {
            let x: Vec<f64> = (0..n).map(|_| random.normal()).collect();
            let y: Vec<f64> = x
                .iter()
                .map(|x| r * x + (1.0 - r * r).sqrt() * random.normal())
                .collect();
            let limits = rho(&x, &y).interval;
            held += usize::from(limits.is_none_or(|limits| limits.holds(truth)));
        }
        let share = held as f64 / 4_000.0;
        assert!((0.93..0.975).contains(&share), "n {n}, r {r}: {share}");
    }
}

#[test]
fn awkward_pairs() {
    let up = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0];
    let found = rho(&up, &up);
    assert_eq!(found.rho, 1.0);
    assert_eq!(found.interval, None);
    let down = up.map(|value| -value);
    assert_eq!(
        (rho(&up, &down).rho, rho(&up, &down).interval),
        (-1.0, None)
    );
    assert_eq!(
        spearman(&up, &[2.0; 6], Confidence::P95),
        Err(StatisticsError::NoSpread)
    );
    assert_eq!(
        spearman(&up[..5], &up[..5], Confidence::P95),
        Err(StatisticsError::TooFew {
            found: 5,
            needed: FEWEST
        })
    );
    assert!(spearman(&up, &up[..5], Confidence::P95).is_err());
}
