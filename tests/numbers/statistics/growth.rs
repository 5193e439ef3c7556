//! Sizes at an age and growth rates: `04_growth.json`, dietox (Lauridsen, Højsgaard & Sørensen 1999), and by hand.

use super::tables::{Draws, close, number, numbers, table};
use podbook::statistics::describe::describe;
use podbook::statistics::growth::*;
use podbook::statistics::location::welch;
use podbook::statistics::random::SplitMix64;
use podbook::statistics::ranks::kruskal_wallis;
use podbook::statistics::trend::{slope, slope_between};
use podbook::statistics::variance::equal_spread;
use podbook::statistics::{Confidence, Interval, Scale, StatisticsError};

fn readings(ages: &[f64], sizes: &[f64]) -> Vec<Reading> {
    ages.iter()
        .zip(sizes)
        .map(|(&age, &size)| Reading { age, size })
        .collect()
}

fn span(low: f64, high: f64) -> Interval {
    Interval { low, high }
}

/// The three invented pods: sibling and its readings (month, leaf span in mm), in the order of the file.
pub fn pods() -> Vec<(String, Vec<Reading>)> {
    let mut all: Vec<(String, Vec<Reading>)> = Vec::new();
    for line in include_str!("../data/04_pods_leafspan.csv")
        .lines()
        .skip(1)
        .filter(|line| !line.is_empty())
    {
        let cells: Vec<&str> = line.split(',').collect();
        if all.last().is_none_or(|(sibling, _)| sibling != cells[2]) {
            all.push((cells[2].to_string(), Vec::new()));
        }
        let reading = Reading {
            age: cells[3].parse().unwrap(),
            size: cells[4].parse().unwrap(),
        };
        all.last_mut().unwrap().1.push(reading);
    }
    all
}

/// Pigs with their litter and weekly weights.
pub fn dietox() -> Vec<(u32, u32, Vec<f64>)> {
    let row = |line: &str| {
        let cells: Vec<f64> = line.split(' ').map(|cell| cell.parse().unwrap()).collect();
        (cells[0] as u32, cells[1] as u32, cells[2..].to_vec())
    };
    include_str!("../data/dietox.txt")
        .lines()
        .filter(|line| !line.starts_with('#'))
        .map(row)
        .collect()
}

/// Worked example, the same plants read twice.
#[test]
fn two_harvests() {
    let row = &table!("04_growth.json")["two_harvest"];
    let (first, second) = (numbers(&row["W1"]), numbers(&row["W2"]));
    let (t1, t2) = (number(&row["t1"]), number(&row["t2"]));
    let pair = |(&a, &b): (&f64, &f64)| {
        growth_rate(Reading { age: t1, size: a }, Reading { age: t2, size: b }).unwrap()
    };
    let rates: Vec<f64> = first.iter().zip(&second).map(pair).collect();
    for (found, expected) in rates.iter().zip(numbers(&row["per_plant_paired"])) {
        close(*found, expected, 1e-12);
    }
    let mean = mean_rate(&rates, Confidence::P95).unwrap();
    close(mean.mean, number(&row["paired_mean"]), 1e-12);
    close(mean.standard_error, number(&row["paired_se"]), 1e-12);
}

/// Hoffmann & Poorter 2002: the logarithm of mean sizes overstates the rate, the mean of logarithms does not. Our
/// simulation of one line of the table (true rate 0.05 over 100 days, SD of rates 0.01, 20 plants).
#[test]
fn mean_of_logs_is_unbiased() {
    let mut random = SplitMix64::new(31);
    let row = &table!("04_growth.json")["bias_simulation_true_rgr_0.05_100_days"][5];
    assert_eq!((number(&row["sd_rgr"]), number(&row["n"])), (0.01, 20.0));
    let (tries, mut of_means, mut of_logs) = (2_000, 0.0, 0.0);
    for _ in 0..tries {
        let first: Vec<f64> = (0..20).map(|_| libm::exp(0.05 * random.normal())).collect();
        let second: Vec<f64> = first
            .iter()
            .map(|s| s * libm::exp(100.0 * (0.05 + 0.01 * random.normal())))
            .collect();
        let rate = |(&a, &b): (&f64, &f64)| {
            let to = Reading {
                age: 100.0,
                size: b,
            };
            growth_rate(Reading { age: 0.0, size: a }, to).unwrap()
        };
        let rates: Vec<f64> = first.iter().zip(&second).map(rate).collect();
        of_logs += mean_rate(&rates, Confidence::P95).unwrap().mean - 0.05;
        let mean = |sizes: &[f64]| {
            describe(&sizes.iter().copied().map(Some).collect::<Vec<_>>())
                .unwrap()
                .mean
        };
        of_means += libm::log(mean(&second) / mean(&first)) / 100.0 - 0.05;
    }
    assert!((of_logs / f64::from(tries)).abs() < 2e-4);
    assert!((of_means / f64::from(tries) - number(&row["bias_ln_of_means"])).abs() < 3e-4);
}

