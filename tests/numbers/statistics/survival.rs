//! Survival: `04_survival.json`. Freireich et al. 1963 from memory; Stanford heart transplants (Miller 1976) from
//! memory, all of the table's rows reproduced; bone marrow (Copelan et al. 1991) from a public copy.

use super::tables::{close, number, numbers, table};
use podbook::statistics::survival::*;
use podbook::statistics::{Confidence, StatisticsError};

fn followed(age: f64, died: bool) -> Followed {
    Followed {
        entered: None,
        age,
        died,
    }
}

fn pairs(value: &serde_json::Value) -> Vec<Followed> {
    let pair = |row: &serde_json::Value| match row.as_array() {
        Some(pair) => followed(number(&pair[0]), number(&pair[1]) == 1.0),
        None => followed(number(row), true),
    };
    value.as_array().unwrap().iter().map(pair).collect()
}

#[track_caller]
fn check(steps: &[Step], rows: &[serde_json::Value]) {
    for (step, row) in steps.iter().zip(rows) {
        close(step.age, number(&row["time"]), 1e-15);
        assert_eq!(step.at_risk as u64, row["at_risk"].as_u64().unwrap());
        assert_eq!(step.deaths as u64, row["events"].as_u64().unwrap());
        close(step.survival, number(&row["S"]), 1e-12);
        match row["greenwood_se"].as_f64() {
            Some(error) => {
                close(step.standard_error.unwrap(), error, 1e-11);
                close(step.interval.unwrap().low, number(&row["lo_loglog"]), 1e-10);
                close(
                    step.interval.unwrap().high,
                    number(&row["hi_loglog"]),
                    1e-10,
                );
            }
            None => assert_eq!((step.standard_error, step.interval), (None, None)),
        }
    }
}

fn curve(plants: &[Followed]) -> Vec<Step> {
    kaplan_meier(plants, Confidence::P95).unwrap()
}

#[test]
fn freireich() {
    let file = table!("04_survival.json");
    let groups = ["freireich_6MP", "freireich_placebo"]
        .map(|name| (pairs(&file[name]["data"]), &file[name]));
    for (plants, row) in &groups {
        let steps = curve(plants);
        assert_eq!(steps.len(), row["km"].as_array().unwrap().len());
        check(&steps, row["km"].as_array().unwrap());
        assert_eq!(median_age(&steps), row["median"].as_f64());
    }
    log_rank_as(&groups.map(|group| group.0), &file["logrank_freireich"]);
}

#[track_caller]
fn log_rank_as(pods: &[Vec<Followed>], row: &serde_json::Value) {
    let test = log_rank(pods).unwrap();
    for (found, expected) in test.observed.iter().zip(numbers(&row["O"])) {
        close(*found, expected, 1e-12);
    }
    for (found, expected) in test.expected.iter().zip(numbers(&row["E"])) {
        close(*found, expected, 1e-12);
    }
    close(test.chi_square, number(&row["chi2"]), 1e-11);
    close(test.p, number(&row["p"]), 1e-10);
    assert_eq!(test.df as u64, row["df"].as_u64().unwrap());
}

#[test]
fn heart_transplants() {
    let row = &table!("04_survival.json")["heart_statsmodels"];
    let line = |line: &str| {
        line.split_once(' ')
            .map(|(age, died)| followed(age.parse().unwrap(), died == "1"))
            .unwrap()
    };
    let lines = include_str!("../data/heart.txt")
        .lines()
        .filter(|line| !line.starts_with('#'));
    let plants: Vec<Followed> = lines.map(line).collect();
    assert_eq!(plants.len() as u64, row["n"].as_u64().unwrap());
    assert_eq!(
        plants.iter().filter(|p| p.died).count() as u64,
        row["events"].as_u64().unwrap()
    );
    let steps = curve(&plants);
    check(&steps, row["km_first10"].as_array().unwrap());
    check(
        &steps[steps.len() - 1..],
        std::slice::from_ref(&row["km_last"]),
    );
    assert_eq!(median_age(&steps), row["median"].as_f64());
}

