//! Flowers at the bench, each story played on a small registry of its own: what is said of a spike is never surer, and
//! never shorter, than what is recorded of it.

use crate::played::said;
use std::fs;

const SETTINGS: &str = "(genus: \"Nepenthes\", hemisphere: north)";
const SPECIES: &str = "(species: [(epithet: \"ventricosa\"), (epithet: \"maxima\"), (epithet: \"truncata\"), \
     (epithet: \"spathulata\"), (epithet: \"bicalcarata\")])";

/// Some founders, each with what its record says beside code and label.
struct Bench(tempfile::TempDir);

impl Bench {
    fn with(founders: &[(&str, &str, &str)], page: &str) -> Bench {
        let folder = tempfile::tempdir().unwrap();
        let clones = founders.iter().map(|(code, species, more)| {
            format!("(code: \"{code}\", received: \"N. {species}\", on: \"2020\", confidence: tag, {more}),\n")
        });
        let clones = format!(
            "(\n    clones: [\n{}    ],\n)\n",
            clones.collect::<String>()
        );
        fs::create_dir(folder.path().join("crosses")).unwrap();
        for (name, text) in [
            ("registry.ron", SETTINGS),
            ("species.ron", SPECIES),
            ("clones.ron", clones.as_str()),
            ("pollen.ron", "(\n    lots: [\n    ],\n)\n"),
            ("crosses/page.ron", page),
        ] {
            if !text.is_empty() {
                fs::write(folder.path().join(name), text).unwrap();
            }
        }
        Bench(folder)
    }

    /// What is answered on a day, in one line.
    fn said(&self, on: &str, line: &str) -> String {
        said(self.0.path(), line, on)
    }

    /// Asks one line after the other; each answer holds its words, and not those after `not:`.
    fn play(&self, on: &str, lines: &[(&str, &[&str])]) {
        for (line, wanted) in lines {
            let said = self.said(on, line);
            for words in *wanted {
                match words.strip_prefix("not: ") {
                    Some(words) => assert!(!said.contains(words), "{on} {line}: {said}"),
                    None => assert!(
                        said.contains(words),
                        "{on} {line}\nwants {words}\nhas   {said}"
                    ),
                }
            }
        }
    }
}

fn three() -> Bench {
    Bench::with(
        &[
            ("Ven1", "ventricosa", ""),
            ("Max2", "maxima", ""),
            (
                "Tru1",
                "truncata",
                "flowerings: [(opened: \"2024-05-29\", sex: male)]",
            ),
        ],
        "",
    )
}

#[test]
fn a_short_spike_of_another_plant_closes_no_open_spike() {
    let bench = three();
    bench.play(
        "2024-06-03",
        &[
            (
                "flower Ven1 --sex female --opened 2024-05-28",
                &["opened on 2024-05-28, female"],
            ),
            ("ready", &["1 female open"]),
            (
                "flower Max2 --sex male --opened 2024-05-27 --over 2024-05-31",
                &["over on 2024-05-31"],
            ),
            (
                "ready --full",
                &[
                    "1 female open",
                    "flowers for 4–28 days (common practice and 1 past spike of yours)",
                ],
            ),
            ("pair Ven1 Tru1", &["not: no open spike"]),
            ("plan", &["not: Nothing to pollinate"]),
            ("due", &["pollinate"]),
        ],
    );
}

#[test]
fn a_spike_outlives_its_forecast_until_it_is_over() {
    let bench = three();
    bench.said("2024-06-03", "flower Ven1 --sex female --opened 2024-05-28");
    // 43 days open: longer than common practice forecasts, and not longer than flowers last.
    bench.play(
        "2024-07-10",
        &[
            (
                "ready --full",
                &[
                    "0 females in flower, 1 more may be over",
                    "Ven1 female may be over",
                    "not on record as over",
                ],
            ),
            ("due", &["watch the spike", "female, may be over"]),
            ("pair Ven1 Tru1", &["the flowers of Ven1 may be over"]),
            ("plan --full", &["perhaps 2024-07-10 to"]),
        ],
    );
    bench.play(
        "2024-07-28",
        &[(
            "ready",
            &["0 females in flower, 0 more forecast", "not: Ven1"],
        )],
    );
    bench.said("2024-07-10", "flower Ven1 --over 2024-07-01");
    bench.play("2024-07-10", &[("ready", &["not: Ven1"])]);
}

