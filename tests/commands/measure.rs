//! `podbook measure`: answers line by line, each row written when it is whole, slips refused or asked about.

use crate::bench_top::{BenchTop, TODAY};
use crate::sixty::{PAGE, sixty};
use insta::assert_snapshot;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Duration;

const COMMAND: [&str; 4] = [
    "measure",
    "X23-01",
    "--traits",
    "span,height,banding,teeth,rim",
];

/// The plants of the tray that are here.
pub fn plants() -> impl Iterator<Item = u32> {
    (1..=62).filter(|number| ![7, 9].contains(number))
}

/// What each plant reads: believable after a spring, no two alike.
pub fn values(number: u32) -> [String; 5] {
    let rim = ["green", "yellow", "gold", "red", "maroon", "near black"];
    [
        format!("{}.{}", 4 + number % 4, number % 10),
        format!("{}", 18 + number % 7),
        format!("{}", 1 + number % 5),
        format!("{}", 1 + number % 4),
        rim[number as usize % 6].to_owned(),
    ]
}

/// The shortest keys for one plant: scales together, kinds by their first letters.
fn keys(number: u32) -> String {
    let [span, height, banding, teeth, _] = values(number);
    let rim = ["gr", "y", "go", "r", "m", "n"][number as usize % 6];
    format!("{span}\n{height}\n{banding}{teeth}\n{rim}\n")
}

/// The page with a sitting behind the one that is there, as a person would write it.
pub fn page_with(rows: &str) -> String {
    let page = sixty().text(PAGE);
    let end = "        ]),\n    ],\n)\n";
    let before = page
        .strip_suffix(end)
        .expect("the page ends with its sittings");
    format!(
        "{before}        ]),\n        (on: \"2024-06-01\", columns: [\"span cm\", \"height mm\", \"banding\", \"teeth\", \"rim\"], rows: [\n{rows}        ]),\n    ],\n)\n"
    )
}

pub fn rows(plants: impl Iterator<Item = u32>) -> String {
    let row = |number| {
        format!(
            "            [\"{number}\", \"{}\"],\n",
            values(number).join("\", \"")
        )
    };
    plants.map(row).collect()
}

/// Sixty plants, five traits: at most 1.3 keystrokes for each character of the values, the command included, and the
/// page is the one a person would have written.
#[test]
fn few_keys_make_the_sitting_a_person_would_write() {
    let top = sixty();
    let input: String = plants().map(keys).collect();
    let run = top.run_with(&input, &COMMAND);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(run.stdout.starts_with("Recorded 60 plants\n"), "{run}");
    assert_eq!(top.text(PAGE), page_with(&rows(plants())));
    let typed = input.len() + "podbook ".len() + COMMAND.join(" ").len();
    let worth: usize = plants().flat_map(values).map(|value| value.len()).sum();
    assert!(
        typed as f64 <= 1.3 * worth as f64,
        "{typed} keys for {worth} characters"
    );
    assert_eq!(top.run(&["check"]).exit, Some(0));
}

