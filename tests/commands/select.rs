//! `podbook select`: proposals over the demo, and marks in a copy of it.

use crate::bench_top::BenchTop;
use crate::demo::{ask, copied, demo};
use insta::assert_snapshot;
use std::path::Path;

const RULES: &str = r#"(
    weigh: [(of: "span", weight: 1), (of: "liking", weight: 2)],
    need: [(of: "teeth", at_least: 2)],
    keep: 3, quotas: [(cross: "X18-01", keep: 2)], both_sexes: 0.9,
    shelf: (width_cm: 60, depth_cm: 40, shelves: 1, pot_cm: 7),
)"#;
const PAGE: &str = "crosses/X22-02.ron";

#[test]
fn a_proposal_by_weights() {
    assert_snapshot!(demo(
        "select X22-02 --weigh span=1 --weigh banding=2 --keep 4"
    ));
}

#[test]
fn two_crosses_with_a_level_and_minutes_to_spare() {
    assert_snapshot!(demo(
        "select X22-02 X18-01 --weigh span=1 --need banding=3 --keep 3 --minutes 20"
    ));
}

#[test]
fn rules_may_lie_in_a_file() {
    let top = copied().file("keep.rules", RULES);
    assert_snapshot!(ask(top.path(), "select X22-02 X18-01 --rules keep.rules"));
}

#[test]
fn the_answer_comes_as_json() {
    assert_snapshot!(demo("select X22-02.P2 --weigh span=1 --keep 2 --json"));
}

#[test]
fn the_table_comes_as_csv() {
    assert_snapshot!(demo(
        "select X22-02.P2 --weigh span=1 --keep 2 --format csv"
    ));
}

#[test]
fn without_a_rule_an_example_is_shown_that_runs() {
    let run = demo("select X22-02 X18-01");
    assert_snapshot!(run);
    let example = run
        .stderr
        .lines()
        .find_map(|line| line.strip_prefix("for example: podbook "))
        .expect("an example");
    assert_eq!(demo(example).exit, Some(0), "{example}");
}

#[test]
fn the_examples_of_the_help_run() {
    for verb in ["siblings", "variation", "grade", "select", "growth"] {
        let help = demo(&format!("{verb} --help")).stdout;
        let words: Vec<&str> = help.split_whitespace().collect();
        let words = words.join(" ");
        let (_, examples) = words.split_once("Example: ").expect("an example");
        let mut tried = 0;
        for example in examples.split("podbook ").filter(|text| !text.is_empty()) {
            let (asked, _) = example
                .split_once(" --registry registry-demo")
                .expect("an example names the demo");
            let run = ask(copied().path(), asked);
            assert_eq!(run.exit, Some(0), "{asked}: {run}");
            tried += 1;
        }
        assert!(tried > 0, "{verb} has no example");
    }
}

