//! What a plan may not do, on the smallest registries that tempted it to: take flowers that may be over for open ones, give a
//! spike pods of pollen it never meets, count plants that are gone, list a pod that is worth less than none.

use crate::bench_top::BenchTop;
use serde_json::Value;

const SPECIES: &str =
    "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\"), (epithet: \"truncata\")])";
const SETTINGS: &str = "(genus: \"Nepenthes\", hemisphere: north, format: 2, \
     traits: [(code: \"span\", name: \"leaf span\", reads: length(cm)), \
     (code: \"squat\", name: \"squatness\", reads: number)])";

/// A founder that came with a tag, and its flowerings.
fn founder(code: &str, species: &str, flowerings: &str) -> String {
    format!(
        "(code: \"{code}\", received: \"N. {species}\", confidence: tag, flowerings: [{flowerings}])"
    )
}

fn top(founders: &[String], goals: &str) -> BenchTop {
    let clones = format!("(clones: [{}])", founders.join(", "));
    BenchTop::with([
        ("registry.ron", SETTINGS),
        ("species.ron", SPECIES),
        ("clones.ron", clones.as_str()),
        ("goals.ron", goals),
    ])
}

fn answer(top: &BenchTop, line: &str) -> Value {
    let words: Vec<&str> = line.split(' ').collect();
    let run = top.run(&[&words[..], &["--json", "--today", "2024-05-14"]].concat());
    serde_json::from_str(&run.stdout).unwrap_or_else(|why| panic!("{line}: {why}\n{run}"))
}

/// Two females: one opened 55 days ago and may be over, the other is open; one envelope for one pod.
#[test]
fn flowers_that_may_be_over_meet_stored_pollen_only_perhaps() {
    let top = top(
        &[
            founder(
                "Ven1",
                "ventricosa",
                "(opened: \"2024-03-20\", sex: female)",
            ),
            founder(
                "Ven2",
                "ventricosa",
                "(opened: \"2024-05-10\", sex: female)",
            ),
            founder(
                "Spa1",
                "spathulata",
                "(opened: \"2022-05-01\", over: \"2022-05-20\", sex: male)",
            ),
        ],
        "(pots: 20, seedlings_per_pod: 20, uses_per_pollen: 1)",
    )
    .file(
        "pollen.ron",
        "(lots: [(code: \"A\", from: plant(\"Spa1\"), collected: \"2024-05-01\", stored: fridge)])",
    );
    let plan = top.run(&["plan", "--today", "2024-05-14"]);
    assert!(plan.stdout.contains("Ven2"), "{plan}");
    let made: Vec<&str> = plan
        .stdout
        .lines()
        .filter(|line| line.trim_start().starts_with("1  Ven"))
        .collect();
    assert!(
        made.len() == 1 && made[0].contains("Ven2"),
        "what surely meets is taken first: {made:?}\n{plan}"
    );
}

/// A spike noted as over today may have no flower left, for every question alike.
#[test]
fn a_spike_over_today_meets_pollen_only_perhaps() {
    let top = top(
        &[
            founder(
                "Ven1",
                "ventricosa",
                "(opened: \"2024-05-01\", over: \"2024-05-14\", sex: female)",
            ),
            founder("Spa1", "spathulata", "(opened: \"2024-05-08\", sex: male)"),
        ],
        "(pots: 20, seedlings_per_pod: 20, pods_per_spike: 1)",
    );
    for (command, perhaps) in [
        ("ready", "perhaps 2024-05-14"),
        ("plan", "perhaps 2024-05-14"),
        ("pair Ven1 Spa1", "the flowers of Ven1 may be over"),
    ] {
        let words: Vec<&str> = command.split(' ').collect();
        let run = top.run(&[&words[..], &["--today", "2024-05-14"]].concat());
        let told = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(told.contains(perhaps), "{command}: {run}");
    }
}

/// A spike that opened counts as open until it outlives its range, for every question alike.
#[test]
fn an_open_spike_is_open_to_every_question() {
    let top = top(
        &[
            founder(
                "Ven1",
                "ventricosa",
                "(opened: \"2024-04-29\", sex: female)",
            ),
            founder("Spa1", "spathulata", "(opened: \"2024-05-10\", sex: male)"),
        ],
        "(pots: 60, seedlings_per_pod: 10)",
    );
    for line in ["ready", "plan"] {
        let words: Vec<&str> = line.split(' ').collect();
        let run = top.run(&[&words[..], &["--today", "2024-05-14"]].concat());
        assert!(!run.stdout.contains("perhaps"), "{run}");
    }
    let run = top.run(&["pair", "Ven1", "Spa1", "--today", "2024-05-14"]);
    assert!(run.stdout.contains("can be made now"), "{run}");
}