/// Open series of litters; weights are to the tenth, the published file carries single-precision residue.
#[test]
fn pigs_from_week_1_to_12() {
    let row = &table!("04_open_data_extras.json")["dietox_RGR_week1_to_12"];
    let full: Vec<(u32, u32, Vec<f64>)> = dietox()
        .into_iter()
        .filter(|pig| pig.2.len() == 12)
        .collect();
    let rate = |w: &[f64]| {
        growth_rate(
            Reading {
                age: 1.0,
                size: w[0],
            },
            Reading {
                age: 12.0,
                size: w[11],
            },
        )
        .unwrap()
    };
    let rates: Vec<f64> = full.iter().map(|pig| rate(&pig.2)).collect();
    let mean = mean_rate(&rates, Confidence::P95).unwrap();
    assert_eq!(mean.n as f64, number(&row["pigs"]));
    close(mean.mean, number(&row["mean_of_ln"]), 1e-6);
    close(mean.standard_error, number(&row["se"]), 1e-6);
    let litters = &table!("04_open_data_extras.json")["dietox_litters_rgr"];
    let mut by_litter = std::collections::BTreeMap::<u32, Vec<f64>>::new();
    full.iter()
        .zip(&rates)
        .for_each(|(pig, &rate)| by_litter.entry(pig.1).or_default().push(rate));
    let groups: Vec<Vec<f64>> = by_litter
        .into_values()
        .filter(|litter| litter.len() >= 3)
        .collect();
    assert_eq!(groups.len() as f64, number(&litters["litters"]));
    let spread = equal_spread(&groups).unwrap();
    close(spread.f, number(&litters["brown_forsythe_W"]), 1e-4);
    close(spread.p, number(&litters["bf_p"]), 1e-4);
    let ranks = kruskal_wallis(&groups).unwrap();
    close(ranks.h, number(&litters["kruskal_H"]), 1e-4);
    close(ranks.p(), number(&litters["kruskal_p"]), 1e-4);
}

/// All 39 siblings, the pods' means and spreads, and the comparison of two pods.
#[test]
fn slopes_of_every_sibling() {
    let file = table!("04_growth.json");
    let mut by_pod = std::collections::BTreeMap::<String, Vec<f64>>::new();
    for ((name, readings), row) in pods()
        .iter()
        .zip(file["per_sibling_slope"].as_array().unwrap())
    {
        assert_eq!(name, row["sib"].as_str().unwrap());
        assert_eq!(readings.len() as u64, row["n"].as_u64().unwrap());
        let found = slope(readings.iter().copied(), Scale::Log).unwrap();
        close(found, number(&row["slope"]), 1e-10);
        by_pod
            .entry(row["pod"].as_str().unwrap().to_string())
            .or_default()
            .push(found);
    }
    for (pod, slopes) in &by_pod {
        let (found, row) = (
            describe(&slopes.iter().copied().map(Some).collect::<Vec<_>>()).unwrap(),
            &file["pod_summary"][pod],
        );
        close(found.mean, number(&row["mean"]), 1e-10);
        close(found.sd.unwrap(), number(&row["sd"]), 1e-9);
        close(found.cv.unwrap(), number(&row["cv"]), 1e-9);
    }
    let row = &file["complex_vs_species_slopes"];
    let test = welch(&by_pod["P3"], &by_pod["P1"], Confidence::P95).unwrap();
    close(test.t, number(&row["welch_t"]), 1e-8);
    close(test.df, number(&row["df"]), 1e-8);
    close(test.p, number(&row["p"]), 1e-8);
    let spread = equal_spread(&[by_pod["P3"].clone(), by_pod["P1"].clone()]).unwrap();
    close(spread.f, number(&row["bf_W"]), 1e-8);
    close(spread.p, number(&row["bf_p"]), 1e-8);
}

