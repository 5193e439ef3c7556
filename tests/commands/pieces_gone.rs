//! What becomes of spikes, zones, places and pots when a piece of a plant is gone and another is here.

use crate::bench_top::BenchTop;

const FOUNDERS: &str = "(clones: [
(code: \"V1\", received: \"N. ventricosa\", confidence: tag, ramets: [(code: \"a\", made: original),
    (code: \"b\", from: \"a\", made: cutting, rooted: \"2024-01-01\")]),
(code: \"V2\", received: \"N. ventricosa\", confidence: tag),
(code: \"V3\", received: \"N. ventricosa\", confidence: tag),
(code: \"S1\", received: \"N. spathulata\", confidence: tag, ramets: [(code: \"a\", made: original),
    (code: \"b\", from: \"a\", made: cutting, rooted: \"2024-01-01\")]),
])";

fn top() -> BenchTop {
    BenchTop::with([
        (
            "registry.ron",
            "(genus: \"Nepenthes\", hemisphere: north, format: 2)",
        ),
        (
            "species.ron",
            "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])",
        ),
        ("clones.ron", FOUNDERS),
    ])
}

/// What a line answers on a day, on both channels.
fn said(top: &BenchTop, day: &str, line: &str) -> String {
    let words: Vec<&str> = line.split(' ').chain(["--today", day]).collect();
    let run = top.run(&words);
    [run.stdout, run.stderr].concat()
}

/// Lines that are to be recorded, each on its day.
fn record(top: &BenchTop, lines: &[(&str, &str)]) {
    for (day, line) in lines {
        let words: Vec<&str> = line.split(' ').chain(["--today", day]).collect();
        let run = top.run(&words);
        assert_eq!(run.exit, Some(0), "{line}\n{run}");
    }
}

#[track_caller]
fn holds(said: &str, words: &[&str]) {
    let folded = said.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in words {
        match words.strip_prefix("not: ") {
            Some(words) => assert!(!folded.contains(words), "`{words}` in\n{said}"),
            None => assert!(folded.contains(words), "no `{words}` in\n{said}"),
        }
    }
}

/// Both sexes opened on pieces; then one died and one was sold.
fn spikes_gone() -> BenchTop {
    let top = top();
    record(
        &top,
        &[
            ("2024-05-10", "flower V1-a --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower V2 --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower S1-a --sex male --opened 2024-05-10"),
            ("2024-05-20", "gone V1-a --died --why rot"),
            ("2024-05-20", "gone S1-a --sold"),
        ],
    );
    top
}

#[test]
fn the_spike_of_a_piece_that_is_gone_is_not_open() {
    let top = spikes_gone();
    let on = |line: &str| said(&top, "2024-05-21", line);
    holds(&on("ready"), &["1 female open", "not: V1", "not: S1"]);
    holds(&on("plan"), &["not: V1", "not: S1 fresh"]);
    holds(&on("pair V1 S1"), &["not: can be made now"]);
    holds(
        &on("due"),
        &["pollinate V2", "not: pollinate V1", "not: collect pollen"],
    );
}

#[test]
fn pollen_is_not_taken_off_a_spike_that_left_with_its_piece() {
    let top = spikes_gone();
    holds(
        &said(&top, "2024-05-21", "collect S1"),
        &["its open flowers were those of S1-a: sold 2024-05-20"],
    );
    holds(
        &said(
            &top,
            "2024-05-21",
            "pollinate V1 --with S1 --zone A --flowers 5",
        ),
        &["V1-a: died 2024-05-20 (rot)"],
    );
    holds(
        &said(&top, "2024-05-21", "collect S1 --on 2024-05-15"),
        &["S1-2405"],
    );
}

/// Three zones dusted on a piece that died, a plant that was sold and one that died.
#[test]
fn a_zone_whose_plant_is_gone_is_no_job() {
    let top = top();
    record(
        &top,
        &[
            ("2024-05-10", "flower V1-a --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower V2 --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower V3 --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower S1 --sex male --opened 2024-05-10"),
            (
                "2024-05-12",
                "pollinate V1-a --with S1 --zone A --flowers 5",
            ),
            ("2024-05-12", "pollinate V2 --with S1 --zone A --flowers 5"),
            ("2024-05-12", "pollinate V3 --with S1 --zone A --flowers 5"),
            ("2024-05-14", "gone V1-a --died --why rot"),
            ("2024-05-14", "gone V2 --sold"),
            ("2024-05-14", "gone V3 --died"),
        ],
    );
    let zones = ["not: X24-01.A", "not: X24-02.A", "not: X24-03.A"];
    holds(&said(&top, "2024-05-14", "due"), &zones);
    holds(&said(&top, "2024-05-30", "due"), &zones);
    holds(&said(&top, "2024-09-14", "due"), &zones);
}

/// Pods that may have been ripe by the day its plant died are asked for; those of a plant that was sold are its buyer's.
#[test]
fn pods_that_were_ripe_before_their_plant_died_are_asked_for() {
    let top = top();
    record(
        &top,
        &[
            ("2024-05-10", "flower V2 --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower V3 --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower S1 --sex male --opened 2024-05-10"),
            ("2024-05-12", "pollinate V2 --with S1 --zone A --flowers 5"),
            ("2024-05-12", "pollinate V3 --with S1 --zone A --flowers 5"),
            ("2024-08-14", "gone V2 --sold"),
            ("2024-08-14", "gone V3 --died"),
        ],
    );
    holds(
        &said(&top, "2024-09-14", "due"),
        &[
            "X24-02.A 5 flowers, set not counted; the plant: died 2024-08-14",
            "not: X24-01.A",
        ],
    );
}
