//! `podbook kinship` and `podbook diversity`: pairs, squares, all plants, and plain tables of any pedigree.

use crate::bench_top::{BenchTop, Run};
use crate::demo::{ask, demo};
use insta::assert_snapshot;

/// A plain table in an otherwise empty folder, and a question of it.
fn table(text: &str, question: &str) -> Run {
    let top = BenchTop::empty().file("herd.csv", text);
    ask(top.path(), question)
}

/// Children before their parents, a parent without a row of its own, both ways of writing an unknown one.
const ANY_ORDER: &str = "plant,seed parent,pollen parent\nx,d,c\nd,a,b\nc,a,b\na,,?\nb,e,\n";

#[test]
fn a_pair_with_the_lines_that_make_it() {
    assert_snapshot!(demo("kinship X22-02-1 X22-02-5"));
}

#[test]
fn a_pair_that_may_have_other_parents() {
    assert_snapshot!(demo("kinship X18-01-3 X20-01-5"));
}

#[test]
fn several_plants_as_a_square() {
    assert_snapshot!(demo("kinship Ven1 X22-02-1 X18-01-3"));
}

#[test]
fn every_plant_of_the_registry_siblings_together() {
    assert_snapshot!(demo("kinship --inbreeding"));
}

#[test]
fn a_plain_table_in_any_order() {
    assert_snapshot!(table(ANY_ORDER, "kinship --inbreeding --table herd.csv"));
}

