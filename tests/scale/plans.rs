//! A plan of a registry of any size is answered within a stated memory: the program is run under a limit of the system.

use super::nursery::Nursery;
use std::process::{Command, Output};

/// Runs `plan` on a nursery with at most so many megabytes of address space, of which about 300 are the program, its
/// threads and the allocator's reserve.
fn planned(nursery: Nursery, megabytes: u64, more: &[&str]) -> Output {
    let folder = tempfile::tempdir().expect("a folder");
    nursery.grow().write(folder.path());
    let limited = format!("ulimit -v {} && exec \"$0\" \"$@\"", megabytes * 1024);
    Command::new("sh")
        .args(["-c", &limited, env!("CARGO_BIN_EXE_podbook")])
        .args(["plan", "--any-time", "--pots", "200", "--trait", "span=1"])
        .args([
            "--today",
            "2035-06-01",
            "--width",
            "80",
            "--full",
            "--registry",
        ])
        .arg(folder.path())
        .args(more)
        .output()
        .expect("a shell runs")
}

fn answer(output: &Output) -> String {
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let told = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{text}{told}");
    text
}

/// 2,000 seedlings of 60 crosses, planned for 200 pots; a table of pairs squared took 18 GB.
#[test]
fn a_hobby_registry_is_planned_in_little_memory() {
    let text = answer(&planned(Nursery::hobby(), 512, &[]));
    assert!(text.contains("10 pods in 200 of 200 pots"), "{text}");
    assert!(text.contains("no plan is better (proved"), "{text}");
    // Pairs were left out, which costs the plan nothing; the frontier says so.
    let words: Vec<&str> = text.split_whitespace().collect();
    let words = words.join(" ");
    assert!(
        words.contains("pairings that the best plans could use"),
        "{text}"
    );
}

/// The same registry answers the same twice, with few steps or many, under every limit there is.
#[test]
fn limits_do_not_cost_memory() {
    let capped = ["--most-kinship", "0.02", "--most-inbreeding", "0.1"];
    let capped = answer(&planned(Nursery::hobby(), 768, &capped));
    assert!(capped.contains("pods in"), "{capped}");
    let few = answer(&planned(Nursery::hobby(), 512, &["--steps", "1"]));
    assert!(few.contains("others may"), "{few}");
    assert!(few.contains("not reached"), "{few}");
}

/// 100,000 seedlings of 3,000 crosses.
#[test]
fn a_nursery_is_planned_in_two_gigabytes() {
    let nursery = Nursery {
        crosses: 3_000,
        ..Nursery::of(100_000)
    };
    let text = answer(&planned(nursery, 2_048, &[]));
    assert!(text.contains("10 pods in 200 of 200 pots"), "{text}");
}
