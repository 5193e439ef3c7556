//! What had come up by one day after sowing: totals by hand, and a slow search for the day.

use podbook::statistics::germination_side_by_side::{NEAR, RunningTotal, common_day};
use podbook::statistics::nearly_all;
use podbook::statistics::random::SplitMix64;

fn total(sown: u32, counted: &[(f64, u32)]) -> RunningTotal {
    RunningTotal {
        sown,
        days: counted.iter().map(|of| of.0).collect(),
        totals: counted.iter().map(|of| of.1).collect(),
    }
}

#[test]
fn totals_between_and_beyond_the_counts() {
    let pod = total(60, &[(50.0, 11), (92.0, 38), (130.0, 43)]);
    let by = |day: f64| pod.up_by(day);
    assert_eq!(
        (by(50.0), by(92.0), by(130.0)),
        (Some(11), Some(38), Some(43))
    );
    // 11 + 27 · 20/42 = 23.86; 38 + 5 · 8/38 = 39.05.
    assert_eq!((by(70.0), by(100.0)), (Some(24), Some(39)));
    // Half a month is 15.22 days.
    assert_eq!((by(35.0), by(34.0)), (Some(11), None));
    assert_eq!((by(145.0), by(146.0)), (Some(43), None));
    assert_eq!(
        (pod.is_counted_near(107.0), pod.is_counted_near(108.0)),
        (true, false)
    );
    assert!(pod.is_between_counts(91.0) && !pod.is_between_counts(92.0));
    assert!(!pod.is_between_counts(49.0) && !pod.is_between_counts(131.0));
    assert_eq!(total(60, &[]).up_by(50.0), None);
}

#[test]
fn a_day_common_to_all() {
    let long = [total(60, &[(40.0, 5), (60.0, 12), (92.0, 43), (200.0, 44)])];
    let short = [total(60, &[(61.0, 20)])];
    assert_eq!(
        common_day(&[&long, &short]),
        Some(61.0),
        "the latest at which the short one was counted"
    );
    let never = [total(60, &[(300.0, 20)])];
    assert_eq!(common_day(&[&long, &never]), None);
    assert_eq!(common_day(&[&long, &[]]), None);
    // Day 150 lies between two counts of the first and is counted in the second; both were counted near day 92.
    let both = [total(60, &[(90.0, 20), (150.0, 30)])];
    assert_eq!(common_day(&[&long, &both]), Some(92.0));
    // A small sowing followed longer than the others does not drag the day along.
    let mixed = [total(100, &[(60.0, 30)]), total(5, &[(200.0, 2)])];
    assert_eq!(common_day(&[&long, &mixed]), Some(60.0));
}

/// Twin: all days tried one by one with loops over every sowing.
#[test]
fn the_slow_way_agrees() {
    let mut random = SplitMix64::new(3);
    let mut found = 0;
    for _ in 0..600 {
        let mut below = |end: f64| (random.uniform() * end) as u32;
        let groups: Vec<Vec<RunningTotal>> = (0..2 + below(2.0))
            .map(|_| {
                let mut sowing = || {
                    let (mut day, mut up) = (20.0, 0);
                    let counted: Vec<(f64, u32)> = (0..1 + below(4.0))
                        .map(|_| {
                            day += f64::from(1 + below(60.0));
                            up += below(10.0);
                            (day, up)
                        })
                        .collect();
                    total(40 + below(80.0), &counted)
                };
                vec![sowing(), sowing()]
            })
            .collect();
        let least = |has: &dyn Fn(&RunningTotal) -> bool| -> usize {
            let mut least = usize::MAX;
            for group in &groups {
                let mut seeds = 0;
                for sowing in group {
                    if has(sowing) {
                        seeds += sowing.sown as usize;
                    }
                }
                least = least.min(seeds);
            }
            least
        };
        let stands = |s: &RunningTotal, day: f64| {
            day >= s.days[0] - NEAR && day <= s.days[s.days.len() - 1] + NEAR
        };
        let days: Vec<f64> = groups
            .iter()
            .flatten()
            .flat_map(|s| s.days.clone())
            .collect();
        let mut most = 0;
        for &day in &days {
            most = most.max(least(&|s| stands(s, day)));
        }
        let (mut as_counted, mut any) = (None::<f64>, None::<f64>);
        for &day in &days {
            let present = least(&|s| stands(s, day));
            if most == 0 || !nearly_all(present, most) {
                continue;
            }
            any = Some(any.map_or(day, |other| other.max(day)));
            if nearly_all(least(&|s| s.is_counted_near(day)), present) {
                as_counted = Some(as_counted.map_or(day, |other| other.max(day)));
            }
        }
        found += usize::from(any.is_some());
        let slices: Vec<&[RunningTotal]> = groups.iter().map(|group| &group[..]).collect();
        assert_eq!(common_day(&slices), as_counted.or(any), "{groups:?}");
    }
    assert!(found > 300, "{found}");
}