/// Killed in the middle of a row, started again: no row is lost, none is asked for twice.
#[test]
fn a_sitting_goes_on_where_it_was_killed() {
    let top = sixty();
    let mut child = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .current_dir(top.path())
        .args(COMMAND)
        .args(["--today", TODAY])
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("the binary can be run");
    let mut stdin = child.stdin.take().expect("a pipe");
    let begun: String = plants().take(3).map(keys).collect();
    stdin
        .write_all(begun.as_bytes())
        .expect("lines can be given");
    stdin.write_all(b"5.5\n20\n").expect("lines can be given");
    stdin.flush().expect("lines can be given");
    let three = page_with(&rows(plants().take(3)));
    for _ in 0..3000 {
        let begun = top.path().join(".podbook-intent").exists();
        if top.text(PAGE) == three && !begun {
            break;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    child.kill().expect("it can be ended");
    child.wait().expect("it ends");
    drop(stdin);
    assert_eq!(top.text(PAGE), three);
    let rest: String = plants().skip(3).map(keys).collect();
    let run = top.run_with(&rest, &COMMAND);
    assert!(
        run.stdout
            .starts_with("Recorded 57 plants; 3 had a row in this sitting already\n"),
        "{run}"
    );
    assert_eq!(top.text(PAGE), page_with(&rows(plants())));
    let again = top.run_with("", &COMMAND);
    assert!(
        again.stdout.starts_with("No plant was read; 60 had a row"),
        "{again}"
    );
}

/// What was answered before the input ended is kept, also a remark before the first cell and a cell that was gone back to.
#[test]
fn what_was_answered_last_is_kept() {
    let command = ["measure", "X23-01-1,2", "--traits", "span,banding"];
    for (typed, row) in [
        ("! bent\n", "[\"1\", \"\", \"\", \"bent\"]"),
        ("4.3\n<\n", "[\"1\", \"4.3\", \"\"]"),
    ] {
        let top = sixty();
        let run = top.run_with(typed, &command);
        assert!(run.stdout.starts_with("Recorded 1 plant"), "{run}");
        assert!(top.text(PAGE).contains(row), "{}", top.text(PAGE));
    }
    let run = sixty().run_with("\n<\n", &command);
    assert!(run.stdout.starts_with("No plant was read"), "{run}");
}

/// Lines that are left over show that those before them may have gone to the wrong plants: a plant with a row is not asked about.
#[test]
fn lines_left_over_are_refused() {
    let top = sixty();
    let ask = ["measure", "X23-01-1..2", "--traits", "span"];
    let first = top.run_with("4.1\n", &["measure", "X23-01-1", "--traits", "span"]);
    assert_eq!(first.exit, Some(0), "{first}");
    let shifted = top.run_with("4.1\n4.3\n", &ask);
    assert_eq!(shifted.exit, Some(4), "{shifted}");
    for words in [
        "1 line was left over when every plant had its answers, from line 2 on: `4.3`",
        "1 plant was not asked about, because of a row in this sitting already",
        "recorded: X23-01-2;",
    ] {
        assert!(shifted.stderr.contains(words), "{shifted}");
    }
    let again = top.run_with("\n4.3\n", &ask);
    assert_eq!(again.exit, Some(2), "{again}");
    assert!(again.stderr.contains("nothing was recorded"), "{again}");
    let blank = top.run_with("\n \n", &ask);
    assert_eq!(blank.exit, Some(0), "{blank}");
}

/// `<` goes back, over the row that is written too; remarks make a column; a death ends the row and is a fate.
#[test]
fn going_back_remarks_and_deaths() {
    let top = sixty();
    let answers =
        "4.1\n<\n4.2\n3\n4.4\n! bent, one leaf\n2\n<\n<\n<\n<\n4.3\n2\n\n4\ndead\n\n-\n4.6\n1\n";
    let run = top.run_with(
        answers,
        &["measure", "X23-01-1..5", "--traits", "span,banding"],
    );
    assert_snapshot!("measure-back-and-forth", run);
    let page = top.text(PAGE);
    let sitting = page.find("2024-06-01\", columns").expect("a sitting");
    assert_snapshot!("measure-back-and-forth-page", &page[sitting - 6..]);
    assert!(page.contains(
        "(number: \"3\", sowing: \"S1\", place: \"shelf 1, front\", fate: died(on: \"2024-06-01\"))"
    ));
    assert_eq!(top.run(&["check"]).exit, Some(0));
}

/// `<` behind the earlier answer, which a terminal fills in, goes back as well.
#[test]
fn a_sign_behind_the_earlier_answer_goes_back() {
    let asked = ["measure", "X23-01-1..2", "--traits", "span"];
    let [alone, behind] = ["4.1\n<\n4.2\n4.4\n", "4.1\n9.9<\n4.2\n4.4\n"].map(|answers| {
        let top = sixty();
        let run = top.run_with(answers, &asked);
        assert_eq!(run.exit, Some(0), "{run}");
        top.text(PAGE)
    });
    assert_eq!(alone, behind);
}

/// Every slip of the pen is refused with its line, what was found and what is needed; nothing of the row is written.
#[test]
fn slips_are_refused() {
    let slips = [
        ("span", "14.5 kg"),
        ("span", "14,500"),
        ("span", "-3"),
        ("span", "about 4"),
        ("height", "x"),
        ("banding", "6"),
        ("banding", "clear"),
        ("banding", "2.5"),
        ("rim", "purple"),
        ("rim", "g"),
        ("pitcher", "middle"),
    ];
    let mut told = Vec::new();
    for (column, answer) in slips {
        let top = sixty();
        let run = top.run_with(
            &format!("{answer}\n"),
            &["measure", "X23-01-2", "--traits", column],
        );
        assert_eq!(run.exit, Some(2), "{answer}: {run}");
        assert_eq!(top.text(PAGE), sixty().text(PAGE), "{answer}");
        told.push(format!("{column} {answer}\n{run}"));
    }
    assert_snapshot!("measure-slips", told.join("\n"));
}

/// What may be true but looks like a slip is asked about; without an answer nothing of the row is written.
#[test]
fn doubts_are_asked_about() {
    // The plant read 4.2 cm in March.
    let doubts = [
        ("1.8", "span"),
        ("42", "span"),
        ("300", "span"),
        ("17 in", "span"),
    ];
    let mut told = Vec::new();
    for (answer, column) in doubts {
        let top = sixty();
        let ask = ["measure", "X23-01-2", "--traits", column];
        let run = top.run_with(&format!("{answer}\n5.0\n"), &ask);
        assert_eq!(run.exit, Some(2), "{answer}: {run}");
        assert_eq!(top.text(PAGE), sixty().text(PAGE), "{answer}");
        told.push(run.to_string());
        let mended = top.run_with(&format!("{answer}\nn\n5.0\n"), &ask);
        assert_eq!(mended.exit, Some(0), "{mended}");
        assert!(
            top.text(PAGE)
                .contains("            [\"2\", \"5.0\"],\n        ]),\n    ],\n")
        );
    }
    // Four siblings and one among them read tenfold.
    let top = sixty();
    let far = "5.1\n5.4\n4.9\n5.0\n5.2\n55\n";
    let tall = top.run_with(far, &["measure", "X23-01-1..6", "--traits", "height"]);
    told.push(tall.to_string());
    assert_snapshot!("measure-doubts", told.join("\n"));
}

/// A plant that was forgotten is held against those that the sitting has already.
#[test]
fn a_reading_is_held_against_the_sitting_that_goes_on() {
    let top = sixty();
    let four = top.run_with(
        "5.1\n5.4\n4.9\n5.0\n5.2\n",
        &["measure", "X23-01-1..5", "--traits", "height"],
    );
    assert_eq!(four.exit, Some(0), "{four}");
    let one = top.run_with("55\n", &["measure", "X23-01-6", "--traits", "height"]);
    assert_eq!(one.exit, Some(2), "{one}");
    assert!(
        one.to_string().contains("median of its 5 siblings"),
        "{one}"
    );
}

/// Cells as growers write them go in as typed, kinds as declared; a comma is a point, an inch mark an inch.
#[test]
fn cells_go_in_as_typed() {
    let top = sixty();
    let run = top.run_with(
        "5,5\n Red \n2\"\nnear black\n51 mm\ngo\n1 3/4in\n\n",
        &["measure", "X23-01-1..4", "--traits", "span,rim"],
    );
    assert_eq!(run.exit, Some(0), "{run}");
    let page = top.text(PAGE);
    for row in [
        r#"["1", "5,5", "red"]"#,
        r#"["2", "2\"", "near black"]"#,
        r#"["3", "51 mm", "gold"]"#,
        r#"["4", "1 3/4in", ""]"#,
    ] {
        assert!(page.contains(row), "{row}\n{page}");
    }
    assert_eq!(top.run(&["check"]).exit, Some(0));
}

/// A row read again keeps what was not asked about; `undo` gives back the bytes before the last row.
#[test]
fn a_row_is_read_again_and_undone() {
    let top = sixty();
    let ask = ["measure", "X23-01-1..2", "--traits", "span,banding"];
    top.run_with("4.5\n3\n4.6\n! pale\n4\n", &ask);
    let before = top.text(PAGE);
    let refused = top.run_with("", &ask);
    assert!(refused.stdout.contains("2 had a row"), "{refused}");
    let again = top.run_with(
        "5.0\n",
        &["measure", "X23-01-2", "--traits", "span", "--again"],
    );
    assert_eq!(again.exit, Some(0), "{again}");
    let after = before.replace(
        "[\"2\", \"4.6\", \"4\", \"pale\"]",
        "[\"2\", \"5.0\", \"4\", \"pale\"]",
    );
    assert_ne!(after, before);
    assert_eq!(top.text(PAGE), after);
    assert_eq!(top.run(&["undo"]).exit, Some(0));
    assert_eq!(top.text(PAGE), before);
}

/// Another method, place or day is another sitting; founders are read on their own page.
#[test]
fn each_day_place_and_method_has_its_sitting() {
    let top = sixty();
    let ask = |method: &str, on: &str, input: &str| {
        let arguments = [
            "measure", "X23-01-1", "Ven1", "--traits", "span", "--method", method, "--on", on,
        ];
        let run = top.run_with(input, &arguments);
        assert_eq!(run.exit, Some(0), "{run}");
    };
    ask("ruler", "2024-05-30", "4.0\n20\n");
    ask("callipers", "2024-05-30", "4.1\n21\n");
    ask("ruler", "2024-05-31", "4.2\n22\n");
    ask("ruler", "2024-05-30", "");
    let clones = top.text("clones.ron");
    assert_eq!(top.text(PAGE).matches("method: ").count(), 3);
    assert_eq!(clones.matches("method: ").count(), 3, "{clones}");
    assert!(
        clones.contains(r#"(on: "2024-05-31", method: "ruler", columns: ["span cm"], rows: ["#),
        "{clones}"
    );
}

#[test]
fn nothing_to_read_is_said() {
    let top = sixty();
    let told = [
        top.run_with("", &["measure", "X23-01-7", "--traits", "span"]),
        top.run_with("", &["measure", "X23-01", "--traits", "length"]),
        top.run_with("", &["measure", "X23-01", "--on", "2024-09-01"]),
        top.run_with("4.5\n3\n", &["measure", "X23-01-1", "--dry-run"]),
        BenchTop::empty().run_with("", &["measure", "X23-01"]),
    ];
    let told: Vec<String> = told.iter().map(ToString::to_string).collect();
    assert_snapshot!("measure-nothing", told.join("\n"));
}

/// While a sitting waits for answers, another program corrects a reading: what was not typed is not put back.
#[test]
fn a_correction_made_during_a_sitting_stays() {
    let of = |page: &str, row: &str| {
        let row = page.lines().rfind(|line| line.contains(row));
        row.expect("a row").trim().to_owned()
    };
    for (typed, ends, says) in [
        ("\n\n", "[\"2\", \"4.0\", \"5\"],", false),
        ("4.2\n\n", "[\"2\", \"4.2\", \"5\"],", false),
        // Typed in spite of it, the reading is said and not written.
        ("4.2\n3\n", "[\"2\", \"4.2\", \"5\"],", true),
    ] {
        let top = sixty();
        let command = ["measure", "X23-01-1,2", "--traits", "span,banding"];
        let first = top.run_with("4.1\n2\n4.0\n1\n", &command);
        assert_eq!(first.exit, Some(0), "{first}");
        let mut sitting = Command::new(env!("CARGO_BIN_EXE_podbook"))
            .current_dir(top.path())
            .args(command)
            .args(["--again", "--today", TODAY])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("podbook runs");
        let mut answers = sitting.stdin.take().expect("a pipe");
        answers.write_all(b"4.3\n2\n").expect("it is read");
        // Its first row is written, so it has read what the second one was.
        while !top.text(PAGE).contains("[\"1\", \"4.3\", \"2\"]") {
            std::thread::sleep(Duration::from_millis(20));
        }
        let corrected = top.run(&["correct", "X23-01-2", "banding", "5"]);
        assert_eq!(corrected.exit, Some(0), "{corrected}");
        answers.write_all(typed.as_bytes()).expect("it is read");
        drop(answers);
        let run = sitting.wait_with_output().expect("it ends");
        let all = String::from_utf8([run.stdout, run.stderr].concat()).expect("words");
        let all = all.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(run.status.success(), "{all}");
        assert_eq!(of(&top.text(PAGE), "[\"2\", \"4."), ends, "{all}");
        let words = "X23-01-2, banding: 5 was recorded meanwhile and is kept; you read 3. If yours is right: podbook correct X23-01-2 banding \"3\"";
        assert_eq!(all.contains(words), says, "{all}");
        if typed == "\n\n" {
            assert!(all.starts_with("Recorded 1 plant"), "{all}");
        }
    }
}

/// What another device adds to a row that the sitting wrote stays when the row is read again.
#[test]
fn what_was_added_to_a_row_stays_when_it_is_read_again() {
    let top = sixty();
    let mut sitting = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .current_dir(top.path())
        .args([
            "measure",
            "X23-01-1,2",
            "--traits",
            "span,banding",
            "--today",
            TODAY,
        ])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("podbook runs");
    let mut answers = sitting.stdin.take().expect("a pipe");
    answers.write_all(b"4.3\n\n").expect("it is read");
    while !top.text(PAGE).contains("[\"1\", \"4.3\", \"\"]") {
        std::thread::sleep(Duration::from_millis(20));
    }
    let added = top.run(&["correct", "X23-01-1", "banding", "3"]);
    assert_eq!(added.exit, Some(0), "{added}");
    answers.write_all(b"<\n<\n4.5\n\n").expect("it is read");
    drop(answers);
    assert!(sitting.wait().expect("it ends").success());
    assert!(
        top.text(PAGE).contains("[\"1\", \"4.5\", \"3\"]"),
        "{}",
        top.text(PAGE)
    );
}
