//! Small registries in which one thing is not recorded: what an answer may and may not make of that.

use crate::bench_top::BenchTop;
use crate::demo::screen_of;

const SETTINGS: &str = r#"(genus: "Nepenthes", hemisphere: north, traits: [
    (code: "span", name: "leaf span", reads: length(cm), tied_within: 0.7),
    (code: "banding", name: "rim banding", reads: scale(["none", "weak", "strong"]), from_months: 12),
])"#;
const SPECIES: &str = r#"(species: [(epithet: "ventricosa"), (epithet: "spathulata")])"#;
const CLONES: &str = r#"(clones: [
    (code: "V", received: "N. ventricosa", confidence: tag, flowerings: [(opened: "2026-05-25", sex: female)]),
    (code: "S", received: "N. spathulata", confidence: tag),
])"#;

/// A registry of two founders and the page of cross K with these fields; the day is 2026-06-01.
pub fn of(fields: &str) -> BenchTop {
    let parents = match fields.contains("parents:") {
        true => "",
        false => "parents: known(seed: \"V\", pollen: \"S\"), ",
    };
    let page = format!("(code: \"K\", {parents}{fields})");
    BenchTop::with([
        ("registry.ron", SETTINGS),
        ("species.ron", SPECIES),
        ("clones.ron", CLONES),
        ("crosses/K.ron", page.as_str()),
    ])
}