#[test]
fn applying_follows_the_file_as_it_is_now() {
    let asked = "select X22-02 --weigh span=1 --keep 3";
    let top = copied();
    let proposed = ask(top.path(), asked);
    assert!(proposed.stdout.contains("X22-02-17"), "{proposed}");
    let best = proposed
        .stdout
        .lines()
        .find(|line| line.starts_with("  X22-02-17"))
        .expect("a row");
    assert!(best.contains("  keep  "), "{best}");
    // Between the proposal and --apply the plant is found dead.
    let page = top.text(PAGE);
    let line = page
        .lines()
        .find(|line| line.contains("number: \"17\""))
        .expect("the seedling");
    let dead = line.replacen(
        "number: \"17\"",
        "number: \"17\", fate: died(on: \"2025-05-30\")",
        1,
    );
    let top = top.change(PAGE, line, &dead);
    let before = top.text(PAGE);
    let applied = ask(top.path(), &format!("{asked} --apply"));
    assert!(applied.stdout.starts_with("Marked"), "{applied}");
    assert!(!applied.stdout.contains("X22-02-17"), "{applied}");
    let after = top.text(PAGE);
    let marks: Vec<&str> = after.split(", kept: (on: \"2025-06-01\"").collect();
    assert_eq!(marks.len(), 3, "{after}");
    let unmarked: String = marks
        .iter()
        .enumerate()
        .map(|(at, part)| match at {
            0 => part,
            _ => part.split_once("\")").expect("a mark ends").1,
        })
        .collect();
    assert_eq!(unmarked, before);
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_written_is_left_as_it_is() {
    use std::os::unix::fs::PermissionsExt;
    let top = copied();
    let file = top.path().join(PAGE);
    let before = top.text(PAGE);
    let set = |mode| {
        let mode = std::fs::Permissions::from_mode(mode);
        std::fs::set_permissions(&file, mode).expect("permissions can be set");
    };
    set(0o444);
    let run = ask(top.path(), "select X22-02 --weigh span=1 --keep 3 --apply");
    set(0o644);
    assert_snapshot!(run);
    assert_eq!(before, top.text(PAGE));
}

/// What lies in a folder: every file with its bytes.
fn files(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let entries = std::fs::read_dir(folder).expect("the folder can be listed");
    let mut files: Vec<(String, Vec<u8>)> = entries
        .map(|entry| entry.expect("the folder can be listed"))
        .filter(|entry| entry.path().is_file())
        .map(|entry| {
            let name = entry.file_name().to_string_lossy().into_owned();
            (
                name,
                std::fs::read(entry.path()).expect("a file can be read"),
            )
        })
        .collect();
    files.sort();
    files
}

const APPLIED: &str = "select X22-02 X18-01 --weigh span=1 --keep 3 --apply";

#[test]
fn applying_twice_changes_nothing_more_and_says_so() {
    let top = copied();
    let first = ask(top.path(), APPLIED);
    assert!(
        first.stdout.starts_with("Marked 4 plants to keep. "),
        "{first}"
    );
    let after = files(&top.path().join("crosses"));
    let second = ask(top.path(), APPLIED);
    let words = "Nothing to mark, those to keep are marked already. ";
    assert!(second.stdout.starts_with(words), "{second}");
    assert_eq!(second.exit, Some(0));
    assert_eq!(after, files(&top.path().join("crosses")));
}

#[cfg(unix)]
#[test]
fn when_the_second_file_is_refused_the_first_is_put_back() {
    use std::os::unix::fs::PermissionsExt;
    for refused in ["X18-01.ron", "X22-02.ron"] {
        let top = copied();
        let crosses = top.path().join("crosses");
        let before = files(&crosses);
        let mode = |mode| std::fs::Permissions::from_mode(mode);
        std::fs::set_permissions(crosses.join(refused), mode(0o444)).expect("it can be set");
        let run = ask(top.path(), APPLIED);
        assert_eq!(run.exit, Some(3), "{run}");
        assert!(
            run.stderr.contains(refused) && run.stderr.contains("nothing was written"),
            "{run}"
        );
        assert!(run.stdout.is_empty(), "{run}");
        assert_eq!(before, files(&crosses), "{refused}");
    }
}

#[cfg(unix)]
#[test]
fn in_a_folder_that_takes_no_new_file_nothing_is_changed() {
    use std::os::unix::fs::PermissionsExt;
    let top = copied();
    let crosses = top.path().join("crosses");
    let before = files(&crosses);
    let set = |mode| {
        let mode = std::fs::Permissions::from_mode(mode);
        std::fs::set_permissions(&crosses, mode).expect("permissions can be set");
    };
    set(0o555);
    // Who may do anything, as in some containers, is not stopped by permissions; then the marks are written whole.
    let may_do_anything = std::fs::write(crosses.join("tried"), "").is_ok();
    std::fs::remove_file(crosses.join("tried")).ok();
    let run = ask(top.path(), APPLIED);
    set(0o755);
    if may_do_anything {
        assert!(run.stdout.starts_with("Marked 4 plants"), "{run}");
    } else {
        assert_eq!(run.exit, Some(3), "{run}");
        assert!(run.stderr.contains("nothing was written"), "{run}");
        assert_eq!(before, files(&crosses));
    }
}

/// Runs the binary with files limited to 512 bytes: a disk that is full in the middle of a file. The system ends the
/// program at that byte unless it is told to refuse the write instead.
#[cfg(unix)]
fn on_a_full_disk(top: &crate::bench_top::BenchTop, refuses: bool) -> std::process::Output {
    let trap = if refuses { "trap '' XFSZ;" } else { "" };
    let binary = env!("CARGO_BIN_EXE_podbook");
    let command = format!("ulimit -f 1; {trap} exec '{binary}' {APPLIED} --today 2025-06-01");
    std::process::Command::new("sh")
        .current_dir(top.path())
        .args(["-c", &command])
        .output()
        .expect("a shell can be run")
}

#[cfg(unix)]
#[test]
fn a_full_disk_leaves_every_file_as_it_was() {
    let top = copied();
    let before = files(&top.path().join("crosses"));
    let output = on_a_full_disk(&top, true);
    let told = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(3), "{told}");
    assert!(told.contains("nothing was written"), "{told}");
    assert_eq!(before, files(&top.path().join("crosses")));
}

