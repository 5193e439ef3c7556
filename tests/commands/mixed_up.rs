//! Plants of different pods whose tags were swapped: what each answer makes of them, and says.

use crate::bench_top::BenchTop;
use crate::demo::{ask, copied};

/// The demo after a mix-up noticed in June 2025.
fn after(one: &str, other: &str) -> BenchTop {
    let top = copied();
    let run = ask(top.path(), &format!("muddle {one} {other} --on 2025-06-01"));
    assert_eq!(run.exit, Some(0), "{run}");
    top
}

fn json(top: &BenchTop, question: &str) -> serde_json::Value {
    let run = ask(top.path(), &format!("{question} --json"));
    serde_json::from_str(&run.stdout).expect("it is JSON")
}

fn said(top: &BenchTop, question: &str) -> String {
    let run = ask(top.path(), question);
    run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// X22-02-3 names its sowing, X18-01-12 does not; the age of both is open all the same.
#[test]
fn merit_counts_the_readings_of_neither() {
    let top = after("X22-02-3", "X18-01-12");
    let question = "merit X22-02-3 X18-01-12 --trait span";
    let answer = json(&top, question);
    let rows = answer["rows"].as_array().expect("a list");
    let of = |row: &serde_json::Value| row["of_traits"][0]["readings"].as_u64();
    let readings: Vec<Option<u64>> = rows.iter().map(of).collect();
    assert_eq!(readings, [Some(0), Some(0)]);
    let before = json(&copied(), question)["traits"][0].clone();
    let lost = |of: &serde_json::Value| of["readings"].as_u64().expect("a count");
    assert_eq!(lost(&before) - lost(&answer["traits"][0]), 5);
    let words =
        "which pod each came from is not known, so figures by age leave out all their readings";
    assert!(said(&top, question).contains(words));
}

#[test]
fn growth_says_why_there_is_no_age() {
    let top = after("X22-02-3", "X18-01-12");
    let words = said(&top, "growth X22-02-3");
    let why =
        "X22-02-3: 1 plant that may be of several pods (mixed up), so its readings have no age";
    assert!(words.contains(why), "{words}");
}

#[test]
fn what_counts_one_cross_names_those_it_leaves_out() {
    let top = after("X22-02-3", "X18-01-12");
    let left_out = "1 numbered seedling may come from another sowing, pod or cross (mixed up): not counted here";
    for question in [
        "select X22-02 --weigh span=1",
        "grade X22-02.S1",
        "variation X22-02 X15-02",
        "siblings X22-02",
        "growth X22-02",
    ] {
        let words = said(&top, question);
        assert!(words.contains(left_out), "{question}: {words}");
        let before = said(&copied(), question);
        assert!(!before.contains("not counted here"), "{question}: {before}");
    }
}

/// Each pod ripened in less than half a year; the years between the two pods are no time a pod took.
#[test]
fn a_time_between_two_steps_is_that_of_one_pod() {
    let top = after("X22-02-3", "X18-01-12");
    let words = said(&top, "show X22-02-3");
    let harvest = "harvested 2018-10-05 or 2022-08-13 after 1";
    assert!(words.contains(harvest), "{words}");
    assert!(!words.contains("after 0–1548 days"), "{words}");
}

/// X18-01-4 bore the pod X22-02-3 is of; the tags were swapped years later.
#[test]
fn a_mother_and_her_seedling_can_be_mixed_up() {
    let top = after("X22-02-3", "X18-01-4");
    let check = said(&top, "check");
    assert!(check.contains("No faults"), "{check}");
    let mother = said(&top, "show X18-01-4");
    let parents = "X13-01-5, one of these; or a seedling of X22-02 since it was mixed up";
    assert!(mother.contains(parents), "{mother}");
    let doubt = "X18-01-4 may be a seedling of X22-02 since it was mixed up; its descent is given as that of the parent it was before";
    for question in [
        "show X18-01-4",
        "kinship X18-01-4 X22-02-5",
        "pair X18-01-4 X22-02-5",
        "pair X22-02-5 X18-01-4",
        "parentage X18-01-4",
        "pedigree X18-01-4",
    ] {
        let words = said(&top, question).replace("! ", "");
        assert!(words.contains(doubt), "{question}: {words}");
        let before = said(&copied(), question);
        assert!(!before.contains("since it was mixed up"), "{before}");
    }
    assert!(mother.contains("from one of two crosses"), "{mother}");
    let seedling = said(&top, "show X22-02-5");
    assert!(
        seedling.contains("parents ♀ X18-01-4 × ♂ Spa1"),
        "{seedling}"
    );
}

/// What a mixed-up plant may be is named by cross and parents, in each answer that goes through the ways.
#[test]
fn ways_are_named_alike() {
    let top = after("X22-02-3", "X18-01-12");
    let way = "X22-02 (X18-01-4 × Spa1)";
    for (question, words) in [
        ("parentage X22-02-3", way.to_owned()),
        ("pair X22-02-3 X18-01-4", format!("X22-02-3 of {way}")),
        ("kinship X22-02-3 X22-02-5", format!("X22-02-3 of {way}")),
    ] {
        let said = json(&top, question).to_string();
        assert!(said.contains(&words), "{question}: {said}");
    }
}

/// Crosses of five kinds, each with seedlings of a pod of its own.
fn crosses() -> BenchTop {
    let mut top = BenchTop::with([
        ("registry.ron", r#"(genus: "Nepenthes", hemisphere: north)"#),
        (
            "species.ron",
            r#"(species: [(epithet: "maxima"), (epithet: "veitchii")])"#,
        ),
        (
            "clones.ron",
            r#"(clones: [
                (code: "Max1", received: "N. maxima", confidence: tag), (code: "Max2", received: "N. maxima", confidence: tag),
                (code: "Vei1", received: "N. veitchii", confidence: tag), (code: "Vei2", received: "N. veitchii", confidence: tag),
            ])"#,
        ),
    ]);
    let parents = [
        "open(seed: \"Max1\")",
        "open(seed: \"Vei1\")",
        "known(seed: \"Max1\", pollen: \"Vei1\")",
        "known(seed: \"Max2\", pollen: \"Vei2\")",
        "pollen_unknown(seed: \"Max1\")",
    ];
    for (at, parents) in (1..).zip(parents) {
        let page = format!(
            "(code: \"X22-0{at}\", parents: {parents}, pods: [(code: \"P1\")], seedlings: [(number: \"1\", pod: \"P1\"), (number: \"2\", pod: \"P1\")])"
        );
        top = top.file(&format!("crosses/X22-0{at}.ron"), &page);
    }
    top
}

