//! Readings far from the others: a slow twin, slips of the pen put in on purpose, false alarms counted.

use podbook::statistics::Unanswered;
use podbook::statistics::outlier::*;
use podbook::statistics::random::SplitMix64;

fn places(sizes: &[f64]) -> Vec<usize> {
    outliers(sizes).unwrap().iter().map(|of| of.place).collect()
}

#[test]
fn eighteen_among_ones_and_twos() {
    let sizes = [1.8, 1.6, 18.0, 2.0, 1.9, 1.7];
    let found = outliers(&sizes).unwrap();
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].place, found[0].size, found[0].n), (2, 18.0, 6));
    assert!((found[0].typical - 1.8).abs() < 1e-12);
    assert!((found[0].fold() - 18.0 / 1.8).abs() < 1e-12 && found[0].is_above());
    assert_eq!(places(&[18.0, 17.0, 1.7, 19.0, 18.5]), [2]);
    assert_eq!(
        places(&[1.8, 1.8, 1.8, 1.8, 180.0]),
        [4],
        "no spread among the others"
    );
}

/// A wide cross is no slip: the tray of twelve of `classes` runs from 2.2 to 9.8 cm.
#[test]
fn a_wide_cross_is_left_alone() {
    assert!(places(&[9.8, 8.9, 8.4, 7.1, 6.9, 6.6, 6.2, 5.8, 5.1, 3.9, 3.4, 2.2]).is_empty());
    assert!(
        places(&[2.0, 2.0, 2.0, 2.0, 9.9]).is_empty(),
        "under five times"
    );
    assert_eq!(places(&[2.0, 2.0, 2.0, 2.0, 10.0]), [4], "five times");
    assert!(
        places(&[1.8, 1.9, 18.0, 1.7]).is_empty(),
        "too few to say which"
    );
}

/// Twin: medians by counting through all values, no sorting and no logarithms of the median.
#[test]
fn the_slow_way_agrees() {
    let middle = |values: &[f64]| {
        let below = |x: f64| values.iter().filter(|v| **v < x).count();
        let at_most = |x: f64| values.iter().filter(|v| **v <= x).count();
        let nth = |k: usize| {
            *values
                .iter()
                .find(|x| below(**x) <= k && k < at_most(**x))
                .unwrap()
        };
        (nth((values.len() - 1) / 2) + nth(values.len() / 2)) / 2.0
    };
    let mut random = SplitMix64::new(7);
    let mut named = 0;
    for n in (5..40).cycle().take(2_000) {
        let mut sizes: Vec<f64> = (0..n)
            .map(|_| (1.5 + 0.3 * random.normal()).exp())
            .collect();
        if random.uniform() < 0.5 {
            sizes[n / 2] *= 10.0;
        }
        let slow: Vec<usize> = (0..n)
            .filter(|&i| {
                let other = |j: &usize| *j != i;
                let logs: Vec<f64> = (0..n).filter(other).map(|j| sizes[j].ln()).collect();
                let centre = middle(&logs);
                let away: Vec<f64> = logs.iter().map(|log| (log - centre).abs()).collect();
                let own = (sizes[i].ln() - centre).abs();
                own > middle(&away) * 3.5 / 0.674_489_750_196_081_7 && own > 5.0_f64.ln()
            })
            .collect();
        named += slow.len();
        assert_eq!(places(&sizes), slow);
    }
    assert!(named > 700, "{named}");
}

/// Trays of 5 to 60 plants, coefficient of variation 30 % (spread 0.3 on the logarithm): at most one tray in a
/// thousand is accused wrongly, and a slipped decimal point is found 19 times in 20.
#[test]
fn false_alarms_and_finds() {
    let mut random = SplitMix64::new(11);
    for n in [5, 8, 12, 24, 60] {
        let (mut alarms, mut found) = (0, 0);
        for _ in 0..4_000 {
            let mut sizes: Vec<f64> = (0..n)
                .map(|_| (1.8 + 0.3 * random.normal()).exp())
                .collect();
            alarms += usize::from(!places(&sizes).is_empty());
            sizes[0] *= if random.uniform() < 0.5 { 10.0 } else { 0.1 };
            found += usize::from(places(&sizes).contains(&0));
        }
        assert!(alarms <= 4, "{n}: {alarms} of 4000");
        assert!(found >= 3_800, "{n}: {found} of 4000");
    }
}

#[test]
fn awkward_readings() {
    assert_eq!(outliers(&[]), Ok(Vec::new()));
    assert_eq!(outliers(&[0.0, 1.0]), Err(Unanswered::NotPositive));
    assert_eq!(outliers(&[f64::NAN]), Err(Unanswered::NotFinite));
    assert_eq!(places(&[3.0; 9]), [0; 0]);
}
