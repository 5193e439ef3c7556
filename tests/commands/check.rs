//! `podbook check`.

use crate::bench_top::BenchTop;
use insta::assert_snapshot;

#[test]
fn a_sound_registry_has_nothing_to_mend() {
    assert_snapshot!(BenchTop::sound().run(&["check"]));
}

#[test]
fn a_folder_without_a_registry_is_refused() {
    assert_snapshot!(BenchTop::empty().run(&["check"]));
}

/// Faults of every kind in one file: each is told at its place in one run, and what is sound is kept.
#[test]
fn a_file_full_of_faults_is_taken_apart() {
    let spoilt = include_str!("spoilt/X18-01.ron");
    let top = BenchTop::sound().file("crosses/X18-01.ron", spoilt);
    assert_snapshot!(top.run(&["check"]));
}

#[test]
fn findings_come_as_rows_of_json() {
    let top =
        BenchTop::sound().change("clones.ron", "cut: \"2017\"", "cut: \"2017\", culled: true");
    assert_snapshot!(top.run(&["check", "--json"]));
}

/// What only the whole registry shows: sexes, dates and counts that contradict each other across files.
#[test]
fn contradictions_across_files_are_told_with_both_places() {
    let top = BenchTop::sound()
        .change("clones.ron", "sex: female", "sex: male")
        .change("crosses/X22-02.ron", "\"2022-09\"", "\"spring 2022\"")
        .change("crosses/X22-02.ron", "\"2022-05-03\"", "\"2022-06-03\"")
        .change("crosses/X18-01.ron", "count: 92", "count: 192");
    assert_snapshot!(top.run(&["check"]));
}

#[test]
fn warnings_and_notes_alone_end_well() {
    let top = BenchTop::sound().change(
        "clones.ron",
        "ramets: [(code: \"a\", made: original), (code: \"b\", from: \"a\", made: division, cut: \"2017\")],",
        "",
    );
    assert_snapshot!(top.run(&["check"]));
}

/// The count comes first, then faults, then warnings, wherever in the files they stand; notes are counted, not shown.
#[test]
fn the_count_comes_first_and_notes_are_folded() {
    let top = BenchTop::sound()
        .change(
            "clones.ron",
            ", (code: \"b\", from: \"a\", made: division, cut: \"2017\")",
            "",
        )
        .change("crosses/X18-01.ron", "count: 92", "count: 192")
        .change(
            "crosses/X18-01.ron",
            "[\"3\", \"3.0\", \"\"]",
            "[\"3\", \"3.0 cm\"]",
        );
    let run = top.run(&["check"]);
    let lines: Vec<&str> = run.stdout.lines().collect();
    let heads = |stdout: &str| -> Vec<String> {
        let head = |line: &&str| {
            ["fault", "warning", "note"]
                .iter()
                .any(|word| line.starts_with(word))
        };
        stdout
            .lines()
            .filter(head)
            .map(|line| line.split(' ').take(2).collect::<Vec<_>>().join(" "))
            .collect()
    };
    assert!(
        lines[0].starts_with("1 fault, 1 warning, 1 note in 6 files: "),
        "{}",
        lines[0]
    );
    assert_eq!(
        heads(&run.stdout),
        ["fault more-germinated-than-sown:", "warning short-row:"]
    );
    let last = "1 note not shown (1 sole-ramet): `podbook check --notes` shows them";
    assert_eq!(lines.last(), Some(&last));
    let all = top.run(&["check", "--notes"]);
    assert_eq!(heads(&all.stdout)[2..], ["note sole-ramet:"]);
    assert!(!all.stdout.contains("not shown"), "{all}");
    let rows: Vec<String> = top
        .run(&["check", "--json"])
        .stdout
        .lines()
        .filter_map(|line| {
            line.trim()
                .strip_prefix("\"severity\": \"")
                .map(str::to_owned)
        })
        .collect();
    assert_eq!(rows, ["fault\",", "warning\",", "note\","]);
}

/// An answer that rests on a registry with a fault says so beside the answer.
#[test]
fn other_verbs_point_to_the_faults() {
    let left_out = BenchTop::sound().change("clones.ron", "confidence: tag", "confidence: tagg");
    let contradicted = BenchTop::sound().change("clones.ron", "sex: female", "sex: male");
    for (top, remark) in [
        (
            left_out,
            "1 fault in the registry: what it touches is left out; see `podbook check`\n",
        ),
        (
            contradicted,
            "1 fault in the registry; see `podbook check`\n",
        ),
    ] {
        let run = top.run(&["name", "X22-02"]);
        assert_eq!((run.exit, run.stderr.as_str()), (Some(0), remark));
    }
}

/// A remark is no reading.
#[test]
fn remarks_are_not_counted_as_readings() {
    let page = "(code: \"X24-01\", parents: known(seed: \"V1\", pollen: \"S1\"), confidence: tag, seedlings: [(number: \"1\")], \
         sittings: [(on: \"2024-05-01\", columns: [\"span cm\", \"note\"], rows: [[\"1\", \"\", \"pale\"]])])";
    let readings = |page: &str| {
        let top = BenchTop::with([
            ("registry.ron", include_str!("sound/registry.ron")),
            ("clones.ron", include_str!("sound/clones.ron")),
            ("species.ron", include_str!("sound/species.ron")),
            ("crosses/X24-01.ron", page),
        ]);
        let run = top.run(&["check", "--json"]);
        let report: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
        report["readings"].as_u64().expect("a number")
    };
    assert_eq!(readings(page), 0);
    assert_eq!(readings(&page.replace("\"1\", \"\"", "\"1\", \"4\"")), 1);
}
