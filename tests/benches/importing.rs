//! Bringing in a table, a row of a large one against a row of a small one, in the same run.
//!
//! Ours: read the table, sort it out, make the records, look for what they would bring. The yardstick is the same with a tenth
//! of the rows: time that grows in proportion to the rows gives a ratio of 1. Medians of alternating runs.
//!
//! `cargo bench --bench importing [-- ROWS…]`

#[path = "../support/rounds.rs"]
mod rounds;

use podbook::analysis::import::{InputTable, import};
use podbook::record::{Day, ImportChoices};
use podbook::recording::checked::consequences;
use podbook::recording::draft::Draft;
use podbook::recording::import::bring_in;
use podbook::registry::{STARTER, build};
use podbook::text::{Sources, grid_of_text};
use rounds::{median, seconds, sizes_asked};
use std::fmt::Write;
use std::hint::black_box;

fn main() {
    let sizes = sizes_asked(&[20_000, 50_000]);
    println!("a row of a large table ÷ a row of one a tenth as large, aim 1.5");
    for rows in sizes {
        measure(rows);
    }
}

fn measure(rows: usize) {
    let (large, small) = (table(rows), table(rows / 10));
    let (mut of_large, mut of_small) = (Vec::new(), Vec::new());
    for _ in 0..5 {
        of_small.push(seconds(|| brought(&small)));
        of_large.push(seconds(|| brought(&large)));
    }
    let (large, small) = (median(of_large), median(of_small));
    println!(
        "{rows:>9} rows: {:.0} ms, {:.1} µs a row; a tenth {:.0} ms; ratio {:.2}",
        large * 1e3,
        large * 1e6 / rows as f64,
        small * 1e3,
        large / (10.0 * small)
    );
}

/// A third founders, two thirds seedlings of crosses of a hundred, with a reading each and some doubts.
fn table(rows: usize) -> String {
    let mut out = String::from("code,cross,label,from,date,size,sex\n");
    for row in 0..rows {
        let size = row % 40 + 2;
        let unit = if row % 7 == 0 { "" } else { " cm" };
        let day = if row % 9 == 0 {
            "03/04/21"
        } else {
            "2021-05-01"
        };
        let _ = match row % 3 {
            0 => writeln!(
                out,
                "P{row},,N. ventricosa,supplier {},{day},{size}{unit},f",
                row % 11
            ),
            _ => writeln!(out, "{},X20-{},,,{day},{size}{unit},", row, row / 300),
        };
    }
    out
}

fn brought(text: &str) {
    let today = Day::new(2025, 6, 1).expect("a day");
    let mut sources = Sources::new();
    for file in STARTER.iter().filter(|file| file.path.ends_with(".ron")) {
        sources.add(file.path, file.text);
    }
    let (registry, _) = build(&sources);
    let tables = [InputTable {
        name: "plants.csv".to_owned(),
        rows: grid_of_text(text.as_bytes()).expect("a table"),
        ..InputTable::default()
    }];
    let sorted = import(&registry, &tables, &ImportChoices::default(), today);
    let mut draft = Draft::new(&registry, today);
    let recorded = bring_in(&sorted, &mut draft).expect("it comes in");
    let brought = consequences(&registry, &draft.changes(), &recorded.about, today);
    black_box(brought.findings.len());
}