#[cfg(unix)]
#[test]
fn ended_in_the_middle_of_a_file_the_old_one_is_whole_and_applying_again_works() {
    let top = copied();
    let crosses = top.path().join("crosses");
    let before = files(&crosses);
    let output = on_a_full_disk(&top, false);
    assert_eq!(output.status.code(), None, "ended from outside: {output:?}");
    let after = files(&crosses);
    let pages = |files: &[(String, Vec<u8>)]| -> Vec<(String, Vec<u8>)> {
        let pages = files.iter().filter(|(name, _)| name.ends_with(".ron"));
        pages.cloned().collect()
    };
    assert_eq!(before, pages(&after));
    // What was begun lies in the registry's folder, unseen by the registry.
    let begun = files(top.path());
    assert!(
        begun.iter().any(|(name, _)| name.ends_with(".part")),
        "it was ended too early"
    );
    let again = ask(top.path(), APPLIED);
    assert!(again.stdout.starts_with("Marked 4 plants"), "{again}");
    assert_eq!(again.exit, Some(0));
}

/// Between reading and writing an editor saves the page: its words stay, and nothing is marked.
#[test]
fn a_page_that_another_program_changed_is_not_written_over() {
    use podbook::record::{Hemisphere, When};
    use podbook::recording::draft::Draft;
    use podbook::recording::events::keep::Keep;
    use podbook::text::commit::{FileChange, Hold, Uncommitted, commit};
    use podbook::text::{NoFailures, Sources, WhyUnwritten};
    let top = copied();
    let today = When::read("2025-06-01", Hemisphere::North)
        .expect("a day")
        .first;
    let sources = Sources::read(top.path());
    let (registry, _) = podbook::registry::build(&sources);
    let mut draft = Draft::new(&registry, today);
    let event = Keep {
        plants: vec!["X22-02-3".to_owned()],
        ..Keep::default()
    };
    event.record(&mut draft).expect("a mark");
    let bytes = |text: Option<String>| text.map(String::into_bytes);
    let changes = draft.changes().into_iter().map(|page| FileChange {
        path: page.path,
        was: bytes(page.was),
        now: bytes(page.now),
    });
    let changes: Vec<FileChange> = changes.collect();
    assert_eq!(changes.len(), 1);
    let edited = format!("// written in the meantime\n{}", top.text(PAGE));
    let top = top.file(PAGE, &edited);
    let hold = Hold::to_write(top.path()).expect("nobody else writes");
    match commit(&hold, &changes, &NoFailures) {
        Err(Uncommitted::Nothing(refused)) => assert_eq!(refused.why, WhyUnwritten::Changed),
        other => panic!("{other:?}"),
    }
    assert_eq!(top.text(PAGE), edited);
}

/// Plants and gains of the readings proposed.
fn next(question: &str) -> Vec<(String, f64)> {
    let told: serde_json::Value =
        serde_json::from_str(&demo(question).stdout).expect("the answer is JSON");
    let rows = told["read_next"].as_array().expect("a list").iter();
    rows.map(|row| {
        let plant = row["plant"].as_str().expect("a code").to_owned();
        (plant, row["gain"].as_f64().expect("a gain"))
    })
    .collect()
}

#[test]
fn what_to_read_next_is_judged_within_each_cross_best_first() {
    let rules = "--weigh banding=1 --keep 3 --minutes 1000 --json";
    let together = next(&format!("select X22-02 X18-01 {rules}"));
    assert!(together.len() > 5, "{together:?}");
    assert!(together.windows(2).all(|pair| pair[0].1 >= pair[1].1));
    let alone = ["X22-02", "X18-01"].map(|cross| next(&format!("select {cross} {rules}")));
    let mut alone: Vec<_> = alone.concat();
    alone.sort_by(|a, b| b.1.total_cmp(&a.1));
    assert_eq!(together, alone);
}