/// Full siblings of unrelated parents: kinship a quarter, so their offspring is inbred by a quarter (Wright 1922).
#[test]
fn json_gives_every_figure() {
    let run = table(ANY_ORDER, "kinship --inbreeding --table herd.csv --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let rows = answer["rows"].as_array().expect("a list");
    let of = |id: &str| {
        let row = rows.iter().find(|row| row["id"] == id);
        row.expect("it is there")["inbreeding"].clone()
    };
    assert_eq!(of("x"), 0.25);
    assert_eq!(
        rows.len(),
        6,
        "a parent without a row of its own counts too: {answer}"
    );
    let run = table(ANY_ORDER, "kinship c d x --table herd.csv --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let kinships: Vec<f64> = answer["pairs"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|pair| pair["kinship"].as_f64().expect("a number"))
        .collect();
    // c with itself, c with d, c with x, d with itself, d with x, x with itself.
    assert_eq!(kinships, [0.5, 0.25, 0.375, 0.5, 0.375, 0.625]);
}

#[test]
fn faulty_tables_are_refused_with_their_lines() {
    let asked = |text: &str| table(text, "kinship --inbreeding --table herd.csv");
    assert_snapshot!(asked("plant,seed,pollen\na,b,\nb,a,\n"));
    assert_snapshot!(asked("plant,seed,pollen\na,a,\n"));
    assert_snapshot!(asked("plant,seed,pollen\na,,\nb,,\na,b,\n"));
    assert_snapshot!(asked("plant,seed\na,b\n"));
    assert_snapshot!(asked("plant,seed,pollen\na,,\nb,a\n"));
    assert_snapshot!(asked("plant,seed,pollen\n,a,b\n"));
    assert_snapshot!(asked(""));
}

#[test]
fn plants_of_a_table_that_are_not_in_it() {
    assert_snapshot!(table(ANY_ORDER, "kinship a nobody --table herd.csv"));
    assert_snapshot!(table(ANY_ORDER, "kinship a --table herd.csv"));
    assert_snapshot!(table(ANY_ORDER, "kinship a b --table lost.csv"));
}

#[test]
fn variety_of_all_that_are_here() {
    assert_snapshot!(demo("diversity"));
}

#[test]
fn variety_of_one_cross() {
    assert_snapshot!(demo("diversity --cross X18-01"));
}

#[test]
fn variety_of_nothing_is_refused() {
    assert_snapshot!(demo("diversity --species hamata --sex female"));
}

/// A person reads siblings as one row; a spreadsheet gets each.
#[test]
fn a_spreadsheet_has_a_row_for_every_plant() {
    let run = demo("kinship --inbreeding --format csv");
    assert!(
        run.stdout
            .contains("\r\nX22-02-7,0.1250,one of several\r\n"),
        "{run}"
    );
    let rows = run.stdout.lines().count();
    assert_eq!(rows, 79, "78 plants and a heading: {run}");
    let run = demo("diversity --cross X18-01 --format csv");
    assert!(run.stdout.contains("\r\nX18-01-7,0.2727,2.27,1,"), "{run}");
}

#[test]
fn lines_that_differ_are_told_apart_and_lines_of_nothing_left_out() {
    let paths = |question: &str| -> Vec<(String, f64)> {
        let run = demo(question);
        let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
        let rows = answer["paths"].as_array().expect("a list");
        rows.iter()
            .map(|row| {
                let path = row["path"].as_str().expect("words").to_owned();
                (path, row["kinship"].as_f64().expect("a number"))
            })
            .collect()
    };
    for question in [
        "kinship X18-01-4 X18-01-5 --json",
        "kinship Tru1 Tru2 --json",
    ] {
        let found = paths(question);
        let mut words: Vec<&String> = found.iter().map(|(path, _)| path).collect();
        words.sort();
        words.dedup();
        assert_eq!(words.len(), found.len(), "{found:?}");
        assert!(found.iter().all(|(_, adds)| *adds > 0.0), "{found:?}");
        let sum: f64 = found.iter().map(|(_, adds)| adds).sum();
        assert!((sum - 0.25).abs() < 1e-12, "{found:?}");
    }
    let shared = paths("kinship X18-01-4 X18-01-5 --json");
    assert!(
        shared
            .iter()
            .any(|(path, _)| path.ends_with(", if of X15-02-3 × X13-01-5")),
        "{shared:?}"
    );
}

#[test]
fn what_is_no_plant_is_said_with_plants_to_ask_for() {
    let run = demo("kinship X22-02 X18-01-4");
    assert_eq!(run.exit, Some(2));
    assert!(
        run.stderr
            .contains("`X22-02` is a cross, not a plant; name a plant of it, such as X22-02-1"),
        "{run}"
    );
    let run = demo("kinship ventricosa Ven1");
    assert!(
        run.stderr
            .contains("`ventricosa` is a species, not a plant; name a plant of it, such as Ven1"),
        "{run}"
    );
}

/// With one of two fathers the kinship is one of two, not their mean, and each father has his own.
#[test]
fn kinship_with_each_possible_father() {
    let run = demo("kinship X18-01-3 X13-01-2");
    assert!(
        run.stdout.replace('\n', " ").starts_with(
            "Kinship of X18-01-3 and X13-01-2: at least 0.125 (1 in 3) or 0.25 (2 in 3), depending on which of several parents is the true one; expected 0.2083"
        ),
        "{run}"
    );
    let run = demo("kinship X18-01-3 X13-01-2 --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let each = answer["with_each"].as_array().expect("a list");
    let told: Vec<(&str, f64, f64)> = each
        .iter()
        .map(|way| {
            let number = |field: &str| way[field].as_f64().expect("a number");
            (
                way["parents"].as_str().expect("words"),
                number("chance"),
                number("kinship"),
            )
        })
        .collect();
    assert_eq!(
        told,
        [
            (
                "X18-01-3 and its pod-mates of X15-02-3 × X13-01-2",
                2.0 / 3.0,
                0.25
            ),
            (
                "X18-01-3 and its pod-mates of X15-02-3 × X13-01-5",
                1.0 / 3.0,
                0.125
            ),
        ]
    );
    // Pods-mates are full siblings whoever the father was.
    let run = demo("kinship X18-01-3 X18-01-4 --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    assert_eq!(
        answer["with_each"].as_array().map(Vec::len),
        Some(0),
        "{answer}"
    );
    assert_eq!(answer["pairs"][0]["kinship"], 0.25);
}

/// A seedling of a pod by one of two fathers, one of them the mother's brother, is not certainly inbred.
#[test]
fn what_may_be_inbred_is_not_called_surely_inbred() {
    let pages = |parents: &str| {
        format!(
            "(code: \"X22-05\", parents: {parents}, confidence: one_of_several, seedlings: [(number: \"1\"), (number: \"2\")])"
        )
    };
    let of = |parents: &str| {
        let top = crate::demo::copied().file("crosses/X22-05.ron", &pages(parents));
        let run = ask(top.path(), "kinship --inbreeding --json");
        let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
        let rows = answer["rows"].as_array().expect("a list");
        let row = rows
            .iter()
            .find(|row| row["id"] == "X22-05-1")
            .expect("it is there")
            .clone();
        (row, ask(top.path(), "kinship --inbreeding"))
    };
    let (row, run) =
        of("pollen_one_of(seed: \"X15-02-1\", pollen: [\"X15-02-7\", \"Tru1\"], weights: [1, 3])");
    assert_eq!(row["inbreeding"], 0.0625, "{run}");
    assert_eq!(row["may_be"][0]["value"], 0.0);
    assert_eq!(row["may_be"][1]["value"], 0.25);
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        said.contains(
            "18 of 80 plants are inbred if the recorded parents are right; 2 more may be"
        ),
        "{run}"
    );
    assert!(
        said.contains("X22-05-1, 2 0.0625 0 (3 in 4) or 0.25 one of several (1 in 4)"),
        "{run}"
    );
}

/// Inbreeding is as sure as the recorded parents; the inbred stand first, and zeros are no rows.
#[test]
fn inbreeding_is_no_surer_than_the_parents() {
    let run = demo("kinship --inbreeding");
    assert!(!run.stdout.contains("certainly"), "{run}");
    assert!(!run.stdout.contains("0.0000"), "{run}");
    let run = demo("kinship --inbreeding X22-02-5");
    assert!(
        run.stdout.starts_with(
            "X22-02-5: inbred by at least 0.125 (1/8) if the recorded parents are right\n"
        ),
        "{run}"
    );
    let run = demo("kinship --inbreeding Ven1 X22-02-5");
    let at = |code: &str| run.stdout.find(&format!("\n  {code} "));
    assert!(at("X22-02-5") < at("Ven1"), "the most inbred first: {run}");
    let run = demo("kinship X22-02-5");
    assert!(run.stderr.contains("kinship needs two plants"), "{run}");
    assert!(run.stderr.contains("kinship --inbreeding"), "{run}");
}

/// Founders that share nothing are said to share nothing, not to be related by at least 0.
#[test]
fn no_common_ancestor_is_said() {
    let run = demo("kinship Ven1 Spa1");
    assert!(
        run.stdout
            .starts_with("Ven1 and Spa1 have no common ancestor on record"),
        "{run}"
    );
    let run = demo("kinship Ven1 Spa1 Tru1");
    assert!(
        run.stdout
            .starts_with("No two of these 3 plants have a common ancestor on record"),
        "{run}"
    );
}

/// Which ancestors make up the effective number: their parts sum to the whole, and 1/Σm² is the number told.
#[test]
fn ancestors_behind_the_effective_number_are_named() {
    let run = demo("diversity --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let ancestors = answer["ancestors"].as_array().expect("a list");
    let parts: Vec<f64> = ancestors
        .iter()
        .map(|of| of["contribution"].as_f64().expect("a number"))
        .collect();
    assert!((parts.iter().sum::<f64>() - 1.0).abs() < 1e-9);
    assert!(parts.is_sorted_by(|a, b| *a >= *b - 1e-12), "{parts:?}");
    let effective = 1.0 / parts.iter().map(|part| part * part).sum::<f64>();
    let told = answer["effective_ancestors"].as_f64().expect("a number");
    assert!((effective - told).abs() < 1e-9);
    let run = demo("diversity");
    let half = parts.iter().scan(0.0, |sum, part| {
        *sum += part;
        Some(*sum)
    });
    let needed = half.take_while(|sum| *sum < 0.5).count() + 1;
    let name = |of: &serde_json::Value| match (of["id"].as_str()?, of["uncertain"].as_bool()?) {
        (id, true) => Some(format!("perhaps {id} (one of several possible parents)")),
        (id, false) => Some(id.to_owned()),
    };
    let names: Vec<String> = ancestors[..needed].iter().filter_map(name).collect();
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    let (last, some) = names.split_last().expect("there are some");
    assert!(
        said.contains(&format!(
            "half of their genes come through {} and {last}",
            some.join(", ")
        )),
        "{run}"
    );
}

/// A pod has one pair or the other: the shares with each stand beside the mean no seedling has.
#[test]
fn shares_with_each_possible_pair() {
    let of = |id: &str| -> serde_json::Value {
        serde_json::from_str(&demo(&format!("parentage {id} --json")).stdout).expect("it is JSON")
    };
    let answer = match of("X21-05") {
        serde_json::Value::Array(answers) => answers[0].clone(),
        answer => answer,
    };
    let each = answer["possibilities"].as_array().expect("a list");
    assert_eq!(each.len(), 2, "{answer}");
    assert_eq!(each[0]["chance"], 0.75);
    assert_eq!(each[0]["parentage"][0]["of"], "ramispina");
    assert_eq!(each[0]["parentage"][0]["share"], "1/2");
    // The mean of them is what is expected over both: 3/4 of a half.
    assert_eq!(answer["parentage"][0]["share"], "3/8");
    let run = demo("parentage X21-05");
    let words: Vec<&str> = run.stdout.split_whitespace().collect();
    assert!(
        words
            .join(" ")
            .contains("the average of the pairs is expected of none of them"),
        "{run}"
    );
}

/// Labels of two half-siblings by one mother were swapped. Each may be of either cross, but both of one they cannot be: their
/// kinship is that of half-siblings, 1/8 (Lynch and Walsh 1998, table 7.1, from memory), and nothing else. Three plants mixed up
/// are not known so well.
#[test]
fn two_swapped_plants_are_not_both_of_one_cross() {
    let page = |code: &str, pollen: &str| {
        format!(
            "(code: \"{code}\", parents: known(seed: \"V1\", pollen: \"{pollen}\"), confidence: witnessed,\n\
             pods: [(code: \"P1\")], sowings: [(code: \"S1\", pod: \"P1\")],\n\
             seedlings: [(number: \"1\", sowing: \"S1\"), (number: \"2\", sowing: \"S1\")])\n"
        )
    };
    let top = || {
        BenchTop::sound()
            .file("crosses/X24-01.ron", &page("X24-01", "S1"))
            .file("crosses/X24-02.ron", &page("X24-02", "T1"))
    };
    let kinship = |top: &BenchTop| {
        let run = top.run(&["kinship", "X24-01-1", "X24-02-1", "--json"]);
        assert_eq!(run.exit, Some(0), "{run}");
        let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
        answer
    };
    let mixed = |top: &BenchTop, plants: &[&str]| {
        let run = top.run(&[&["muddle"], plants].concat());
        assert_eq!(run.exit, Some(0), "{run}");
    };
    let two = top();
    mixed(&two, &["X24-01-1", "X24-02-1"]);
    let answer = kinship(&two);
    let pair = &answer["pairs"][0];
    assert!(
        (pair["kinship"].as_f64().expect("a figure") - 0.125).abs() < 1e-12,
        "{pair}"
    );
    assert_eq!(pair["may_be"], serde_json::json!([]), "{pair}");
    let words = two.run(&["kinship", "X24-01-1", "X24-02-1"]);
    assert!(!words.stdout.contains("0.25"), "{words}");
    let three = top();
    mixed(&three, &["X24-01-1", "X24-02-1", "X24-01-2"]);
    let pair = kinship(&three)["pairs"][0].clone();
    assert_eq!(pair["may_be"].as_array().map(Vec::len), Some(2), "{pair}");
}

/// Even the least kinship is not none: two plants seven crosses away from one founder on either side.
#[test]
fn the_least_kinship_is_not_printed_as_none() {
    let mut top = BenchTop::with([
        ("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)"),
        ("species.ron", "(species: [(epithet: \"maxima\")])"),
    ]);
    let mut founders = vec!["A".to_owned()];
    for line in [1, 2] {
        let mut last = "A".to_owned();
        for generation in 1..=7 {
            let (code, mate) = (
                format!("X0{generation}-0{line}"),
                format!("M{line}{generation}"),
            );
            let page = format!(
                "(code: \"{code}\", parents: known(seed: \"{last}\", pollen: \"{mate}\"), confidence: witnessed, seedlings: [(number: \"1\")])"
            );
            top = top.file(&format!("crosses/{code}.ron"), &page);
            founders.push(mate);
            last = format!("{code}-1");
        }
    }
    let founder =
        |code: &String| format!("(code: \"{code}\", received: \"N. maxima\", confidence: tag)");
    let clones: Vec<String> = founders.iter().map(founder).collect();
    let top = top.file("clones.ron", &format!("(clones: [{}])", clones.join(", ")));
    let run = top.run(&["kinship", "X07-01-1", "X07-02-1"]);
    // Fourteen crosses between them: one half to the power of fifteen.
    assert!(
        run.stdout.contains("0.000031") && !run.stdout.contains("0.0000 "),
        "{run}"
    );
}

#[test]
fn no_variety_is_said_to_be_wanting_for_what_it_is() {
    let empty = BenchTop::empty();
    empty.run(&["new", "mine"]);
    let run = empty.run(&["diversity", "--registry", "mine"]);
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(run.stderr.contains("no plant is on record yet"), "{run}");
    let run = demo("diversity --place shelf");
    assert!(run.stderr.contains("did you mean shelf"), "{run}");
}

const SPECIES: &str = "(species: [(epithet: \"maxima\"), (epithet: \"veitchii\")])";
const FOUNDERS: &str = "(clones: [(code: \"Max1\", received: \"N. maxima\"), \
    (code: \"Vei1\", received: \"N. veitchii\"), (code: \"Vei2\", received: \"N. veitchii\")])";

/// Two crosses with a father in doubt, and a seedling of one of them that may be of either.
fn of_either(more: &str) -> BenchTop {
    let one = format!(
        "(code: \"X23-01\", parents: pollen_one_of(seed: \"Max1\", pollen: [\"Vei1\", \"Vei2\"]), pods: [(code: \"P1\")], \
         sowings: [(code: \"S1\", pod: \"P1\", germinated: [(on: \"2023-12\", count: 9)])], \
         seedlings: [(number: \"1\", sowing: \"S1\"), (number: \"2\", one_of: [\"P1\", \"X23-02.P1\"]{more})])"
    );
    BenchTop::with([
        ("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)"),
        ("species.ron", SPECIES),
        ("clones.ron", FOUNDERS),
        ("crosses/X23-01.ron", one.as_str()),
        (
            "crosses/X23-02.ron",
            "(code: \"X23-02\", parents: pollen_mixed(seed: \"Max1\", pollen: [\"Vei1\", \"Max1\"]), \
             pods: [(code: \"P1\")], seedlings: [(number: \"1\")])",
        ),
    ])
}

#[test]
fn a_plant_that_may_be_of_either_is_no_cross() {
    let run = of_either("").run(&["diversity"]);
    assert!(
        run.stdout
            .contains("2 crosses and 1 plant each have several possible pairs of parents"),
        "{run}"
    );
}

/// One more doubt makes no seedling surer to have been raised here.
#[test]
fn a_seedling_of_doubtful_pod_is_not_counted_as_numbered() {
    let muddled = ", muddled: [(on: \"2024-02\", with: [\"X23-02-1\"], why: \"tray fell\")]";
    for more in ["", muddled] {
        let run = of_either(more).run(&["siblings", "X23-01"]);
        let counted = run.stdout.lines().find(|line| line.contains("numbered"));
        assert!(!run.stdout.contains("mixed up since"), "{run}");
        assert!(counted.is_some(), "{run}");
    }
}