#[test]
fn three_short_spikes_make_a_range_and_close_no_spike_either() {
    let bench = Bench::with(
        &[(
            "Ven1",
            "ventricosa",
            "flowerings: [(opened: \"2021-05-01\", over: \"2021-05-06\"), (opened: \"2022-05-01\", over: \"2022-05-07\"), \
             (opened: \"2023-05-01\", over: \"2023-05-05\"), (opened: \"2024-05-28\", sex: female)]",
        )],
        "",
    );
    bench.play(
        "2024-06-03",
        &[(
            "ready --full",
            &[
                "1 female open",
                "flowers for 4–6 days (3 past spikes of this plant)",
            ],
        )],
    );
    bench.play(
        "2024-06-04",
        &[("ready", &["0 females in flower, 1 more may be over"])],
    );
}

#[test]
fn a_spike_that_may_be_over_is_not_open() {
    let bench = Bench::with(
        &[(
            "Spa1",
            "spathulata",
            "flowerings: [(code: \"24a\", opened: \"2024-03-04\", sex: male)]",
        )],
        "",
    );
    bench.play(
        "2024-03-10",
        &[
            ("ready --full", &["Spa1 male open"]),
            (
                "flower Spa1 --over \"spring 2024\"",
                &["over in spring 2024"],
            ),
            // The last flower is not before the first.
            (
                "ready --full",
                &[
                    "Spa1 male may be over 2024-03-04 2024-03-04 to 2024-03-10",
                    "not: Spa1 male open",
                ],
            ),
        ],
    );
}

#[test]
fn a_claim_of_sex_is_no_spike() {
    for (by, said) in [
        ("supplier", "male, claimed by the supplier"),
        ("leaf-test", "male by leaf test only"),
    ] {
        let bench = Bench::with(&[("Tru1", "truncata", ""), ("Ven1", "ventricosa", "")], "");
        let line = format!("flower Tru1 --sex male --seen-by {by}");
        bench.play(
            "2024-03-10",
            &[
                (&line, &[&format!("Tru1: {said}"), "not: spike"]),
                ("due", &["not: watch the spike"]),
                ("ready", &["0 male spikes"]),
                ("show Tru1", &["date not recorded male", "not: spike seen"]),
                ("list", &["Tru1 male ", "not: Tru1 unsexed"]),
                ("check", &["No problems"]),
                // A spike of its own that opens later shows the sex for certain.
                (
                    "flower Tru1 --sex male --opened 2024-03-09",
                    &["Tru1 spike 24a: opened on 2024-03-09, male"],
                ),
                ("ready --full", &["Tru1 male open"]),
                (&line, &["not: spike"]),
                ("ready --full", &["Tru1 male open"]),
            ],
        );
    }
}

#[test]
fn a_guess_is_called_one_and_open_flowers_replace_it() {
    let bench = Bench::with(&[("Bic1", "bicalcarata", "")], "");
    bench.play(
        "2025-02-10",
        &[(
            "flower Bic1 --sex male --seen-by buds",
            &["Bic1 spike 25a: spike seen on 2025-02-10, male by buds only"],
        )],
    );
    bench.play(
        "2025-02-28",
        &[
            (
                "flower Bic1 --sex female --opened 2025-02-28 --spike 25a",
                &["female (was male by buds only)"],
            ),
            ("list", &["not: by buds"]),
            ("show Bic1", &["not: by buds", "not: buds: a guess"]),
            (
                "flower Bic1 --sex female --seen-by buds --spike 25a",
                &["showed that sex already"],
            ),
            (
                "flower Bic1 --sex male --seen-by buds --spike 25a",
                &["its open flowers were female"],
            ),
            (
                "flower Bic1 --sex male --seen-by supplier",
                &["Bic1: male, claimed by the supplier (its open flowers were female)"],
            ),
        ],
    );
}

