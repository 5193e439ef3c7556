//! Survival: `04_survival.json`. Freireich et al. 1963 from memory; Stanford heart transplants (Miller 1976) from
//! memory, all of the table's rows reproduced; bone marrow (Copelan et al. 1991) from a public copy.

use super::tables::{close, number, numbers, table};
use podbook::statistics::survival::*;
use podbook::statistics::{Confidence, Unanswered};

fn followed(age: f64, died: bool) -> Followed {
    Followed { age, died }
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

#[test]
fn awkward_pods() {
    assert_eq!(
        kaplan_meier(&[], Confidence::P95),
        Err(Unanswered::TooFew {
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
        kaplan_meier(&[followed(f64::NAN, true)], Confidence::P95) == Err(Unanswered::NotFinite)
    );
    let quiet = vec![followed(3.0, false)];
    assert_eq!(
        log_rank(&[quiet.clone(), quiet.clone()]),
        Err(Unanswered::NoSpread)
    );
    assert_eq!(
        log_rank(&[quiet.clone(), vec![]]),
        Err(Unanswered::TooFew {
            found: 1,
            needed: 2
        })
    );
    assert_eq!(
        log_rank(&[vec![followed(9.0, true)], quiet]),
        Err(Unanswered::NoSpread),
        "nobody else left to compare"
    );
}
