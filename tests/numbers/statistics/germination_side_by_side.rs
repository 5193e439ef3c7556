//! What had come up by one day after sowing: totals by hand, and a slow search for the day.

use podbook::statistics::contingency::compare_pods;
use podbook::statistics::germination_side_by_side::{
    Alike, NEAR, RunningTotal, UpOf, came_up_alike, common_day,
};
use podbook::statistics::nearly_all;
use podbook::statistics::random::SplitMix64;

fn total(sown: u32, counted: &[(f64, u32)]) -> RunningTotal {
    RunningTotal {
        sown,
        days: counted.iter().map(|of| (of.0, of.0)).collect(),
        totals: counted.iter().map(|of| of.1).collect(),
        until: 1000.0,
    }
}

#[test]
fn totals_between_and_beyond_the_counts() {
    let pod = total(60, &[(50.0, 11), (92.0, 38), (130.0, 43)]);
    let by = |day: f64| {
        pod.range_by(day)
            .filter(|(least, most)| least == most)
            .map(|of| of.0)
    };
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
    assert_eq!(total(60, &[]).range_by(50.0), None);
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

/// Counted on day 21 to 51: by day 40 that may have been before the count or after it. A count vague by four days stands for
/// half a month less those.
#[test]
fn what_was_counted_on_vague_days_is_a_range_around_them() {
    let vague = |days: &[(f64, f64)], totals: &[u32]| RunningTotal {
        days: days.to_vec(),
        totals: totals.to_vec(),
        ..total(40, &[])
    };
    let month = vague(&[(21.0, 51.0)], &[15]);
    let by = |day: f64| month.range_by(day);
    assert_eq!(
        (by(20.0), by(40.0), by(60.0)),
        (Some((0, 15)), Some((0, 40)), Some((15, 40)))
    );
    let days = vague(&[(48.0, 52.0)], &[15]);
    let by = |day: f64| days.range_by(day);
    assert_eq!((by(41.0), by(40.0)), (Some((15, 15)), Some((0, 15))));
    assert_eq!((by(59.0), by(60.0)), (Some((15, 15)), Some((15, 40))));
    // Sown on any day of ten and counted twice: 10 + 20 · 5/20 = 15 at the latest, 10 + 20 · 15/20 = 25 at the earliest.
    let sown = vague(&[(30.0, 40.0), (50.0, 60.0)], &[10, 30]);
    assert_eq!(sown.range_by(45.0), Some((15, 25)));
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

/// Of 3 to 5, 5 and 1 to 5 of 5 the most unlike are 5, 5 and 1, p = 0.011 by SciPy; 3, 5 and 1 are 0.066.
#[test]
fn each_group_may_lie_at_either_end() {
    let up = |sown: u64, least: u64, most: u64| UpOf { sown, least, most };
    let open = came_up_alike(&[up(5, 3, 5), up(5, 5, 5), up(5, 1, 5)]);
    assert_eq!(open, Alike::Open);
    // Of 3 of 10, 0 to 2 of 15 and 0 of 20 the most alike are 0.0227, and 0 of 15 is not.
    let clear = came_up_alike(&[up(10, 3, 3), up(15, 0, 2), up(20, 0, 0)]);
    assert!(
        matches!(clear, Alike::Tested(p) if (p - 0.022_651_766_8).abs() < 1e-9),
        "{clear:?}"
    );
}

/// Twin: more combinations than are tried, all of them tried.
#[test]
fn wide_ranges_decide_as_all_their_numbers_do() {
    let p = |counts: &[u64], groups: &[UpOf]| {
        let rows = counts.iter().zip(groups);
        let rows: Vec<Vec<u64>> = rows.map(|(&up, of)| vec![up, of.sown - up]).collect();
        compare_pods(&rows).map_or(1.0, |test| test.p_exact)
    };
    let mut random = SplitMix64::new(5);
    let mut below = |end: u64| (random.uniform() * end as f64) as u64;
    let mut clear = 0;
    for at in 0..20 {
        let groups = [(); 3].map(|()| {
            let sown = 18 + below(22);
            let least = [0, below(sown / 2), sown - 9][below(3) as usize];
            let most = (least + 8 + below(3)).min(sown);
            UpOf { sown, least, most }
        });
        let [a, b, c] = &groups;
        let mut all = Vec::new();
        for x in a.least..=a.most {
            for y in b.least..=b.most {
                all.extend((c.least..=c.most).map(|z| p(&[x, y, z], &groups)));
            }
        }
        assert!(all.len() > 500);
        let largest = all.iter().copied().fold(0.0, f64::max);
        let smallest = all.iter().copied().fold(1.0, f64::min);
        let found = came_up_alike(&groups);
        let right = match found {
            Alike::Tested(p) if p < 0.05 => largest < 0.05,
            Alike::Tested(_) => smallest >= 0.05,
            _ => largest >= 0.05 && smallest < 0.05,
        };
        assert!(right, "{at}: {groups:?} {found:?}, {smallest} to {largest}");
        clear += usize::from(largest < 0.05);
    }
    assert!(clear > 2, "{clear} are clear");
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
            match (day < s.days[0].0 - NEAR, day > s.days[last].0 + NEAR) {
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
            .flat_map(|s| s.days.iter().map(|of| of.0))
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
                day > s.days[0].0
                    && day < s.days[s.days.len() - 1].0
                    && !s.days.contains(&(day, day))
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
