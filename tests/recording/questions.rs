//! What a line lacks is asked for at a terminal, and the line then counts as if it had been typed so.

use crate::bench_words::words;
use nix::pty::{OpenptyResult, openpty};
use std::fs::{self, File};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A line that lacks something, what is answered, what the question says, and the line that means the same.
const ASKED: &[(&str, &[&str], &str, &str)] = &[
    (
        "number X24-01.T1",
        &["90-92"],
        "Their numbers, such as 1-40",
        "number X24-01.T1 90-92",
    ),
    (
        "collect",
        &["Spa1"],
        "The plant, or the piece that flowers: ",
        "collect Spa1",
    ),
    (
        "took --again",
        &["X24-01.red", "8"],
        "Pods that set: ",
        "took X24-01.red 8 --again",
    ),
    (
        "correct X24-01-10",
        &["note", "found"],
        "What should stand there",
        "correct X24-01-10 note found",
    ),
    (
        "move",
        &["X24-01-1 X24-01-2 \"shelf 3\""],
        "followed by the new place",
        "move X24-01-1 X24-01-2 \"shelf 3\"",
    ),
    ("keep", &["X24-01-2"], "Plants: ", "keep X24-01-2"),
    (
        "opinion Ven1",
        &["N. graciliflora"],
        "The name in quotes",
        "opinion Ven1 \"N. graciliflora\"",
    ),
    (
        "add-seed",
        &["maxima x veitchii"],
        "The label in quotes",
        "add-seed \"maxima x veitchii\"",
    ),
    // What became of it is a word, with or without dashes, and more may be said at once.
    (
        "gone X24-01-2",
        &["died --why \"damping off\""],
        "add --died, --culled, --sold, --given or --lost\r\n> ",
        "gone X24-01-2 --died --why \"damping off\"",
    ),
    (
        "gone",
        &["X24-01-2", "--lost"],
        "Plants, pieces of them, sowings, community pots or seed lots: ",
        "gone X24-01-2 --lost",
    ),
    (
        "pollinate Ven1 --on 2024-04-09",
        &["with Spa1"],
        "the pollen is missing",
        "pollinate Ven1 --on 2024-04-09 --with Spa1",
    ),
    (
        "treat --place \"shelf 1\"",
        &["soap"],
        "followed by the product in quotes",
        "treat --place \"shelf 1\" soap",
    ),
];

/// The same of lines that lack the last of their words, and of answers as a person says them: without quotes, or without
/// the option that the question names.
const AS_SAID: &[(&str, &[&str], &str, &str)] = &[
    (
        "pot X24-01-1",
        &["9 cm"],
        "the width of the pot is missing",
        "pot X24-01-1 \"9 cm\"",
    ),
    (
        "move X24-01-1",
        &["shelf 3"],
        "the place they were moved to is missing",
        "move X24-01-1 \"shelf 3\"",
    ),
    (
        "pollinate Ven1 --on 2024-04-09",
        &["Spa1"],
        "the pollen is missing",
        "pollinate Ven1 --on 2024-04-09 --with Spa1",
    ),
    (
        "note X24-01-1",
        &["the rim split"],
        "the remark is missing",
        "note X24-01-1 \"the rim split\"",
    ),
    (
        "add Nep9",
        &["N. ventricosa"],
        "the name that Nep9 came under is missing",
        "add Nep9 \"N. ventricosa\"",
    ),
];

fn season() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/recording/season")
}

fn line(registry: &Path, asked: &str) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_podbook"));
    command
        .args(words(asked))
        .args(["--today", "2029-05-10", "--registry"])
        .arg(registry);
    command
}

/// Runs a line at a terminal where a person gives answers; also what the terminal showed.
fn at_a_terminal(mut command: Command, answers: &[&str]) -> (Output, String) {
    let OpenptyResult { master, slave } = openpty(None, None).expect("there is a terminal");
    let mut person = File::from(master);
    let typed: String = answers.iter().map(|answer| format!("{answer}\n")).collect();
    person.write_all(typed.as_bytes()).unwrap();
    let stderr = slave.try_clone().unwrap();
    let running = command
        .stdin(slave)
        .stderr(stderr)
        .stdout(Stdio::piped())
        .spawn()
        .expect("the binary can be run");
    // The terminal is held open by the command as well, until it is dropped here.
    drop(command);
    let output = running.wait_with_output().unwrap();
    let mut shown = Vec::new();
    // Linux answers with an error once the last writer has gone; what was shown before is there all the same.
    let _ = person.read_to_end(&mut shown);
    (output, String::from_utf8(shown).unwrap())
}

#[test]
fn what_is_missing_is_asked_for_and_the_line_is_as_if_it_had_been_typed() {
    for (short, answers, question, whole) in ASKED.iter().chain(AS_SAID) {
        let season = season();
        let dry = |asked: &str| line(&season, &format!("{asked} --dry-run"));
        let whole = dry(whole).output().unwrap();
        assert!(whole.status.success(), "{whole:?}");
        let (asked, shown) = at_a_terminal(dry(short), answers);
        assert!(shown.contains(question), "{short}: {shown}");
        assert_eq!(
            String::from_utf8_lossy(&asked.stdout),
            String::from_utf8_lossy(&whole.stdout),
            "{short}: {shown}"
        );
        let elsewhere = dry(short).stdin(Stdio::null()).output().unwrap();
        assert_eq!(elsewhere.status.code(), Some(2), "{short}: {elsewhere:?}");
        assert!(elsewhere.stdout.is_empty(), "{short}: {elsewhere:?}");
    }
}

#[test]
fn an_empty_answer_records_nothing() {
    for (short, ..) in ASKED.iter().chain(AS_SAID) {
        // Were it taken for an answer, it must not be written into the season of the tests.
        let (asked, shown) = at_a_terminal(line(&season(), &format!("{short} --dry-run")), &[""]);
        assert_eq!(asked.status.code(), Some(2), "{short}: {shown}");
        let refused = ["missing", "podbook: say what"].map(|words| shown.contains(words));
        assert!(refused.contains(&true), "{short}: {shown}");
    }
    // An answer that is no option is a word of the line, not of one of the options that were named.
    let asked = line(&season(), "gone X24-01-2 --dry-run");
    let (_, shown) = at_a_terminal(asked, &["rotten", "died"]);
    assert!(shown.contains("`rotten`"), "{shown}");
}

#[test]
fn the_journal_remembers_the_line_with_its_answers() {
    let copy = tempfile::tempdir().unwrap();
    for inside in ["registry.ron", "crosses", "plants", "species", "traits"] {
        copied(&season().join(inside), &copy.path().join(inside));
    }
    let asked = line(copy.path(), "gone X24-01-2");
    let (asked, shown) = at_a_terminal(asked, &["died --why \"damping off\""]);
    assert!(asked.status.success(), "{shown}");
    let journal = fs::read_dir(copy.path().join("journal")).unwrap();
    let entry = journal.map(|entry| fs::read_to_string(entry.unwrap().path()).unwrap());
    let entries: Vec<String> = entry.collect();
    let remembered = "asked: \"gone X24-01-2 --died --why 'damping off'\"";
    assert!(
        entries.iter().any(|entry| entry.contains(remembered)),
        "{entries:?}"
    );
}

fn copied(from: &Path, to: &Path) {
    if from.is_file() {
        fs::copy(from, to).unwrap();
    } else if from.is_dir() {
        fs::create_dir_all(to).unwrap();
        for entry in fs::read_dir(from).unwrap() {
            let entry = entry.unwrap();
            copied(&entry.path(), &to.join(entry.file_name()));
        }
    }
}
