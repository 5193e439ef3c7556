//! What recordings on a copy of the demo registry answer: never surer than what is written, with the next step where
//! something is amiss. Each story is played from the start; after it `podbook check` may name no fault.

use crate::bench_words::words;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

/// A copy of the demo registry.
struct Demo(tempfile::TempDir);

impl Demo {
    fn new() -> Self {
        let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo");
        let folder = tempfile::tempdir().unwrap();
        for below in ["", "crosses"] {
            fs::create_dir_all(folder.path().join(below)).unwrap();
            for entry in fs::read_dir(from.join(below)).unwrap() {
                let path = entry.unwrap().path();
                if path.is_file() {
                    let name = path.file_name().unwrap();
                    fs::copy(&path, folder.path().join(below).join(name)).unwrap();
                }
            }
        }
        Demo(folder)
    }

    fn ask(&self, line: &str) -> Output {
        Command::new(env!("CARGO_BIN_EXE_podbook"))
            .args(words(line))
            .args(["--today", "2025-06-01", "--registry"])
            .arg(self.0.path())
            .env("COLUMNS", "400")
            .output()
            .unwrap()
    }

    /// What is answered, in one line.
    fn said(&self, line: &str) -> String {
        let output = self.ask(line);
        let text = [output.stdout, output.stderr].concat();
        let text = String::from_utf8(text).unwrap();
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    }
}

/// Lines asked one after the other, each with words its answer holds; words after `not:` it does not hold.
const STORIES: &[&[(&str, &str)]] = &[
    // The name of a seedling is written from its parents, whatever is accepted.
    &[
        (
            "opinion X22-02-4 \"N. hamata\" --accept",
            "the name shown is unchanged: it is written from the recorded parents",
        ),
        (
            "show X22-02-4",
            "\"N. hamata\" on 2025-06-01, basis not recorded",
        ),
    ],
    &[(
        "opinion X22-02-4 \"N. hamata\"",
        "the name shown is unchanged: it is written from the recorded parents",
    )],
    // A name that the starter list knows goes into species.ron in the same change, and goes out with it.
    &[
        (
            "opinion Spa1 \"N. singalana\" --accept",
            "Spa1: now shown as N. singalana ! singalana was not in species.ron; added from the list",
        ),
        ("name Spa1", "N. singalana"),
        ("check", "0 faults, 1 warning"),
        ("check", "label-contradicts-record: a label of X15-02-5"),
        ("undo", "Undid change 1"),
        ("read \"N. singalana\"", "does not have"),
    ],
    &[
        (
            "add Max1 \"N. maxima\"",
            "maxima was not in species.ron; added",
        ),
        ("list --founders", "not: not readable"),
        ("check", "No faults or warnings"),
    ],
    &[
        (
            "add-seed \"maxima x veitchii\" --seeds 30",
            "maxima and veitchii were not in species.ron; added",
        ),
        ("name X25-01", "N. maxima"),
    ],
    &[
        (
            "add Mix1 \"N. x mixta\"",
            "northiana, maxima and mixta were not in species.ron; added",
        ),
        ("check", "No faults or warnings"),
    ],
    // A name that no list knows is kept, and every answer about it says so.
    &[
        (
            "add Who1 \"N. whoknowsia\"",
            "a name on the label of Who1 is not known; found `whoknowsia` is in neither list",
        ),
        ("check", "1 warning"),
        ("check", "name-not-listed"),
        ("gone Who1 --died", "died on 2025-06-01"),
        ("check", "No faults or warnings"),
    ],
    &[
        (
            "add-seed \"who knows\"",
            "a name on the label of X25-01 is not known; found `who knows`",
        ),
        ("check", "add the name to species.ron"),
    ],
    &[
        (
            "opinion Spa1 \"N. ventricossa\" --accept",
            "it cannot be read: `ventricossa`",
        ),
        (
            "opinion Spa1 \"N. whoknowsia\" --accept",
            "a name on the label of Spa1 is not known",
        ),
        ("undo", "Undid"),
        (
            "opinion Spa1 \"N. whoknowsia\"",
            "the name shown is unchanged",
        ),
        ("check", "No faults or warnings"),
    ],
];

#[test]
fn answers_say_what_is_on_record() {
    let mut wrong = Vec::new();
    for story in STORIES {
        let demo = Demo::new();
        for (line, wanted) in *story {
            let said = demo.said(line);
            let right = match wanted.strip_prefix("not: ") {
                Some(unwanted) => !said.contains(unwanted),
                None => said.contains(wanted),
            };
            if !right {
                wrong.push(format!("{line}\n  wanted {wanted}\n  {said}"));
            }
        }
        let checked = demo.said("check");
        if checked.contains("fault ") {
            wrong.push(format!("{story:?}\n  {checked}"));
        }
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
}