/// What a question prints on 2026-06-01, with single blanks.
pub fn said(top: &BenchTop, question: &str) -> String {
    let words: Vec<&str> = question.split(' ').collect();
    let run = top.run(&[&words[..], &["--today", "2026-06-01"]].concat());
    let all = format!("{}{}", run.stdout, run.stderr);
    all.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Holds an answer against words that it must have, or behind `not: ` must not have.
pub fn holds(answer: &str, words: &[&str]) {
    for wanted in words {
        match wanted.strip_prefix("not: ") {
            Some(unwanted) => assert!(!answer.contains(unwanted), "{unwanted}\n{answer}"),
            None => assert!(answer.contains(wanted), "{wanted}\n{answer}"),
        }
    }
}

const COUNTS: &str =
    r#"germinated: [(on: "2024-03-19", count: 30), (on: "2024-05-25", count: 38)]"#;

#[test]
fn controls_that_set_beyond_their_number_are_not_called_flowers() {
    let zone = r#"(zone: "A", flowers: 4, set: 3, control_flowers: 2, control_set: 3)"#;
    let top = of(&format!("pollinations: [{zone}]"));
    let words = [
        "more controls of zone A set than it had",
        "found 3 controls set, 2 flowers left alone",
    ];
    holds(&said(&top, "check"), &words);
}

#[test]
fn times_of_germination_need_no_number_sown() {
    let top = of(&format!(
        r#"sowings: [(code: "S1", on: "2024-01-01", {COUNTS})]"#
    ));
    holds(&said(&top, "growth K"), &["K.S1 – 38 – – – 2 78 78"]);
    let undated = of(&format!(r#"sowings: [(code: "S1", seeds: 60, {COUNTS})]"#));
    holds(&said(&undated, "growth K"), &["not: course fitted"]);
}

#[test]
fn a_latest_day_counts_from_the_first_day_of_sowing() {
    let top = of(&format!(
        r#"sowings: [(code: "S1", on: "2024-01", seeds: 60, {COUNTS})]"#
    ));
    let at_most = "T50 is at most what is shown";
    holds(&said(&top, "growth K"), &[" 2 78 78", at_most]);
}

/// Six seedlings of a sowing of a day with one trait read once.
fn read(sown: &str, on: &str, of_trait: &str, cells: [&str; 6]) -> BenchTop {
    let numbers: String = (1..=6)
        .map(|n| format!("(number: \"{n}\", sowing: \"S1\"),"))
        .collect();
    let rows = (1..).zip(cells);
    let rows: String = rows
        .map(|(n, cell)| format!("[\"{n}\", \"{cell}\"],"))
        .collect();
    of(&format!(
        "sowings: [(code: \"S1\", on: \"{sown}\")], seedlings: [{numbers}], \
         sittings: [(on: \"{on}\", columns: [\"{of_trait}\"], rows: [{rows}])]"
    ))
}

#[test]
fn a_length_of_zero_is_a_reading_in_no_answer() {
    let cells = ["0", "5", "6", "7", "8", "4"];
    let top = read("2024-01-01", "2025-06-01", "span cm", cells);
    holds(
        &said(&top, "siblings K --trait span"),
        &["4.0–8.0 cm", "1 reading with no value of the trait"],
    );
    holds(
        &said(&top, "grade K"),
        &["5 siblings of K.S1 graded", "not: 0.0"],
    );
    holds(
        &said(&top, "select K --weigh span=1 --keep 3"),
        &["not: K-1 0.0"],
    );
    holds(
        &said(&top, "check"),
        &["found `0` needed a length above 0, as a plant can have"],
    );
    let typed = top.run_with(
        "0\n",
        &[
            "measure",
            "K-2",
            "--traits",
            "span",
            "--today",
            "2026-06-01",
        ],
    );
    assert!(typed.stderr.contains("a length above 0"), "{typed}");
}

#[test]
fn a_plant_is_a_year_old_on_its_birthday() {
    let cells = ["1", "2", "3", "1", "2", "3"];
    let top = read("2025-01-01", "2026-01-01", "banding", cells);
    holds(&said(&top, "siblings K"), &["not: too young"]);
    holds(&said(&top, "check --notes"), &["not: read-too-early"]);
    let early = read("2025-01-01", "2025-12-01", "banding", cells);
    holds(&said(&early, "siblings K"), &["too young"]);
    holds(&said(&early, "check --notes"), &["read-too-early"]);
}

#[test]
fn a_pod_without_a_zone_closes_one_zone() {
    let zones = r#"pollinations: [
        (zone: "A", on: ["2026-04-25"], flowers: 5, set: 3),
        (zone: "B", on: ["2026-04-28"], flowers: 5, set: 3)]"#;
    let pod = |words: &str| {
        let top = of(&format!(
            r#"{zones}, pods: [(code: "P1", harvested: "2026-05-30"{words})]"#
        ));
        said(&top, "due --within 400d")
    };
    let harvest = "harvest pods K.";
    holds(
        &pod(""),
        &[
            "harvest pods K.A 3 of 5 flowers took; unless P1 was of it",
            "harvest pods K.B 3 of 5 flowers took; unless P1 was of it",
        ],
    );
    holds(
        &pod(r#", zone: "A""#),
        &["not: harvest pods K.A", "harvest pods K.B", "not: unless"],
    );
    let both = r#"), (code: "P2", harvested: "2026-05-30""#;
    let none = format!("not: {harvest}");
    holds(&pod(both), &[&none]);
    let late = zones.replace("2026-04-28", "2026-05-20");
    let top = of(&format!(
        r#"{late}, pods: [(code: "P1", harvested: "2026-05-30")]"#
    ));
    holds(
        &said(&top, "due --within 400d"),
        &["not: harvest pods K.A", "harvest pods K.B"],
    );
}

#[test]
fn a_sowing_of_an_unknown_number_leaves_seed_to_look_for() {
    let lot = |sowing: &str, more: &str| {
        let top = of(&format!(
            r#"pods: [(code: "P1", harvested: "2026-05-01")], seed_lots: [(code: "L1", pod: "P1", seeds: 100{more})],
               sowings: [(code: "S1", lot: "L1", on: "2026-05-20"{sowing})]"#
        ));
        said(&top, "due")
    };
    holds(
        &lot("", ""),
        &["see what seed is left K.L1 at most 100 left: how many K.S1 took is not on record"],
    );
    holds(
        &lot(", seeds: 60", ""),
        &["sow the seed K.L1 40 seeds left", "not: see what"],
    );
    holds(&lot(", seeds: 100", ""), &["not: K.L1"]);
    holds(&lot("", r#", left: "none""#), &["not: K.L1"]);
}

#[test]
fn seedlings_numbered_on_an_unknown_day_leave_a_young_sowing_standing() {
    let top = |numbered: &str| {
        of(&format!(
            r#"sowings: [(code: "S1", on: "2025-10-01", seeds: 60, germinated: [(on: "2026-03-01", count: 40)])],
               seedlings: [(number: "1", sowing: "S1"{numbered}), (number: "2", sowing: "S1"{numbered})]"#
        ))
    };
    let [dated, undated] = [r#", numbered: "2026-05-20""#, ""].map(|numbered| {
        let answer = said(&top(numbered), "due --format csv");
        answer.split("Room").last().map(str::to_owned)
    });
    assert_eq!(dated, undated);
}

#[test]
fn pots_too_wide_for_the_shelf_are_called_that() {
    let wide = r#"seedlings: [(number: "1", pots: [(on: "2026-01-01", pot: "60 cm")])]"#;
    let shelf = "hemisphere: north, shelves: [(width_cm: 110, depth_cm: 55)],";
    let top = of(wide).change("registry.ron", "hemisphere: north,", shelf);
    holds(
        &said(&top, "due"),
        &[
            "1 pot is too wide for every shelf",
            "for pots of known width that fit",
        ],
    );
}

#[test]
fn pollen_of_an_unknown_age_or_place_perhaps_lasts() {
    let plan = |lot: &str| {
        let pollen = format!("(lots: [(code: \"E\", from: plant(\"S\"){lot})])");
        let goals = "(pollen_lasts: (fresh: 10, room: 10, fridge: 10, freezer: 10))";
        let top = of("").file("pollen.ron", &pollen).file("goals.ron", goals);
        said(&top, "plan --json")
    };
    let perhaps = r#""meet": "perhaps 2026-06-01 to 2026-06-11""#;
    holds(&plan(", stored: fridge"), &[perhaps]);
    holds(
        &plan(r#", stored: fridge, collected: "after 2026-05""#),
        &[perhaps],
    );
    holds(
        &plan(r#", collected: "2026-05-30""#),
        &[r#""meet": "2026-06-01 to 2026-06-09""#],
    );
    holds(&plan(r#", collected: "2025-01""#), &["not: 2026-06-01 to"]);
}

#[test]
fn nothing_known_of_the_parents_is_no_shared_parent() {
    let seedlings = r#"seedlings: [(number: "1"), (number: "2")]"#;
    for parents in ["unknown", r#"known(seed: "?", pollen: "?")"#] {
        let top = of(&format!("parents: {parents}, {seedlings}"));
        holds(
            &said(&top, "kinship K-1 K-2"),
            &["not: 0.25", "not: unknown parent of both"],
        );
    }
    let pod =
        r#"pods: [(code: "P1")], seedlings: [(number: "1", pod: "P1"), (number: "2", pod: "P1")]"#;
    // One pod has one mother; only a record says that it has one father too.
    for (fields, kinship) in [
        (format!("parents: unknown, {pod}"), "at least 0.125"),
        (
            format!(r#"parents: pollen_unknown(seed: "V"), {seedlings}"#),
            "at least 0.25",
        ),
    ] {
        holds(&said(&of(&fields), "kinship K-1 K-2"), &[kinship]);
    }
}

#[test]
fn a_seedling_shares_its_code_with_no_founder_and_no_cross() {
    let founder = "clones: [(code: \"K-1\", received: \"N. ventricosa\"),";
    let top = of(r#"seedlings: [(number: "1")]"#);
    holds(&said(&top, "check"), &["not: repeated-code"]);
    let top = top.change("clones.ron", "clones: [", founder);
    holds(
        &said(&top, "check"),
        &[
            "fault repeated-code: K-1 is a seedling and a founder",
            "at clones.ron:1",
            "see crosses/K.ron:1",
        ],
    );
    let top = of(r#"seedlings: [(number: "1")]"#).file(
        "crosses/K-1.ron",
        r#"(code: "K-1", parents: known(seed: "S", pollen: "V"))"#,
    );
    holds(
        &said(&top, "check"),
        &["fault repeated-code: K-1 is a seedling and a cross"],
    );
}

#[test]
fn goals_that_cannot_be_used_are_found() {
    let with = |goals: &str| said(&of("").file("goals.ron", goals), "check");
    holds(
        &with("(heritability: 0.4, never: [(seed: \"V\", pollen: \"S\")])"),
        &["not: unusable-goals"],
    );
    for (goals, words) in [
        ("(must: [(", "at goals.ron:1:"),
        ("(must: [(seed: \"V\", pollen: \"Q\")])", "`Q`"),
        ("(traits: [(of: \"spam\")])", "`spam`"),
        (
            "(heritability: 0.96)",
            "found 0.96 needed a number from 0 to 0.95",
        ),
        ("(pots: 3, pods_per_spike: 0)", "needed at least 1"),
        ("(pollen_lasts: (fresh: -1))", "at goals.ron:1:"),
    ] {
        holds(&with(goals), &["fault unusable-goals", words]);
    }
}

/// Twenty numbered seedlings of a sowing of 2022, the last of which died on these days.
fn of_twenty(deaths: &[&str]) -> BenchTop {
    let numbers: String = (1..=20)
        .map(|n| {
            let fate = match deaths.get(20 - n) {
                Some(on) => format!(", fate: died(on: \"{on}\")"),
                None => String::new(),
            };
            format!("(number: \"{n}\", sowing: \"S1\", numbered: \"2022-09-01\"{fate}),")
        })
        .collect();
    of(&format!(
        "sowings: [(code: \"S1\", on: \"2022-01-10\")], seedlings: [{numbers}]"
    ))
}

#[test]
fn a_death_on_an_unknown_day_is_a_death() {
    let dated = [
        "2024-01-01",
        "2024-02-01",
        "2024-03-01",
        "2024-04-01",
        "2024-05-01",
    ];
    let some = said(
        &of_twenty(&[&dated[..], &["?"; 9]].concat()),
        "growth K --json",
    );
    holds(&some, &[r#""alive_share": [ 0.3,"#, r#""died": 14"#]);
    let none = said(&of_twenty(&dated), "growth K --json");
    holds(&none, &[r#""alive_share": [ 0.75,"#, r#""died": 5"#]);
}

#[test]
fn a_death_of_this_month_happened_by_today() {
    let deaths = |last| ["2024-01-01", "2024-02-01", "2024-03-01", "2024-04-01", last];
    let vague = said(&of_twenty(&deaths("2026-06")), "growth K");
    holds(&vague, &["52.7 16 1 75 50 89"]);
    assert_eq!(vague, said(&of_twenty(&deaths("2026-06-01")), "growth K"));
}

#[test]
fn a_pair_that_was_perhaps_made_before_is_called_that() {
    let clone = "clones: [(code: \"S2\", received: \"N. spathulata\"),";
    let top = of(r#"parents: pollen_one_of(seed: "V", pollen: ["S", "S2"])"#).change(
        "clones.ron",
        "clones: [",
        clone,
    );
    holds(&said(&top, "pair V S"), &["perhaps made before: K"]);
}

/// A sale card says what was read: a buyer can measure it.
#[test]
fn a_card_has_readings_as_they_were_typed() {
    let own = [
        ("9", "leaf span 9 cm (3.5 in),"),
        ("14.5", "leaf span 14.5 cm (5.7 in),"),
        ("3 1/4 in", "leaf span 3 1/4 in (8.3 cm),"),
        ("95 mm", "leaf span 9.5 cm (3.7 in),"),
    ];
    for (cell, wanted) in own {
        let cells = [cell, "7", "8.5", "8", "8", "8"];
        let top = read("2024-01-01", "2025-06-01", "span cm", cells);
        holds(
            &said(&top, "card K-1"),
            &[wanted, "5 siblings: 7 cm to 8.5 cm"],
        );
    }
}

#[test]
fn a_list_counts_all_the_plants_it_does_not_show() {
    let numbers: Vec<String> = (1..=70).map(|n| format!("(number: \"{n}\")")).collect();
    let top = of(&format!("seedlings: [{}]", numbers.join(", ")));
    let run = screen_of(80, top.path(), "list");
    let shown = run.stdout.lines().filter(|line| {
        let code = line.split_whitespace().next().unwrap_or_default();
        code.starts_with("K-") || ["V", "S"].contains(&code)
    });
    let shown = shown.count();
    assert!((5..30).contains(&shown), "{}", run.stdout);
    let hidden = format!("{} more rows", 72 - shown);
    holds(&run.stdout, &[&hidden]);
}

/// One pod or the other: nothing was done in the time between the two.
#[test]
fn a_mixed_up_seedling_has_one_history_or_the_other() {
    let other = r#"(code: "L", parents: known(seed: "V", pollen: "S"),
        pollinations: [(zone: "A", on: ["2025-05-28"])], pods: [(code: "P1", zone: "A", harvested: "2025-11-01")])"#;
    let top = of(
        r#"pollinations: [(zone: "A", on: ["2024-04-03", "2024-04-05"])],
        pods: [(code: "P1", zone: "A", harvested: "2024-08-20")],
        seedlings: [(number: "1", one_of: ["P1", "L.P1"])]"#,
    )
    .file("crosses/L.ron", other);
    holds(
        &said(&top, "show K-1"),
        &[
            "pollinated between 2024-04-03 and 2024-04-05, or on 2025-05-28",
            "harvested 2024-08-20 or 2025-11-01",
        ],
    );
}

/// A mixed-up seedling of a pod has the father of that pod, one of two or unknown, as its pod-mates have.
#[test]
fn a_mixed_up_seedling_shares_the_father_of_its_pod() {
    let clones = CLONES.replace(
        "(code: \"S\"",
        "(code: \"T\", received: \"N. spathulata\", confidence: tag), (code: \"S\"",
    );
    let other = r#"(code: "L", parents: known(seed: "S", pollen: "T"), pods: [(code: "P1")])"#;
    for parents in [
        r#"pollen_one_of(seed: "V", pollen: ["S", "T"])"#,
        r#"pollen_unknown(seed: "V")"#,
    ] {
        let top = of(&format!(
            r#"parents: {parents}, pods: [(code: "P1")],
            seedlings: [(number: "1", pod: "P1"), (number: "2", one_of: ["P1", "L.P1"])]"#
        ))
        .file("clones.ron", &clones)
        .file("crosses/L.ron", other);
        holds(
            &said(&top, "kinship K-1 K-2"),
            &["K-2 of K 1 in 2 0.25", "0.25 (1 in 2)"],
        );
    }
}

/// Two crosses of one mother with an unknown father each have one pair on record; a seedling of one or the other is still of
/// one of two.
#[test]
fn crosses_of_the_same_pair_have_each_its_own_unknown_father() {
    let other = r#"(code: "L", parents: pollen_unknown(seed: "V"), pods: [(code: "P1")])"#;
    let top = of(r#"parents: pollen_unknown(seed: "V"), pods: [(code: "P1")],
        seedlings: [(number: "1", pod: "P1"), (number: "2", one_of: ["P1", "L.P1"])]"#)
    .file("crosses/L.ron", other);
    let words = [
        "at least 0.125 (1 in 2) or 0.25 (1 in 2)",
        "expected 0.1875",
        "K-2 of K 1 in 2 0.25",
        "K-2 of L (V × unknown) 1 in 2 0.125",
    ];
    holds(&said(&top, "kinship K-1 K-2"), &words);
    let table = said(&top, "kinship K-1 K-2 V --format csv");
    holds(&table, &["expected kinship, at least"]);
    // Two whose labels were swapped are never both of one of them.
    let swapped = |code: &str, with: &str| {
        format!(
            r#"(code: "{code}", parents: pollen_unknown(seed: "V"), pods: [(code: "P1")], seedlings: [(number: "1",
            pod: "P1", muddled: [(with: ["{with}"], on: "2025-05-01")])])"#
        )
    };
    let top = of("parents: unknown")
        .file("crosses/K.ron", &swapped("K", "L-1"))
        .file("crosses/L.ron", &swapped("L", "K-1"));
    let words = ["at least 0.125", "not: 0.25"];
    holds(&said(&top, "kinship K-1 L-1"), &words);
}

/// What came back had left before, and comes to its end later.
#[test]
fn a_return_stands_between_two_ends() {
    let plant = |left, back, end| {
        format!(
            r#"(clones: [(code: "V", received: "N. ventricosa", fate: died(on: "{end}"),
            came_back: [(left: given(on: "{left}"), on: "{back}")])])"#
        )
    };
    for (days, wanted) in [
        (
            ["2024-05-01", "2024-06-01", "2024-07-01"],
            "not: dates-out-of-order",
        ),
        (
            ["2024-05-01", "2024-03-01", "2024-07-01"],
            "the plant came back before the plant left",
        ),
        (
            ["2024-05-01", "2024-06-01", "2024-05-20"],
            "the plant came to its end before the plant came back",
        ),
    ] {
        let [left, back, end] = days;
        let top = of("parents: unknown").file("clones.ron", &plant(left, back, end));
        holds(&said(&top, "check"), &[wanted]);
    }
}

/// A finding about a piece says piece, as every screen does, and names the plant only where the whole plant is meant.
#[test]
fn a_piece_that_came_back_too_early_is_called_a_piece() {
    let clones = r#"(clones: [(code: "V", received: "N. ventricosa", ramets: [(code: "a", cut: "2023-01-01",
        came_back: [(left: given(on: "2024-05-01"), on: "2024-03-01")])])])"#;
    let top = of("parents: unknown").file("clones.ron", clones);
    let words = [
        "the piece came back before the piece left",
        "not: the plant left",
    ];
    holds(&said(&top, "check"), &words);
}

/// Two seedlings of different pods that were mixed up were sown on the day of one or the other.
#[test]
fn mixed_up_plants_sown_on_one_day_have_an_age() {
    let page = |code: &str, on: &str, with: &str, pods: &str| {
        format!(
            r#"(code: "{code}", parents: known(seed: "V", pollen: "S"), pods: [(code: "P1"), (code: "P2")], sowings: [(code: "S1",
            pod: "P1", on: "{on}")], seedlings: [(number: "1", sowing: "S1", one_of: [{pods}],
            muddled: [(on: "2025-04-01", with: ["{with}"])])])"#
        )
    };
    for (on, own, wanted) in [
        ("2024-03-01", r#""P1", "L.P1""#, "27.0"),
        ("2024-05-01", r#""P1", "L.P1""#, "25.0–27.0"),
        // From which sowing a plant of the other pod would come is not known.
        ("2024-03-01", r#""P1", "P2", "L.P1""#, "not: 27.0"),
    ] {
        let top = of("parents: unknown")
            .file("crosses/K.ron", &page("K", "2024-03-01", "L-1", own))
            .file("crosses/L.ron", &page("L", on, "K-1", r#""K.P1", "P1""#));
        holds(&said(&top, "list --cross K"), &["K-1", wanted]);
    }
}

/// Of seed whose parents are not known nothing says that it is a hybrid.
#[test]
fn seed_of_unknown_parents_is_no_cross() {
    let top = of(
        r#"parents: unknown, received: "?", pods: [(code: "P1")], seedlings: [(number: "1", pod: "P1")]"#,
    );
    for question in ["name K", "show K-1"] {
        holds(
            &said(&top, question),
            &["K", ": ?", "not: ? × ?", "not: seed parent first"],
        );
    }
    let further = r#"(code: "L", parents: known(seed: "K-1", pollen: "V"))"#;
    let top = top.file("crosses/L.ron", further);
    holds(
        &said(&top, "name L"),
        &["L: ? × N. ventricosa (seed parent first)"],
    );
}

/// A plant that was away was neither pollinated, read nor potted here; who had it may have made a cross on it.
#[test]
fn nothing_was_done_with_a_plant_while_it_was_away() {
    let plant = |fields: &str| {
        format!(r#"(clones: [(code: "V", received: "N. ventricosa", confidence: tag, {fields})])"#)
    };
    let back = r#"came_back: [(left: given(on: "2024-05-01"), on: "2024-09-01")]"#;
    let crossed = |told_by: &str| {
        of(&format!(
            r#"parents: pollen_unknown(seed: "V"), {told_by} pollinations: [(zone: "A", on: ["2024-06-01"])]"#
        ))
    };
    let crossed_here = crossed("").file("clones.ron", &plant(back));
    holds(
        &said(&crossed_here, "check"),
        &["flowers were pollinated while V was away"],
    );
    let elsewhere = crossed("told_by: (registry: \"shed\", code: \"K\", on: \"2025-01\"),")
        .file("clones.ron", &plant(back));
    holds(&said(&elsewhere, "check"), &["not: while-away"]);
    for (fields, wanted) in [
        (
            r#"pots: [(on: "2024-06-01", pot: "9 cm")]"#,
            "the plant was potted while V was away",
        ),
        (r#"pots: [(on: "2024", pot: "9 cm")]"#, "not: while-away"),
        (
            r#"pots: [(on: "2024-09-01", pot: "9 cm")]"#,
            "not: while-away",
        ),
    ] {
        let top = of("parents: unknown").file("clones.ron", &plant(&format!("{back}, {fields}")));
        holds(&said(&top, "check"), &[wanted]);
    }
    // A piece that was away does not flower here; its plant does.
    let piece = |ramet: &str| {
        plant(&format!(
            r#"ramets: [(code: "a", made: original), (code: "b", from: "a", made: cutting, cut: "2023-05-01", {back})],
            flowerings: [(opened: "2024-06-01", ramet: "{ramet}")]"#
        ))
    };
    for (ramet, wanted) in [
        ("b", "the first flower opened while V-b was away"),
        ("a", "not: while-away"),
    ] {
        let top = of("parents: unknown").file("clones.ron", &piece(ramet));
        holds(&said(&top, "check"), &[wanted]);
    }
    // What was lost and found again has no end any more.
    let found = r#"came_back: [(left: lost(on: "2024-05-01"), on: "2024-09-01")]"#;
    let top = of("parents: unknown").file("clones.ron", &plant(found));
    holds(
        &said(&top, "check"),
        &["warning not-handed-on: V came back, but its record says that it was lost"],
    );
}

#[test]
fn none_up_where_a_sowing_was_not_counted_is_no_minimum() {
    let top = of(r#"sowings: [
        (code: "S1", seeds: 50, germinated: [(on: "2026-03-01", count: 0)]),
        (code: "S2", seeds: 50)]"#);
    let words = ["100 seeds sown, 0 seen germinated", "not: at least 0"];
    holds(&said(&top, "show K"), &words);
}

/// A table of kinship says that its figures are minimums, also as a file.
#[test]
fn a_table_of_kinship_says_at_least() {
    let top = of(r#"seedlings: [(number: "1"), (number: "2")]"#);
    let table = said(&top, "kinship K-1 K-2 V --format csv");
    holds(&table, &["kinship, at least"]);
}

#[test]
fn a_reading_in_inches_is_exported_to_the_last_digit() {
    let top = of(r#"sowings: [(code: "S1", on: "2024-01-01")],
        seedlings: [(number: "1"), (number: "2"), (number: "3")],
        sittings: [(on: "2025-01-01", columns: ["span cm"],
            rows: [["1", "3 5/8 in"], ["2", "6.4"], ["3", "1/16 in"]])]"#);
    let table = said(&top, "export plants --format csv");
    holds(&table, &["9.2075,", "6.4,", "0.15875,", "not: 6.40"]);
}

#[test]
fn what_is_on_record_has_happened_by_today() {
    let top = of(r#"
        pods: [(code: "P1", harvested: "2026")],
        seed_lots: [(code: "L1", pod: "P1", seeds: 30)],
        sowings: [(code: "S1", lot: "L1", on: "2026-03-02", seeds: 10)],
        seedlings: [(number: "1", sowing: "S1", numbered: "2026-04", fate: died(on: "2026"))]"#);
    holds(
        &said(&top, "show K-1"),
        &[
            "age from sowing at the end 0.0–3.0 months",
            "not: 2026-12-31",
        ],
    );
    holds(&said(&top, "due --full"), &["not: 2027"]);
}

/// A label is a claim, whatever else is on the page.
#[test]
fn what_a_label_says_of_parents_is_claimed() {
    for known in ["", "unknown", "tag", "witnessed", "claim"] {
        let known = match known {
            "" => String::new(),
            known => format!(", confidence: {known}"),
        };
        let label = "parents: label_only(\"ventricosa x spathulata\")";
        let top = of(&format!("{label}{known}"));
        holds(
            &said(&top, "name K"),
            &[
                "(N. ventricosa × N. spathulata) (claimed)",
                "ventricosa (claimed)/spathulata (claimed)",
            ],
        );
    }
}

/// Of a bought F2 nothing says that its parents are of different crosses, nor of two bought hybrids that were crossed.
#[test]
fn an_f2_by_its_label_is_called_that() {
    for label in [
        "(ventricosa x spathulata) F2",
        "ventricosa x spathulata sib cross",
    ] {
        let top = of(&format!(
            "parents: label_only(\"{label}\"), confidence: claim"
        ));
        holds(
            &said(&top, "parentage K"),
            &[
                "by the label, a claim",
                "not: not rightly",
                "not: different parents",
            ],
        );
    }
    let top = of("seedlings: []").file(
        "clones.ron",
        r#"(clones: [
            (code: "V", received: "N. ventricosa x spathulata", confidence: tag),
            (code: "S", received: "N. ventricosa x spathulata", confidence: tag),
        ])"#,
    );
    holds(
        &said(&top, "parentage K"),
        &[
            "F2 only if both have the same parents, which is not recorded",
            "not: different parents",
        ],
    );
}

/// Pods on flowers left alone say that there was stray pollen, also where those flowers were not counted.
#[test]
fn pods_on_controls_leave_the_father_probable() {
    let zone =
        r#"(zone: "A", plant: "V", on: ["2025-06-01"], flowers: 10, set: 5, control_set: 2)"#;
    let top = of(&format!("confidence: witnessed, pollinations: [{zone}]"));
    holds(&said(&top, "name K"), &["(father probable)"]);
    let words = "father probable: 2 control flowers set, of a number not recorded";
    holds(&said(&top, "show K"), &[words, "2 set on controls"]);
    let none = of(&format!(
        "confidence: witnessed, pollinations: [{}]",
        zone.replace("control_set: 2", "control_set: 0")
    ));
    holds(&said(&none, "name K"), &["not: (father probable)"]);
    // Those of the same spike on another page say it too, also to whom a lineage is handed over without that page.
    let page = format!(
        "(code: \"M\", parents: known(seed: \"V\", pollen: \"S\"), confidence: witnessed, pollinations: [{zone}])"
    );
    let own = zone.replace("set: 5, control_set: 2)", "set: 5)");
    let beside = of(&format!(
        "confidence: witnessed, pollinations: [{own}], seedlings: [(number: \"1\")]"
    ))
    .file("crosses/M.ron", &page);
    holds(&said(&beside, "name K"), &["(father probable)"]);
    said(&beside, "handover K-1 -o lineage");
    let handed = said(&beside, "name K-1 --registry lineage");
    holds(&handed, &["(father probable)"]);
}

const SPANS: [&str; 6] = ["2", "4", "6", "8", "10", "12"];

/// A level in each direction changes nothing of who beats whom in a trait that is weighed.
#[test]
fn two_levels_of_a_weighed_trait_leave_its_fronts() {
    let top = read("2024-01-01", "2025-06-01", "span cm", SPANS);
    for levels in ["", " --need span=3", " --need span=3 --at-most span=11"] {
        let asked = format!("select K --weigh span=1{levels} --keep 2 --json --today 2026-06-01");
        let words: Vec<&str> = asked.split(' ').collect();
        let report: serde_json::Value =
            serde_json::from_str(&top.run(&words).stdout).expect("JSON");
        let plants = report["plants"].as_array().expect("plants");
        let mut fronts: Vec<u64> = plants
            .iter()
            .filter_map(|of| of["front"].as_u64())
            .collect();
        fronts.sort_unstable();
        assert_eq!(fronts, [1, 2, 3, 4, 5, 6], "{levels}");
    }
}

/// Without a weight nothing ranks those that reach the levels: none is kept or sold for its place on the list.
#[test]
fn without_a_weight_no_code_decides() {
    let top = read("2024-01-01", "2025-06-01", "span cm", SPANS);
    holds(
        &said(&top, "select K --need span=3 --keep 2"),
        &[
            "Nothing ranks the 5 plants that reach every level: give a weight, such as --weigh span=1.",
            "K: cull 1, undecided 5 of 6 plants",
            "reaches every level, as 5 plants do; the quota is 2, and nothing ranks them",
            "not: sell",
        ],
    );
    // What all of them share is said once on the screen, and on each row of a spreadsheet.
    let times = |line: &str| said(&top, line).matches("nothing ranks them").count();
    assert_eq!(times("select K --need span=3 --keep 2"), 1);
    assert_eq!(times("select K --need span=3 --keep 2 --format csv"), 5);
    holds(
        &said(&top, "select K --need span=3 --keep 5"),
        &["K: keep 5, cull 1 of 6 plants", "not: Nothing ranks"],
    );
    holds(
        &said(
            &top,
            "select K --need span=3 --shelf 10x7 --shelves 1 --pot 7",
        ),
        &[
            "the shelves do not take them all, and nothing ranks them",
            "not: lowest index",
        ],
    );
}

/// What was read without a unit is not unread: the unit is to be written down.
#[test]
fn a_reading_without_a_unit_is_called_that() {
    let top = read("2024-01-01", "2025-06-01", "span", SPANS);
    holds(
        &said(&top, "select K --weigh span=1 --keep 2"),
        &[
            "leaf span read, but left out: 1 without a unit; write the unit down",
            "not: nothing that is weighed was read",
        ],
    );
}

#[test]
fn a_registry_without_plants_asks_for_the_first() {
    let top = BenchTop::with([("registry.ron", SETTINGS), ("species.ron", SPECIES)]);
    let next = "Next: podbook add Ven1 \"N. ventricosa\"";
    for question in ["plan", "plan --any-time", "list"] {
        holds(&said(&top, question), &[next, "not: CODE"]);
    }
}

#[test]
fn many_traits_that_were_never_read_are_counted() {
    let traits: Vec<String> = (1..=9)
        .map(|n| format!("(code: \"t{n}\", name: \"trait {n}\", reads: length(cm))"))
        .collect();
    let settings = format!(
        "(genus: \"Nepenthes\", hemisphere: north, traits: [{}])",
        traits.join(", ")
    );
    let top = of("seedlings: [(number: \"1\")]").file("registry.ron", &settings);
    let words = "never read on these plants: trait 1, trait 2, trait 3, trait 4, trait 5, trait 6 and 3 more";
    holds(&said(&top, "siblings K"), &[words]);
    holds(&said(&top, "siblings K --json"), &["\"trait 9\""]);
}

/// Plants that left on a day not on record count neither way too, out of all plants.
#[test]
fn plants_that_left_are_counted_dated_or_not() {
    let plants = r#"sowings: [(code: "S1", on: "2023-01-10")], seedlings: [
        (number: "1", fate: sold(on: "2024-05-01")), (number: "2", fate: sold(on: "?")), (number: "3", fate: sold(on: "?")),
        (number: "4", fate: died(on: "2024-03-01")), (number: "5"), (number: "6")]"#;
    let other = format!("(code: \"M\", parents: known(seed: \"V\", pollen: \"S\"), {plants})");
    let top = of(plants).file("crosses/M.ron", &other);
    let words = "3 of its 6 were culled, sold or lost and count neither way";
    holds(
        &said(&top, "growth K M"),
        &["K 2 of 3, 67 % (21–94 %)", words],
    );
}

/// A sowing known to half a year leaves open how fast its plants grew between two ages.
#[test]
fn rates_of_a_vague_sowing_are_a_range() {
    let sizes = r#"sittings: [(on: "2022-02-01", columns: ["span cm"], rows: [["1", "2"], ["2", "2.2"]]),
        (on: "2022-11-01", columns: ["span cm"], rows: [["1", "4"], ["2", "4.4"]]),
        (on: "2023-09-01", columns: ["span cm"], rows: [["1", "7"], ["2", "7.7"]])]"#;
    let page = |sown: &str| {
        format!(
            "sowings: [(code: \"S1\", on: \"{sown}\")], seedlings: [(number: \"1\"), (number: \"2\")], {sizes}"
        )
    };
    let top = |sown: &str| {
        let other = format!(
            "(code: \"M\", parents: known(seed: \"V\", pollen: \"S\"), {})",
            page(sown)
        );
        of(&page("2021-01-01")).file("crosses/M.ron", &other)
    };
    let exact = said(&top("2021-01-01"), "growth K M");
    holds(&exact, &["growing from", "not: days not exact"]);
    let vague = said(&top("2021-01-01 to 2021-06-30"), "growth K M");
    holds(&vague, &["growing from", "; days not exact: "]);
}

/// K is V × S; M1 has the father V and a mother who is not known; N is S × M1.
fn with_a_mother_unknown() -> BenchTop {
    let tray = |code: &str, parents: &str| {
        format!(
            "(code: \"{code}\", parents: {parents}, sowings: [(code: \"S1\", on: \"2024-03-01\")], \
             seedlings: [(number: \"1\"), (number: \"2\"), (number: \"3\")], \
             sittings: [(on: \"2025-06-01\", columns: [\"span cm\"], rows: [[\"1\", \"4\"], [\"2\", \"5\"], [\"3\", \"7\"]])])"
        )
    };
    let flowering = "flowerings: [(opened: \"2026-05-25\", sex: male)]";
    let unknown = format!(
        "(code: \"M\", parents: seed_unknown(pollen: \"V\"), seedlings: [(number: \"1\", {flowering})])"
    );
    BenchTop::with([
        ("registry.ron", SETTINGS),
        ("species.ron", SPECIES),
        ("clones.ron", CLONES),
        (
            "goals.ron",
            "(seedlings_per_pod: 20, traits: [(of: \"span\", weight: 1)])",
        ),
        (
            "crosses/K.ron",
            &tray("K", "known(seed: \"V\", pollen: \"S\")"),
        ),
        ("crosses/M.ron", &unknown),
        (
            "crosses/N.ron",
            &tray("N", "known(seed: \"S\", pollen: \"M-1\")"),
        ),
    ])
}

#[test]
fn an_unknown_parent_makes_no_hybrid_through_and_through() {
    let top = with_a_mother_unknown();
    holds(
        &said(&top, "variation N K"),
        &["nothing expected: parents or their descent not certain"],
    );
    holds(
        &said(&top, "pair V M-1"),
        &["a species' pod being 1 1.00 to 1.73"],
    );
    holds(
        &said(&top, "plan"),
        &["V M-1", "descent of M-1 not known for certain"],
    );
}

#[test]
fn an_age_at_which_half_were_read_is_not_that_of_a_cross() {
    let rows = |plants: usize| -> String {
        (1..=plants)
            .map(|n| format!("[\"{n}\", \"{n}\"],"))
            .collect()
    };
    let page = |code: &str, late: usize| {
        let numbers: String = (1..=4)
            .map(|n| format!("(number: \"{n}\", sowing: \"S1\"),"))
            .collect();
        let sitting = |on: &str, plants| {
            let rows = rows(plants);
            format!("(on: \"{on}\", columns: [\"span cm\"], rows: [{rows}]),")
        };
        let (early, late) = (sitting("2024-03-01", 4), sitting("2024-11-01", late));
        format!(
            "(code: \"{code}\", parents: known(seed: \"V\", pollen: \"S\"), sowings: [(code: \"S1\", on: \"2023-03-01\")], \
             seedlings: [{numbers}], sittings: [{early}{late}])"
        )
    };
    let of = |late: usize| {
        BenchTop::with([
            ("registry.ron", SETTINGS),
            ("species.ron", SPECIES),
            ("clones.ron", CLONES),
            ("crosses/K.ron", &page("K", late)),
            ("crosses/L.ron", &page("L", 4)),
        ])
    };
    holds(&said(&of(2), "siblings K --trait span"), &["12.0 months"]);
    holds(
        &said(&of(2), "variation K L"),
        &["K 4 2.5", "12.0 2024-03-01", "not: 2024-11-01"],
    );
    holds(
        &said(&of(3), "variation K L"),
        &["K 3 2.0", "20.1 2024-11-01"],
    );
}

/// A cross of eight seedlings of which six died on a day.
fn with_deaths(code: &str, sown: &str, died: &str) -> String {
    let seedlings: String = (1..=8)
        .map(|n| match n {
            1..=6 => format!("(number: \"{n}\", sowing: \"S1\", fate: died(on: \"{died}\")),"),
            _ => format!("(number: \"{n}\", sowing: \"S1\"),"),
        })
        .collect();
    format!(
        "(code: \"{code}\", parents: known(seed: \"V\", pollen: \"S\"), \
         sowings: [(code: \"S1\", on: \"{sown}\")], seedlings: [{seedlings}])"
    )
}

#[test]
fn deaths_of_a_sowing_known_by_its_year_have_no_age() {
    let of = |sown: &str| {
        BenchTop::with([
            ("registry.ron", SETTINGS),
            ("species.ron", SPECIES),
            ("clones.ron", CLONES),
            ("crosses/K.ron", &with_deaths("K", sown, "2021-05-10")),
            (
                "crosses/L.ron",
                &with_deaths("L", "2020-01-10", "2021-03-11"),
            ),
        ])
    };
    let vague = of("2020");
    let caution = "K: sown 2020-01-01 to 2020-12-31, so the ages of 8 plants are not known to a month: in no curve of survival";
    holds(
        &said(&vague, "growth K"),
        &[caution, "not: 10.3", "not: stands too high"],
    );
    holds(
        &said(&vague, "growth K L"),
        &[caution, "alive today: K 2 of 8, 25 %", "not: log-rank test"],
    );
    holds(
        &said(&of("2020-03"), "growth K L"),
        &["log-rank test", "not: known to a month"],
    );
}

/// Flowers of which the first may have opened long ago may be over, as where it surely did.
#[test]
fn a_spike_that_may_have_opened_long_ago_may_be_over() {
    let ready = |opened: &str| {
        let clones = format!(
            r#"(clones: [
                (code: "V", received: "N. ventricosa", flowerings: [(opened: "{opened}", sex: female)]),
                (code: "S", received: "N. spathulata", flowerings: [(opened: "2026-05-30", sex: male)]),
            ])"#
        );
        said(&of("seedlings: []").file("clones.ron", &clones), "ready")
    };
    for opened in ["2026-05-20", "2026-05-10 to 2026-05-31"] {
        holds(&ready(opened), &["not: may be over"]);
    }
    for opened in [
        "2026-05-01",
        "2026-05",
        "spring 2026",
        "2026",
        "2026-03-01 to 2026-05-31",
    ] {
        holds(&ready(opened), &["may be over", "perhaps"]);
    }
}

/// Each pod's variance in the ratio of what is expected of this pair to what is expected of that pod: by hand, of two pods read 3
/// to 7 with s² = 2.5 and e = 1.5, of a primary hybrid (½) and its F2 (½ + S): √(2.5·((2 + S)/2 + 1)/2), S of 1 and of 8.
#[test]
fn the_spread_of_pods_is_scaled_pod_by_pod() {
    let rows = |values: &[f64]| {
        let each = values.iter().zip(1..);
        let all: Vec<String> = each.map(|(v, n)| format!("[\"{n}\", \"{v}\"]")).collect();
        all.join(", ")
    };
    let page = |sown: &str, read: &str, values: &[f64]| {
        let numbers: Vec<String> = (1..=values.len())
            .map(|n| format!("(number: \"{n}\")"))
            .collect();
        format!(
            "pods: [(code: \"P1\")], sowings: [(code: \"S1\", pod: \"P1\", on: \"{sown}\")], seedlings: [{}], \
             sittings: [(on: \"{read}\", columns: [\"sq\"], rows: [{}])]",
            numbers.join(", "),
            rows(values)
        )
    };
    let with = |sown: &str, values: &[f64]| {
        let later = format!(
            "(code: \"L\", parents: known(seed: \"K-1\", pollen: \"K-2\"), {})",
            page(sown, "2023-11-01", values)
        );
        let settings = SETTINGS.replace(
            "traits: [",
            "traits: [(code: \"sq\", name: \"squatness\", reads: number),",
        );
        of(&page(
            "2020-03-01",
            "2021-11-01",
            &[3.0, 4.0, 5.0, 6.0, 7.0],
        ))
        .file("registry.ron", &settings)
        .file("crosses/L.ron", &later)
    };
    let spread = |top: &BenchTop| {
        let run = top.run(&["pair", "K-1", "K-2", "--json", "--today", "2026-06-01"]);
        let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
        let deviation = answer["traits"][0]["deviation"].clone();
        [0, 1].map(|end| deviation[end].as_f64().unwrap_or_else(|| panic!("{run}")))
    };
    let by_hand = [1.0_f64, 8.0].map(|s| (2.5 * ((2.0 + s) / 2.0 + 1.0) / 2.0).sqrt());
    let [low, high] = spread(&with("2022-03-01", &[3.0, 4.0, 5.0, 6.0, 7.0]));
    assert!((low - by_hand[0]).abs() < 1e-9, "{low} {by_hand:?}");
    assert!((high - by_hand[1]).abs() < 1e-9, "{high} {by_hand:?}");
    // A pod of two readings counts with its one degree of freedom: s² = 18 once beside 2.5 four times.
    let few = [1.0_f64, 8.0].map(|s| ((10.0 * (2.0 + s) / 2.0 + 18.0) / 5.0).sqrt());
    let [low, high] = spread(&with("2022-03-01", &[1.0, 7.0]));
    assert!(
        (low - few[0]).abs() < 1e-9 && (high - few[1]).abs() < 1e-9,
        "{low} {high} {few:?}"
    );
    // One that may have been read three months earlier or later is of no one age with the others.
    let [low, high] = spread(&with("2021-12 to 2022-06", &[3.0, 4.0, 5.0, 6.0, 7.0]));
    let alone = [1.0_f64, 8.0].map(|s| (2.5 * (2.0 + s) / 2.0).sqrt());
    assert!(
        (low - alone[0]).abs() < 1e-9 && (high - alone[1]).abs() < 1e-9,
        "{low} {high} {alone:?}"
    );
}

/// What a harvest recorded cannot be undone while a sowing stands on it: the refusal names the change to undo first.
#[test]
fn a_harvest_is_undone_after_its_sowing() {
    let top = of(r#"pollinations: [(zone: "A", on: ["2025-11-01"], flowers: 5, set: 3)]"#);
    said(&top, "harvest K.A --seeds 260 --on 2026-03-01");
    said(&top, "sow K.L1 --seeds 120 --on 2026-03-10");
    let lot = said(&top, "show K.L1");
    holds(&lot, &["sown 120 seeds in S1 left 140"]);
    let page = top.text("crosses/K.ron");
    let undo = said(&top, "undo 1");
    holds(
        &undo,
        &[
            "undo change 2 first",
            "not: add it, or take the reference out",
        ],
    );
    assert_eq!(top.text("crosses/K.ron"), page);
    said(&top, "undo 2");
    holds(&said(&top, "undo 1"), &["Undid change 1"]);
}

/// "One of several" is less than a claim, and so is the name; a claim leaves the name as it is, and the evidence says it.
#[test]
fn the_name_of_a_founder_that_is_one_of_several_is_doubted() {
    for (confidence, name) in [
        ("one_of_several", "N. ventricosa × (N. spathulata (?))"),
        ("claim", "N. ventricosa × N. spathulata (seed"),
    ] {
        let founder = format!("received: \"N. spathulata\", confidence: {confidence}");
        let top = of("seedlings: [(number: \"1\")]").change(
            "clones.ron",
            "received: \"N. spathulata\", confidence: tag",
            &founder,
        );
        holds(&said(&top, "name K-1"), &[name, "not: (claimed)"]);
        holds(&said(&top, "pair V K-1"), &["not: only claimed"]);
    }
}

/// Seed that is to leave later is still there; what became of the rest is said in words of seed.
#[test]
fn what_is_left_of_a_lot_is_what_has_not_left_yet() {
    let top = of(r#"pods: [(code: "P1")], seed_lots: [
        (code: "L1", pod: "P1", seeds: 50, gone: [(count: 20, fate: sold(on: "2026-05-01", to: "Ann")), (count: 10, fate: sold(on: "2026-05-03", to: "Ben"))]),
        (code: "L2", seeds: 40, fate: culled(on: "2026-05-02")), (code: "L3", seeds: 30, fate: died(on: "2026-05-02"))]"#);
    holds(&said(&top, "show K.L1"), &["left 20"]);
    holds(
        &said(&top, "show K.L2"),
        &["left none: the rest thrown out 2026-05-02"],
    );
    holds(
        &said(&top, "show K.L3"),
        &["left none: the rest spoilt 2026-05-02"],
    );
    holds(
        &said(&top, "list sold"),
        &[
            "0 sold, 0 given away, seed of 1 lot;",
            "20 seeds sold 2026-05-01 Ann",
            "10 seeds sold",
        ],
    );
    let run = top.run(&["show", "K.L1", "--today", "2026-05-02"]);
    assert!(run.stdout.contains("left      30"), "{run}");
}

/// A pot has the treatments of its sowing up to the day on which it was filled.
#[test]
fn a_pot_has_what_its_sowing_had_before_it_was_filled() {
    let treated = |on: &str, product: &str| {
        format!(r#"(on: "{on}", place: "shelf", product: "{product}", perhaps: true)"#)
    };
    let treatments = [treated("2025-02-01", "soap"), treated("2025-05-01", "oil")].join(", ");
    let top = of(&format!(
        r#"sowings: [(code: "S1", on: "2025-01-01", treatments: [{treatments}], pricked_out: [(on: "2025-03-01", moved: 5, to: "T1")])],
        community_pots: [(code: "T1", sowing: "S1")], seedlings: [(number: "1", sowing: "S1", community_pot: "T1", numbered: "2026-01-01")]"#
    ));
    for of_pot in ["K.T1", "K-1"] {
        let answer = said(&top, &format!("show {of_pot}"));
        holds(&answer, &["2025-02-01 soap", "not: oil"]);
    }
    holds(&said(&top, "show K.S1"), &["soap", "oil"]);
}

/// Plants that another one may be, and that are not on record, may be of any sex.
#[test]
fn a_sex_is_open_where_a_plant_of_the_mix_up_is_not_on_record() {
    let plant = |number: &str, on: &str, with: &str| {
        format!(
            r#"(number: "{number}", flowerings: [(opened: "2024-04-01", sex: female)], muddled: [(on: "{on}", with: ["{with}"])])"#
        )
    };
    let of_two = |on: &str, with: &str| {
        let plants = [plant("1", "2025-09-01", "K-2"), plant("2", on, with)];
        of(&format!("seedlings: [{}]", plants.join(", ")))
    };
    let known = of_two("2025-09-01", "K-1");
    holds(&said(&known, "show K-1"), &["sex female"]);
    let open = of_two("2025-08-01", "K-9");
    holds(&said(&open, "show K-1"), &["sex female or male"]);
}

/// No reading is below zero, and no mean of them.
#[test]
fn limits_of_a_size_end_at_zero() {
    let cells = ["1", "1", "1", "1", "1", "100"];
    let top = read("2024-01-01", "2025-06-01", "span cm", cells);
    holds(
        &said(&top, "siblings K --trait span"),
        &["(0.0–59.9)", "1.0–100.0"],
    );
}

/// Three plants, the smallest of which is a parent: it would go, and no other piece of it is on record.
const SIZES: &str = r#"sowings: [(code: "S1", on: "2024-01-01")],
    seedlings: [(number: "1", sowing: "S1"), (number: "2", sowing: "S1"), (number: "3", sowing: "S1")],
    sittings: [(on: "2025-01-01", columns: ["span cm"], rows: [["1", "0.2"], ["2", "0.3"], ["3", "5.0"]])]"#;

#[test]
fn the_last_piece_of_a_parent_does_not_go_without_a_word() {
    let page =
        r#"(code: "L", parents: known(seed: "V", pollen: "K-1"), seedlings: [(number: "1")])"#;
    let top = of(SIZES).file("crosses/L.ron", page);
    let last = "is a parent of 1 cross and has one piece on record here";
    let words = format!("K-1 {last}: take a cutting before it goes");
    holds(&said(&top, "select K --weigh span=1 --keep 1"), &[&words]);
    // It stays, and so does one of which there are two pieces.
    let stays = format!("not: {last}");
    holds(&said(&top, "select K --weigh span=-1 --keep 1"), &[&stays]);
    let pieces = SIZES.replace(
        "(number: \"1\",",
        "(number: \"1\", ramets: [(code: \"a\"), (code: \"b\")],",
    );
    let top = of(&pieces).file("crosses/L.ron", page);
    holds(&said(&top, "select K --weigh span=1 --keep 1"), &[&stays]);
}

/// A pollen parent that is one of two is not also called probable: one doubt is enough before its name.
#[test]
fn a_father_that_is_one_of_two_is_not_called_probable_on_a_card() {
    let card = |parents: &str| {
        let top = of(&format!(
            r#"parents: {parents}, pollinations: [(zone: "A", plant: "V", on: ["2024-04-01"], flowers: 10, set: 5, control_flowers: 5, control_set: 2)],
                pods: [(code: "P1", zone: "A")], seedlings: [(number: "1", pod: "P1")]"#
        ));
        let other = "clones: [(code: \"S2\", received: \"N. spathulata\"),";
        said(&top.change("clones.ron", "clones: [", other), "card K-1")
    };
    holds(
        &card(r#"pollen_one_of(seed: "V", pollen: ["S", "S2"])"#),
        &["♂ one of S and S2"],
    );
    holds(
        &card(r#"known(seed: "V", pollen: "S")"#),
        &["♂ probably S:"],
    );
}

/// A number that cannot be is marked where it stands, and a reading put right is the one that counts first.
#[test]
fn a_fault_is_marked_and_mended_where_it_stands() {
    let top = of(
        r#"seed_lots: [(code: "L1", seeds: 6, gone: [(count: 8, fate: sold(on: "2026-05-01"))])]"#,
    );
    let page = top.text("crosses/K.ron");
    let place = page.find("[(count").expect("what left") + 1;
    let at = format!("more seed given away from L1 than it held at crosses/K.ron:1:{place}");
    holds(&said(&top, "check"), &[&at]);
    let twice = r#"rows: [["1", "5"], ["1", "6"], ["2", "7"]]"#;
    let top = of(&format!(
        r#"seedlings: [(number: "1"), (number: "2")], sittings: [(on: "2026-05-01", columns: ["span cm"], {twice})]"#
    ))
    .file("t.csv", "plant,span cm,date\nK-1,5.5,2026-05-01\n");
    said(&top, "measure --from t.csv --again");
    let page = top.text("crosses/K.ron");
    let mended = twice.replacen("\"5\"", "\"5.5\"", 1);
    assert!(page.contains(&mended), "{page}");
}

/// Before anything comes up nothing is pricked out: a sowing of a vague day makes the range of others no earlier than that.
#[test]
fn a_vague_sowing_makes_no_range_of_pricking_out_before_germination() {
    let counts = r#"germinated: [(on: "2026-05-25", count: 30)]"#;
    let top = of(&format!(
        r#"sowings: [(code: "S1", on: "2026-02", seeds: 50, pricked_out: [(on: "2026-03-10", moved: 10, left: 20, to: "T1")]),
            (code: "S2", on: "2026-04-20", seeds: 50, {counts})]"#
    ));
    holds(
        &said(&top, "due --within 400d"),
        &["28–365 days by common practice and 1 record of yours"],
    );
}

/// Two species stand in the order of the alphabet, which says nothing of seed and pollen, whichever founder comes first.
#[test]
fn species_of_a_hybrid_stand_in_the_order_of_the_alphabet() {
    for [of_v, of_s] in [["ventricosa", "spathulata"], ["spathulata", "ventricosa"]] {
        let clones = format!(
            r#"(clones: [(code: "V", received: "N. {of_v}", confidence: tag), (code: "S", received: "N. {of_s}", confidence: tag)])"#
        );
        let top = of(r#"seedlings: [(number: "1")]"#).file("clones.ron", &clones);
        let kind = "primary hybrid (F1) of spathulata and ventricosa";
        holds(&said(&top, "parentage K-1"), &[kind]);
    }
}
