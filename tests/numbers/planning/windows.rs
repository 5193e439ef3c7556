//! Windows that meet: the edge cases of `06_planning.json`, and day by day as the slow twin.

use podbook::planning::windows::*;
use proptest::prelude::*;

use super::seasons::table;

/// A window with known ends.
fn days(first: i32, last: i32) -> Window {
    let on = |day: i32| Between {
        earliest: day,
        latest: day,
    };
    Window {
        opens: on(first),
        closes: on(last),
    }
}

#[test]
fn every_edge_case_of_the_table() {
    let table = table();
    let cases = table["window_edge_cases"].as_array().unwrap();
    assert!(cases.len() >= 7);
    for case in cases {
        let of = |who: &str| {
            let day = |at: usize| case[who][at].as_i64().unwrap() as i32;
            days(day(0), day(1))
        };
        let keeps = case["storage"].as_u64().unwrap() as u32;
        let found = meeting(of("female"), of("male"), keeps);
        assert_eq!(
            found.possible(),
            case["compatible"].as_bool().unwrap(),
            "{case}"
        );
        assert!(
            !matches!(found, Meeting::Perhaps(..)),
            "known days leave no doubt"
        );
    }
}

/// Days on which known windows meet, counted one by one.
fn days_met(female: (i32, i32), male: (i32, i32), keeps: i32) -> Vec<i32> {
    let flowers = |day: &i32| (female.0..=female.1).contains(day);
    let pollen = |day: &i32| (male.0..=male.1 + keeps).contains(day);
    (-10..80)
        .filter(|day| flowers(day) && pollen(day))
        .collect()
}

fn window() -> impl Strategy<Value = Window> {
    (0..20i32, 0..4i32, 0..6i32, 0..4i32).prop_map(|(open, doubt, length, late)| Window {
        opens: Between {
            earliest: open,
            latest: open + doubt,
        },
        closes: Between {
            earliest: open + doubt + length,
            latest: open + doubt + length + late,
        },
    })
}

fn readings(window: Window) -> impl Iterator<Item = (i32, i32)> + Clone {
    let closes = window.closes;
    (window.opens.earliest..=window.opens.latest)
        .flat_map(move |open| (closes.earliest..=closes.latest).map(move |close| (open, close)))
}

proptest! {
    #[test]
    fn possible_and_sure_are_what_every_reading_of_the_dates_says(
        female in window(), male in window(), keeps in 0..5u32,
    ) {
        let mut met = Vec::new();
        let (mut all, mut any) = (true, false);
        for f in readings(female) {
            for m in readings(male) {
                let days = days_met(f, m, keeps as i32);
                all &= !days.is_empty();
                any |= !days.is_empty();
                met.extend(days);
            }
        }
        let ends = (met.iter().min().copied(), met.iter().max().copied());
        match meeting(female, male, keeps) {
            Meeting::Never => prop_assert!(!any),
            Meeting::Perhaps(first, last) => {
                prop_assert!(any && !all);
                prop_assert_eq!(ends, (Some(first), Some(last)));
            }
            Meeting::Surely(first, last) => {
                prop_assert!(all);
                prop_assert_eq!(ends, (Some(first), Some(last)));
            }
        }
    }
}

#[test]
fn pollen_kept_for_ever_does_not_overflow() {
    let found = meeting(days(10, 20), days(1, i32::MAX), u32::MAX);
    assert_eq!(found, Meeting::Surely(10, 20));
}
