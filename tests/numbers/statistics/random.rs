//! Repeatable chance: published first draws, and counts against their exact chances.

use super::tables::{Draws, close};
use podbook::statistics::distribution::{ln_factorial, ln_factorials};
use podbook::statistics::proportion::binomial_chance;
use podbook::statistics::random::SplitMix64;

/// SplitMix64 from seed 1234567, as printed with the reference code (Vigna 2015, public domain; from memory).
#[test]
fn first_draws() {
    let mut random = SplitMix64::new(1_234_567);
    let expected = [
        6_457_827_717_110_365_317_u64,
        3_203_168_211_198_807_973,
        9_817_491_932_198_370_423,
    ];
    assert_eq!(expected, [random.bits(), random.bits(), random.bits()]);
}

#[test]
fn uniform_whole_and_normal_draws() {
    let (mut random, n) = (SplitMix64::new(71), 40_000);
    let uniform: Vec<f64> = (0..n).map(|_| random.uniform()).collect();
    assert!(uniform.iter().all(|u| (0.0..1.0).contains(u)));
    assert!((uniform.iter().sum::<f64>() / f64::from(n) - 0.5).abs() < 0.006);
    let normal: Vec<f64> = (0..n).map(|_| random.normal()).collect();
    assert!((normal.iter().sum::<f64>() / f64::from(n)).abs() < 0.02);
    assert!((normal.iter().map(|z| z * z).sum::<f64>() / f64::from(n) - 1.0).abs() < 0.03);
    let mut seen = [0; 7];
    (0..n).for_each(|_| seen[random.below(7)] += 1);
    assert!(
        seen.iter()
            .all(|&k| (f64::from(k) - 5714.3).abs() < 4.0 * 70.0)
    );
    assert_eq!((random.below(0), random.below(1)), (0, 0));
}

/// Shares of 40,000 draws against the exact chances, within four standard errors.
#[track_caller]
fn follows(mut draw: impl FnMut() -> u64, chance: impl Fn(u64) -> f64, most: u64) {
    let mut seen = vec![0; most as usize + 1];
    (0..40_000).for_each(|_| seen[draw() as usize] += 1);
    let total: f64 = (0..=most).map(&chance).sum();
    close(total, 1.0, 1e-9);
    for k in 0..=most {
        let error = (chance(k) * (1.0 - chance(k)) / 40_000.0).sqrt();
        let share = f64::from(seen[k as usize]) / 40_000.0;
        assert!(
            (share - chance(k)).abs() <= 4.5 * error + 1e-4,
            "{k}: {share} against {}",
            chance(k)
        );
    }
}

#[test]
fn binomial_draws() {
    let mut random = SplitMix64::new(72);
    follows(
        || random.binomial(12, 0.25),
        |k| binomial_chance(k, 12, 0.25),
        12,
    );
    follows(
        || random.binomial(3, 0.9),
        |k| binomial_chance(k, 3, 0.9),
        3,
    );
    assert_eq!(
        [
            random.binomial(0, 0.5),
            random.binomial(9, 0.0),
            random.binomial(9, 1.0)
        ],
        [0, 0, 9]
    );
}

#[test]
fn hypergeometric_draws() {
    let choose = |n: u64, k: u64| (ln_factorial(n) - ln_factorial(k) - ln_factorial(n - k)).exp();
    let (mut random, ln) = (SplitMix64::new(73), ln_factorials(14));
    let chance = |k: u64| {
        if k < 3 {
            0.0
        } else {
            choose(9, k) * choose(5, 8 - k) / choose(14, 8)
        }
    };
    follows(|| random.hypergeometric(8, 9, 14, &ln), chance, 8);
    assert_eq!(
        [
            random.hypergeometric(0, 3, 9, &ln),
            random.hypergeometric(9, 3, 9, &ln),
            random.hypergeometric(4, 0, 9, &ln)
        ],
        [0, 3, 0]
    );
    assert_eq!(random.hypergeometric(0, 0, 0, &ln), 0);
}