/// Traits that are only shown: each plant has the reading it would be judged by if that trait alone counted, and nothing
/// else of the proposal changes.
#[test]
fn traits_shown_beside_change_nothing() {
    let of = |more: &str| -> serde_json::Value {
        let run = demo(&format!("select X22-02 --keep 4 {more} --json"));
        assert_eq!(run.exit, Some(0), "{run}");
        serde_json::from_str(&run.stdout).expect("JSON")
    };
    let mut shown = of("--weigh banding=2 --show all");
    let named: Vec<String> = shown["beside"]
        .as_array()
        .expect("traits")
        .iter()
        .map(|of| of["code"].as_str().expect("a code").to_owned())
        .collect();
    assert!(named.iter().any(|code| code == "span") && !named.contains(&"banding".to_owned()));
    for (at, code) in named.iter().enumerate() {
        let alone = of(&format!("--weigh {code}=1"));
        for list in ["plants", "gone"] {
            let rows = shown[list].as_array().expect("rows");
            assert!(!rows.is_empty() || list == "gone");
            for row in rows {
                let same = alone[list].as_array().expect("rows");
                let same = same.iter().find(|other| other["plant"] == row["plant"]);
                let same = &same.expect("the same plant")["readings"][0];
                assert_eq!(row["beside"][at], *same, "{code} of {}", row["plant"]);
            }
        }
    }
    let plain = of("--weigh banding=2");
    for list in ["plants", "gone"] {
        for row in shown[list].as_array_mut().expect("rows") {
            row.as_object_mut().expect("a row").remove("beside");
        }
        assert_eq!(shown[list], plain[list]);
    }
    let run = demo("select X22-02 --keep 4 --weigh banding=2 --show span --format svg");
    assert!(run.stdout.contains("shown only"), "{}", run.stderr);
    let run = demo("select X22-02 --keep 4 --weigh banding=2 --show span");
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(run.stderr.contains("--show adds columns"), "{run}");
    let run = demo("select X22-02 --keep 4 --weigh banding=2 --show rim-colour --json");
    assert!(run.stderr.contains("kinds without order"), "{run}");
}

/// A mark of the grower's stands, and the first line says what it costs.
#[test]
fn marks_that_outweigh_better_plants_are_said_first() {
    let top = copied();
    let marked = ask(top.path(), "keep X22-02-8 X22-02-2");
    assert_eq!(marked.exit, Some(0), "{marked}");
    let run = ask(top.path(), "select X22-02 --weigh span=1 --keep 3");
    let words: Vec<&str> = run.stdout.split_whitespace().collect();
    let words = words.join(" ");
    assert!(
        words.starts_with(
            "Keep X22-02-1, X22-02-2 and X22-02-8; 12 others are clearly better than X22-02-8, which is kept because it was marked."
        ),
        "{words}"
    );
    assert!(
        words.contains(
            "by plants marked before; clearly better than X22-02-8, which was marked before"
        ) && !words.contains("not clearly worse"),
        "{words}"
    );
}

/// Six seedlings of one sowing read once, to two centimetres; the two largest have too few teeth.
fn few_teeth(marked: &str) -> BenchTop {
    let page = format!(
        "(code: \"K\", parents: unknown, sowings: [(code: \"S1\", on: \"2023-01-10\")], seedlings: [\
         (number: \"1\"), (number: \"2\"), (number: \"3\"), (number: \"4\"), (number: \"5\"), (number: \"6\"{marked})], \
         sittings: [(on: \"2024-05-10\", columns: [\"span cm\", \"teeth\"], rows: [\
         [\"1\", \"12.0\", \"1\"], [\"2\", \"11.8\", \"1\"], [\"3\", \"9.0\", \"3\"], \
         [\"4\", \"6.6\", \"3\"], [\"5\", \"6.5\", \"3\"], [\"6\", \"3.0\", \"3\"]])])"
    );
    let settings = "(genus: \"Nepenthes\", hemisphere: north, traits: [\
        (code: \"span\", name: \"leaf span\", reads: length(cm), tied_within: 2), \
        (code: \"teeth\", name: \"teeth\", reads: scale([\"none\", \"few\", \"many\"]))])";
    BenchTop::with([("registry.ron", settings), ("crosses/K.ron", &page)])
}

/// The two plants whose reading matters most.
fn first_to_read(top: &BenchTop, rules: &str) -> Vec<String> {
    let line = format!("select K --weigh span=1 --keep 2 --minutes 2 --json {rules}");
    let words: Vec<&str> = line.split_whitespace().collect();
    let run = top.run(&words);
    assert_eq!(run.exit, Some(0), "{run}");
    let told: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
    let rows = told["read_next"].as_array().expect("a list");
    let mut codes: Vec<String> = rows
        .iter()
        .filter(|row| row["gain"].as_f64().expect("a gain") > 0.005)
        .map(|row| row["plant"].as_str().expect("a code").to_owned())
        .collect();
    codes.sort();
    codes
}

#[test]
fn the_border_is_between_plants_that_compete_for_a_place() {
    let top = few_teeth("");
    assert_eq!(first_to_read(&top, "--need teeth=3"), ["K-4", "K-5"]);
    let marked = ", kept: (on: \"2024-05-11\")";
    let top = few_teeth(marked);
    assert_eq!(first_to_read(&top, ""), ["K-1", "K-2"]);
}
