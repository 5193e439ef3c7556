//! Seasons planned against a general integer solver at the same optimum, seasons the general solver does not end, and
//! the whole command against reading the same registry: ratios within one run, medians of
//! several rounds, seconds only for orientation. HiGHS, a faster general solver, needs another language: its seconds on
//! the same seasons come from `seasons.py` beside this file.
//!
//! The general solver may take for ever on pods of unequal size. It therefore runs in a process of its own, which is
//! ended after a stated time; what is then known is only that it needs longer.

use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use podbook::planning::search::{Asked, search};
use podbook::planning::season::Season;

#[path = "../numbers/planning/nursery.rs"]
mod nursery;
#[path = "../support/nursery.rs"]
mod registries;
#[path = "../support/seconds.rs"]
mod seconds;
#[path = "../numbers/planning/solver.rs"]
mod solver;

use nursery::nursery;
use podbook::registry::build;
use podbook::text::Sources;
use registries::Nursery;
use seconds::seconds;
use solver::{General, Solver};

/// Seconds the general solver is given for one season.
const GIVEN: u64 = 60;
/// The argument that makes this program solve one season with the general solver and tell its best value.
const ALONE: &str = "general-solver-on";

/// Pods of one size: only their number counts.
fn equal(mut season: Season) -> Season {
    season
        .pairings
        .iter_mut()
        .for_each(|pairing| pairing.pots = 10);
    season
}

/// Three lines to keep through both sexes, and a cap on inbreeding.
fn capped(mut season: Season) -> Season {
    season.limits.inbreeding = Some(0.125);
    (
        season.limits.lines_through_seed,
        season.limits.lines_through_pollen,
    ) = (vec![0, 1, 2], vec![0, 1, 2]);
    season
}

/// A cap on mean kinship as well.
fn unrelated(mut season: Season) -> Season {
    season.limits.mean_kinship = Some(0.08);
    season
}

fn seasons() -> Vec<(&'static str, Season)> {
    let full = || nursery((40, 40), 200, 1);
    vec![
        ("40 x 40, 200 pots, 10 to a pod", equal(full())),
        (
            "the same, three lines to keep, a cap on inbreeding",
            capped(equal(full())),
        ),
        (
            "the same and a cap on mean kinship",
            unrelated(capped(equal(full()))),
        ),
        ("8 x 8, 90 pots, 6 to 20 to a pod", nursery((8, 8), 90, 1)),
        (
            "12 x 12, 120 pots, 6 to 20 to a pod",
            nursery((12, 12), 120, 1),
        ),
        (
            "20 x 20, 150 pots, 6 to 20 to a pod",
            nursery((20, 20), 150, 1),
        ),
        ("40 x 40, 200 pots, 6 to 20 to a pod", full()),
        ("the same, lines, both caps", unrelated(capped(full()))),
    ]
}

/// Best value and seconds of the general solver; `None` if it did not end in the time given.
fn general(at: usize) -> Option<(f64, f64)> {
    let program = std::env::current_exe().expect("this program has a place");
    let mut child = Command::new(program)
        .args([ALONE, &at.to_string()])
        .stdout(Stdio::piped())
        .spawn()
        .expect("this program can be started");
    let start = Instant::now();
    while start.elapsed() < Duration::from_secs(GIVEN) {
        if child
            .try_wait()
            .expect("a child can be waited for")
            .is_some()
        {
            let told = child.wait_with_output().expect("its answer can be read");
            let told = String::from_utf8(told.stdout).expect("numbers are text");
            let numbers: Vec<f64> = told
                .split_whitespace()
                .map(|word| word.parse().unwrap())
                .collect();
            return Some((numbers[0], numbers[1]));
        }
        std::thread::sleep(Duration::from_millis(20));
    }
    child.kill().expect("a child can be ended");
    child.wait().expect("a child can be waited for");
    None
}

fn compare(at: usize, name: &str, season: &Season) {
    let start = Instant::now();
    let own = search(season, Asked::default(), &mut |_| {
        start.elapsed() < Duration::from_secs(GIVEN)
    });
    let once = start.elapsed().as_secs_f64();
    let best = own.plans.first().map_or(f64::NAN, |plan| plan.value);
    if !own.proved {
        println!(
            "{name}: own search not ended in {GIVEN} s: {best:.3}, no plan exceeds {:.3}",
            own.bound
        );
        return;
    }
    let rounds = if once < 1.0 { 5 } else { 1 };
    let ours = seconds(rounds, || search(season, Asked::default(), &mut |_| true));
    match general(at) {
        Some((value, theirs)) => {
            assert!(
                (best - value).abs() < 1e-5,
                "{name}: {best} against {value}"
            );
            println!(
                "{name}: {:.1} times as fast ({ours:.5} s, {} steps; general {theirs:.3} s)",
                theirs / ours,
                own.steps
            );
        }
        None => println!(
            "{name}: more than {:.0} times as fast ({ours:.5} s, {} steps; general not ended in {GIVEN} s)",
            GIVEN as f64 / ours,
            own.steps
        ),
    }
}

/// The whole command, with ties, runners-up, what limits cost and the frontier, against reading the same registry.
fn whole_command() {
    let large = Nursery {
        crosses: 3_000,
        ..Nursery::of(100_000)
    };
    for (name, nursery) in [
        ("2,000 seedlings of 60 crosses", Nursery::hobby()),
        ("100,000 seedlings of 3,000 crosses", large),
    ] {
        let folder = tempfile::tempdir().expect("a folder");
        nursery.grow().write(folder.path());
        let reading = seconds(5, || {
            let sources = Sources::read(folder.path());
            build(&sources).0.plants().count()
        });
        let planning = seconds(3, || {
            Command::new(env!("CARGO_BIN_EXE_podbook"))
                .args(["plan", "--any-time", "--pots", "200", "--trait", "span=1"])
                .args(["--today", "2035-06-01", "--registry"])
                .arg(folder.path())
                .output()
                .expect("the program runs")
        });
        println!(
            "the whole plan of {name}: {:.1} times reading it ({planning:.2} s, reading {reading:.3} s)",
            planning / reading
        );
    }
}

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    if let Some(at) = arguments.iter().position(|word| word == ALONE) {
        let at: usize = arguments[at + 1].parse().expect("the number of a season");
        let start = Instant::now();
        let best = General.best(&seasons()[at].1).unwrap_or(f64::NAN);
        println!("{best} {}", start.elapsed().as_secs_f64());
        return;
    }
    whole_command();
    for (at, (name, season)) in seasons().iter().enumerate() {
        compare(at, name, season);
    }
}