#[test]
fn pollen_is_collected_of_open_flowers() {
    let bench = Bench::with(
        &[
            (
                "Spa1",
                "spathulata",
                "flowerings: [(code: \"24a\", opened: \"2024-03-04\", sex: male)]",
            ),
            ("Unk1", "maxima", ""),
            (
                "Ven1",
                "ventricosa",
                "flowerings: [(code: \"24a\", opened: \"2024-03-04\", sex: female)]",
            ),
        ],
        "",
    );
    bench.play(
        "2024-03-10",
        &[
            (
                "collect Spa1 --on 2024-02-20",
                &[
                    "pollen of Spa1 was collected on 2024-02-20",
                    "its first flower opened on 2024-03-04",
                ],
            ),
            (
                "collect Spa1 --on 2024-03-06",
                &["Spa1-2403: pollen of Spa1, collected on 2024-03-06"],
            ),
            (
                "collect Unk1",
                &[
                    "Unk1-2403: pollen of Unk1, collected on 2024-03-10",
                    "No flowers of Unk1 are on record",
                ],
            ),
            (
                "plan --full",
                &["pollen of Unk1 is on record, but not its sex"],
            ),
        ],
    );
}

#[test]
fn guessed_sexes_come_last_and_are_marked() {
    let bench = Bench::with(
        &[
            (
                "Ven1",
                "ventricosa",
                "flowerings: [(opened: \"2024-05-20\", sex: female)]",
            ),
            (
                "Max1",
                "maxima",
                "flowerings: [(spike: \"2024-06-01\", sex: male, seen_by: buds)]",
            ),
            (
                "Max2",
                "maxima",
                "flowerings: [(opened: \"2023-05-20\", over: \"2023-05-30\", sex: male)]",
            ),
        ],
        "",
    );
    let pods = "plan --any-time --seedlings 6 --pots 6";
    bench.play(
        "2024-06-01",
        &[(pods, &["1 Ven1 Max2 fresh", "not: sex only guessed"])],
    );
    bench.said("2024-06-01", "gone Max2 --died");
    bench.play(
        "2024-06-01",
        &[
            (
                pods,
                &[
                    "1 Ven1 Max1 (male by buds only) fresh",
                    "sex only guessed: Max1",
                ],
            ),
            ("flower Ven1 --over 2024-05-31", &["Ven1"]),
            ("plan", &["every plant whose sex was seen or guessed"]),
            // Where none is left that is female, taking all as in flower changes nothing.
            ("gone Ven1 --died", &["Ven1: died"]),
            (
                "plan",
                &["no plant here is on record as female", "not: in flower ("],
            ),
        ],
    );
}

#[test]
fn the_bench_sheet_names_the_pot_that_flowers() {
    let sheet = |ramets: &str| {
        let more =
            format!("ramets: [{ramets}], flowerings: [(opened: \"2024-05-20\", sex: female)]");
        let bench = Bench::with(
            &[
                ("Ven1", "ventricosa", &more),
                (
                    "Max1",
                    "maxima",
                    "flowerings: [(opened: \"2024-05-25\", sex: male, seen_by: buds)]",
                ),
            ],
            "",
        );
        let at = bench.0.path().join("bench.svg");
        bench.said(
            "2024-06-01",
            &format!("plan --bench -o \"{}\"", at.display()),
        );
        let due = bench.said("2024-06-01", "due --full");
        (fs::read_to_string(at).unwrap(), due)
    };
    let cutting =
        "(code: \"b\", from: \"a\", made: cutting, cut: \"2024-05-01\", place: \"shelf 3\")";
    let (drawn, due) = sheet(&format!("(code: \"a\", made: original), {cutting}"));
    assert!(
        !drawn.contains("shelf 3") && !due.contains("pollinate Ven1 shelf 3"),
        "{due}"
    );
    assert!(
        drawn.contains("male by buds only") && drawn.contains("Sex only guessed: Max1"),
        "{drawn}"
    );
    let (drawn, due) = sheet(&format!(
        "(code: \"a\", made: original, place: \"shelf 1\"), {cutting}"
    ));
    assert!(
        drawn.contains("shelf 1") && !drawn.contains("shelf 3"),
        "{due}"
    );
}

