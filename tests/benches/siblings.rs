//! Questions over a tray of siblings against the time it takes to read its files, as ratios within one run.
//!
//! 2,000 seedlings with ten sittings of three readings: the aim is that reading and answering together take at most 1.2
//! times as long as reading alone. Then trays of up to a million readings: the answer's time for each reading should
//! not grow. Medians of alternating runs.
//!
//! `cargo bench --bench siblings`

#[path = "../support/nursery.rs"]
mod nursery;

use podbook::analysis::grade::{SortWish, sort};
use podbook::analysis::growth::{GrowthWishes, growth};
use podbook::analysis::select::{KeepWish, keep};
use podbook::analysis::siblings::{SiblingsWish, siblings};
use podbook::context::Context;
use podbook::record::{Day, KeepRules, Weight};
use podbook::registry::{Registry, build};
use podbook::text::Sources;
use std::hint::black_box;
use std::path::Path;
use std::time::Instant;

const CROSS: &str = "X20-01";
type Question = (&'static str, fn(&Registry, Day));

const QUESTIONS: [Question; 4] = [
    ("siblings", ask_siblings),
    ("grade", ask_sort),
    ("select", ask_keep),
    ("growth", ask_growth),
];

fn main() {
    println!("reading and answering ÷ reading alone, 2,000 seedlings with ten sittings; aim 1.2");
    measure(2_000, 10, 15);
    println!("answer's nanoseconds a reading; should not grow");
    for seedlings in [333, 3_333, 33_333] {
        measure(seedlings, 10, 5);
    }
}

fn measure(seedlings: usize, sittings: usize, runs: usize) {
    let grown = nursery::tray(seedlings, sittings);
    let folder = tempfile::tempdir().expect("a folder for the registry");
    grown.write(folder.path());
    let today = Day::new(2024, 5, 14).expect("a day");
    let mut reading = Vec::new();
    let mut answering = vec![Vec::new(); QUESTIONS.len()];
    for _ in 0..runs {
        reading.push(seconds(|| read(folder.path())));
        let sources = Sources::read(folder.path());
        let (registry, findings) = build(&sources);
        assert!(findings.is_empty(), "the tray has no fault");
        for ((_, ask), times) in QUESTIONS.iter().zip(&mut answering) {
            times.push(seconds(|| ask(&registry, today)));
        }
    }
    let reading = median(reading);
    println!(
        "{seedlings} seedlings, {} readings, {:.1} MB read in {:.1} ms",
        grown.readings,
        grown.bytes() as f64 / 1e6,
        reading * 1e3
    );
    for ((name, _), times) in QUESTIONS.iter().zip(answering) {
        let answer = median(times);
        println!(
            "  {name:<10} {:8.2} ms  ratio {:.2}  {:6.0} ns a reading",
            answer * 1e3,
            (reading + answer) / reading,
            answer * 1e9 / grown.readings as f64
        );
    }
}

fn read(folder: &Path) {
    let sources = Sources::read(folder);
    black_box(&build(&sources));
}

fn ask_siblings(registry: &Registry, today: Day) {
    let context = Context::of(registry, today);
    let wish = SiblingsWish::default();
    black_box(siblings(&context, CROSS, &wish)).expect("an answer");
}

fn ask_sort(registry: &Registry, today: Day) {
    let wish = SortWish {
        of: "span".into(),
        at: None,
        tied_within: None,
    };
    black_box(sort(registry, CROSS, &wish, today)).expect("an answer");
}

fn ask_keep(registry: &Registry, today: Day) {
    let weigh = |of: &str| Weight {
        of: of.into(),
        weight: 1.0,
    };
    let rules = KeepRules {
        weigh: vec![weigh("span"), weigh("banding")],
        keep: Some(100),
        ..KeepRules::default()
    };
    let wish = KeepWish {
        today,
        minutes: Some(30.0),
        minutes_each: 1.0,
        heritability: 0.4,
    };
    black_box(keep(registry, &[CROSS.into()], &rules, wish)).expect("an answer");
}

fn ask_growth(registry: &Registry, today: Day) {
    let wishes = GrowthWishes {
        at: None,
        of_trait: None,
        by_pod: true,
    };
    let context = Context::of(registry, today);
    black_box(growth(&context, &[CROSS.into()], &wishes)).expect("an answer");
}

fn seconds(work: impl FnOnce()) -> f64 {
    let start = Instant::now();
    work();
    start.elapsed().as_secs_f64()
}

fn median(mut of: Vec<f64>) -> f64 {
    of.sort_by(f64::total_cmp);
    of[of.len() / 2]
}
