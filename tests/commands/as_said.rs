//! Nothing is written that was not said, and nothing printed is surer than what is recorded.

use crate::bench_top::BenchTop;

/// Runs lines in a new registry of the sound one's founders, the last of which is returned.
fn said(top: &BenchTop, lines: &[&str]) -> String {
    let mut last = String::new();
    for line in lines {
        let words: Vec<&str> = line.split(' ').collect();
        let run = top.run(&words);
        assert_eq!(run.exit, Some(0), "{line}\n{run}");
        last = run.stdout;
    }
    last
}

#[test]
fn a_total_without_the_count_of_one_sowing_is_a_minimum() {
    let top = BenchTop::sound();
    said(
        &top,
        &[
            "add-seed ventricosa --seeds 60 --code X23-01 --on 2023-08-01",
            "sow X23-01 --on 2023-09-01",
            "sow X23-01 --seeds 20 --on 2023-09-02",
            "count X23-01.S1 --up 30 --on 2023-11-01",
        ],
    );
    let shown = said(&top, &["show X23-01"]);
    let words = "at least 20 seeds sown, at least 30 germinated";
    assert!(shown.contains(words), "{shown}");
    let listed = said(&top, &["list crosses --format csv"]);
    let row = listed.lines().find(|line| line.starts_with("X23-01,"));
    assert!(
        row.is_some_and(|row| row.contains("at least 20,at least 30")),
        "{listed}"
    );
    let counted = listed.lines().find(|line| line.starts_with("X22-02,"));
    assert!(
        counted.is_some_and(|row| row.contains(",60,21,")),
        "{listed}"
    );
}

#[test]
fn a_doubt_of_the_whole_label_of_seed_is_kept() {
    for label in ["maxima x spectabilis?", "possibly maxima x spectabilis"] {
        let top = BenchTop::sound();
        for line in [
            &["add-seed", label, "--code", "X24-01", "--on", "2024"][..],
            &["sow", "X24-01", "--seeds", "20", "--on", "2024-03-01"],
            &["number", "X24-01.S1", "1-2", "--on", "2024-05-01"],
        ] {
            let run = top.run(line);
            assert_eq!(run.exit, Some(0), "{line:?}\n{run}");
        }
        let shares = said(&top, &["parentage X24-01-1"]);
        for words in [
            "maxima (?)",
            "spectabilis (?)",
            "name in the parentage is provisional",
        ] {
            assert!(shares.contains(words), "{words}\n{shares}");
        }
        for question in [
            "name X24-01",
            "name X24-01-1",
            "card X24-01-1",
            "tags X24-01-1",
        ] {
            let shown = said(&top, &[question]);
            assert!(shown.contains("(?)"), "{question}\n{shown}");
        }
        let name = said(&top, &["name X24-01-1"]);
        assert!(!name.contains("maxima (claimed)/"), "{name}");
    }
}

#[test]
fn a_guess_of_seeds_is_called_one() {
    let top = BenchTop::sound();
    said(
        &top,
        &[
            "pollinate V1 --with T1 --zone A --on 2023-03-01",
            "took X23-01.A 1 --on 2023-04-01",
            "harvest X23-01.A --capsules 1 --seeds 260 --estimated --on 2023-08-01",
        ],
    );
    for question in ["show X23-01", "show X23-01.P1", "list pods"] {
        let shown = said(&top, &[question]);
        assert!(shown.contains("about 260"), "{question}\n{shown}");
    }
    let sown = said(
        &top,
        &["sow X23-01.L1 --seeds 261 --on 2023-09-01", "check"],
    );
    assert!(sown.contains("the number was a guess"), "{sown}");
}

#[test]
fn a_place_of_pollen_that_was_not_said_is_not_written() {
    let top = BenchTop::sound();
    said(&top, &["collect T1 --code E1 --on 2022-04-20"]);
    let page = std::fs::read_to_string(top.path().join("pollen.ron")).expect("the page is there");
    let line = page.lines().find(|line| line.contains("\"E1\""));
    assert!(line.is_some_and(|line| !line.contains("stored")), "{page}");
    let ready = said(&top, &["ready"]);
    assert!(ready.contains("older than most pollen"), "{ready}");
}

