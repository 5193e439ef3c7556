//! Random seasons against the optima of HiGHS, a general integer solver written by others in another language: made by
//! `tests/benches/seasons.py`, kept in `tests/numbers/data/seasons_highs.csv`.

use podbook::planning::search::{Asked, search};
use podbook::planning::season::Season;

use super::nursery::nursery;

/// A row of the table.
struct Row {
    size: (usize, usize),
    pots: u64,
    shape: String,
    seed: u64,
    best: f64,
}

fn rows() -> Vec<Row> {
    let table = include_str!("../data/seasons_highs.csv");
    let row = |line: &str| {
        let cells: Vec<&str> = line.split(',').collect();
        let number = |at: usize| cells[at].parse::<u64>().expect("a whole number");
        Row {
            size: (number(0) as usize, number(1) as usize),
            pots: number(2),
            shape: cells[3].to_owned(),
            seed: number(4),
            best: cells[5].parse().expect("a value"),
        }
    };
    let lines = table.lines().filter(|line| !line.starts_with('#'));
    lines.skip(1).map(row).collect()
}

/// The season of a row: a shape says whether all pods are of one size, and which caps and lines are kept.
fn season(row: &Row) -> Season {
    let mut season = nursery(row.size, row.pots, row.seed);
    if row.shape.starts_with("equal") {
        season.pairings.iter_mut().for_each(|pair| pair.pots = 10);
    }
    if row.shape.contains("capped") {
        season.limits.inbreeding = Some(0.125);
        season.limits.lines_through_seed = vec![0, 1, 2];
        season.limits.lines_through_pollen = vec![0, 1, 2];
    }
    if row.shape.contains("kin") {
        season.limits.mean_kinship = Some(0.08);
    }
    season
}

/// Seasons of forty by forty with unlike pods take a second each without optimisation: of those every fifth is solved
/// here, and all by the bench.
#[test]
fn every_optimum_is_the_same() {
    let mut solved = 0;
    for row in rows() {
        let slow =
            row.size.0 > 12 && (row.shape.starts_with("unequal") || row.shape.contains("kin"));
        if slow && row.seed % 5 != 1 {
            continue;
        }
        let asked = Asked {
            steps: u64::MAX,
            ..Asked::default()
        };
        let found = search(&season(&row), asked, &mut |_| true);
        let what = format!("{:?} {} {}", row.size, row.shape, row.seed);
        assert!(found.proved, "{what}");
        match found.plans.first() {
            Some(plan) => assert!(
                (plan.value - row.best).abs() < 1e-5,
                "{what}: {}",
                plan.value
            ),
            None => assert!(row.best.is_nan(), "{what}"),
        }
        solved += 1;
    }
    assert!(solved > 300, "{solved}");
}