#[test]
fn bone_marrow() {
    let row = &table!("04_survival.json")["bmt_statsmodels"];
    let plant = |cell: &str| {
        followed(
            cell.trim_end_matches('+').parse().unwrap(),
            !cell.ends_with('+'),
        )
    };
    let lines = include_str!("../data/bone_marrow.txt")
        .lines()
        .filter(|line| !line.starts_with('#'));
    let groups: Vec<Vec<Followed>> = lines
        .map(|line| line.split(' ').skip(1).map(plant).collect())
        .collect();
    log_rank_as(&groups, &row["logrank"]);
    for (group, name) in groups.iter().zip(["ALL", "AML-High Risk", "AML-Low Risk"]) {
        let steps = curve(group);
        assert_eq!(median_age(&steps), row["medians"][name].as_f64());
        close(
            steps[steps.len() - 1].survival,
            number(&row["last_S"][name]),
            1e-12,
        );
    }
}

#[test]
fn seedlings() {
    let file = table!("04_survival.json");
    let rows = file["seedlings_months"].as_array().unwrap();
    let pods: Vec<Vec<Followed>> = rows.iter().map(|row| pairs(&row["data"])).collect();
    for (pod, row) in pods.iter().zip(rows) {
        check(&curve(pod), row["km"].as_array().unwrap());
    }
    log_rank_as(&pods, &file["logrank_seedlings"]);
}

/// Twin: the chance to live past an age as a product over single days, and without censoring a plain share.
#[test]
fn product_over_days_and_plain_shares() {
    let plants: Vec<Followed> = [
        (3, true),
        (5, false),
        (5, true),
        (8, true),
        (9, false),
        (9, true),
        (12, false),
    ]
    .map(|(age, died)| followed(f64::from(age), died))
    .to_vec();
    let mut alive = 1.0;
    for day in 0..=12 {
        let at_risk = plants.iter().filter(|p| p.age >= f64::from(day)).count() as f64;
        let dying = plants
            .iter()
            .filter(|p| p.died && p.age == f64::from(day))
            .count() as f64;
        alive *= 1.0 - dying / at_risk;
        let by_curve = curve(&plants)
            .iter()
            .rev()
            .find(|s| s.age <= f64::from(day))
            .map_or(1.0, |s| s.survival);
        close(by_curve, alive, 1e-12);
    }
    let all_seen: Vec<Followed> = (1..=10).map(|age| followed(f64::from(age), true)).collect();
    for (i, step) in curve(&all_seen).iter().enumerate() {
        close(step.survival, 1.0 - (i as f64 + 1.0) / 10.0, 1e-12);
    }
}

