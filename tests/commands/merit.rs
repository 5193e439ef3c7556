//! `podbook merit`: one trait, several by weight, what is refused and why.

use crate::bench_top::BenchTop;
use crate::demo::{ask, demo};
use insta::assert_snapshot;

#[test]
fn one_trait() {
    assert_snapshot!(demo("merit --trait span"));
}

#[test]
fn two_traits_by_weight() {
    assert_snapshot!(demo("merit --trait span=2 --trait banding"));
}

#[test]
fn every_row_has_its_error_and_reliability() {
    let run = demo("merit --trait span --trait banding --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let rows = answer["rows"].as_array().expect("a list");
    assert!(rows.len() > 40);
    for row in rows {
        assert!(
            row["index_error"].as_f64().expect("a number") > 0.0,
            "{row}"
        );
        for of in row["of_traits"].as_array().expect("a list") {
            let reliability = of["reliability"].as_f64().expect("a number");
            assert!((0.0..1.0).contains(&reliability), "{row}");
            assert!(of["error"].as_f64().expect("a number") > 0.0, "{row}");
        }
    }
}

#[test]
fn parts_that_cannot_be_are_refused() {
    assert_snapshot!(demo("merit --trait span --heritability 1.2"));
    assert_snapshot!(demo(
        "merit --trait span --heritability 0.8 --permanent 0.4"
    ));
    assert_snapshot!(demo("merit --trait bandng"));
    assert_snapshot!(demo("merit --trait span --estimate"));
    assert_snapshot!(demo("merit"));
}

#[test]
fn readings_too_few_are_told() {
    assert_snapshot!(ask(BenchTop::sound().path(), "merit --trait ratio"));
}

/// Ten seedlings of one pod, all 5 cm: nothing tells them apart, and that is said instead of a row of zeros.
#[test]
fn readings_all_the_same_are_refused() {
    let readings: Vec<(u32, &str)> = (1..=10).map(|number| (number, "5.0")).collect();
    let top = one_cross(&readings);
    assert_snapshot!(ask(top.path(), "merit --trait span"));
}

fn answer(question: &str) -> serde_json::Value {
    serde_json::from_str(&demo(question).stdout).expect("it is JSON")
}

/// The limits of a length are those of the logarithm turned to percent; reliability is had from the error within the
/// species and the inbreeding that `kinship` gives.
#[test]
fn limits_and_reliability_can_be_had_from_the_errors_told() {
    let found = answer("merit --trait span --json");
    let kin = answer("kinship --inbreeding --json");
    let rows = found["rows"].as_array().expect("a list");
    let mut inbred = 0;
    for row in rows {
        let of = &row["of_traits"][0];
        let merit = (1.0 + number(&of["merit"]) / 100.0).ln();
        for (limit, sign) in [("low", -1.0), ("high", 1.0)] {
            let wanted = 100.0 * ((merit + sign * number(&of["error"])).exp() - 1.0);
            assert!((number(&of[limit]) - wanted).abs() < 1e-6, "{row}");
        }
        let listed = kin["rows"].as_array().expect("a list");
        let own = listed.iter().find(|plant| plant["id"] == row["id"]);
        let inbreeding = number(&own.expect("it is listed")["inbreeding"]);
        inbred += usize::from(inbreeding > 0.0);
        let error = number(&of["error_within_species"]);
        let reliability = 1.0 - error * error / (1.0 + inbreeding);
        assert!(
            (number(&of["reliability"]) - reliability).abs() < 1e-9,
            "{row}"
        );
    }
    assert!(inbred > 3, "the inbred are among them");
}

/// Seedlings of one cross, read; its parents, unread.
fn one_cross(readings: &[(u32, &str)]) -> BenchTop {
    let seedlings: String = readings
        .iter()
        .map(|(number, _)| format!("(number: \"{number}\", sowing: \"S1\"),"))
        .collect();
    let rows: String = readings
        .iter()
        .map(|(number, span)| format!("[\"{number}\", \"{span}\"],"))
        .collect();
    let page = format!(
        "(code: \"X20-09\", parents: known(seed: \"V1\", pollen: \"T1\"), confidence: witnessed, \
         sowings: [(code: \"S1\", on: \"2020-09-01\")], seedlings: [{seedlings}], \
         sittings: [(on: \"2022-05-05\", columns: [\"span cm\"], rows: [{rows}])])"
    );
    let clones = "(clones: [(code: \"V1\", received: \"N. ventricosa\", confidence: claim), \
                  (code: \"T1\", received: \"N. truncata\", confidence: claim), \
                  (code: \"L1\", received: \"N. lowii\", confidence: claim)])";
    BenchTop::with([
        ("registry.ron", include_str!("sound/registry.ron")),
        ("species.ron", include_str!("sound/species.ron")),
        ("clones.ron", clones),
    ])
    .file("crosses/X20-09.ron", &page)
}

#[test]
fn parents_of_the_only_cross_read_are_not_called_without_relatives() {
    let top = one_cross(&[(1, "4.0"), (2, "5.0"), (3, "6.5")]);
    let run = ask(top.path(), "merit --trait span");
    let out = run.stdout.replace("\n ", "");
    assert!(
        out.contains("left out: 2 plants: one cross only was read, and its parents cannot be told apart from its mean"),
        "{run}"
    );
    assert!(
        out.contains("left out: 1 plant without any read relative"),
        "{run}"
    );
}

#[test]
fn a_trait_counts_once_and_for_something() {
    let twice = demo("merit --trait span --trait span=2");
    assert_eq!(twice.exit, Some(2), "{twice}");
    assert!(twice.stderr.contains("`span` is named twice"), "{twice}");
    let nothing = demo("merit --trait span --trait banding=0");
    assert_eq!(nothing.exit, Some(2), "{nothing}");
    assert!(
        nothing.stderr.contains("the weight of `banding` is 0"),
        "{nothing}"
    );
}

fn number(value: &serde_json::Value) -> f64 {
    value.as_f64().expect("a number")
}

/// Merit in the first trait by plant.
fn merits(answer: &serde_json::Value) -> Vec<(String, f64)> {
    let rows = answer["rows"].as_array().expect("a list").iter();
    let mut merits: Vec<(String, f64)> = rows
        .map(|row| {
            let id = row["id"].as_str().expect("a code").to_owned();
            (id, number(&row["of_traits"][0]["merit"]))
        })
        .collect();
    merits.sort_by(|a, b| a.0.cmp(&b.0));
    merits
}

/// No effect is the limit of an ever smaller one, not of an ever larger one.
#[test]
fn a_part_of_nothing_is_hardly_anything_and_not_everything() {
    for part in ["pod", "sitting"] {
        let of = |value: &str| {
            let question = format!("merit --trait span --{part} {value} --json");
            merits(&answer(&question))
        };
        let (nothing, hardly) = (of("0"), of("0.0000001"));
        for (a, b) in nothing.iter().zip(&hardly) {
            assert!(
                a.0 == b.0 && (a.1 - b.1).abs() < 1e-2,
                "{part}: {a:?} {b:?}"
            );
        }
    }
}

/// Pages of crosses by one male: `dated` says when each was sown, if it is known, and how large its seedlings are.
fn crosses(dated: &[(Option<&str>, &str)], days: &[&str]) -> BenchTop {
    let clones: String = (0..dated.len())
        .map(|at| format!("(code: \"V{at}\", received: \"N. ventricosa\", confidence: tag),"))
        .collect();
    let top = BenchTop::with([
        ("registry.ron", include_str!("sound/registry.ron")),
        ("species.ron", include_str!("sound/species.ron")),
        (
            "clones.ron",
            &format!(
                "(clones: [(code: \"T1\", received: \"N. truncata\", confidence: tag), {clones}])"
            ),
        ),
    ]);
    dated.iter().enumerate().fold(top, |top, (at, (on, size))| {
        let on = on.map_or(String::new(), |day| format!(", on: \"{day}\""));
        let seedlings: String = (1..=10)
            .map(|number| format!("(number: \"{number}\", sowing: \"S1\"),"))
            .collect();
        let sittings: String = days
            .iter()
            .enumerate()
            .map(|(later, day)| {
                let rows: String = (1..=10)
                    .map(|number| {
                        let size: f64 = size.parse().expect("a size");
                        let more = 0.1 * f64::from((number * 7 + at as u32 * 3) % 10);
                        format!("[\"{number}\", \"{:.1}\"],", size * (1.0 + 0.5 * later as f64) + more)
                    })
                    .collect();
                format!("(on: \"{day}\", columns: [\"span cm\"], rows: [{rows}]),")
            })
            .collect();
        let page = format!(
            "(code: \"X20-{at:02}\", parents: known(seed: \"V{at}\", pollen: \"T1\"), confidence: witnessed, \
             sowings: [(code: \"S1\"{on})], seedlings: [{seedlings}], sittings: [{sittings}])"
        );
        top.file(&format!("crosses/X20-{at:02}.ron"), &page)
    })
}

/// Two crosses a year old and one of plants ten times as large that nobody knows the age of: those are left out, and said.
#[test]
fn plants_of_unknown_age_are_left_out_of_a_length_and_said() {
    let year = Some("2022-09-01");
    let top = crosses(&[(year, "4"), (year, "5"), (None, "50")], &["2023-09-05"]);
    let run = ask(top.path(), "merit --trait span");
    assert!(
        run.stdout
            .replace("\n  ", " ")
            .contains("left out 10 of unknown age"),
        "{run}"
    );
    let run = ask(top.path(), "merit --trait span --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    assert_eq!(answer["traits"][0]["left_out"]["age_unknown"], 10);
    assert_eq!(answer["traits"][0]["readings"], 20);
    let old = merits(&answer)
        .into_iter()
        .filter(|of| of.0.starts_with("X20-02-"));
    for (plant, merit) in old {
        assert!(merit.abs() < 50.0, "{plant}: {merit} %");
    }
    // The same when most have no age: they are no better for being many.
    let top = crosses(&[(year, "4"), (None, "5"), (None, "50")], &["2023-09-05"]);
    let run = ask(top.path(), "merit --trait span --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    assert_eq!(answer["traits"][0]["left_out"]["age_unknown"], 20);
    let none = crosses(&[(None, "4"), (None, "5")], &["2023-09-05"]);
    let run = ask(none.path(), "merit --trait span");
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(
        run.stderr.contains("left out: 20 of unknown age")
            && run.stderr.contains("write down when they were sown"),
        "{run}"
    );
}

/// Sown some time in a year, a seedling may be small for its age or large for it; sown in a month, it has an age. It was taken as sown in the middle of the year.
#[test]
fn plants_of_an_age_not_known_to_a_month_are_left_out_of_a_length() {
    let cases = [
        ("2022", "2023-09-05", 10),
        ("2022-08", "2023-09", 0),
        ("2021-09 to 2022-09", "2023-09-05", 10),
    ];
    for (sown, read, left_out) in cases {
        let year = Some("2022-09-01");
        let pods = [(year, "4"), (year, "5"), (Some(sown), "6")];
        let run = ask(crosses(&pods, &[read]).path(), "merit --trait span --json");
        let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
        assert_eq!(
            answer["traits"][0]["left_out"]["age_unknown"], left_out,
            "{sown}"
        );
        assert_eq!(answer["traits"][0]["readings"], 30 - left_out, "{sown}");
    }
}

/// Days in January that are not written alike may be any two days: whether one begins on the first says nothing.
#[test]
fn sittings_are_one_by_the_days_written_and_not_by_the_first_of_them() {
    let year = Some("2022-02-01");
    let days = [
        "2023-01-02 to 2023-01-30",
        "2023-01",
        "2023-01-01 to 2023-01-31",
    ];
    let [apart, month, alike] = days.map(|day| {
        let second = crosses(&[(year, "4"), (year, "5")], &["2023-01"]);
        let second = second.change("crosses/X20-01.ron", "2023-01\"", &format!("{day}\""));
        let run = ask(second.path(), "merit --trait span --sitting 0.3 --json");
        merits(&serde_json::from_str(&run.stdout).expect("it is JSON"))
    });
    assert_eq!(month, alike);
    // The two have the same middle: only the sitting tells them apart.
    assert_ne!(apart, month);
}

/// What does not grow may be compared without ages, and the answer says that it was.
#[test]
fn steps_without_ages_are_compared_and_that_is_said() {
    let page = "(code: \"X20-09\", parents: known(seed: \"V1\", pollen: \"T1\"), confidence: witnessed, \
        sowings: [(code: \"S1\")], seedlings: [(number: \"1\", sowing: \"S1\"), (number: \"2\", sowing: \"S1\"), \
        (number: \"3\", sowing: \"S1\")], sittings: [(on: \"2023-05-05\", columns: [\"banding\"], \
        rows: [[\"1\", \"2\"], [\"2\", \"3\"], [\"3\", \"5\"]])])";
    let top = one_cross(&[(1, "4.0")]).file("crosses/X20-09.ron", page);
    let run = ask(top.path(), "merit --trait banding");
    let said = run.stdout.replace("\n  ", " ");
    assert!(
        said.contains("plants of all ages together, since most of these readings have no age"),
        "{run}"
    );
}

/// Twenty pods of ten: from one age or two nothing is estimated; from three it is, and is no certainty.
#[test]
fn heritability_is_not_estimated_from_one_age_or_two() {
    let sizes = ["4", "5", "6", "5.5", "4.5"];
    let pods: Vec<(Option<&str>, &str)> = (0..20)
        .map(|at| (Some("2022-09-01"), sizes[at % 5]))
        .collect();
    for (days, found) in [
        (&["2023-09-05"][..], "they are of 1 age"),
        (&["2023-09-05", "2024-09-05"][..], "they are of 2 ages"),
    ] {
        let run = ask(crosses(&pods, days).path(), "merit --trait span --estimate");
        assert_eq!(run.exit, Some(2), "{run}");
        let said = run.stderr.replace('\n', " ");
        assert!(
            said.contains("not estimable from these ages") && said.contains(found),
            "{run}"
        );
    }
    let top = crosses(&pods, &["2023-09-05", "2024-03-05", "2024-09-05"]);
    let run = ask(top.path(), "merit --trait span --estimate --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let of = &answer["traits"][0];
    assert_eq!(of["ages"], 3);
    let (low, high) = (&of["heritability_limits"][0], &of["heritability_limits"][1]);
    let h2 = number(&of["parts"]["heritability"]);
    assert!(
        number(low) <= h2 && h2 <= number(high) && number(high) - number(low) > 0.05,
        "{of}"
    );
    for row in answer["rows"].as_array().expect("a list") {
        assert!(number(&row["of_traits"][0]["error"]) < 1.0, "{row}");
    }
}

/// Twenty pods of one mean: pods that differ less than chance would have it show no heritability, so there is no genetic SD
/// to divide by. The index was in the thousands.
#[test]
fn a_heritability_estimated_as_none_gives_no_index() {
    let pods = [(Some("2022-09-01"), "5"); 20];
    let top = crosses(&pods, &["2023-09-05", "2024-03-05", "2024-09-05"]);
    let run = ask(top.path(), "merit --trait span --estimate");
    assert_eq!(run.exit, Some(2), "{run}");
    let said = run.stderr.replace('\n', " ");
    assert!(
        said.contains("heritability of `span` is estimated as 0.00 (95 % limits 0.00 to 0."),
        "{run}"
    );
}

/// The chance of each plant to be better than the first is that of the two named alone; the first is only called the
/// leader when the second is clearly worse; two seedlings nobody read are even.
#[test]
fn who_leads_is_said_with_its_chance() {
    let all = answer("merit --trait span --json");
    let rows = all["rows"].as_array().expect("a list");
    let (first, second) = (
        rows[0]["id"].as_str().unwrap(),
        rows[1]["id"].as_str().unwrap(),
    );
    let named = answer(&format!("merit {second} {first} --trait span --json"));
    assert_eq!(named["better"][0]["plant"], *first);
    assert_eq!(named["better"][0]["than"], *second);
    let better = number(&named["better"][0]["chance"]);
    let worse = number(&rows[1]["chance_better_than_first"]);
    assert!((better + worse - 1.0).abs() < 1e-9, "{better} and {worse}");
    assert!(better > 0.5 && rows[0]["chance_better_than_first"].is_null());
    // The mean is that of all that are here, whoever is named.
    for figure in ["merit", "error"] {
        let of = |row: &serde_json::Value| number(&row["of_traits"][0][figure]);
        assert!(
            (of(&rows[0]) - of(&named["rows"][0])).abs() < 1e-9,
            "{figure}"
        );
    }
    let tied = all["not_clearly_worse"].as_array().expect("a list");
    assert!(tied.contains(&rows[1]["id"]) && tied.len() > 3);
    for row in &rows[1..] {
        let chance = number(&row["chance_better_than_first"]);
        assert_eq!(tied.contains(&row["id"]), chance >= 0.05, "{row}");
        assert!(chance < 0.5, "{row}");
    }
    let run = demo("merit --trait span");
    let lead = format!(
        "No plant stands out in merit in leaf span: {} plants, X22-02-1 first,",
        tied.len() + 1
    );
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.starts_with(&lead), "{run}");
    assert!(!run.stdout.contains("best predicted"), "{run}");
    let even = answer("merit X13-01-3 X13-01-6 --trait span --json");
    assert_eq!(even["better"][0]["chance"], 0.5);
    let clear = demo("merit X22-02-1 X20-01-1 --trait span");
    assert!(
        clear
            .stdout
            .starts_with("X22-02-1 leads in merit in leaf span"),
        "{clear}"
    );
}

#[test]
fn plants_named_are_compared_two_by_two() {
    assert_snapshot!(demo("merit X22-02-1 X22-02-17 Ven1 --trait span"));
}

/// Errors are those of the differences from the mean of the plants told: with one plant told there is none.
#[test]
fn a_plant_does_not_differ_from_the_mean_of_itself() {
    let top = crosses(
        &[(Some("2022-09-01"), "4"), (Some("2022-09-01"), "5")],
        &["2023-09-05"],
    );
    let all = ask(top.path(), "merit --trait span --json");
    let all: serde_json::Value = serde_json::from_str(&all.stdout).expect("it is JSON");
    let rows = all["rows"].as_array().expect("a list");
    let logs = rows
        .iter()
        .map(|row| (1.0 + number(&row["of_traits"][0]["merit"]) / 100.0).ln());
    // Merits are differences from the mean of all, on the logarithm; parents without news stand at the mean.
    assert!(logs.sum::<f64>().abs() < 1e-6, "{all}");
}
