//! A sitting dated after today: left out of every answer, and counted among what is left out.

use crate::bench_top::BenchTop;
use crate::demo::{ask, copied};

const SITTING: &str = "(on: \"2025-05-10\", place:";

/// The demo with the year of one sitting mistyped.
fn mistyped() -> BenchTop {
    copied().change(
        "crosses/X22-02.ron",
        SITTING,
        &SITTING.replace("2025", "2052"),
    )
}

/// The demo without that sitting's readings, which is what is left.
#[test]
fn no_answer_uses_it() {
    let top = mistyped();
    for question in [
        "growth X22-02",
        "siblings X22-02",
        "grade X22-02.S1",
        "select X22-02 --weigh span=1",
        "merit --trait span",
        "show X22-02-5",
        "card X22-02-5",
        "list --cross X22-02",
    ] {
        let run = ask(top.path(), question);
        assert!(!run.stdout.contains("2052"), "{question}: {run}");
        assert!(!run.stdout.contains("356.0 months"), "{question}: {run}");
        let notice = "1 fault in the registry: what it touches is left out; see `podbook check`\n";
        assert_eq!(run.stderr, notice, "{question}");
    }
    let check = ask(top.path(), "check");
    assert!(check.stdout.contains("date-in-future"), "{check}");
}

/// With a loop as well, the notice counts both.
#[test]
fn the_notice_counts_what_check_counts() {
    let loops = "(code: \"X30-01\", parents: known(seed: \"X30-01-1\", pollen: \"Spa1\"), seedlings: [(number: \"1\")])";
    let top = mistyped().file("crosses/X30-01.ron", loops);
    let check = ask(top.path(), "check");
    assert!(check.stdout.contains("2 faults"), "{check}");
    let run = ask(top.path(), "siblings X22-02");
    let notice = "2 faults in the registry: what they touch is left out; see `podbook check`\n";
    assert_eq!(run.stderr, notice);
}

/// A day is the first that a vague date can mean: this year's sitting may have been.
#[test]
fn a_sitting_that_may_have_been_counts() {
    let top = copied().change(
        "crosses/X22-02.ron",
        SITTING,
        &SITTING.replace("-05-10", ""),
    );
    let run = ask(top.path(), "show X22-02-5");
    assert_eq!(run.stderr, "");
    assert!(run.stdout.contains("2025"), "{run}");
}

/// Who mistyped a day looks for the sitting by its words.
#[test]
fn a_search_finds_it() {
    let run = ask(mistyped().path(), "find LED");
    assert!(run.stdout.contains("X22-02 2052-05-10"), "{run}");
}

/// A count of seedlings, a spike and a count of pods with mistyped years, each a fault that `check` counts.
#[test]
fn nor_what_else_was_seen_on_a_day_to_come() {
    let top = copied()
        .change(
            "crosses/X22-02.ron",
            "(on: \"2023-01-14\", count: 43)",
            "(on: \"2032-01-14\", count: 43)",
        )
        .change(
            "clones.ron",
            "(opened: \"2020-08\", sex: male)",
            "(opened: \"2052-08\", sex: male)",
        );
    let growth = ask(top.path(), "growth X22-02");
    assert!(growth.stdout.contains("38"), "{growth}");
    let crosses = ask(top.path(), "list crosses --json");
    let tried: serde_json::Value = serde_json::from_str(&crosses.stdout).expect("JSON");
    let rows = tried["crosses"].as_array().or(tried.as_array());
    let of = |row: &&serde_json::Value| row["id"] == "X22-02";
    let row = rows.expect("crosses").iter().find(of).expect("the cross");
    assert_eq!(row["germinated"], 38 + 24, "{row}");
    let show = ask(top.path(), "show Tru1");
    assert!(show.stdout.contains("unsexed"), "{show}");
    let notice = "2 faults in the registry: what they touch is left out; see `podbook check`\n";
    assert_eq!(show.stderr, notice);
    let check = ask(top.path(), "check");
    assert!(check.stdout.contains("2 faults"), "{check}");
}

/// A plant or piece that is to be back on a day to come is away until then.
#[test]
fn a_return_to_come_has_not_been() {
    let top = copied();
    let status = |question: &str, today: &str| -> String {
        let run = top.run(&["show", question, "--today", today]);
        run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    for (today, wanted) in [
        ("2021-09-01", "status in the collection"),
        ("2022-01-01", "status given away 2021-10"),
        ("2022-06-01", "status in the collection; back in 2022-04"),
    ] {
        let words = status("Amp1", today);
        assert!(words.contains(wanted), "{today}: {words}");
    }
    let words = status("Amp1", "2023-01-01");
    assert!(
        words.contains("Amp1-b cutting of Amp1-a given away 2022-11"),
        "{words}"
    );
}