/// One pod to a spike; the second spike opens after the last day of the only pollen.
#[test]
fn a_spike_bears_no_pod_of_pollen_that_it_never_meets() {
    let spikes = "(code: \"a\", opened: \"2024-05-10\", sex: female), \
                  (code: \"b\", spike: \"2024-05-10\", sex: female)";
    let top = top(
        &[
            founder("Ven1", "ventricosa", spikes),
            founder("Spa1", "spathulata", "(opened: \"2024-05-08\", sex: male)"),
        ],
        "(pots: 60, seedlings_per_pod: 10, pods_per_spike: 1, uses_per_pollen: 9)",
    );
    let run = top.run(&["plan", "--today", "2024-05-14"]);
    assert!(run.stdout.starts_with("1 pod in 10 of 60 pots"), "{run}");
}

/// Two males shed pollen now, and only the first of two spikes is open by then: it bears its own pods and no more.
#[test]
fn pollens_that_meet_one_spike_share_its_pods() {
    let spikes = "(code: \"a\", opened: \"2024-05-10\", sex: female), \
                  (code: \"b\", spike: \"2024-05-10\", sex: female)";
    let male = "(opened: \"2024-05-08\", sex: male)";
    let top = top(
        &[
            founder("Ven1", "ventricosa", spikes),
            founder("Spa1", "spathulata", male),
            founder("Tru1", "truncata", male),
        ],
        "(pots: 60, seedlings_per_pod: 10, pods_per_spike: 2, uses_per_pollen: 9)",
    );
    let run = top.run(&["plan", "--today", "2024-05-14"]);
    assert!(run.stdout.contains("2 pods in 20 of 60 pots"), "{run}");
    let limits = answer(&top, "plan");
    let limits = limits["limits"].as_array().unwrap();
    let gain = limits
        .iter()
        .find(|row| row["limit"].as_str().unwrap().contains("Ven1"));
    assert_eq!(gain.unwrap()["gain"], 1.0, "{limits:?}");
}

/// The seedlings of one cross of which the slow ones may have been culled.
fn with_slow(fate: &str) -> BenchTop {
    let founders = ["Ven1", "Ven2", "Ven3"].map(|code| founder(code, "ventricosa", ""));
    let slow = |number: &str| format!("(number: \"{number}\", sowing: \"S1\"{fate})");
    let cross = format!(
        "(code: \"X20-01\", parents: known(seed: \"Ven1\", pollen: \"Ven2\"), confidence: witnessed, \
         pods: [(code: \"P1\")], sowings: [(code: \"S1\", pod: \"P1\", on: \"2021-01-10\")], \
         seedlings: [(number: \"1\", sowing: \"S1\", flowerings: [(opened: \"2024-05-01\", sex: female)]), \
         (number: \"2\", sowing: \"S1\"), {}, {}], \
         sittings: [(on: \"2022-06-01\", columns: [\"span cm\"], \
         rows: [[\"1\", \"8\"], [\"2\", \"7\"], [\"3\", \"2\"], [\"4\", \"2\"]])])",
        slow("3"),
        slow("4")
    );
    let other = "(code: \"X20-02\", parents: known(seed: \"Ven3\", pollen: \"Ven2\"), confidence: witnessed, \
         pods: [(code: \"P1\")], sowings: [(code: \"S1\", pod: \"P1\", on: \"2021-01-10\")], \
         seedlings: [(number: \"1\", sowing: \"S1\", flowerings: [(opened: \"2024-05-01\", sex: male)])], \
         sittings: [(on: \"2022-06-01\", columns: [\"span cm\"], rows: [[\"1\", \"5\"]])])";
    top(&founders, "()")
        .file("crosses/X20-01.ron", &cross)
        .file("crosses/X20-02.ron", other)
}

/// The merit of a plant in an answer of `merit`.
fn index(merit: &Value, code: &str) -> f64 {
    let rows = merit["rows"].as_array();
    let row = rows.unwrap().iter().find(|row| row["id"] == code);
    row.unwrap()["index"].as_f64().unwrap()
}

/// `plan` and `merit` measure a parent from one mean, that of the plants here.
#[test]
fn merit_is_measured_from_the_plants_here() {
    for fate in ["", ", fate: culled(on: \"2023-06-01\")"] {
        let top = with_slow(fate);
        let merit = answer(&top, "merit --trait span");
        let of = |code: &str| index(&merit, code);
        let mean = 0.5 * (of("X20-01-1") + of("X20-02-1"));
        let all = answer(&top, "merit --trait span --all");
        let index = index(&all, "X20-01-1");
        assert!((index - of("X20-01-1")).abs() < 1e-9, "{index}");
        let plan = answer(&top, "plan --trait span --any-time --pots 20");
        let parents = plan["plan"][0]["mean"].as_f64().unwrap();
        assert!((parents - mean).abs() < 1e-9, "{parents} {mean}");
    }
}

