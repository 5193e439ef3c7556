//! Do stated rates hold? Simulated pods of 5, 12 and 40 siblings, seeded: 95 % intervals must cover the truth 93 to
//! 97 % of the time, tests must reject a true hypothesis no more often than stated (exact tests: never more).

use super::tables::Draws;
use podbook::statistics::contingency::compare_pods;
use podbook::statistics::describe::{cv_interval, mean_interval};
use podbook::statistics::location::{hedges_g, welch};
use podbook::statistics::proportion::{binomial_chance, wilson};
use podbook::statistics::random::SplitMix64;
use podbook::statistics::ranks::kruskal_wallis;
use podbook::statistics::segregation::ratio_test;
use podbook::statistics::variance::{equal_spread, ln_cv_ratio, ln_variability_ratio};
use podbook::statistics::{Confidence, Interval};

const PODS: [usize; 3] = [5, 12, 40];
const P95: Confidence = Confidence::P95;
/// Three standard errors of a rate of 0.05 over these many pods is 0.0113.
const TRIES: usize = 3_400;
/// Spread of leaf span among siblings on the log scale: a coefficient of variation of 0.30.
const LOG_SD: f64 = 0.293_560_379_208_524;

fn pod(random: &mut SplitMix64, n: usize) -> Vec<f64> {
    (0..n).map(|_| 6.0 + 1.8 * random.normal()).collect()
}

fn log_pod(random: &mut SplitMix64, n: usize) -> Vec<f64> {
    (0..n)
        .map(|_| libm::exp(1.8 + LOG_SD * random.normal()))
        .collect()
}

/// The share of pods whose interval holds the truth.
fn coverage(seed: u64, mut interval: impl FnMut(&mut SplitMix64) -> Interval, truth: f64) -> f64 {
    let mut random = SplitMix64::new(seed);
    (0..TRIES)
        .filter(|_| interval(&mut random).holds(truth))
        .count() as f64
        / TRIES as f64
}

#[track_caller]
fn covers(rate: f64) {
    assert!((0.93..=0.97).contains(&rate), "covers {rate}");
}

#[test]
fn intervals_of_measures_cover_as_stated() {
    for n in PODS {
        covers(coverage(
            1,
            |r| mean_interval(&pod(r, n), P95).unwrap(),
            6.0,
        ));
        covers(coverage(4, |r| cv_interval(&pod(r, n), P95).unwrap(), 0.3));
        covers(coverage(
            5,
            |r| cv_interval(&log_pod(r, n), P95).unwrap(),
            0.3,
        ));
    }
}

#[test]
fn intervals_of_comparisons_cover_as_stated() {
    for n in PODS {
        let scaled =
            |r: &mut SplitMix64, by: f64| pod(r, n).iter().map(|v| v * by).collect::<Vec<f64>>();
        covers(coverage(
            6,
            |r| welch(&pod(r, n), &scaled(r, 1.5), P95).unwrap().interval,
            -3.0,
        ));
        let spread = |r: &mut SplitMix64| {
            ln_variability_ratio(&pod(r, n), &scaled(r, 2.0), P95)
                .unwrap()
                .interval
        };
        covers(coverage(7, spread, -std::f64::consts::LN_2));
        let for_size = |r: &mut SplitMix64| {
            ln_cv_ratio(&log_pod(r, n), &log_pod(r, n), P95)
                .unwrap()
                .interval
        };
        covers(coverage(8, for_size, 0.0));
    }
}

/// The limits often printed for lnVR use the normal quantile; at five plants they miss the stated rate.
#[test]
fn normal_limits_of_a_spread_ratio_cover_too_little_at_five_plants() {
    let normal = |r: &mut SplitMix64| {
        let found = ln_variability_ratio(&pod(r, 5), &pod(r, 5), P95).unwrap();
        Interval::around(found.estimate, 1.959963984540054 * found.standard_error)
    };
    assert!(coverage(9, normal, 0.0) < 0.93);
}

