//! Room month by month: the shelf of the trade's own sums, and plant by plant as the slow twin.

use podbook::observation::shelf_room::pots_on;
use podbook::planning::room::*;
use podbook::planning::windows::Between;
use proptest::prelude::*;

/// A shelf of 110 × 110 cm holds 1,936 plugs of 2.5 cm, 484 pots of 5 cm, 225 of 7 cm and 144 of 9 cm: 44², 22², 15², 12².
#[test]
fn a_shelf_holds_whole_rows_of_pots() {
    for (width, pots) in [(2.5, 1936), (5.0, 484), (7.0, 225), (9.0, 144), (111.0, 0)] {
        assert_eq!(pots_on((110.0, 110.0), width), pots, "{width} cm");
    }
    assert_eq!(pots_on((110.0, 55.0), 7.0), 15 * 7);
    assert_eq!(pots_on((110.0, 55.0), 0.0), 0);
}

const STEPS: [Step; 3] = [
    Step {
        from_months: 0.0,
        pot_cm: 2.5,
    },
    Step {
        from_months: 12.0,
        pot_cm: 5.0,
    },
    Step {
        from_months: 24.0,
        pot_cm: 7.0,
    },
];

/// Pots on two shelves of 110 × 55 cm.
fn held(width: f64) -> u64 {
    2 * pots_on((110.0, 55.0), width)
}

fn day(on: i32) -> Between {
    Between {
        earliest: on,
        latest: on,
    }
}

/// Twenty seedlings sown on day 0, up at once: plugs until day 365 (12 months of 30.4375 days are 365.25), then 5 cm.
#[test]
fn seedlings_move_into_larger_pots() {
    let batch = Batch {
        pots: (20, 20),
        from: day(0),
        sown: Some(day(0)),
        pot_cm: None,
    };
    let share = |on| room((0, on), &[batch], &STEPS, &held).share;
    let plugs = 20.0 / f64::from(2 * 44 * 22);
    let fives = 20.0 / f64::from(2 * 22 * 11);
    assert!((share(365).1 - plugs).abs() < 1e-12);
    assert!((share(366).1 - fives).abs() < 1e-12);
    assert_eq!(share(366).0, share(366).1);
}

/// A plant stands in its recorded pot today, whatever its age, and moves on only at a step still to come.
#[test]
fn a_pot_on_record_is_not_outgrown_before_today() {
    let batch = Batch {
        pots: (1, 1),
        from: day(500),
        sown: Some(day(0)),
        pot_cm: Some(2.5),
    };
    let pots = |on| (1.0 / room((500, on), &[batch], &STEPS, &held).share.1).round() as u64;
    assert_eq!(pots(500), held(2.5));
    assert_eq!(pots(730), held(2.5));
    assert_eq!(pots(731), held(7.0));
}

/// Nothing is known of its pot: it is a pot, and takes room that is not counted.
#[test]
fn a_pot_of_unknown_width_is_counted_apart() {
    let batch = Batch {
        pots: (3, 3),
        from: day(0),
        sown: None,
        pot_cm: None,
    };
    let of = room((0, 10), &[batch], &STEPS, &held);
    assert_eq!((of.pots, of.share, of.unplaced), ((3, 3), (0.0, 0.0), 3));
    let wide = Batch {
        pot_cm: Some(90.0),
        ..batch
    };
    let of = room((0, 10), &[wide], &STEPS, &held);
    assert_eq!((of.unplaced, of.too_wide), (0, 3));
}

fn between() -> impl Strategy<Value = Between> {
    (0..900i32, 0..90i32).prop_map(|(earliest, more)| Between {
        earliest,
        latest: earliest + more,
    })
}

fn batch() -> impl Strategy<Value = Batch> {
    let pot = prop::option::of(prop::sample::select(vec![2.5, 4.0, 5.0, 7.0, 12.0, 200.0]));
    (
        0..5u64,
        0..5u64,
        between(),
        prop::option::of(between()),
        pot,
    )
        .prop_map(|(least, more, from, sown, pot_cm)| Batch {
            pots: (least, least + more),
            from,
            sown,
            pot_cm,
        })
}

/// Walks from the sowing to the day, one day after the other, and puts the plant into each pot as its age comes.
fn pot_by_walking(batch: &Batch, sown: Option<i32>, (today, day): (i32, i32)) -> Option<f64> {
    let mut pot = batch.pot_cm;
    let Some(sown) = sown else { return pot };
    for on in sown..=day {
        let months = f64::from(on - sown) / (365.25 / 12.0);
        for step in STEPS {
            let potted_before = batch.pot_cm.is_some() && on <= today;
            let is_first = months >= step.from_months
                && f64::from(on - 1 - sown) / (365.25 / 12.0) < step.from_months;
            if is_first && !potted_before {
                pot = Some(pot.map_or(step.pot_cm, |now: f64| now.max(step.pot_cm)));
            }
        }
    }
    pot
}

proptest! {
    /// The twin stands every single plant on a shelf of its own size class and counts.
    #[test]
    fn as_plant_by_plant(batches in prop::collection::vec(batch(), 0..8), today in 0..900i32, ahead in 0..700i32) {
        let day = today + ahead;
        let found = room((today, day), &batches, &STEPS, &held);
        let (mut least, mut most, mut unplaced) = (0, 0, 0);
        let (mut room_least, mut room_most) = (0.0, 0.0);
        for batch in &batches {
            let one = |sown: Option<i32>| {
                let pot = pot_by_walking(batch, sown, (today, day))?;
                let pots = held(pot);
                (pots > 0).then(|| 1.0 / pots as f64)
            };
            for plant in 0..batch.pots.1 {
                if plant < batch.pots.0 && day >= batch.from.latest {
                    least += 1;
                    room_least += one(batch.sown.map(|sown| sown.latest)).unwrap_or(0.0);
                }
                if day >= batch.from.earliest {
                    most += 1;
                    match one(batch.sown.map(|sown| sown.earliest)) {
                        Some(share) => room_most += share,
                        None => unplaced += 1,
                    }
                }
            }
        }
        prop_assert_eq!(found.pots, (least, most));
        prop_assert_eq!(found.unplaced + found.too_wide, unplaced);
        prop_assert!((found.share.0 - room_least).abs() < 1e-9);
        prop_assert!((found.share.1 - room_most).abs() < 1e-9, "{:?} {}", found, room_most);
        prop_assert!(found.pots.0 <= found.pots.1);
    }
}