/// One stated heritability is one model: `plan`, `pair` and `merit` shrink what is not inherited alike.
#[test]
fn one_heritability_is_one_model() {
    let top = with_slow("").file("goals.ron", "(heritability: 0.8)");
    let merit = answer(&top, "merit --trait span --heritability 0.8");
    let pair = answer(&top, "pair X20-01-1 X20-02-1 --heritability 0.8");
    let of = |code: &str| index(&merit, code);
    let mean = 0.5 * (of("X20-01-1") + of("X20-02-1"));
    let close = |found: &Value| (found.as_f64().unwrap() - mean).abs() < 1e-9;
    assert!(close(&pair["traits"][0]["merit"]["mean"]), "{pair} {mean}");
    let plan = answer(&top, "plan --trait span --any-time --pots 20");
    assert!(close(&plan["plan"][0]["mean"]), "{plan} {mean}");
    let parts = &merit["traits"][0]["parts"];
    let stated = |part: &str| parts[part].as_f64().unwrap();
    // A third of 0.6 is left for what is not inherited, so a third of each part.
    assert!((stated("permanent") - 0.2 / 3.0).abs() < 1e-12, "{parts}");
    assert!((stated("sitting") - 0.05 / 3.0).abs() < 1e-12, "{parts}");
}

/// A mother with her son is worth 1 − 5 × 0.25 = −0.25: making no second pod is better.
#[test]
fn a_pod_worth_less_than_none_is_in_no_list() {
    let cross = "(code: \"X20-01\", parents: known(seed: \"Ven1\", pollen: \"Spa1\"), confidence: witnessed, \
         seedlings: [(number: \"1\", flowerings: [(opened: \"2024-05-10\", sex: male)])])";
    let top = top(
        &[
            founder("Ven1", "ventricosa", "(opened: \"2024-05-10\", sex: female)"),
            founder("Spa1", "spathulata", ""),
            founder("Tru1", "truncata", "(opened: \"2024-05-10\", sex: male)"),
        ],
        "(pots: 40, seedlings_per_pod: 20, pods_per_spike: 2, uses_per_pollen: 1, weight_on_inbreeding: 5)",
    )
    .file("crosses/X20-01.ron", cross);
    let run = top.run(&["plan", "--today", "2024-05-14"]);
    assert!(
        run.stdout
            .starts_with("1 pod in 20 of 40 pots, worth 1 (no trait"),
        "{run}"
    );
    assert!(!run.stdout.contains("X20-01-1"), "{run}");
}

/// Spans of 4.1, 6.1 and 8.1 cm weighed once and squatness of 1.3, 1.1 and 1.2 weighed twice give two plants one index.
#[test]
fn plants_of_one_index_are_tied() {
    let founders = ["Ven1", "Ven2"].map(|code| founder(code, "ventricosa", ""));
    let cross = "(code: \"X20-01\", parents: known(seed: \"Ven1\", pollen: \"Ven2\"), confidence: witnessed, \
         sowings: [(code: \"S1\", on: \"2021-01-10\")], \
         seedlings: [(number: \"1\", sowing: \"S1\"), (number: \"2\", sowing: \"S1\"), (number: \"3\", sowing: \"S1\")], \
         sittings: [(on: \"2023-01-10\", columns: [\"span cm\", \"squat\"], \
         rows: [[\"1\", \"4.1\", \"1.3\"], [\"2\", \"6.1\", \"1.1\"], [\"3\", \"8.1\", \"1.2\"]])])";
    let top = top(&founders, "()").file("crosses/X20-01.ron", cross);
    let select = "select X20-01 --weigh span=1 --weigh squat=2 --keep 1";
    let places: Vec<Value> = answer(&top, select)["plants"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| row["place"].clone())
        .collect();
    assert_eq!(places, [1, 1, 3].map(Value::from));
}