#[test]
fn a_pod_is_not_ripe_while_its_flowers_are_dusted() {
    let page = "(code: \"X24-01\", parents: known(seed: \"Ven1\", pollen: \"Tru1\"), confidence: witnessed, \
         pollinations: [(zone: \"red\", on: [\"2024-03-06\", \"2024-03-08\"], flowers: 6, set: 3), \
         (zone: \"blue\", on: [\"2024-03-06\"], flowers: 6), \
         (zone: \"green\", on: [\"2024-02-01\", \"2024-03-08\"], flowers: 6)], \
         pods: [(code: \"P1\", zone: \"green\", harvested: \"2024-03-08\")])";
    let bench = Bench::with(
        &[
            (
                "Ven1",
                "ventricosa",
                "flowerings: [(opened: \"2024-03-01\", sex: female)]",
            ),
            (
                "Tru1",
                "truncata",
                "flowerings: [(opened: \"2024-03-01\", sex: male)]",
            ),
        ],
        page,
    );
    bench.play(
        "2024-03-20",
        &[
            (
                "harvest X24-01.red --on 2024-03-08",
                &["it was pollinated on that day", "podbook undo"],
            ),
            (
                "harvest X24-01.red --on 2024-03-07",
                &["it was pollinated later, on 2024-03-08"],
            ),
            // Too soon by common practice is one warning, not two.
            (
                "harvest X24-01.red --on 2024-03-18",
                &[
                    "the pod had too little time to ripen",
                    "not: are usual (common practice). Check both dates",
                ],
            ),
            (
                "due --within 6m --full",
                &[
                    "60–180 days by common practice",
                    "not: record of yours",
                    "not: records of yours",
                ],
            ),
        ],
    );
}

#[test]
fn one_thread_with_two_pollens_is_remarked_on() {
    let bench = Bench::with(
        &[
            (
                "Ven1",
                "ventricosa",
                "flowerings: [(code: \"24a\", opened: \"2024-03-01\", sex: female)]",
            ),
            (
                "Spa1",
                "spathulata",
                "flowerings: [(opened: \"2024-03-01\", sex: male)]",
            ),
            (
                "Tru1",
                "truncata",
                "flowerings: [(opened: \"2024-03-01\", sex: male)]",
            ),
        ],
        "",
    );
    // The words of `check`, once.
    let doubt = "X24-01.red and X24-02.red may be the same flowers";
    bench.play(
        "2024-03-10",
        &[
            (
                "pollinate Ven1 --with Spa1 --zone red --on 2024-03-06",
                &["X24-01.red", "not: may be the same flowers"],
            ),
            (
                "pollinate Ven1 --with Tru1 --zone blue --on 2024-03-06",
                &["not: may be the same flowers"],
            ),
            // A letter chosen for a zone begins anew with each cross.
            (
                "pollinate Ven1 --with Tru1 --on 2024-03-07",
                &["X24-02.A", "not: may be the same flowers"],
            ),
            (
                "pollinate Ven1 --with Spa1 --on 2024-03-07",
                &["X24-01.A", "not: may be the same flowers"],
            ),
            (
                "pollinate Ven1 --with Tru1 --zone red --on 2024-03-06",
                &["X24-02.red", doubt, "not: two possible fathers"],
            ),
        ],
    );
}

#[test]
fn a_vague_date_is_in_and_not_on() {
    let bench = Bench::with(
        &[
            (
                "Ven1",
                "ventricosa",
                "flowerings: [(opened: \"2024-03-01\", sex: female)]",
            ),
            (
                "Spa2",
                "spathulata",
                "flowerings: [(opened: \"2024-03-01\", sex: male)]",
            ),
            ("Tru1", "truncata", ""),
        ],
        "",
    );
    bench.play(
        "2024-08-10",
        &[
            (
                "flower Tru1 --opened \"March 2024\" --over \"spring 2024\"",
                &["opened in March 2024, over in spring 2024"],
            ),
            ("collect Spa2 --on 2024-03-05", &["collected on 2024-03-05"]),
            (
                "pollinate Ven1 --open --near Spa2 --on 2024-03-06 --flowers 3",
                &["Ven1 left to open pollination, near Spa2, on 2024-03-06, 3 flowers"],
            ),
            (
                "pollinate Ven1 --with Spa2 --zone red --on 2024-03-06",
                &["pollinated with Spa2 on 2024-03-06"],
            ),
            (
                "pollinate Ven1 --with Spa2-2403 --zone red --on 2024-03-07",
                &["X24-02.red: Ven1 pollinated again with Spa2 from Spa2-2403 on 2024-03-07"],
            ),
            (
                "harvest X24-02.red --on \"July 2024\"",
                &["harvested from X24-02.red in July 2024"],
            ),
            ("ready --on 2024-03-06", &["only one envelope of Spa2"]),
            (
                "gone Tru1 --lost --on \"by 2024-05\"",
                &["Tru1: lost by 2024-05"],
            ),
            ("undo", &["Undid"]),
            (
                "gone Tru1 --lost --on \"2024-04 to 2024-05\"",
                &["Tru1: lost between 2024-04 and 2024-05"],
            ),
            ("gone Spa2 --died --on 2024", &["Spa2: died in 2024"]),
        ],
    );
}

