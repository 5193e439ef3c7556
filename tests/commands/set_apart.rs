//! What may not be set side by side is neither left out silently nor counted twice.

use crate::bench_top::BenchTop;
use crate::demo::{ask, screen_of};

/// Two crosses of the same pair, read on one day: of X18-03 one sowing is dated by its season only.
fn tray(code: &str, second: &str) -> String {
    format!(
        r#"(code: "{code}", parents: known(seed: "V1", pollen: "S1"),
            sowings: [(code: "S1", on: "2018-09-10"), (code: "S2", on: "{second}")],
            seedlings: [(number: "1", sowing: "S1"), (number: "2", sowing: "S1"), (number: "3", sowing: "S1"),
                (number: "4", sowing: "S2"), (number: "5", sowing: "S2"), (number: "6", sowing: "S2")],
            sittings: [(on: "2020-05-12", columns: ["span cm"],
                rows: [["1", "6"], ["2", "7"], ["3", "8"], ["4", "2"], ["5", "15"], ["6", "20"]])])"#
    )
}

fn trays() -> BenchTop {
    BenchTop::sound()
        .file("crosses/X18-03.ron", &tray("X18-03", "autumn 2018"))
        .file("crosses/X18-04.ron", &tray("X18-04", "2018-09-10"))
}

fn told(top: &BenchTop, question: &str) -> String {
    let run = ask(top.path(), question);
    let all = format!("{} {}", run.stdout, run.stderr);
    all.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn siblings_of_a_sowing_dated_by_its_season_are_said_to_be_left_out() {
    let top = trays();
    let screen = screen_of(80, top.path(), "siblings X18-03").stdout;
    let screen = screen.split_whitespace().collect::<Vec<_>>().join(" ");
    let said = "leaf span 6.0–8.0 cm (3 of the 6 read)";
    assert!(screen.contains(said), "{screen}");
    let whole = told(&top, "siblings X18-03");
    assert!(
        whole.contains("3 plants read at other or unknown ages only"),
        "{whole}"
    );
    assert!(whole.contains("age with the most siblings read"), "{whole}");
    let both_dated = told(&top, "siblings X18-04");
    assert!(
        both_dated.contains("leaf span 2.0–20.0 cm") && !both_dated.contains("of the 6 read"),
        "{both_dated}"
    );
}

#[test]
fn variation_says_how_many_it_could_not_set_beside_the_others() {
    let words = told(&trays(), "variation X18-03 X18-04 --trait span");
    assert!(
        words.contains("X18-03: 3 more plants were read at other or unknown ages only"),
        "{words}"
    );
    assert!(!words.contains("X18-04: 3 more"), "{words}");
}

/// Seedlings whose pod is not recorded are of one pod or of two; the sowings are what is known.
#[test]
fn sowings_are_not_called_pods() {
    let words = told(&trays(), "growth X18-03 X18-04");
    assert!(words.contains("SD pods or sowings"), "{words}");
    let of_the_age_of_x18_01 = tray("X18-05", "2018-09-10").replace("2020-05-12", "2020-03-12");
    let top = trays().file("crosses/X18-05.ron", &of_the_age_of_x18_01);
    let run = ask(top.path(), "growth X18-01 X18-05 --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
    let sides = answer["comparisons"][0]["sides"].as_array();
    let sowings: Vec<bool> = sides
        .expect("a common age")
        .iter()
        .map(|side| side["some_are_sowings"].as_bool().expect("yes or no"))
        .collect();
    assert_eq!(sowings, [false, true], "{run}");
}

/// A pod and its sowing are the same seed, numbered or not: Fisher's test would take it twice.
#[test]
fn a_pod_is_not_set_against_its_own_sowing() {
    let unnumbered = r#"(code: "X19-01", parents: known(seed: "V1", pollen: "S1"), pods: [(code: "P1")],
        sowings: [(code: "S1", pod: "P1", on: "2019-01-05", seeds: 50, germinated: [(on: "2019-03-01", count: 20)])])"#;
    let top = BenchTop::sound().file("crosses/X19-01.ron", unnumbered);
    let run = ask(top.path(), "growth X19-01.P1 X19-01.S1");
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(
        run.stderr
            .contains("X19-01.P1 and X19-01.S1 share the seedlings of S1"),
        "{run}"
    );
}

/// A community pot that names no sowing is of the page's only sowing, as its seedlings are.
#[test]
fn a_pot_without_a_sowing_belongs_to_the_only_one() {
    let pots = |change: Option<(&str, &str)>| {
        let top = BenchTop::sound();
        let top = match change {
            Some((from, to)) => top.change("crosses/X18-01.ron", from, to),
            None => top,
        };
        let run = ask(top.path(), "siblings X18-01.P1 --json");
        let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
        answer["counts"]["community_pots"]
            .as_array()
            .expect("a list")
            .len()
    };
    assert_eq!(pots(None), 1);
    assert_eq!(
        pots(Some((
            r#"(code: "A", sowing: "W1", alive"#,
            r#"(code: "A", alive"#
        ))),
        1
    );
}

#[test]
fn a_potting_after_the_reading_is_not_denied() {
    let words = told(&trays(), "grade X18-04.S1 --trait span");
    assert!(
        words.contains("no potting before this reading on record"),
        "{words}"
    );
}

/// Nothing is "may be": the pots that stand here today need more than there is.
#[test]
fn a_full_shelf_is_said_to_be_full() {
    let seedlings: Vec<String> = (10..60)
        .map(|number| format!(r#"(number: "{number}", pots: [(on: "2024-01", pot: "10 cm")])"#))
        .collect();
    let page = format!(
        r#"(code: "X20-01", parents: known(seed: "V1", pollen: "S1"), sowings: [(code: "S1", on: "2020-01-05")],
            seedlings: [{}])"#,
        seedlings.join(", ")
    );
    let top = BenchTop::sound().file("crosses/X20-01.ron", &page).change(
        "registry.ron",
        "genus: \"Nepenthes\",",
        "genus: \"Nepenthes\", shelves: [(place: \"shelf 1\", width_cm: 40, depth_cm: 40)],",
    );
    let screen = screen_of(80, top.path(), "due").stdout;
    let screen = screen.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        screen.contains("The shelf is full: the pots need"),
        "{screen}"
    );
    assert!(!screen.contains("may be full by 2025-06-01"), "{screen}");
}