#[test]
fn sizes_between_readings_run_straight_on_the_log_scale() {
    let plant = readings(&[4.0, 8.0, 12.0], &[2.0, 8.0, 4.0]);
    let at = |age: f64| size_at(&plant, span(age, age), Scale::Log);
    close(at(6.0).unwrap().low, 4.0, 1e-12);
    close(at(8.0).unwrap().high, 8.0, 1e-12);
    close(at(10.0).unwrap().low, 32.0_f64.sqrt(), 1e-12);
    assert_eq!(
        at(3.999),
        Err(StatisticsError::Outside {
            first: 4.0,
            last: 12.0
        })
    );
    assert_eq!(
        at(12.001),
        Err(StatisticsError::Outside {
            first: 4.0,
            last: 12.0
        })
    );
}

/// Twin: the range over a vague age, scanned in small steps.
#[test]
fn a_range_of_ages_gives_the_range_of_sizes() {
    let plant = readings(&[12.0, 4.0, 8.0], &[4.0, 2.0, 8.0]);
    let found = size_at(&plant, span(5.0, 11.0), Scale::Log).unwrap();
    let scanned: Vec<f64> = (0..=6000)
        .map(|i| 5.0 + f64::from(i) / 1000.0)
        .map(|age| size_at(&plant, span(age, age), Scale::Log).unwrap().low)
        .collect();
    close(
        found.low,
        scanned.iter().copied().fold(f64::INFINITY, f64::min),
        1e-12,
    );
    close(
        found.high,
        scanned.iter().copied().fold(0.0, f64::max),
        1e-12,
    );
    assert_eq!(
        found.high,
        size_at(&plant, span(8.0, 8.0), Scale::Log).unwrap().high
    );
    assert!(
        size_at(&plant, span(11.0, 13.0), Scale::Log).is_err()
            && size_at(&plant, span(9.0, 8.0), Scale::Log).is_err()
    );
}

/// Twin: every pair of ages on a fine grid inside the ranges.
#[test]
fn vague_reading_ages_give_the_range_of_sizes() {
    let plant = [(2.0, 3.0, 2.0), (5.0, 6.5, 6.0), (8.0, 9.0, 5.0)].map(|(low, high, size)| {
        RangedReading {
            age: span(low, high),
            size,
        }
    });
    for age in [3.0, 4.0, 5.2, 6.5, 7.0, 8.0] {
        let found = size_at_ranged(&plant, age, Scale::Log).unwrap();
        let (mut low, mut high) = (f64::INFINITY, 0.0_f64);
        let grid = |i: usize, at: usize| {
            plant[at].age.low + (plant[at].age.high - plant[at].age.low) * i as f64 / 10.0
        };
        for i in 0..1_331 {
            let ages = [grid(i % 11, 0), grid(i / 11 % 11, 1), grid(i / 121, 2)];
            let size = size_at(
                &readings(&ages, &plant.map(|r| r.size)),
                span(age, age),
                Scale::Log,
            )
            .unwrap()
            .low;
            (low, high) = (low.min(size), high.max(size));
        }
        assert!(
            found.low <= low * (1.0 + 1e-12) && low < found.low * 1.02,
            "{age}: {found:?} against {low}"
        );
        assert!(
            found.high >= high * (1.0 - 1e-12) && high > found.high * 0.98,
            "{age}: {found:?} against {high}"
        );
    }
    assert_eq!(
        size_at_ranged(&plant, 2.5, Scale::Log),
        Err(StatisticsError::Outside {
            first: 3.0,
            last: 8.0
        })
    );
    let touching = [(2.0, 4.0), (4.0, 6.0)].map(|(low, high)| RangedReading {
        age: span(low, high),
        size: 3.0,
    });
    assert_eq!(
        size_at_ranged(&touching, 4.0, Scale::Log),
        Err(StatisticsError::OrderUnknown),
        "both may be of one day"
    );
    let overlapping = [
        plant[0],
        RangedReading {
            age: span(2.5, 4.0),
            size: 3.0,
        },
    ];
    assert_eq!(
        size_at_ranged(&overlapping, 3.0, Scale::Log),
        Err(StatisticsError::OrderUnknown)
    );
}