#[test]
fn a_length_ten_times_an_old_one_is_asked_about() {
    let top = BenchTop::sound();
    let line = [
        "measure",
        "X22-02-1",
        "--traits",
        "span",
        "--today",
        "2026-06-01",
    ];
    let run = top.run_with("41\n", &line);
    assert_ne!(run.exit, Some(0), "{run}");
    assert!(run.stderr.contains("41"), "{run}");
    let grown = top.run_with("30\n", &line);
    assert_eq!(grown.exit, Some(0), "{grown}");
}

#[test]
fn what_an_opinion_is_based_on_is_named() {
    let top = BenchTop::sound();
    said(
        &top,
        &["opinion V1 truncata --by visitor --basis visual --accept"],
    );
    let shown = said(&top, &["show V1"]);
    assert!(
        !shown.contains("how it is known is not recorded"),
        "{shown}"
    );
    assert!(shown.contains("on the basis \"visual\""), "{shown}");
}

#[test]
fn the_least_room_keeps_seedlings_whose_last_day_in_the_tray_has_passed() {
    let top = BenchTop::sound();
    said(
        &top,
        &[
            "add-seed ventricosa --seeds 100 --code X23-01 --on 2023-08-01",
            "sow X23-01 --seeds 100 --on 2023-09-01",
            "count X23-01.S1 --up 55 --on 2023-11-01",
            "prick X23-01.S1 40 --on 2024-03-01",
        ],
    );
    let pots = |today: &str| -> Vec<u64> {
        let json = top.run(&["due", "--json", "--today", today]).stdout;
        let due: serde_json::Value = serde_json::from_str(&json).expect("JSON");
        let months = due["room"]["months"].as_array().expect("months");
        let least = months.iter().map(|month| month["pots"][0].as_u64());
        least.map(|least| least.expect("a number")).collect()
    };
    let in_time = pots("2024-06-02");
    let after = pots("2024-12-02");
    // Before the last day the seedlings are not surely in pots of their own; after it they are, on every day asked about.
    assert!(in_time[0] + 40 <= in_time[12], "{in_time:?}");
    assert_eq!(after, vec![in_time[12]; 13]);
}