/// That pollination was open stays in the name, of every candidate or as one of the alternatives, each of which stands once.
#[test]
fn names_of_mixed_up_plants_keep_open_pollination_and_say_each_once() {
    let cases = [
        (
            "X22-01-1",
            "X22-02-1",
            "(N. maxima or N. veitchii) × ? (open pollinated)",
        ),
        (
            "X22-01-1",
            "X22-03-1",
            "N. maxima × (? (open pollinated) or N. veitchii)",
        ),
        (
            "X22-01-1",
            "X22-05-1",
            "N. maxima × (? (open pollinated) or ?)",
        ),
        (
            "X22-03-1",
            "X22-04-1",
            "N. maxima × N. veitchii (seed parent first)",
        ),
        (
            "X22-02-1",
            "X22-05-1",
            "(N. veitchii × ? (open pollinated)) or (N. maxima × ?)",
        ),
    ];
    for (one, other, name) in cases {
        let top = crosses();
        let run = top.run(&["muddle", one, other, "--on", "2024-01-01"]);
        assert_eq!(run.exit, Some(0), "{run}");
        let run = top.run(&["name", one]);
        let words = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(words.contains(name), "{name}: {run}");
    }
}

/// What the demo answers, with single blanks.
fn answered(question: &str) -> String {
    let run = crate::demo::demo(question);
    run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_seedling_of_one_of_several_pods_is_not_counted_as_numbered_out_of_one() {
    let siblings = answered("siblings X20-01");
    assert!(!siblings.contains("mixed up since"), "{siblings}");
    assert!(siblings.contains("4 of the 4 numbered"), "{siblings}");
}

#[test]
fn a_line_holds_no_seedling_that_may_be_of_another_cross() {
    let plan = answered("plan --any-time --pots 100");
    let words = "seasons ahead, line X20-01: 2 numbered seedlings may come from another sowing, pod or cross";
    assert!(plan.contains(words), "{plan}");
}

#[test]
fn a_plant_of_unknown_age_was_read() {
    let top = crate::demo::copied();
    let run = crate::demo::ask(top.path(), "muddle X22-02-11 X22-02-5");
    assert_eq!(run.exit, Some(0), "{run}");
    let rules = "select X22-02 --weigh span=1 --weigh banding=2 --keep 4";
    let run = crate::demo::ask(top.path(), rules);
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("its age then not known"), "{said}");
    assert!(!said.contains("2025-05-10 only"), "{said}");
}

#[test]
fn mixed_pollen_of_a_species_is_named() {
    let down = answered("pedigree Jac1 --down");
    let words = "with ♂ mixed pollen of Ham1 and N. talangensis:";
    assert!(down.contains(words), "{down}");
}