/// Twin for late entry: at every death each plant is asked whether it had entered and had not left. Ages in years of
/// psychiatric in-patients of Iowa from admission (Tsuang & Woolson 1977 as printed by Klein & Moeschberger, section
/// 1.15): ages at admission and years followed from memory, so only the input is borrowed; the results are those of an
/// open statistics library.
#[test]
fn late_entry_asks_each_plant_whether_it_was_there() {
    let admitted = [
        (51, 1, true),
        (58, 1, true),
        (55, 2, true),
        (28, 22, true),
        (21, 30, false),
        (19, 28, true),
        (25, 32, true),
        (48, 11, true),
        (47, 14, true),
        (25, 36, false),
        (31, 31, false),
        (24, 33, false),
        (25, 33, false),
        (30, 37, false),
        (33, 35, false),
        (36, 25, true),
        (30, 31, false),
        (41, 22, true),
        (43, 26, true),
        (45, 24, true),
        (35, 35, false),
        (29, 34, false),
        (35, 30, false),
        (32, 35, true),
        (36, 40, true),
        (32, 39, false),
    ];
    let late: Vec<Followed> = admitted
        .iter()
        .map(|&(entered, years, died)| Followed {
            entered: Some(f64::from(entered)),
            age: f64::from(entered + years),
            died,
        })
        .collect();
    let mut alive = 1.0;
    let steps = curve(&late);
    for step in &steps {
        let there = |p: &&Followed| p.entered.unwrap() < step.age && p.age >= step.age;
        let at_risk = late.iter().filter(there).count();
        let deaths = late.iter().filter(|p| p.died && p.age == step.age).count();
        assert_eq!((step.at_risk, step.deaths), (at_risk, deaths));
        alive *= 1.0 - deaths as f64 / at_risk as f64;
        close(step.survival, alive, 1e-12);
    }
    // The same patients in statsmodels 0.15.0 (SurvfuncRight with entry): age, at risk, survival, Greenwood's error.
    let elsewhere = [
        (47.0, 21, 0.9523809523809523, Some(0.04647143204516825)),
        (50.0, 22, 0.9090909090909091, Some(0.061290896587567464)),
        (52.0, 21, 0.8658008658008658, Some(0.07205630983346138)),
        (57.0, 21, 0.7833436404864976, Some(0.08559239427484755)),
        (59.0, 18, 0.69630545821022, Some(0.09568408252594418)),
        (61.0, 16, 0.6092672759339426, Some(0.1016069943815071)),
        (63.0, 11, 0.5538793417581296, Some(0.10640087492934802)),
        (67.0, 8, 0.4846444240383634, Some(0.11341094370101618)),
        (69.0, 5, 0.290786654423018, Some(0.12611338401013078)),
        (76.0, 1, 0.0, None),
    ];
    assert_eq!(steps.len(), elsewhere.len());
    for (step, (age, at_risk, survival, error)) in steps.iter().zip(elsewhere) {
        assert_eq!((step.age, step.at_risk), (age, at_risk));
        close(step.survival, survival, 1e-12);
        match error {
            Some(error) => close(step.standard_error.unwrap(), error, 1e-11),
            None => assert_eq!(step.standard_error, None),
        }
    }
    // By hand: the first death is at 47; all 26 but the five admitted at 47 or later are at risk, nobody having left.
    assert_eq!((steps[0].age, steps[0].at_risk), (47.0, 21));
    // Taken as followed from birth, the young deaths weigh less: the curve lies above.
    let from_birth: Vec<Followed> = late.iter().map(|p| followed(p.age, p.died)).collect();
    let naive = curve(&from_birth);
    assert!(
        naive
            .iter()
            .zip(&steps)
            .all(|(naive, late)| naive.survival >= late.survival)
    );
    assert!(naive[0].survival > steps[0].survival);
}

/// Entered on the day of the death: never seen alive, so neither at risk nor a death; and a late entry that comes
/// before every death changes nothing.
#[test]
fn late_entry_at_its_ends() {
    let late = |entered: f64, age: f64, died| Followed {
        entered: Some(entered),
        age,
        died,
    };
    let plain = curve(&[
        followed(4.0, true),
        followed(6.0, false),
        followed(7.0, true),
    ]);
    let early = [
        late(1.0, 4.0, true),
        late(3.9, 6.0, false),
        late(0.0, 7.0, true),
    ];
    assert_eq!(curve(&early), plain);
    let with_stranger = [&early[..], &[late(4.0, 4.0, true)]].concat();
    assert_eq!(curve(&with_stranger), plain);
    let nobody_lived = curve(&[
        late(1.0, 2.0, true),
        late(2.5, 9.0, true),
        late(2.5, 8.0, false),
    ]);
    assert_eq!(nobody_lived[0].interval, None);
    assert_eq!(nobody_lived[1].interval, None);
    let pods = [
        early.to_vec(),
        vec![late(5.0, 9.0, true), late(2.0, 5.0, true)],
    ];
    let test = log_rank(&pods).unwrap();
    close(
        test.observed.iter().sum::<f64>(),
        test.expected.iter().sum(),
        1e-12,
    );
}

