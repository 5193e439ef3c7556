//! `podbook growth`: awkward shapes, vague dates, and what is asked wrongly.

use crate::bench_top::{BenchTop, Run};
use serde_json::Value;

const REGISTRY: &str = r#"(genus: "Nepenthes", hemisphere: north, traits: [
    (code: "span", name: "leaf span", reads: length(cm)),
    (code: "liking", name: "overall liking", reads: scale(["cull", "keep"])),
])"#;
const SPECIES: &str = r#"(species: [(epithet: "ventricosa"), (epithet: "spathulata")])"#;
const CLONES: &str = r#"(clones: [
    (code: "V1", received: "N. ventricosa", confidence: tag, flowerings: [(opened: "2018-03", sex: female)]),
    (code: "S1", received: "N. spathulata", confidence: tag, flowerings: [(opened: "2018-03", sex: male)]),
    (code: "V2", received: "N. ventricosa", confidence: tag, flowerings: [(opened: "2018-03", sex: male)]),
])"#;

/// A page: code, day sown, and sittings as day and one cell for each plant from number 1 on.
fn page(code: &str, pollen: &str, sown: &str, sittings: &[(&str, &[&str])]) -> String {
    let most = sittings
        .iter()
        .map(|(_, cells)| cells.len())
        .max()
        .unwrap_or(0);
    let seedlings: Vec<String> = (1..=most)
        .map(|number| {
            format!("(number: \"{number}\", sowing: \"S1\", pots: [(on: \"2020-03-01\", pot: \"5 cm\")])")
        })
        .collect();
    let sittings: Vec<String> = sittings
        .iter()
        .map(|(on, cells)| {
            let rows: Vec<String> = (1..)
                .zip(cells.iter())
                .map(|(number, cell)| format!("[\"{number}\", \"{cell}\"]"))
                .collect();
            format!(
                "(on: \"{on}\", place: \"shelf\", method: \"ruler\", by: \"me\", light: \"LED\", columns: [\"span\"], rows: [{}])",
                rows.join(", ")
            )
        })
        .collect();
    format!(
        "(code: \"{code}\", parents: known(seed: \"V1\", pollen: \"{pollen}\"), confidence: witnessed,
          pollinations: [(zone: \"A\", on: [\"2019-01-05\"])], pods: [(code: \"P1\", zone: \"A\", harvested: \"2019-06-01\")],
          sowings: [(code: \"S1\", pod: \"P1\", on: \"{sown}\")], seedlings: [{}], sittings: [{}])",
        seedlings.join(", "),
        sittings.join(", ")
    )
}

fn top(first: &str, second: &str) -> BenchTop {
    BenchTop::with([
        ("registry.ron", REGISTRY),
        ("species.ron", SPECIES),
        ("clones.ron", CLONES),
        ("crosses/X19-01.ron", first),
        ("crosses/X19-02.ron", second),
    ])
}

fn compared(first: &str, second: &str, more: &[&str]) -> (Run, Value) {
    let top = top(first, second);
    let arguments = [&["growth", "X19-01", "X19-02"], more].concat();
    let run = top.run(&arguments);
    let json = top.run(&[&arguments[..], &["--json"]].concat());
    let answer: Value = serde_json::from_str(&json.stdout).unwrap_or(Value::Null);
    (run, answer)
}

fn first_line(run: &Run) -> String {
    let paragraph = run.stdout.split("\n\n").next().unwrap_or("");
    paragraph.split_whitespace().collect::<Vec<_>>().join(" ")
}

const SOWN: &str = "2019-07-01";

#[test]
fn no_plant_and_no_reading() {
    let (run, answer) = compared(
        &page("X19-01", "S1", SOWN, &[]),
        &page("X19-02", "V2", SOWN, &[]),
        &[],
    );
    assert_eq!(run.exit, Some(0));
    assert_eq!(
        first_line(&run),
        "X19-01 and X19-02 are not comparable: no leaf span was read of X19-01 and X19-02"
    );
    assert_eq!(answer["comparisons"][0]["verdict"], "no_common_age");
    let missing: &[(&str, &[&str])] = &[("2021-01-01", &["", "", ""])];
    let (run, _) = compared(
        &page("X19-01", "S1", SOWN, missing),
        &page("X19-02", "V2", SOWN, missing),
        &[],
    );
    assert_eq!(
        first_line(&run),
        "X19-01 and X19-02 are not comparable: no leaf span was read of X19-01 and X19-02"
    );
}

#[test]
fn one_plant_against_two() {
    let one: &[(&str, &[&str])] = &[("2021-01-01", &["5 cm"])];
    let two: &[(&str, &[&str])] = &[("2021-01-01", &["6 cm", "8 cm"])];
    let (run, answer) = compared(
        &page("X19-01", "S1", SOWN, one),
        &page("X19-02", "V2", SOWN, two),
        &[],
    );
    assert_eq!(
        first_line(&run),
        "X19-02 is larger than X19-01 at 18.1 months, by 2.0 cm (40 %): 1 plant against 2, too few to say more"
    );
    assert_eq!(answer["comparisons"][0]["verdict"], "too_few");
    assert_eq!(answer["comparisons"][0]["interval"], Value::Null);
}

#[test]
fn all_equal() {
    let same: &[(&str, &[&str])] = &[("2021-01-01", &["5 cm", "5 cm", "5 cm"])];
    let (run, answer) = compared(
        &page("X19-01", "S1", SOWN, same),
        &page("X19-02", "V2", SOWN, same),
        &[],
    );
    assert!(
        first_line(&run).contains("are equal at 18.1 months"),
        "{}",
        first_line(&run)
    );
    assert_eq!(answer["comparisons"][0]["difference"].as_f64(), Some(0.0));
}

#[test]
fn ages_that_never_meet() {
    let early: &[(&str, &[&str])] = &[
        ("2019-12-01", &["1 cm", "2 cm"]),
        ("2020-03-01", &["2 cm", "3 cm"]),
    ];
    let late: &[(&str, &[&str])] = &[("2021-12-01", &["9 cm", "8 cm"])];
    let (run, _) = compared(
        &page("X19-01", "S1", SOWN, early),
        &page("X19-02", "V2", SOWN, late),
        &[],
    );
    assert_eq!(
        first_line(&run),
        "X19-01 and X19-02 are not comparable: they share no age"
    );
    let said: Vec<&str> = run.stdout.split_whitespace().collect();
    assert!(
        said.join(" ").contains("X19-01 read at 5.0–8.0 months"),
        "{run}"
    );
}

/// Grown side by side, far apart in size: still "probably", since each cross has one pod; pods themselves "clearly".
#[test]
fn one_pod_a_side_is_never_clear_for_crosses() {
    let small: &[(&str, &[&str])] = &[("2021-01-01", &["2.0 cm", "2.1 cm", "2.2 cm", "1.9 cm"])];
    let large: &[(&str, &[&str])] = &[("2021-01-01", &["9.0 cm", "9.1 cm", "9.2 cm", "8.9 cm"])];
    let (first, second) = (
        page("X19-01", "S1", SOWN, small),
        page("X19-02", "V2", SOWN, large),
    );
    let (_, answer) = compared(&first, &second, &[]);
    assert_eq!(answer["comparisons"][0]["verdict"], "probably");
    let pods = top(&first, &second).run(&["growth", "X19-01.P1", "X19-02.P1"]);
    assert!(
        first_line(&pods).contains(" is clearly larger than "),
        "{pods}"
    );
}

/// The sowing is known to half a year: sizes become ranges, and a difference smaller than they are wide is none.
#[test]
fn ranges_that_overlap() {
    let read: &[(&str, &[&str])] = &[
        ("2020-07-01", &["2.0 cm", "2.1 cm"]),
        ("2022-01-01", &["9.0 cm", "9.5 cm"]),
    ];
    let other: &[(&str, &[&str])] = &[
        ("2020-07-01", &["2.6 cm", "2.7 cm"]),
        ("2022-01-01", &["9.9 cm", "10.2 cm"]),
    ];
    let exact = compared(
        &page("X19-01", "S1", SOWN, read),
        &page("X19-02", "V2", SOWN, other),
        &["--at", "20"],
    );
    let vague = "2019-05 to 2019-10";
    let (run, answer) = compared(
        &page("X19-01", "S1", vague, read),
        &page("X19-02", "V2", vague, other),
        &["--at", "20"],
    );
    let width = |answer: &Value| {
        let limits = &answer["comparisons"][0]["interval"];
        limits[1].as_f64().expect("a limit") - limits[0].as_f64().expect("a limit")
    };
    assert!(width(&answer) > width(&exact.1));
    assert_eq!(answer["comparisons"][0]["verdict"], "no_clear_difference");
    assert!(run.stdout.contains("dates are vague"), "{run}");
}

/// Every day the sowing can mean, tried one by one, gives sizes within the range told, and its ends are reached.
#[test]
fn a_vague_sowing_holds_every_day_it_can_mean() {
    let read: &[(&str, &[&str])] = &[
        ("2020-07-01", &["2.0 cm"]),
        ("2020-12-01", &["4.1 cm"]),
        ("2022-01-01", &["9.0 cm"]),
    ];
    let (_, answer) = compared(
        &page("X19-01", "S1", "2019-07", read),
        &page("X19-02", "V2", "2019-07", read),
        &["--at", "20"],
    );
    let between = &answer["comparisons"][0]["sides"][0]["mean_between"];
    let told = (
        between[0].as_f64().expect("low"),
        between[1].as_f64().expect("high"),
    );
    let day = |y, m, d| f64::from(podbook::record::Day::new(y, m, d).expect("a day").0);
    let points = [
        (day(2020, 7, 1), 2.0_f64),
        (day(2020, 12, 1), 4.1),
        (day(2022, 1, 1), 9.0),
    ];
    let size = |sown: f64| {
        let at = sown + 20.0 * 365.25 / 12.0;
        let pair = points
            .windows(2)
            .find(|pair| pair[0].0 <= at && at <= pair[1].0)
            .expect("between readings");
        let part = (at - pair[0].0) / (pair[1].0 - pair[0].0);
        (pair[0].1.ln() * (1.0 - part) + pair[1].1.ln() * part).exp()
    };
    let sizes: Vec<f64> = (1..=31).map(|d| size(day(2019, 7, d))).collect();
    let least = sizes.iter().copied().fold(f64::INFINITY, f64::min);
    let most = sizes.iter().copied().fold(0.0, f64::max);
    assert!(
        (told.0 - least).abs() < 1e-9 && (told.1 - most).abs() < 1e-9,
        "{told:?} against {least} to {most}"
    );
}

/// Species plants against hybrids: V1 × V2 is pure, V1 × S1 is not; the clones themselves have no age.
#[test]
fn a_species_against_its_hybrid() {
    let sizes: &[(&str, &[&str])] = &[("2021-01-01", &["5.0 cm", "5.5 cm", "6.1 cm"])];
    let top = top(
        &page("X19-01", "S1", SOWN, sizes),
        &page("X19-02", "V2", SOWN, sizes),
    );
    let run = top.run(&["growth", "ventricosa", "X19-01", "--json"]);
    let answer: Value = serde_json::from_str(&run.stdout).expect("JSON");
    assert_eq!(answer["groups"][0]["plants"].as_u64(), Some(5));
    assert_eq!(answer["groups"][0]["measured"].as_u64(), Some(3));
    assert_eq!(answer["comparisons"][0]["difference"].as_f64(), Some(0.0));
}

#[test]
fn what_is_asked_wrongly_is_refused() {
    let top = top(
        &page("X19-01", "S1", SOWN, &[]),
        &page("X19-02", "V2", SOWN, &[]),
    );
    for (arguments, words) in [
        (&["growth", "X19-03"][..], "did you mean"),
        (
            &["growth", "X19-01", "--trait", "liking"],
            "not measured but judged",
        ),
        (
            &["growth", "X19-01", "--trait", "girth"],
            "declared are span, liking",
        ),
        (&["growth", "X19-01", "--at=-3"], "above zero"),
        (&["growth", "X19-01", "--at=NaN"], "above zero"),
        (
            &["growth", "X19-01", "-o", "x.bmp"],
            "is not a format podbook knows",
        ),
    ] {
        let run = top.run(arguments);
        assert_eq!(run.exit, Some(2), "{arguments:?}: {run}");
        assert!(run.stderr.contains(words), "{arguments:?}: {run}");
    }
}

#[test]
fn the_tables_come_as_csv() {
    let sizes: &[(&str, &[&str])] = &[("2021-01-01", &["5.0 cm", "5.5 cm", "6.1 cm"])];
    let top = top(
        &page("X19-01", "S1", SOWN, sizes),
        &page("X19-02", "V2", SOWN, sizes),
    );
    let run = top.run(&["growth", "X19-01", "X19-02", "--format", "csv"]);
    let lines: Vec<&str> = run.stdout.lines().collect();
    assert_eq!(
        lines[0], "\"leaf span at the common age, cm\",,,,,,,",
        "{run}"
    );
    assert!(lines[1].starts_with("group,months,n,"), "{run}");
}

/// A verdict of no difference names no larger one, one set of plants has one mean, and culled plants did not leave alive.
#[test]
fn no_clear_difference_names_no_winner() {
    let run = crate::demo::demo("growth X22-02 X15-02");
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.starts_with("No clear difference"), "{run}");
    assert!(!said.contains("is larger"), "{run}");
    assert!(!said.contains("13.1"), "{run}");
    assert!(!said.contains("left alive"), "{run}");
    assert!(
        said.contains("15 of 16, 94 % (72–99 %); 2 of its 18 were culled, sold or lost"),
        "{run}"
    );
    let run = crate::demo::demo_screen(60, "growth X22-02 X15-02");
    assert!(
        run.stdout
            .contains("  group   months   n  of plants  median  mean   SD  pods\n"),
        "{run}"
    );
    let run = crate::demo::demo("growth spathulata");
    assert_eq!(
        run.stdout, "No leaf span of spathulata (1 plant) is on record\n",
        "{run}"
    );
}

/// The size in the first line is of those who were read that day, not of all who ever were.
#[test]
fn the_first_line_says_of_how_many_its_size_is() {
    let sittings: &[(&str, &[&str])] = &[
        ("2020-07-01", &["1.0 cm", "1.2 cm", "1.4 cm"]),
        ("2021-07-01", &["4.0 cm", "", "5.0 cm"]),
    ];
    let first = page("X19-01", "S1", SOWN, sittings);
    let run = top(&first, &page("X19-02", "V2", SOWN, &[])).run(&["growth", "X19-01"]);
    assert!(
        first_line(&run).starts_with(
            "X19-01: 3 of 3 plants measured; leaf span, median 4.5 cm at 24.0 months (n 2), growing"
        ),
        "{run}"
    );
}

/// What is not recorded is not known to differ, and siblings have the same parents.
#[test]
fn what_is_not_recorded_is_not_called_unlike() {
    let sittings: &[(&str, &[&str])] = &[("2021-01-01", &["2.0 cm", "2.2 cm"])];
    let (first, second) = (
        page("X19-01", "S1", SOWN, sittings),
        page("X19-02", "V2", SOWN, sittings),
    );
    let said = |first: &str, second: &str, arguments: &[&str]| {
        let run = top(first, second).run(arguments);
        let run = run.to_string();
        run.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let pair = ["growth", "X19-01", "X19-02"];
    let unlit = |page: &str| page.replace("light: \"LED\", ", "");
    let unsaid = said(&unlit(&first), &unlit(&second), &pair);
    assert!(
        unsaid.contains(
            "! whether X19-01 and X19-02 were grown alike is not known (not recorded: light), so a difference may come from that"
        ) && !unsaid.contains("not grown alike"),
        "{unsaid}"
    );
    let moved = second.replace("place: \"shelf\"", "place: \"sill\"");
    let differed = said(&unlit(&first), &moved, &pair);
    assert!(
        differed.contains(
            "! X19-01 and X19-02 were not grown alike (differed: place; not recorded: light), so a difference may come from that"
        ),
        "{differed}"
    );
    let pots = first.replacen("pot: \"5 cm\"", "pot: \"7 cm\"", 1);
    let siblings = said(&pots, &second, &["growth", "X19-01-1", "X19-01-2"]);
    assert!(
        siblings.contains("X19-01-1 and X19-01-2 were not grown alike (differed: pot)")
            && !siblings.contains("parents"),
        "{siblings}"
    );
}

/// Twenty seedlings sown on 10 January 2021; `fates` of the first ones, and when each got its number.
fn lives(fates: &[&str], numbered: &str) -> BenchTop {
    let seedling = |number: usize| {
        let fate = fates
            .get(number - 1)
            .map(|on| format!(", fate: died(on: \"{on}\")"));
        format!(
            "(number: \"{number}\"{numbered}{})",
            fate.unwrap_or_default()
        )
    };
    let seedlings: Vec<String> = (1..=20).map(seedling).collect();
    let page = format!(
        "(code: \"K\", parents: known(seed: \"V1\", pollen: \"S1\"), sowings: [(code: \"S1\", on: \"2021-01-10\")], seedlings: [{}])",
        seedlings.join(", ")
    );
    BenchTop::with([
        ("registry.ron", REGISTRY),
        ("species.ron", SPECIES),
        ("clones.ron", CLONES),
    ])
    .file("crosses/K.ron", &page)
}

fn survival(top: &BenchTop) -> (Value, Run) {
    let run = top.run(&["growth", "K", "--json"]);
    let answer: Value = serde_json::from_str(&run.stdout).expect("JSON");
    (
        answer["groups"][0]["survival"].clone(),
        top.run(&["growth", "K"]),
    )
}

/// What has happened has happened by today: the last day of its month or year is not to come.
#[test]
fn a_death_of_this_month_or_year_is_no_later_than_today() {
    let known = ["2023-03-01", "2023-05-01", "2023-07-01", "2023-09-01"];
    for last in ["2024-05-30", "2024-06", "2024", "summer 2024"] {
        let (row, run) = survival(&lives(&[&known[..], &[last]].concat(), ""));
        assert_eq!(row["deaths"], 5, "{last}\n{run}");
        let steps = row["steps"].as_array().expect("a curve");
        let end = steps.last().expect("steps");
        assert_eq!(end["at_risk"], 16, "{last}\n{run}");
        let alive = end["survival"].as_f64().expect("a share");
        assert!((alive - 0.75).abs() < 1e-12, "{last}: {alive}");
        assert!(row["median_age"].is_null(), "{last}\n{run}");
    }
}

#[test]
fn a_number_of_this_year_hides_no_plant() {
    let (row, run) = survival(&lives(&["2024-05-20"; 5], ", numbered: \"2024\""));
    assert_eq!(
        (&row["followed"], &row["alive"]),
        (&20.into(), &15.into()),
        "{run}"
    );
    assert_eq!(row["steps"].as_array().map(Vec::len), Some(1), "{run}");
}

/// Who is alive today needs no day of a death; only the curve does, and the answer says what it leaves out.
#[test]
fn a_death_on_an_unknown_day_is_a_death() {
    let fates = [["?"; 9].as_slice(), &["2023-06-01"; 5]].concat();
    let (row, run) = survival(&lives(&fates, ""));
    assert_eq!(
        (&row["died"], &row["deaths"]),
        (&14.into(), &5.into()),
        "{run}"
    );
    let share = row["alive_share"][0].as_f64().expect("a share");
    assert!((share - 0.3).abs() < 1e-12, "{share}");
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    let words = "K: of its 14 deaths 9 have no age on record, so the curve leaves them out and stands too high";
    assert!(said.contains(words), "{run}");
}

/// A cross sown on 10 January 2022 and read at some sittings, as the answer has it.
fn grown(sittings: &[(&str, &[&str])]) -> (Value, Run) {
    let page = page("K", "S1", "2022-01-10", sittings);
    let top = BenchTop::with([
        ("registry.ron", REGISTRY),
        ("species.ron", SPECIES),
        ("clones.ron", CLONES),
        ("crosses/K.ron", &page),
    ]);
    let run = top.run(&["growth", "K", "--json"]);
    let answer: Value = serde_json::from_str(&run.stdout).expect("JSON");
    (answer["groups"][0].clone(), run)
}

/// A second look within half a month shows the error of a reading, not growth.
#[test]
fn readings_of_one_age_are_no_growth() {
    let sittings: [(&str, &[&str]); 3] = [
        ("2023-09-01", &["5 cm", "5.1 cm", "5.2 cm", "5.3 cm"]),
        (
            "2024-05-20",
            &["8 cm", "8.1 cm", "8.2 cm", "8.3 cm", "4 cm", "4.2 cm"],
        ),
        ("2024-05-21", &["", "", "", "", "4.3 cm", "4.5 cm"]),
    ];
    let (group, run) = grown(&sittings);
    assert_eq!(group["rate"]["n"], 4, "{run}");
    let mean = group["rate"]["mean"].as_f64().expect("a rate");
    assert!((mean - 0.0538).abs() < 0.001, "{mean}");
}

/// A plant read twice on one day is one plant, by its later reading.
#[test]
fn two_readings_of_a_day_are_one_plant() {
    let sittings: [(&str, &[&str]); 2] = [
        ("2024-05-20", &["8 cm", "8.1 cm", "8.2 cm"]),
        ("2024-05-20", &["9 cm"]),
    ];
    let (group, run) = grown(&sittings);
    let day = &group["sittings"][0];
    assert_eq!(
        (&day["n"], &day["median"]),
        (&3.into(), &8.2.into()),
        "{run}"
    );
}

/// Only a picture that draws a bare number hollow says so.
#[test]
fn what_is_drawn_hollow_is_drawn() {
    let at = [("2019-12-01", &["3 cm"][..]), ("2020-06-01", &["4"])];
    let top = top(
        &page("X19-01", "S1", "2019-07-01", &at),
        &page("X19-02", "V2", "2019-07-01", &[("2020-06-01", &["4 cm"])]),
    );
    for (asked, is_drawn) in [(&["X19-01"][..], true), (&["X19-01", "X19-02"], false)] {
        let drawn = top.run(&[&["growth"], asked, &["--format", "svg"]].concat());
        let words = drawn.stdout.replace("</text>", " ").replace('\n', " ");
        assert!(words.contains("has no unit"), "{drawn}");
        assert_eq!(words.contains("hollow"), is_drawn, "{drawn}");
        let text = top.run(&[&["growth"], asked].concat());
        assert!(!text.stdout.contains("hollow"), "{text}");
    }
}
