//! Readings far from the others: a slow twin, slips of the pen put in on purpose, false alarms counted.

use super::tables::Draws;
use podbook::statistics::StatisticsError;
use podbook::statistics::distribution::f_upper;
use podbook::statistics::outlier::*;
use podbook::statistics::random::SplitMix64;

fn of(sizes: &[f64], slip: Slip) -> Vec<usize> {
    let found = outliers(sizes).unwrap();
    let found = found.iter().filter(|of| of.slip == slip);
    found.map(|of| of.place).collect()
}

fn places(sizes: &[f64]) -> Vec<usize> {
    of(sizes, Slip::Far)
}

fn in_inches(sizes: &[f64]) -> Vec<usize> {
    of(sizes, Slip::Inches)
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
    assert_eq!(outliers(&[0.0, 1.0]), Err(StatisticsError::NotPositive));
    assert_eq!(outliers(&[f64::NAN]), Err(StatisticsError::NotFinite));
    assert_eq!(places(&[3.0; 9]), [0; 0]);
}

/// 2.8 among 6.5 to 7.4 cm is 7.1 in inches; 17.8 is 7.0 with a conversion too many. A plant half as large as the others
/// is no such reading, nor is one that would stand out either way, nor one small plant in a wide tray.
#[test]
fn inches_among_centimetres() {
    let tray = |size: f64| [6.8, 7.1, 7.4, 6.5, size, 7.0, 7.3, 6.9];
    assert_eq!(in_inches(&tray(2.8)), [4]);
    assert_eq!(in_inches(&tray(17.8)), [4]);
    let found = outliers(&tray(2.8)).unwrap();
    assert!((found[0].converted() - 2.8 * 2.54).abs() < 1e-12 && !found[0].is_above());
    let found = outliers(&tray(17.8)).unwrap();
    assert!((found[0].converted() - 17.8 / 2.54).abs() < 1e-12);
    for size in [3.5, 4.4, 2.1, 14.0, 24.0] {
        assert_eq!(in_inches(&tray(size)), [0; 0], "{size}");
    }
    assert_eq!(
        in_inches(&[3.0, 7.1, 4.4, 11.5, 2.8, 7.0, 9.3, 5.9]),
        [0; 0]
    );
    assert_eq!(
        in_inches(&[6.8, 7.1, 7.4, 6.5, 2.8]),
        [0; 0],
        "too few others"
    );
    let two = [6.8, 7.1, 2.6, 6.5, 2.8, 7.0, 7.3, 6.9, 7.2, 6.6];
    assert_eq!(in_inches(&two), [2, 4], "two slips do not hide each other");
    assert_eq!(places(&tray(0.7)), [4]);
    assert_eq!(
        in_inches(&tray(0.7)),
        [0; 0],
        "a decimal point is a decimal point"
    );
}

/// Twin: the rule written out for one tray after another, suspects found with sorted lists.
#[test]
fn inches_the_slow_way() {
    let middle = |mut values: Vec<f64>| {
        values.sort_by(f64::total_cmp);
        0.5 * (values[(values.len() - 1) / 2] + values[values.len() / 2])
    };
    let mut random = SplitMix64::new(19);
    let mut named = 0;
    for n in (6..30).cycle().take(1_500) {
        let mut sizes: Vec<f64> = (0..n)
            .map(|_| (2.0 + 0.15 * random.normal()).exp())
            .collect();
        if random.uniform() < 0.7 {
            sizes[n / 3] *= if random.uniform() < 0.5 {
                2.54
            } else {
                1.0 / 2.54
            };
        }
        let logs: Vec<f64> = sizes.iter().map(|size| size.ln()).collect();
        let others = |i: usize| -> Vec<f64> {
            let all = logs.iter().enumerate();
            all.filter(|(j, _)| *j != i).map(|(_, log)| *log).collect()
        };
        let suspect = |i: usize| {
            let centre = middle(others(i));
            let mad = middle(others(i).iter().map(|log| (log - centre).abs()).collect());
            let away = (logs[i] - centre).abs();
            away >= 1.7_f64.ln() && away / mad > 3.5 / 0.674_489_750_196_081_7
        };
        let suspects: Vec<usize> = (0..n).filter(|&i| suspect(i)).collect();
        let rest: Vec<f64> = (0..n)
            .filter(|i| !suspects.contains(i))
            .map(|i| logs[i])
            .collect();
        let k = rest.len() as f64;
        let mean = rest.iter().sum::<f64>() / k;
        let sd = (rest.iter().map(|log| (log - mean).powi(2)).sum::<f64>() / (k - 1.0)).sqrt();
        let spread = sd.max(0.1) * (1.0 + 1.0 / k).sqrt();
        // Student's t by its square, an F of 1 and k - 1 degrees of freedom.
        let beyond = |t: f64| f_upper(t * t, 1.0, k - 1.0) < 0.01 / n as f64;
        let slow: Vec<usize> = suspects
            .into_iter()
            .filter(|&i| (logs[i] - mean).abs() < 5.0_f64.ln())
            .filter(|&i| {
                let toward = if logs[i] > mean { -1.0 } else { 1.0 };
                let converted = logs[i] + toward * 2.54_f64.ln() - mean;
                beyond((logs[i] - mean).abs() / spread) && converted.abs() <= 1.5 * spread
            })
            .collect();
        named += slow.len();
        assert_eq!(in_inches(&sizes), slow, "{sizes:?}");
    }
    assert!(named > 300, "{named}");
}

/// The rates of docs/checks.md: sound trays asked about, and readings in inches found.
#[test]
fn inches_false_alarms_and_finds() {
    let mut random = SplitMix64::new(29);
    for (sd, alarms_at_most, found) in [
        (0.15, 10, 550..=950),
        (0.2, 15, 300..=750),
        (0.25, 20, 100..=420),
        (0.4, 25, 0..=60),
    ] {
        for n in [12, 24, 60] {
            let (mut alarms, mut finds) = (0, 0);
            for _ in 0..1_000 {
                let mut sizes: Vec<f64> =
                    (0..n).map(|_| (2.0 + sd * random.normal()).exp()).collect();
                alarms += usize::from(!in_inches(&sizes).is_empty());
                sizes[0] /= 2.54;
                finds += usize::from(in_inches(&sizes).contains(&0));
            }
            assert!(alarms <= alarms_at_most + 5, "{sd}, {n}: {alarms} of 1000");
            assert!(found.contains(&finds), "{sd}, {n}: {finds} of 1000");
        }
    }
}