/// Pollen from two envelopes of one male is two rows to dust and one pair.
#[test]
fn pairs_on_the_sheet_are_plants_not_envelopes() {
    let top = top(
        &[
            founder(
                "Ven1",
                "ventricosa",
                "(opened: \"2024-05-10\", sex: female)",
            ),
            founder(
                "Spa1",
                "spathulata",
                "(opened: \"2022-05-01\", over: \"2022-05-20\", sex: male)",
            ),
        ],
        "(pots: 40, seedlings_per_pod: 20, pods_per_spike: 2, uses_per_pollen: 1)",
    )
    .file(
        "pollen.ron",
        "(lots: [(code: \"A\", from: plant(\"Spa1\"), collected: \"2024-05-01\", stored: fridge), \
         (code: \"B\", from: plant(\"Spa1\"), collected: \"2024-05-02\", stored: fridge)])",
    );
    let sheet = [
        "plan",
        "--bench",
        "-o",
        "bench.svg",
        "--today",
        "2024-05-14",
    ];
    let run = top.run(&sheet);
    assert_eq!(run.exit, Some(0), "{run}");
    let svg = top.text("bench.svg");
    assert!(svg.contains("Pollinate 1 pair for 2 pods"), "{svg}");
    assert!(
        svg.contains("envelope A in") && svg.contains("envelope B in"),
        "{svg}"
    );
}

/// Where no plant is on record as female, taking all to flower changes nothing.
#[test]
fn a_plan_without_a_female_asks_for_the_sex() {
    let top = top(&[founder("Ven1", "ventricosa", "")], "()");
    for line in [&["plan"][..], &["plan", "--any-time"]] {
        let run = top.run(line);
        assert!(
            run.stdout.contains("no plant here is on record as female"),
            "{run}"
        );
        assert!(
            run.stdout.contains("podbook flower CODE --sex female"),
            "{run}"
        );
        assert!(!run.stdout.contains("in flower"), "{run}");
    }
}

/// A seedling that flowered female and was mixed up with a sibling then is one of the two: the line has shown a female, and she
/// is here as long as neither is gone.
#[test]
fn a_female_seen_before_a_mix_up_is_one_of_the_line() {
    let line = |fate: &str, with: &str| {
        let male = "flowerings: [(opened: \"2024-03\", sex: male)]";
        let page = format!(
            "(code: \"X20-01\", parents: known(seed: \"Ven1\", pollen: \"Spa1\"), confidence: witnessed, \
             sowings: [(code: \"S1\", on: \"2020-01-01\", seeds: 100)], seedlings: [\
             (number: \"1\", sowing: \"S1\", {male}), (number: \"2\", sowing: \"S1\"), \
             (number: \"4\", sowing: \"S1\"{fate}), (number: \"30\", sowing: \"S1\", \
             flowerings: [(opened: \"2024-03\", sex: female)], muddled: [(on: \"2024-04\", with: [{with}])])])"
        );
        let top = top(
            &[
                founder("Ven1", "ventricosa", "(opened: \"2018-03\", sex: female)"),
                founder("Spa1", "spathulata", "(opened: \"2018-03\", sex: male)"),
            ],
            "()",
        )
        .file("crosses/X20-01.ron", &page);
        let plan = answer(&top, "plan --any-time");
        let line = &plan["later"]["lines"][0];
        let shown = [&line["females"], &line["males"]].map(|of| of.as_u64().expect("a count"));
        (shown, line["both_here"].as_bool().expect("yes or no"))
    };
    let sibling = "\"X20-01-4\"";
    assert_eq!(line("", sibling), ([1, 1], true));
    // One of the two died, perhaps she.
    let died = ", fate: died(on: \"2024-05-01\")";
    assert_eq!(line(died, sibling), ([1, 1], false));
    // She may be a plant that is not on record.
    assert_eq!(line("", "\"X20-01-4\", \"X20-01-99\""), ([1, 1], false));
}

/// When a seedling will flower goes by the age it has; of one sown some day of a year there are as many answers as days.
#[test]
fn no_year_is_told_of_a_sowing_that_is_not_dated_to_a_month() {
    let chances = |sown: &str| {
        let page = format!(
            "(code: \"K\", parents: known(seed: \"V\", pollen: \"S\"), sowings: [(code: \"S1\", on: \"{sown}\")], seedlings: [\
             (number: \"1\", sowing: \"S1\", flowerings: [(opened: \"2023-06-01\", sex: male)]), \
             (number: \"2\", sowing: \"S1\"), (number: \"3\", sowing: \"S1\")])"
        );
        let founders = [("V", "ventricosa"), ("S", "spathulata")];
        let founders = founders.map(|(code, species)| founder(code, species, ""));
        let top = top(&founders, "()").file("crosses/K.ron", &page);
        let years = answer(&top, "plan")["later"]["lines"][0]["by_year"].clone();
        let years = years.as_array().expect("years").clone();
        years
            .iter()
            .map(|year| year["chance"].as_f64())
            .collect::<Vec<_>>()
    };
    for sown in ["2020-03-10", "2020-03"] {
        assert!(chances(sown).iter().all(Option::is_some), "{sown}");
    }
    for sown in ["2020", "spring 2020", "2019 to 2021"] {
        assert!(chances(sown).iter().all(Option::is_none), "{sown}");
    }
}
