//! What had come up by one day after sowing: totals by hand, and a slow search for the day.

use podbook::statistics::germination_side_by_side::{
    Alike, NEAR, RunningTotal, UpOf, came_up_alike, common_day,
};
use podbook::statistics::nearly_all;
use podbook::statistics::random::SplitMix64;

fn total(sown: u32, counted: &[(f64, u32)]) -> RunningTotal {
    RunningTotal {
        sown,
        days: counted.iter().map(|of| of.0).collect(),
        totals: counted.iter().map(|of| of.1).collect(),
        until: 1000.0,
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
        common_day(&[&long, &short], 0.0),
        Some(61.0),
        "the latest at which the short one was counted"
    );
    // Day 200 leaves 20 of 60 open, the days before 20 of 60 too; day 300 leaves 16 of 60 open.
    let never = [total(60, &[(300.0, 20)])];
    assert_eq!(common_day(&[&long, &never], 0.0), Some(300.0));
    let none_up = [total(60, &[(300.0, 0)])];
    assert_eq!(
        common_day(&[&long, &none_up], 0.0),
        Some(200.0),
        "none up later is none up earlier"
    );
    assert_eq!(common_day(&[&long, &[]], 0.0), None);
    // Day 150 lies between two counts of the first and is counted in the second; both were counted near day 92.
    let both = [total(60, &[(90.0, 20), (150.0, 30)])];
    assert_eq!(common_day(&[&long, &both], 0.0), Some(92.0));
    // A small sowing followed longer than the others does not drag the day along.
    let mixed = [total(100, &[(60.0, 30)]), total(5, &[(200.0, 2)])];
    assert_eq!(common_day(&[&long, &mixed], 0.1), Some(60.0));
    // Nor does one that was not followed hold it back, where little is open: 5 of 105.
    let mixed = [
        total(100, &[(60.0, 30), (200.0, 60)]),
        total(5, &[(50.0, 0)]),
    ];
    assert_eq!(common_day(&[&long, &mixed], 0.1), Some(200.0));
    assert_eq!(common_day(&[&long, &mixed], 0.0), Some(60.0));
}

/// A total can only rise: at least the last count later on, at most the first before it; nothing of a day to come.
#[test]
fn what_is_not_counted_is_a_range() {
    let sowing = total(60, &[(50.0, 11), (130.0, 43)]);
    let by = |day: f64| sowing.range_by(day);
    assert_eq!((by(20.0), by(50.0)), (Some((0, 11)), Some((11, 11))));
    assert_eq!((by(200.0), by(1001.0)), (Some((43, 60)), None));
    assert_eq!(total(60, &[(130.0, 0)]).range_by(1.0), Some((0, 0)));
}

/// Fisher's exact test by SciPy: 9 of 20 against 125 of 360 is p = 0.35; 90 of 120 against 9 of 100 is below 1e-9.
#[test]
fn ranges_decide_or_do_not() {
    let up = |sown: u64, least: u64, most: u64| UpOf { sown, least, most };
    let open = came_up_alike(&[up(360, 125, 240), up(20, 5, 5)]);
    assert_eq!(
        open,
        Alike::Open,
        "5 of 20 are fewer than 240 of 360, and may be as many as 125"
    );
    let clear = came_up_alike(&[up(120, 90, 120), up(100, 0, 9)]);
    assert!(matches!(clear, Alike::Tested(p) if p < 1e-9), "{clear:?}");
    let alike = came_up_alike(&[up(360, 125, 126), up(20, 9, 9)]);
    assert!(matches!(alike, Alike::Tested(p) if p > 0.3), "{alike:?}");
    assert_eq!(
        came_up_alike(&[up(10, 0, 0), up(10, 0, 0)]),
        Alike::NotTested
    );
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
        let range = |s: &RunningTotal, day: f64| {
            let last = s.days.len() - 1;
            match (day < s.days[0] - NEAR, day > s.days[last] + NEAR) {
                (true, _) => (0, s.totals[0]),
                (_, true) => (s.totals[last], s.sown),
                _ => (0, 0),
            }
        };
        let known = |s: &RunningTotal, day: f64| range(s, day).0 == range(s, day).1;
        let unknown = |day: f64| {
            let mut most = 0.0;
            for group in &groups {
                let open: u32 = group
                    .iter()
                    .map(|s| range(s, day).1 - range(s, day).0)
                    .sum();
                let sown: u32 = group.iter().map(|s| s.sown).sum();
                most = f64::max(most, f64::from(open) / f64::from(sown));
            }
            most
        };
        let mut days: Vec<f64> = groups
            .iter()
            .flatten()
            .flat_map(|s| s.days.clone())
            .collect();
        let mut open = 1.0;
        for &day in &days {
            open = f64::min(open, unknown(day));
        }
        let few = f64::from(below(3.0)) / 10.0;
        days.retain(|&day| unknown(day) <= open || unknown(day) <= few);
        let mut most = 0;
        for &day in &days {
            most = most.max(least(&|s| known(s, day)));
        }
        let (mut as_counted, mut any) = (None::<f64>, None::<f64>);
        for &day in &days {
            let of_day = least(&|s| known(s, day));
            if !nearly_all(of_day, most) {
                continue;
            }
            any = Some(any.map_or(day, |other| other.max(day)));
            let between = |s: &RunningTotal| {
                day > s.days[0] && day < s.days[s.days.len() - 1] && !s.days.contains(&day)
            };
            let near = |s: &RunningTotal| s.is_counted_near(day) || known(s, day) && !between(s);
            if nearly_all(least(&near), of_day) {
                as_counted = Some(as_counted.map_or(day, |other| other.max(day)));
            }
        }
        found += usize::from(any.is_some());
        let slices: Vec<&[RunningTotal]> = groups.iter().map(|group| &group[..]).collect();
        assert_eq!(
            common_day(&slices, few),
            as_counted.or(any),
            "{few} {groups:?}"
        );
    }
    assert!(found > 300, "{found}");
}