/// With the readings' ages certain, both ways say the same.
#[test]
fn certain_ages_are_ranges_of_no_width() {
    let plant = readings(&[2.0, 5.0, 9.0], &[2.0, 6.0, 5.0]);
    let ranged: Vec<RangedReading> = plant
        .iter()
        .map(|r| RangedReading {
            age: span(r.age, r.age),
            size: r.size,
        })
        .collect();
    for age in [2.0, 3.3, 5.0, 8.9, 9.0] {
        let (a, b) = (
            size_at(&plant, span(age, age), Scale::Log).unwrap(),
            size_at_ranged(&ranged, age, Scale::Log).unwrap(),
        );
        close(a.low, b.low, 1e-12);
        close(a.high, b.high, 1e-12);
    }
}

#[test]
fn awkward_series() {
    let one = readings(&[5.0], &[3.0]);
    close(
        size_at(&one, span(5.0, 5.0), Scale::Log).unwrap().low,
        3.0,
        1e-15,
    );
    assert!(size_at(&one, span(5.0, 5.1), Scale::Log).is_err());
    assert_eq!(
        size_at(&[], span(1.0, 1.0), Scale::Log),
        Err(StatisticsError::TooFew {
            found: 0,
            needed: 1
        })
    );
    assert_eq!(
        size_at(&readings(&[1.0], &[0.0]), span(1.0, 1.0), Scale::Log),
        Err(StatisticsError::NotPositive)
    );
    let twice = readings(&[5.0, 5.0, 9.0], &[2.0, 8.0, 4.0]);
    close(
        size_at(&twice, span(5.0, 5.0), Scale::Log).unwrap().low,
        4.0,
        1e-12,
    );
    assert_eq!(growth_rate(one[0], one[0]), Err(StatisticsError::NoSpread));
    assert_eq!(
        mean_rate(&[0.1], Confidence::P95),
        Err(StatisticsError::TooFew {
            found: 1,
            needed: 2
        })
    );
    let line = |ages: &[f64], sizes: &[f64]| slope(readings(ages, sizes).into_iter(), Scale::Log);
    assert_eq!(
        line(&[5.0], &[2.0]),
        Err(StatisticsError::TooFew {
            found: 1,
            needed: 2
        })
    );
    assert_eq!(
        line(&[5.0; 4], &[1.0, 2.0, 3.0, 4.0]),
        Err(StatisticsError::NoSpread)
    );
    assert_eq!(line(&[1.0, 2.0, 3.0, 4.0], &[7.0; 4]), Ok(0.0));
    assert!(size_at_ranged(&[], 1.0, Scale::Log).is_err());
}

/// Twin: the slope worked out in passing is that of the formula over ages from the first reading, years after day one.
#[test]
fn a_slope_in_passing_is_that_of_the_fitted_line() {
    let ages = [24_300.0, 24_301.5, 24_303.0, 24_307.25];
    let sizes = [2.0, 2.3, 2.2, 4.1];
    let readings = |from: f64| -> Vec<Reading> {
        let pairs = ages.iter().zip(sizes);
        pairs
            .map(|(age, size)| Reading {
                age: age - from,
                size,
            })
            .collect()
    };
    let logs = sizes.map(f64::ln);
    let (age_mean, log_mean) = (
        readings(ages[0]).iter().map(|of| of.age).sum::<f64>() / 4.0,
        logs.iter().sum::<f64>() / 4.0,
    );
    let from_mean = || readings(ages[0]).into_iter().map(|of| of.age - age_mean);
    let over: f64 = from_mean().zip(logs).map(|(x, y)| x * (y - log_mean)).sum();
    let fitted = over / from_mean().map(|x| x * x).sum::<f64>();
    let passing = slope(readings(0.0).into_iter(), Scale::Log).unwrap();
    assert!((passing - fitted).abs() < 1e-12, "{passing} {fitted}");
    assert!(slope(readings(0.0).into_iter().take(1), Scale::Log).is_err());
}

