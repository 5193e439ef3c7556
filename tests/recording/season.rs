//! A whole season played by commands gives the registry kept in the tree, byte for byte; on pages that a person laid out
//! with comments, every comment and every other byte stays; and undoing all of it gives back the bytes of the start.
//!
//! `PODBOOK_REWRITE=1` writes the kept registries anew.

use crate::bench_words::words;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const SEASON: &str = include_str!("season.txt");

fn here(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/recording")
        .join(name)
}

fn ask(registry: &Path, today: &str, asked: &[String]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(asked)
        .args(["--today", today, "--registry"])
        .arg(registry)
        .env_remove("NO_COLOR")
        .output()
        .unwrap()
}

/// The pages of a registry, by path; the journal and the lock left out.
fn pages(folder: &Path) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for below in ["", "crosses"] {
        for entry in fs::read_dir(folder.join(below)).into_iter().flatten() {
            let path = entry.unwrap().path();
            if path.extension().is_some_and(|ending| ending == "ron") {
                let name = path
                    .strip_prefix(folder)
                    .unwrap()
                    .to_str()
                    .unwrap()
                    .to_owned();
                found.insert(name, fs::read_to_string(&path).unwrap());
            }
        }
    }
    found
}

/// The commands of the season, each with its day.
fn commands() -> impl Iterator<Item = (&'static str, Vec<String>)> {
    let lines = SEASON
        .lines()
        .filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines.map(|line| {
        let (day, asked) = line.split_once(' ').unwrap();
        (day, words(asked))
    })
}

/// Plays the season from a copy of a start; gives the folder.
fn played(start: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (path, text) in pages(&here(start)) {
        fs::write(folder.path().join(path), text).unwrap();
    }
    for (day, asked) in commands() {
        let output = ask(folder.path(), day, &asked);
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{day} {asked:?}: {said}");
        assert!(!output.stdout.is_empty());
    }
    folder
}

/// Compares a registry with the one kept in the tree.
fn compare(folder: &Path, kept: &str) {
    let found = pages(folder);
    if std::env::var_os("PODBOOK_REWRITE").is_some() {
        let kept = here(kept);
        fs::remove_dir_all(&kept).ok();
        fs::create_dir_all(kept.join("crosses")).unwrap();
        for (path, text) in &found {
            fs::write(kept.join(path), text).unwrap();
        }
    }
    let kept = pages(&here(kept));
    assert_eq!(
        found.keys().collect::<Vec<_>>(),
        kept.keys().collect::<Vec<_>>()
    );
    for (path, text) in &found {
        assert_eq!(text, &kept[path], "{path}");
    }
}

/// What stands in a text as remarks, in order.
fn remarks(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    for line in text.lines() {
        if let Some(at) = line.find("//") {
            found.push(&line[at..]);
        }
        if let Some((_, rest)) = line.split_once("/*") {
            found.push(rest.split_once("*/").map_or(rest, |(inside, _)| inside));
        }
    }
    found
}

/// Whether every character of a text stands in another one, in the same order.
fn is_within(text: &str, other: &str) -> bool {
    let mut rest = other.chars();
    text.chars().all(|wanted| rest.any(|found| found == wanted))
}

#[test]
fn the_season_gives_the_registry_kept_in_the_tree() {
    let folder = played("start");
    compare(folder.path(), "season");
    let check = ask(folder.path(), "2029-06-01", &["check".to_owned()]);
    let said = String::from_utf8_lossy(&check.stdout);
    assert!(check.status.success(), "{said}");
    assert!(
        said.starts_with("0 faults") || said.starts_with("No "),
        "{said}"
    );
}

#[test]
fn pages_laid_out_by_hand_keep_every_comment_and_every_other_byte() {
    let folder = played("start-by-hand");
    compare(folder.path(), "season-by-hand");
    let (before, after) = (pages(&here("start-by-hand")), pages(folder.path()));
    for (path, text) in &before {
        let now = &after[path];
        assert_eq!(remarks(text), remarks(now), "{path}");
        assert!(is_within(text, now), "{path}");
    }
    let plain = played("start");
    for asked in [
        "list plants --json",
        "list crosses --json",
        "list pods --json",
        "siblings X24-01 --json",
        "ready --json",
    ] {
        let asked = words(asked);
        let answer = |folder: &Path| ask(folder, "2029-06-01", &asked).stdout;
        assert_eq!(
            String::from_utf8(answer(folder.path())).unwrap(),
            String::from_utf8(answer(plain.path())).unwrap(),
            "{asked:?}"
        );
    }
}

#[test]
fn undoing_all_of_it_gives_back_the_bytes_of_the_start() {
    let folder = played("start-by-hand");
    let undone = commands().filter(|(_, asked)| asked[0] == "undo").count();
    for _ in 0..commands().count() - 2 * undone {
        let output = ask(folder.path(), "2029-06-01", &["undo".to_owned()]);
        assert!(
            output.status.success(),
            "{}",
            String::from_utf8_lossy(&output.stderr)
        );
    }
    assert_eq!(pages(folder.path()), pages(&here("start-by-hand")));
    let more = ask(folder.path(), "2029-06-01", &["undo".to_owned()]);
    assert_eq!(more.status.code(), Some(2));
}

#[test]
fn every_command_that_records_is_in_the_season() {
    let played: std::collections::BTreeSet<String> =
        commands().map(|(_, asked)| asked[0].clone()).collect();
    let help = ask(Path::new("."), "2029-06-01", &["--help".to_owned()]);
    let help = String::from_utf8(help.stdout).unwrap();
    let record = help
        .split("Record:")
        .nth(1)
        .unwrap()
        .split("\n\n")
        .next()
        .unwrap();
    let verbs = record
        .lines()
        .filter_map(|line| line.split_whitespace().next());
    // Those that write no page, and those that have tests of their own.
    let others = [
        "new", "changes", "check", "correct", "sheet", "measure", "due", "import", "photos",
        "serve",
    ];
    for verb in verbs.filter(|verb| !others.contains(verb)) {
        assert!(played.contains(verb), "{verb} is not played");
    }
}
