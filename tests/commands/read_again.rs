//! Plants read twice or more within a week: what a reading errs by, of how many plants and how many readings.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, said};
use podbook::statistics::random::SplitMix64;
use serde_json::Value;

/// One cell of each plant; `None` where it was not read.
type Cells = Vec<Option<String>>;

/// A tray of plants sown on 1 January 2022, with these sittings of leaf span in cm.
fn tray(sittings: &[(&str, Cells)]) -> BenchTop {
    tray_of("span cm", sittings)
}

/// The same with sittings of one column.
fn tray_of(column: &str, sittings: &[(&str, Cells)]) -> BenchTop {
    let plants = sittings[0].1.len();
    let seedlings: String = (1..=plants)
        .map(|number| format!("(number: \"{number}\", sowing: \"S1\"), "))
        .collect();
    let sitting = |(on, cells): &(&str, Cells)| {
        let rows = (1..).zip(cells);
        let rows = rows
            .filter_map(|(number, cell)| Some(format!("[\"{number}\", \"{}\"], ", cell.as_ref()?)));
        let rows: String = rows.collect();
        format!("(on: \"{on}\", columns: [\"{column}\"], rows: [{rows}]), ")
    };
    let sittings: String = sittings.iter().map(sitting).collect();
    let page = format!(
        "(code: \"A1\", parents: unknown, sowings: [(code: \"S1\", on: \"2022-01-01\", seeds: 100)],
          seedlings: [{seedlings}], sittings: [{sittings}])"
    );
    let registry = r#"(genus: "Nepenthes", hemisphere: north, traits: [
        (code: "span", name: "leaf span", reads: length(cm)),
        (code: "rim", name: "rim colour", reads: kinds(["green", "red", "pink"]))])"#;
    BenchTop::with([("registry.ron", registry), ("crosses/A1.ron", &page)])
}

fn cells(sizes: &[f64]) -> Cells {
    sizes
        .iter()
        .map(|size| Some(format!("{size:.1}")))
        .collect()
}

/// The distance within which `grade` ties plants, in its own unit.
fn tied_within(top: &BenchTop) -> f64 {
    let run = top.run(&["grade", "A1.S1", "--json"]);
    let answer: Value = serde_json::from_str(&run.stdout).expect("the answer is JSON");
    answer["tied_within"].as_f64().expect("ties")
}

/// What makes a tie of an error.
const TIE: f64 = 1.959_963_984_540_054 * std::f64::consts::SQRT_2;

const FIRST: [f64; 12] = [6.8, 8.5, 7.5, 9.1, 9.0, 5.0, 4.6, 10.8, 6.8, 6.5, 12.0, 7.9];
const SECOND: [f64; 12] = [6.6, 8.9, 7.8, 9.0, 9.3, 4.9, 4.9, 10.2, 6.4, 7.0, 11.3, 8.5];
const THIRD: [f64; 12] = [6.8, 8.7, 7.7, 9.4, 9.7, 5.4, 4.9, 10.7, 6.5, 6.6, 11.7, 8.6];

/// Figures by SciPy, as in `tests/numbers/statistics/repeatability.rs`: the third sitting of the week was thrown away.
#[test]
fn all_sittings_of_a_week_count() {
    let top = tray(&[
        ("2023-01-01", cells(&FIRST)),
        ("2023-01-03", cells(&SECOND)),
        ("2023-01-06", cells(&THIRD)),
    ]);
    holds(
        &said(&top, "siblings A1"),
        &[
            "read twice or more within a week: 12 plants (36 readings), error of a reading 0.25 cm (95 % 0.20–0.36), \
           repeatability 0.99 (95 % 0.96–1.00)",
        ],
    );
    holds(
        &said(&top, "grade A1.S1"),
        &["from your own 12 plants (36 readings) read twice or more within a week"],
    );
    assert!((tied_within(&top) - TIE * 0.253_709_847_796_037_4).abs() < 1e-9);
}

/// A tray read twice in January and twice a year later is a tray of twelve plants, not of 24.
#[test]
fn a_plant_counts_once() {
    let later: Vec<f64> = FIRST.iter().map(|size| 2.0 * size).collect();
    let again: Vec<f64> = THIRD.iter().map(|size| 2.0 * size).collect();
    let top = tray(&[
        ("2023-01-01", cells(&FIRST)),
        ("2023-01-05", cells(&SECOND)),
        ("2024-01-01", cells(&later)),
        ("2024-01-04", cells(&again)),
    ]);
    let who = "12 plants (48 readings)";
    holds(&said(&top, "siblings A1"), &[who, "not: 24 plants"]);
    holds(&said(&top, "grade A1.S1"), &[who, "not: 24 plants"]);
}