/// Counts run straight as they stand, zeros among them: half way from 0 to 2 pitchers is 1, and 2 in 4 months is half a
/// pitcher a month. Twin: the least-squares slope of a published formula written out, `Σ(x − x̄)(y − ȳ)/Σ(x − x̄)²`.
#[test]
fn counts_keep_their_zeros() {
    let counts = readings(&[8.0, 12.0], &[0.0, 2.0]);
    let at = size_at(&counts, span(10.0, 10.0), Scale::Plain).unwrap();
    assert_eq!((at.low, at.high), (1.0, 1.0));
    assert!(size_at(&counts, span(10.0, 10.0), Scale::Log).is_err());
    assert_eq!(slope(counts.iter().copied(), Scale::Plain), Ok(0.5));
    let ranged: Vec<RangedReading> = counts
        .iter()
        .map(|of| RangedReading {
            age: span(of.age - 0.5, of.age + 0.5),
            size: of.size,
        })
        .collect();
    let range = size_at_ranged(&ranged, 10.0, Scale::Plain).unwrap();
    close(range.low, 2.0 * 1.5 / 4.0, 1e-12);
    close(range.high, 2.0 * 2.5 / 4.0, 1e-12);
    let (x, y) = ([1.0, 2.0, 4.0, 7.0], [0.0, 0.0, 3.0, 2.0]);
    let (mx, my) = (3.5, 1.25);
    let over: f64 = x.iter().zip(y).map(|(x, y)| (x - mx) * (y - my)).sum();
    let under: f64 = x.iter().map(|x| (x - mx) * (x - mx)).sum();
    let found = slope(readings(&x, &y).into_iter(), Scale::Plain).unwrap();
    close(found, over / under, 1e-14);
    assert_eq!(
        (Scale::Plain.middle(0.0, 3.0), Scale::Log.middle(2.0, 8.0)),
        (1.5, 4.0)
    );
}

/// Twin: the slopes of a fine grid over the ranges of the ages. None is outside the limits, and some are close to them.
#[test]
fn slopes_of_vague_ages_by_a_grid() {
    let mut random = SplitMix64::new(17);
    for round in 0..60 {
        let n = 2 + round % 3;
        let scale = [Scale::Log, Scale::Plain][round % 2];
        let readings: Vec<(Interval, f64)> = (0..n)
            .map(|at| {
                // The first and the last stay apart, as rates ask; those between may overlap both.
                let low = 5.0 * at as f64 + random.uniform();
                let is_end = at == 0 || at + 1 == n;
                let width = if is_end { 1.0 } else { 4.0 };
                let high = low + width * random.below(3) as f64 * random.uniform();
                let size = 2.0 + 0.4 * at as f64 * (random.uniform() - 0.2) + random.uniform();
                (Interval { low, high }, size)
            })
            .collect();
        let steps = [400, 60, 20][n - 2];
        let (mut least, mut greatest) = (f64::INFINITY, f64::NEG_INFINITY);
        for cell in 0..(steps + 1usize).pow(n as u32) {
            let ages = readings.iter().enumerate().map(|(at, (range, size))| {
                let step = cell / (steps + 1).pow(at as u32) % (steps + 1);
                let age = range.low + (range.high - range.low) * step as f64 / steps as f64;
                Reading { age, size: *size }
            });
            if let Ok(found) = slope(ages, scale) {
                (least, greatest) = (least.min(found), greatest.max(found));
            }
        }
        let found = slope_between(&readings, scale).unwrap();
        let width = greatest - least;
        assert!(
            found.low <= least + 1e-9 && greatest - 1e-9 <= found.high,
            "{found:?} {least} {greatest} {readings:?}"
        );
        assert!(
            least - found.low <= 0.02 * width + 1e-9,
            "{found:?} {least} {greatest}"
        );
        assert!(
            found.high - greatest <= 0.02 * width + 1e-9,
            "{found:?} {least} {greatest}"
        );
    }
}