/// The noncentral t costs most, so fewer pods; at a true difference of one standard deviation.
#[test]
fn hedges_limits_cover_as_stated() {
    let tries = 1_200;
    let mut random = SplitMix64::new(10);
    for n in [5, 12] {
        let shifted = |r: &mut SplitMix64| pod(r, n).iter().map(|v| v + 1.8).collect::<Vec<f64>>();
        let holds = |_: &i32| {
            hedges_g(&shifted(&mut random), &pod(&mut random, n), P95)
                .unwrap()
                .interval
                .holds(1.0)
        };
        let rate = (0..tries).filter(holds).count() as f64 / f64::from(tries);
        covers(rate);
    }
}

/// Not simulated but summed: the mean coverage of Wilson's interval over all shares.
#[test]
fn intervals_of_shares_cover_as_stated() {
    for n in [5_u64, 12, 40] {
        let of = |limits: &[Interval], p: f64| -> f64 {
            (0..=n)
                .filter(|&k| limits[k as usize].holds(p))
                .map(|k| binomial_chance(k, n, p))
                .sum()
        };
        let score: Vec<Interval> = (0..=n).map(|k| wilson(k, n, P95).unwrap()).collect();
        let shares: Vec<f64> = (0..1_000).map(|i| (f64::from(i) + 0.5) / 1_000.0).collect();
        covers(shares.iter().map(|&p| of(&score, p)).sum::<f64>() / 1_000.0);
    }
}

/// Exact tests never reject more often than stated: summed over all outcomes for ratios, simulated for pods.
#[test]
fn exact_tests_hold_their_rate() {
    for (n, ratio) in [(5_u64, [3_u64, 1]), (12, [3, 1]), (40, [9, 7])] {
        let share = ratio[0] as f64 / (ratio[0] + ratio[1]) as f64;
        let rejected =
            (0..=n).filter(|&k| ratio_test(&[k, n - k], &ratio).unwrap().p_exact <= 0.05);
        let rate: f64 = rejected.map(|k| binomial_chance(k, n, share)).sum();
        assert!(rate <= 0.05, "{n}: {rate}");
    }
    for n in PODS {
        let mut random = SplitMix64::new(11);
        let mut banded = || random.binomial(n as u64, 0.3);
        let mut table = || [banded(), banded()].map(|k| vec![k, n as u64 - k]);
        let rejects =
            |rows: [Vec<u64>; 2]| compare_pods(&rows).is_ok_and(|test| test.p_exact <= 0.05);
        let rate = (0..TRIES).filter(|_| rejects(table())).count() as f64 / TRIES as f64;
        assert!(rate <= 0.05, "{n}: {rate}");
    }
}

/// Other tests reject at most as often as stated, give or take three standard errors of the simulation.
#[test]
fn approximate_tests_hold_their_rate() {
    for n in PODS {
        let mut random = SplitMix64::new(13);
        let (mut means, mut spreads, mut ranks) = (0, 0, 0);
        for _ in 0..TRIES {
            let (first, second) = (log_pod(&mut random, n), log_pod(&mut random, n));
            means += usize::from(welch(&first, &second, P95).unwrap().p <= 0.05);
            spreads +=
                usize::from(equal_spread(&[first.clone(), second.clone()]).unwrap().p <= 0.05);
            let third = log_pod(&mut random, n);
            if n > 5 {
                ranks += usize::from(kruskal_wallis(&[first, second, third]).unwrap().p() <= 0.05);
            }
        }
        for rejected in [means, spreads, ranks] {
            assert!(
                rejected as f64 / TRIES as f64 <= 0.05 + 0.0113,
                "{n}: {rejected} of {TRIES}"
            );
        }
    }
}

/// Three pods of four, every arrangement listed each time.
#[test]
fn permuted_ranks_hold_their_rate() {
    let mut random = SplitMix64::new(14);
    let tries = 150;
    let mut groups = || [4, 4, 3].map(|n| log_pod(&mut random, n));
    let rejected = (0..tries)
        .filter(|_| kruskal_wallis(&groups()).unwrap().p() <= 0.05)
        .count();
    // 15 of 150 has a chance below 0.01 if the rate is 0.05.
    assert!(rejected < 15, "{rejected}");
}