#[test]
fn one_early_seedling_widens_the_age_of_first_flowers() {
    let page = "(code: \"X20-01\", parents: known(seed: \"Ven1\", pollen: \"Tru1\"), confidence: witnessed, \
         sowings: [(code: \"S1\", on: \"2020-01-01\")], seedlings: [\
         (number: \"1\", sowing: \"S1\", flowerings: [(opened: \"2022-01-01\", over: \"2022-01-20\", sex: female)]), \
         (number: \"2\", sowing: \"S1\")])";
    let bench = Bench::with(
        &[("Ven1", "ventricosa", ""), ("Tru1", "truncata", "")],
        page,
    );
    bench.play(
        "2024-03-20",
        &[(
            "plan --full",
            &["between 2.0 and 6.0 years from sowing (common practice and 1 seedling of yours)"],
        )],
    );
}

#[test]
fn of_equal_plans_the_one_that_surely_meets_is_shown() {
    let female = |opened: &str| format!("flowerings: [(opened: \"{opened}\", sex: female)]");
    let [over, open] = ["2024-04-01", "2024-05-08"].map(female);
    let male = "flowerings: [(opened: \"2024-05-08\", sex: male)]";
    let bench = Bench::with(
        &[
            ("Max1", "maxima", &over),
            ("Tru1", "truncata", &open),
            ("Ven1", "ventricosa", male),
            ("Spa1", "spathulata", male),
        ],
        "",
    );
    let drawn = bench.0.path().join("plan.svg");
    let picture = |pots: u32| {
        let asked = format!(
            "plan --seedlings 20 --pots {pots} -o \"{}\"",
            drawn.display()
        );
        bench.said("2024-05-10", &asked);
        fs::read_to_string(&drawn).unwrap()
    };
    bench.play(
        "2024-05-10",
        &[
            (
                "plan --seedlings 20 --pots 20",
                &["1 Tru1 Spa1 fresh", "not: perhaps"],
            ),
            (
                "plan --seedlings 20 --pots 20 --full",
                &["+1 Max1 × Spa1 (perhaps)", "pods that only perhaps meet"],
            ),
            (
                "plan --seedlings 20 --pots 120",
                &["inbreeding meet", "0 perhaps", "0 surely"],
            ),
            (
                "ready --full",
                &["Tru1 Ven1 fresh 0 days 2024-05-10", "not: fresh 2 days"],
            ),
        ],
    );
    let options = bench.said("2024-05-10", "ready --full");
    let place = |seed: &str| options.find(&format!("{seed} Ven1 fresh")).expect("a row");
    assert!(place("Tru1") < place("Max1"), "{options}");
    assert!(picture(120).contains("only perhaps meet"), "plan.svg");
}

/// The last flower is no earlier than the last day on which flowers were seen open, dusted or gave pollen; pollen that is
/// shed is fresh.
#[test]
fn the_last_flower_is_not_before_those_seen_open() {
    let bench = Bench::with(
        &[("Ven1", "ventricosa", ""), ("Spa1", "spathulata", "")],
        "",
    );
    bench.play(
        "2024-09-10",
        &[
            ("flower Spa1 --sex male", &["open by 2024-09-10"]),
            ("flower Ven1", &["spike seen on 2024-09-10"]),
            ("ready --full", &["2024-09-10 to 2024-10-08"]),
        ],
    );
    bench.play(
        "2024-10-15",
        &[
            ("flower Ven1 --sex female", &["open by 2024-10-15"]),
            (
                "ready --full",
                &["2024-10-15 to 2024-11-12", "Ven1 Spa1 fresh 0 days perhaps"],
            ),
        ],
    );
    for day in ["2024-10-16", "2024-10-20"] {
        let dusted = "pollinate Ven1 --with Spa1 --zone red --flowers 1";
        bench.play(day, &[(dusted, &["X24-01.red"])]);
    }
    bench.play(
        "2024-10-28",
        &[(
            "due --full",
            &["flowers open until 2024-10-20 to 2024-11-12"],
        )],
    );
}
