//! Germination: `04_germination.json` (two invented counts, formulae from memory), a likelihood scanned by hand.

use super::tables::{close, close_interval, counts, number, numbers, table};
use podbook::statistics::germination::*;
use podbook::statistics::proportion::wilson;
use podbook::statistics::{Confidence, StatisticsError};

fn examples() -> Vec<(Visits, serde_json::Value)> {
    let file = table!("04_germination.json");
    let example = |row: &serde_json::Value| {
        let visits = Visits {
            days: numbers(&row["days"]),
            counts: counts(&row["counts"]),
            sown: row["sown"].as_u64().unwrap(),
        };
        (visits, row.clone())
    };
    file["examples"]
        .as_array()
        .unwrap()
        .iter()
        .map(example)
        .collect()
}

fn day(reached: Reached) -> f64 {
    match reached {
        Reached::At(day) | Reached::ByFirstVisit(day) => day,
    }
}

#[test]
fn every_index_of_the_table() {
    for (visits, row) in examples() {
        let found = germination(&visits).unwrap();
        let germinated: u64 = visits.counts.iter().sum();
        assert_eq!(germinated, row["germinated"].as_u64().unwrap());
        let share = wilson(germinated, visits.sown, Confidence::P95).unwrap();
        close_interval(share, &row["wilson95"], 1e-12);
        let mean = found.mean_time;
        for (figure, name) in [
            (100.0 * germinated as f64 / visits.sown as f64, "percent"),
            (day(found.t50_coolbear), "T50_coolbear_Nplus1_over_2"),
            (day(found.t50_farooq), "T50_farooq_N_over_2"),
            (mean, "MGT"),
            (found.mean_time_between, "MGT_interval_midpoint"),
            (1.0 / mean, "mean_rate_1_over_MGT"),
            (100.0 / mean, "CVG_percent"),
        ] {
            close(figure, number(&row[name]), 1e-12);
        }
    }
}

/// Optimum of an independent program; ours may be better, not worse.
#[test]
fn course_of_the_table() {
    let rows = &table!("04_germination.json")["interval_censored_loglogistic_cure"];
    for (i, (visits, _)) in examples().iter().enumerate() {
        let (found, row) = (course(visits).unwrap(), &rows[format!("example{i}")]);
        assert!(found.negative_log_likelihood <= number(&row["neg_loglik"]) + 1e-8);
        close(
            found.negative_log_likelihood,
            number(&row["neg_loglik"]),
            1e-9,
        );
        close(found.final_share, number(&row["final_fraction"]), 1e-4);
        close(found.t50, number(&row["T50_of_germinable"]), 1e-4);
        close(found.scale, number(&row["scale"]), 1e-3);
    }
}

/// Twin: the likelihood written out, on a grid of all three parameters around the answer.
#[test]
fn no_course_nearby_is_likelier() {
    let (visits, _) = &examples()[0];
    let found = course(visits).unwrap();
    let negative = |share: f64, t50: f64, scale: f64| {
        let by = |day: f64| {
            if day > 0.0 {
                share / (1.0 + (day / t50).powf(-1.0 / scale))
            } else {
                0.0
            }
        };
        let mut sum = 0.0;
        for (i, &count) in visits.counts.iter().enumerate() {
            let before = if i == 0 { 0.0 } else { visits.days[i - 1] };
            sum -= count as f64 * (by(visits.days[i]) - by(before)).ln();
        }
        sum - 10.0 * (1.0 - by(visits.days[visits.days.len() - 1])).ln()
    };
    let least = negative(found.final_share, found.t50, found.scale);
    close(least, found.negative_log_likelihood, 1e-11);
    for i in 0..27 {
        let by = |digit: i32| 1.0 + 0.01 * f64::from(i / 3_i32.pow(digit as u32) % 3 - 1);
        assert!(
            negative(
                found.final_share * by(0),
                found.t50 * by(1),
                found.scale * by(2)
            ) >= least - 1e-9
        );
    }
}

#[test]
fn awkward_sowings() {
    let visits = |days: &[f64], counts: &[u64], sown: u64| Visits {
        days: days.to_vec(),
        counts: counts.to_vec(),
        sown,
    };
    let none = visits(&[10.0, 20.0], &[0, 0], 30);
    assert_eq!(
        germination(&none),
        Err(StatisticsError::TooFew {
            found: 0,
            needed: 1
        })
    );
    let at_once = germination(&visits(&[10.0, 20.0], &[8, 0], 30)).unwrap();
    assert_eq!(at_once.t50_farooq, Reached::ByFirstVisit(10.0));
    let one = germination(&visits(&[10.0, 20.0], &[0, 1], 30)).unwrap();
    // Half of one seedling is linear between the counts, the whole of it is there at the second.
    assert_eq!(
        (one.t50_farooq, one.t50_coolbear),
        (Reached::At(15.0), Reached::At(20.0))
    );
    let half = germination(&visits(&[10.0, 20.0], &[3, 3], 30)).unwrap();
    assert_eq!(
        (half.t50_farooq, day(half.t50_coolbear)),
        (Reached::ByFirstVisit(10.0), 10.0 + 10.0 / 6.0)
    );
    assert_eq!(one.mean_time, 20.0);
    assert_eq!(
        course(&visits(&[10.0, 20.0], &[3, 9], 30)),
        Err(StatisticsError::TooFew {
            found: 2,
            needed: FEWEST_COUNTS
        }),
        "three parameters from two counts"
    );
    assert_eq!(
        course(&visits(&[10.0, 20.0, 30.0, 40.0], &[0, 9, 3, 0], 30)),
        Err(StatisticsError::TooFew {
            found: 2,
            needed: FEWEST_COUNTS
        })
    );
    assert!(course(&visits(&[10.0, 20.0, 30.0, 40.0], &[2, 9, 3, 0], 30)).is_ok());
    assert!(
        germination(&visits(&[10.0], &[5], 3)).is_err(),
        "more than sown"
    );
    assert_eq!(
        germination(&visits(&[20.0, 10.0], &[5, 1], 30)),
        Err(StatisticsError::OrderUnknown)
    );
    assert_eq!(
        germination(&visits(&[0.0, 10.0], &[5, 1], 30)),
        Err(StatisticsError::NotPositive)
    );
    assert!(germination(&visits(&[10.0], &[5, 1], 30)).is_err());
    let all_up = course(&visits(&[10.0, 20.0, 30.0, 40.0], &[2, 9, 8, 1], 20)).unwrap();
    assert!(all_up.final_share > 0.97 && all_up.final_share <= 1.0);
}