#[test]
fn awkward_pods() {
    assert_eq!(
        kaplan_meier(&[], Confidence::P95),
        Err(StatisticsError::TooFew {
            found: 0,
            needed: 1
        })
    );
    assert!(curve(&[followed(3.0, false), followed(4.0, false)]).is_empty());
    assert_eq!(median_age(&[]), None);
    let last = curve(&[followed(0.0, true)]);
    assert_eq!((last[0].survival, last[0].interval), (0.0, None));
    assert!(kaplan_meier(&[followed(-1.0, true)], Confidence::P95).is_err());
    assert!(
        kaplan_meier(&[followed(f64::NAN, true)], Confidence::P95)
            == Err(StatisticsError::NotFinite)
    );
    let quiet = vec![followed(3.0, false)];
    assert_eq!(
        log_rank(&[quiet.clone(), quiet.clone()]),
        Err(StatisticsError::NoSpread)
    );
    assert_eq!(
        log_rank(&[quiet.clone(), vec![]]),
        Err(StatisticsError::TooFew {
            found: 1,
            needed: 2
        })
    );
    assert_eq!(
        log_rank(&[vec![followed(9.0, true)], quiet]),
        Err(StatisticsError::NoSpread),
        "nobody else left to compare"
    );
}

/// Twenty plants numbered at 4 months, 14 of them alive today at 30, beside twenty of which most died: curve with late
/// entry and log-rank test by lifelines (`siblings_extra.json`). Were the living followed to their last reading only,
/// here at 12 months, the curve would fall to nothing.
#[test]
fn alive_today_is_followed_until_today() {
    let file = &table!("siblings_extra.json")["alive_today"];
    let plants = |name: &str, late: bool| -> Vec<Followed> {
        let rows = file[name].as_array().unwrap().iter().map(numbers);
        rows.map(|row| Followed {
            entered: late.then_some(row[0]),
            age: row[1],
            died: row[2] == 1.0,
        })
        .collect()
    };
    for (name, km) in [("first", "km_first"), ("second", "km_second")] {
        let steps = curve(&plants(name, true));
        let rows = file[km].as_array().unwrap();
        assert_eq!(steps.len(), rows.len());
        for (step, row) in steps.iter().zip(rows.iter().map(numbers)) {
            close(step.age, row[0], 1e-15);
            close(step.survival, row[1], 1e-12);
        }
    }
    let test = log_rank(&[plants("first", false), plants("second", false)]).unwrap();
    close(
        test.chi_square,
        number(&file["logrank_from_sowing"]["chi2"]),
        1e-10,
    );
    close(test.p, number(&file["logrank_from_sowing"]["p"]), 1e-9);
    let mut at_last_reading = plants("first", true);
    for plant in at_last_reading.iter_mut().filter(|plant| !plant.died) {
        plant.age = 12.0;
    }
    assert_eq!(curve(&at_last_reading).last().unwrap().survival, 0.0);
}

/// The median is the first age at which at most half survive: exactly half is enough.
#[test]
fn the_median_is_reached_at_exactly_half() {
    let plant = |age: f64, died: bool| Followed {
        entered: None,
        age,
        died,
    };
    let four = [
        plant(3.0, true),
        plant(5.0, true),
        plant(7.0, true),
        plant(9.0, false),
    ];
    let steps = kaplan_meier(&four, Confidence::P95).unwrap();
    assert_eq!(steps[1].survival, 0.5);
    assert_eq!(median_age(&steps), Some(5.0));
    let steps = kaplan_meier(
        &four.map(|of| plant(of.age, of.age == 3.0)),
        Confidence::P95,
    );
    assert_eq!(median_age(&steps.unwrap()), None);
}