/// Readings that all change by the same say nothing of the error; they were read, though.
#[test]
fn readings_that_never_differ_show_no_error() {
    let alike = "all changed by the same, or not at all, so no error can be worked out from them";
    for shift in [0.0, 0.4] {
        let second: Vec<f64> = FIRST.iter().map(|size| size + shift).collect();
        let top = tray(&[
            ("2023-01-01", cells(&FIRST)),
            ("2023-01-02", cells(&second)),
        ]);
        let siblings = format!("read twice within a week: 12 plants; {alike}");
        holds(
            &said(&top, "siblings A1"),
            &[&siblings, "not: error of a reading"],
        );
        let assumed = format!(
            "error of a reading 0.25 cm assumed; 12 plants read twice within a week {alike}"
        );
        for question in ["grade A1.S1", "select A1 --weigh span=1 --keep 3"] {
            holds(&said(&top, question), &[&assumed, "not: your own"]);
        }
    }
}

/// Kinds have no distance: that red was once called pink is no error of 0.3.
#[test]
fn kinds_have_no_error() {
    let rims = |last: &str| {
        let rims = ["green", "red", "pink", "red", "green", last];
        rims.map(|rim| Some(rim.to_owned())).to_vec()
    };
    for again in ["red", "pink"] {
        let sittings = [("2023-01-01", rims("red")), ("2023-01-02", rims(again))];
        let words = said(&tray_of("rim", &sittings), "siblings A1");
        holds(&words, &["rim colour", "not: read twice", "not: error of"]);
    }
}

/// Twin: random sittings on random days, a third of the cells missing; weeks, tables and what is left found the slow way.
#[test]
fn random_sittings_as_a_slow_twin_finds_them() {
    let mut random = SplitMix64::new(45);
    let mut compared = 0;
    for _ in 0..8 {
        let mut days: Vec<usize> = (0..6).map(|_| 1 + random.below(25)).collect();
        days.sort_unstable();
        days.dedup();
        let read: Vec<Vec<Option<f64>>> = days
            .iter()
            .map(|_| {
                let plants = 0..16;
                let cell = |plant: usize| {
                    (random.below(3) > 0).then(|| (40 + 4 * plant + random.below(9)) as f64 / 10.0)
                };
                plants.map(cell).collect()
            })
            .collect();
        let dates: Vec<String> = days.iter().map(|day| format!("2023-01-{day:02}")).collect();
        let sittings: Vec<(&str, Cells)> = dates
            .iter()
            .zip(&read)
            .map(|(date, cells)| {
                let cells = cells
                    .iter()
                    .map(|cell| cell.map(|size| format!("{size:.1}")));
                (date.as_str(), cells.collect())
            })
            .collect();
        let (rest, df) = left(&days, &read);
        if df >= 10 {
            let found = tied_within(&tray(&sittings));
            let expected = TIE * (rest / df as f64).sqrt();
            assert!((found - expected).abs() < 1e-9, "{found}, not {expected}");
            compared += 1;
        }
    }
    assert!(compared > 4, "{compared}");
}

/// The squares left after plants and readings and their degrees of freedom. Plants go together where they were read in the
/// same sittings of a week.
fn left(days: &[usize], read: &[Vec<Option<f64>>]) -> (f64, usize) {
    let mut tables: Vec<(Vec<usize>, Vec<Vec<f64>>)> = Vec::new();
    let cell = |at: usize, plant: usize| read[at][plant];
    for plant in 0..read[0].len() {
        let mut from = 0;
        while from < days.len() {
            let in_week = (from..days.len()).filter(|&at| days[at] <= days[from] + 7);
            let week: Vec<usize> = in_week.filter(|&at| cell(at, plant).is_some()).collect();
            if cell(from, plant).is_none() {
                from += 1;
                continue;
            }
            from = week[week.len() - 1] + 1;
            let row: Vec<f64> = week.iter().filter_map(|&at| cell(at, plant)).collect();
            match tables.iter_mut().find(|(of, _)| *of == week) {
                _ if week.len() < 2 => {}
                Some((_, rows)) => rows.push(row),
                None => tables.push((week, vec![row])),
            }
        }
    }
    let (mut rest, mut df) = (0.0, 0);
    for (week, mut rows) in tables {
        df += (rows.len() - 1) * (week.len() - 1);
        // Both means taken out: of every plant, then of every sitting.
        for row in &mut rows {
            let mean = row.iter().sum::<f64>() / row.len() as f64;
            row.iter_mut().for_each(|value| *value -= mean);
        }
        for at in 0..week.len() {
            let mean = rows.iter().map(|row| row[at]).sum::<f64>() / rows.len() as f64;
            rest += rows.iter().map(|row| (row[at] - mean).powi(2)).sum::<f64>();
        }
    }
    (rest, df)
}