/// A mixed-up seedling came out of one of its pods, each as likely as any other, and the pairs of a pod share its chance:
/// here Max1 is the father in 1/2 · 1/2 + 1/2 · 1 = 3/4 of the cases.
#[test]
fn a_mixed_up_seedling_is_of_each_pod_alike() {
    let clones = "(clones: [(code: \"Tru1\", received: \"N. truncata\", confidence: tag), \
        (code: \"Spa1\", received: \"N. spathulata\", confidence: tag), \
        (code: \"Max1\", received: \"N. ventricosa\", confidence: tag)])";
    let one_of = "(code: \"X23-01\", parents: pollen_one_of(seed: \"Tru1\", pollen: [\"Spa1\", \"Max1\"]), \
        pods: [(code: \"P1\")], seedlings: [(number: \"1\", one_of: [\"P1\", \"X23-02.P1\"])])";
    let known = "(code: \"X23-02\", parents: known(seed: \"Tru1\", pollen: \"Max1\"), pods: [(code: \"P1\"), (code: \"P2\")], \
        seedlings: [(number: \"1\", one_of: [\"P1\", \"P2\", \"X23-01.P1\"])])";
    let top = BenchTop::with([
        ("registry.ron", include_str!("sound/registry.ron")),
        ("species.ron", include_str!("sound/species.ron")),
        ("clones.ron", clones),
        ("crosses/X23-01.ron", one_of),
        ("crosses/X23-02.ron", known),
    ]);
    let kinship = |plant: &str| {
        let said = said(&top, &[&format!("kinship {plant} Max1")]);
        said.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let one = kinship("X23-01-1");
    let words = "at least 0 (1 in 4) or 0.25 (3 in 4), depending on which of several parents is the true one; expected 0.1875";
    assert!(one.contains(words), "{one}");
    // Two of three pods are of Max1 for certain: 2/3 + 1/3 · 1/2 = 5/6.
    let two = kinship("X23-02-1");
    assert!(two.contains("0 (1 in 6) or 0.25 (5 in 6)"), "{two}");
}

/// A whole shelf is one shelf: not every place that begins like it, and a word alone is no shelf with a number.
#[test]
fn a_place_is_not_every_place_that_begins_like_it() {
    let places = [
        "shelf 1",
        "shelf 1, front",
        "shelf 1 front",
        "Shelf 1",
        "shelf 1/left",
        "shelf 10",
        "shelf 1b",
        "shelf 1-2",
        "top shelf 1",
    ];
    let seedling =
        |(at, place): (usize, &&str)| format!("(number: \"{}\", place: \"{place}\")", at + 1);
    let seedlings: Vec<String> = places.iter().enumerate().map(seedling).collect();
    let page = format!(
        "(code: \"K\", parents: known(seed: \"V1\", pollen: \"S1\"), confidence: tag, seedlings: [{}])",
        seedlings.join(", ")
    );
    let top = BenchTop::sound().file("crosses/K.ron", &page);
    let listed = |place: &str| {
        let run = top.run(&["list", "plants", "--place", place, "--format", "csv"]);
        let rows = run.stdout.lines().filter(|line| line.starts_with("K-"));
        let codes = rows.map(|line| line.split(',').next().unwrap_or_default().to_owned());
        codes.collect::<Vec<String>>()
    };
    assert_eq!(listed("shelf 1"), ["K-1", "K-2", "K-3", "K-4", "K-5"]);
    assert_eq!(listed("shelf"), Vec::<String>::new());
    assert_eq!(listed("shelf 1, front"), ["K-2"]);
    let all = top.run(&["gone", "--place", "shelf", "--died", "--on", "2024-05-01"]);
    assert_ne!(all.exit, Some(0), "{all}");
    assert!(!top.text("crosses/K.ron").contains("died"));
}

/// Every answer that knows a plant by its tag says where that tag may be on another plant.
#[test]
fn tags_that_were_mixed_up_are_said_beside_every_figure() {
    let page = r#"(code: "K", parents: known(seed: "V1", pollen: "S1"), confidence: tag, pods: [(code: "P1")],
        seedlings: [(number: "1", pod: "P1"), (number: "2", pod: "P1"), (number: "3", pod: "P1")])"#;
    let top = BenchTop::sound().file("crosses/K.ron", page);
    let words =
        "K-1 and K-2 were mixed up, noticed on 2024-05-01: either tag may be on the other plant";
    let questions = ["kinship K-1 K-3", "pair K-1 T1", "list plants --cross K"];
    for question in questions {
        let before = said(&top, &[question]);
        assert!(!before.contains("mixed up"), "{question}\n{before}");
    }
    said(&top, &["muddle K-1 K-2 --on 2024-05-01"]);
    for question in questions {
        let after = said(&top, &[question]);
        let after = after.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(after.contains(words), "{question}\n{after}");
    }
}

/// An inch is 2.54 cm: a plant read at the level to the last digit has reached it.
#[test]
fn a_plant_at_the_level_has_reached_it_in_inches_too() {
    let rows: Vec<String> = (1..=20).map(|n| format!("[\"{n}\", \"{n} in\"]")).collect();
    let seedlings: Vec<String> = (1..=20)
        .map(|n| format!("(number: \"{n}\", sowing: \"S1\")"))
        .collect();
    let page = format!(
        "(code: \"K\", parents: known(seed: \"V1\", pollen: \"S1\"), confidence: tag, sowings: [(code: \"S1\", on: \"2022-01-01\")],
          seedlings: [{}], sittings: [(on: \"2024-01-01\", columns: [\"span\"], rows: [{}])])",
        seedlings.join(", "),
        rows.join(", ")
    );
    let top = BenchTop::sound().file("crosses/K.ron", &page);
    let settings = top
        .text("registry.ron")
        .replacen('(', "(show_lengths_in: in, ", 1);
    let top = top.file("registry.ron", &settings);
    for level in 1..=20 {
        let need = format!("span={level}");
        let run = top.run(&["select", "K", "--need", &need, "--keep", "99", "--json"]);
        let kept = run.stdout.matches("\"proposal\": \"keep\"").count();
        assert_eq!(kept, 21 - level, "{level}\n{run}");
    }
}
