//! Where a check must hold its tongue, and where a fault is only a warning or a note.

use crate::found;
use podbook::diagnostic::Severity::{self, Fault, Note, Warning};

const REGISTRY: &str = "(genus: \"Nepenthes\", hemisphere: north, traits: [\
    (code: \"span\", name: \"leaf span\", reads: length(cm), between: (0.1, 250)), \
    (code: \"banding\", name: \"banding\", reads: scale([\"a\", \"b\", \"c\"]), from_months: 12, from_span_cm: 2), \
    (code: \"leaves\", name: \"leaf count\", reads: count)])";
const SPECIES: &str =
    "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\"), (epithet: \"truncata\")])";

/// Codes and severities of what is found in these files, clones given apart.
fn told(clones: &str, others: &[(&str, &str)]) -> Vec<(&'static str, Severity)> {
    let mut files: Vec<(String, String)> = [
        ("registry.ron", REGISTRY),
        ("species.ron", SPECIES),
        ("clones.ron", clones),
    ]
    .iter()
    .chain(others)
    .map(|(path, text)| (path.to_string(), text.to_string()))
    .collect();
    files.sort();
    let (_, findings) = found(&files);
    let told = findings.iter().map(|f| (f.code.0, f.severity));
    told.filter(|(code, _)| *code != "sole-ramet").collect()
}

/// A cross of V1, seen female, and S1, seen male, with more fields.
fn cross(more: &str) -> Vec<(&'static str, Severity)> {
    let page = format!("(code: \"X22-01\", parents: known(seed: \"V1\", pollen: \"S1\"), {more})");
    told(PAIR, &[("crosses/X22-01.ron", &page)])
}

const PAIR: &str = r#"(clones: [
    (code: "V1", received: "N. ventricosa", flowerings: [(opened: "2021-03", sex: female)]),
    (code: "S1", received: "N. spathulata", flowerings: [(opened: "2021-03", sex: male)]),
])"#;

#[test]
fn partial_dates_that_allow_the_right_order_are_no_fault() {
    for (pollinated, harvested) in [
        ("2022-05-20", "2022-05"),
        ("spring 2022", "2022-03"),
        ("2022", "early 2022"),
        ("after 2022-04", "2022-06"),
        ("2022-05-20", "by 2022-06"),
    ] {
        let more = format!(
            "pollinations: [(zone: \"A\", on: [\"{pollinated}\"])], pods: [(code: \"P1\", zone: \"A\", harvested: \"{harvested}\")]"
        );
        // Whether a pod had time to ripen is another question.
        let mut told = cross(&more);
        told.retain(|(code, _)| *code != "too-short-to-ripen");
        assert_eq!(told, [], "{pollinated} then {harvested}");
    }
}

/// Winter in the north is not winter in the south.
#[test]
fn seasons_are_those_of_the_hemisphere() {
    let page = "(code: \"X21-01\", parents: unknown, pollinations: [(zone: \"A\", on: [\"spring 2021\"])], \
        pods: [(code: \"P1\", zone: \"A\", harvested: \"2021-08-05\")])";
    assert_eq!(told(PAIR, &[("crosses/X21-01.ron", page)]), []);
    let south = REGISTRY.replace("north", "south");
    let files = [
        ("crosses/X21-01.ron".to_owned(), page.to_owned()),
        ("registry.ron".to_owned(), south),
    ];
    let (_, findings) = found(&files);
    let codes: Vec<_> = findings.iter().map(|f| f.code.0).collect();
    assert_eq!(codes, ["dates-out-of-order"]);
}

/// A piece and a plant of its own cannot share a code: what is recorded under it is recorded of the plant.
#[test]
fn a_piece_and_a_plant_of_one_code_are_a_fault() {
    let pair = |code: &str| {
        PAIR.replace("\"S1\"", &format!("\"{code}\"")).replace(
            "ventricosa\",",
            "ventricosa\", ramets: [(code: \"a\", made: original), (code: \"b\", from: \"a\", made: cutting)],",
        )
    };
    assert_eq!(told(&pair("V1-b"), &[]), [("repeated-code", Fault)]);
    assert_eq!(told(&pair("V1-c"), &[]), []);
}

/// The flowers of a spike that is named open before they are pollinated; of a spike that is not named nothing is known.
#[test]
fn flowers_open_before_they_are_pollinated() {
    let clones = |opened: &str| {
        PAIR.replacen(
            "(opened: \"2021-03\"",
            &format!("(code: \"22a\", opened: \"{opened}\""),
            1,
        )
    };
    let page = |spike: &str| {
        format!(
            "(code: \"X22-01\", parents: known(seed: \"V1\", pollen: \"S1\"), \
             pollinations: [(zone: \"A\", {spike}on: [\"2022-05-03\"])])"
        )
    };
    let told =
        |opened: &str, spike: &str| told(&clones(opened), &[("crosses/X22-01.ron", &page(spike))]);
    let late = [("dates-out-of-order", Fault)];
    assert_eq!(told("2022-05-10", "spike: \"22a\", "), late);
    for opened in ["2022-05-03", "2022-05", "by 2022-06-01"] {
        assert_eq!(told(opened, "spike: \"22a\", "), [], "{opened}");
    }
    assert_eq!(told("2022-05-10", ""), []);
}

/// With two days of pollination the harvest follows the first of them; without a date nothing is known.
#[test]
fn a_pod_follows_the_first_day_of_its_own_zone() {
    let pods = "pods: [(code: \"P1\", zone: \"A\", harvested: \"2022-06\")]";
    let zone = |a: &str, b: &str| {
        format!("pollinations: [(zone: \"A\", on: [{a}]), (zone: \"B\", on: [{b}])], {pods}")
    };
    assert_eq!(
        cross(&zone("\"2022-05-01\", \"2022-07-01\"", "\"2022-08-01\"")),
        []
    );
    assert_eq!(cross(&zone("", "\"2022-08-01\"")), []);
    let late = cross(&zone("\"2022-07-01\"", "\"2022-05-01\""));
    assert_eq!(late, [("dates-out-of-order", Fault)]);
}

/// The whole road, one step at a time: each step one month before the one it must follow.
#[test]
fn every_step_of_the_road_is_asked() {
    let steps = [
        "sowings: [(code: \"W1\", on: \"2022-05\", pod: \"P1\")]",
        "sowings: [(code: \"W1\", on: \"2022-09\", pod: \"P1\", germinated: [(on: \"2022-08\", count: 1)])]",
        "sowings: [(code: \"W1\", on: \"2022-09\", pod: \"P1\", pricked_out: [(on: \"2022-08\", moved: 1)])]",
        "sowings: [(code: \"W1\", pod: \"P1\", germinated: [(on: \"2022-05\", count: 1)])]",
        "sowings: [(code: \"W1\", on: \"2022-09\")], community_pots: [(code: \"T\", sowing: \"W1\", alive: [(on: \"2022-08\", count: 1)])]",
        "sowings: [(code: \"W1\", on: \"2022-09\")], community_pots: [(code: \"T\", sowing: \"W1\", gone: [(count: 1, fate: sold(on: \"2022-08\"))])]",
        "community_pots: [(code: \"T\", gone: [(count: 1, fate: sold(on: \"2023-08\"))], fate: died(on: \"2023-07\"))]",
        "sowings: [(code: \"W1\", on: \"2022-09\")], seedlings: [(number: \"1\", germinated: \"2022-08\")]",
        "sowings: [(code: \"W1\", on: \"2022-09\")], seedlings: [(number: \"1\", numbered: \"2022-08\")]",
        "sowings: [(code: \"W1\", on: \"2022-09\")], seedlings: [(number: \"1\", germinated: \"2023-03\", numbered: \"2023-01\")]",
        "sowings: [(code: \"W1\", on: \"2022-09\")], seedlings: [(number: \"1\")], sittings: [(on: \"2022-08\", columns: [\"leaves\"], rows: [[\"1\", \"2\"]])]",
        "sowings: [(code: \"W1\", on: \"2022-09\")], seedlings: [(number: \"1\", fate: died(on: \"2022-08\"))]",
        "sowings: [(code: \"W1\", on: \"2022-09\")], seedlings: [(number: \"1\", pots: [(on: \"2022-08\", pot: \"7 cm\")])]",
        "seedlings: [(number: \"1\", flowerings: [(spike: \"2023-05\", opened: \"2023-04\")])]",
        "seedlings: [(number: \"1\", flowerings: [(opened: \"2023-05\", over: \"2023-04\")])]",
        "seedlings: [(number: \"1\", ramets: [(code: \"a\", cut: \"2023-05\", rooted: \"2023-04\")])]",
        "seedlings: [(number: \"1\", ramets: [(code: \"a\", cut: \"2023-05\", fate: died(on: \"2023-04\"))])]",
    ];
    for step in steps {
        let pods = "pollinations: [(zone: \"A\", on: [\"2022-03\"])], pods: [(code: \"P1\", zone: \"A\", harvested: \"2022-06\")]";
        let told = cross(&format!("{pods}, {step}"));
        assert_eq!(told, [("dates-out-of-order", Fault)], "{step}");
    }
}

#[test]
fn a_parent_is_older_than_its_cross_and_alive_when_it_bears() {
    let child = "(code: \"X22-02\", parents: known(seed: \"X22-01-1\", pollen: \"truncata\"), pollinations: [(zone: \"A\", on: [\"2022-08\"])])";
    let parent = |fields: &str| {
        format!(
            "(code: \"X22-01\", parents: known(seed: \"V1\", pollen: \"S1\"), sowings: [(code: \"W1\", on: \"2022-01\")], seedlings: [(number: \"1\"{fields})])"
        )
    };
    let both = |parent: String| {
        told(
            PAIR,
            &[
                ("crosses/X22-01.ron", &parent),
                ("crosses/X22-02.ron", child),
            ],
        )
    };
    assert_eq!(both(parent("")), []);
    let younger = parent("").replace("2022-01\")", "2022-11\")");
    assert_eq!(both(younger), [("dates-out-of-order", Fault)]);
    assert_eq!(
        both(parent(", fate: died(on: \"2022-05\")")),
        [("after-the-end", Fault)]
    );
    assert_eq!(
        both(parent(", fate: sold(on: \"2022-05\")")),
        [("after-the-end", Warning)]
    );
    assert_eq!(both(parent(", fate: died(on: \"2022\")")), []);
}

/// Who bought the plant crossed it; a plant that died flowered with no other grower either.
#[test]
fn a_plant_that_left_is_crossed_by_who_has_it() {
    let page = |told: &str| {
        format!(
            "(code: \"X22-01\", parents: known(seed: \"V1\", pollen: \"S1\"), pollinations: [(zone: \"A\", on: [\"2022-08\"])]{told})"
        )
    };
    let own = page("");
    let page = page(", told_by: (registry: \"shed\", code: \"X22-01\", on: \"2022-09-01\")");
    let after = |page: &str, fate: &str| {
        let clones = PAIR.replacen(
            "sex: female)]",
            &format!("sex: female)], fate: {fate}(on: \"2022-05\")"),
            1,
        );
        told(&clones, &[("crosses/X22-01.ron", page)])
    };
    for fate in ["sold", "given", "lost"] {
        assert_eq!(after(&page, fate), [], "{fate}");
        assert_eq!(after(&own, fate), [("after-the-end", Warning)], "{fate}");
    }
    for fate in ["died", "culled"] {
        assert_eq!(after(&page, fate), [("after-the-end", Fault)], "{fate}");
        assert_eq!(after(&own, fate), [("after-the-end", Fault)], "{fate}");
    }
}

/// Stored pollen outlives its plant.
#[test]
fn a_dead_father_is_no_fault() {
    let clones = PAIR.replace("sex: male)]", "sex: male)], fate: died(on: \"2021-09\")");
    let page = "(code: \"X22-01\", parents: known(seed: \"V1\", pollen: \"S1\"), pollinations: [(zone: \"A\", on: [\"2022-05\"])])";
    assert_eq!(told(&clones, &[("crosses/X22-01.ron", page)]), []);
}

#[test]
fn pollen_is_collected_before_it_is_used_and_not_used_up() {
    let lot = |fields: &str| format!("(lots: [(code: \"S\", from: plant(\"S1\"), {fields})])");
    let page = "(code: \"X22-01\", parents: known(seed: \"V1\", pollen: \"S1\"), pollinations: [(zone: \"A\", on: [\"2022-05\"], pollen: \"S\")])";
    let with = |lot: String| told(PAIR, &[("crosses/X22-01.ron", page), ("pollen.ron", &lot)]);
    assert_eq!(
        with(lot("collected: \"2022-04\", finished: \"2022-05\"")),
        []
    );
    assert_eq!(
        with(lot("collected: \"2022-06\"")),
        [("dates-out-of-order", Fault)]
    );
    assert_eq!(
        with(lot("finished: \"2022-04\"")),
        [("dates-out-of-order", Fault)]
    );
}

#[test]
fn a_guess_gives_a_warning_and_open_flowers_overrule_it() {
    let guess =
        |seen_by: &str| PAIR.replace("sex: female", &format!("sex: male, seen_by: {seen_by}"));
    let page = (
        "crosses/X22-01.ron",
        "(code: \"X22-01\", parents: known(seed: \"V1\", pollen: \"S1\"))",
    );
    for seen_by in ["buds", "supplier", "leaf_test"] {
        assert_eq!(
            told(&guess(seen_by), &[page]),
            [("male-seed-parent", Warning)]
        );
    }
    assert_eq!(
        told(&guess("flowers"), &[page]),
        [("male-seed-parent", Fault)]
    );
    let both = PAIR.replace(
        "[(opened: \"2021-03\", sex: female)]",
        "[(spike: \"2020\", sex: male, seen_by: buds), (opened: \"2021-03\", sex: female)]",
    );
    assert_eq!(told(&both, &[page]), [("sex-contradicted", Note)]);
    let guesses = both.replace("sex: female)", "sex: female, seen_by: supplier)");
    assert_eq!(told(&guesses, &[page]), [("sex-contradicted", Warning)]);
}

#[test]
fn one_candidate_among_several_gives_a_warning() {
    let one_of =
        "(code: \"X22-01\", parents: pollen_one_of(seed: \"V1\", pollen: [\"V1\", \"S1\"]))";
    let told_of = |page: &str| told(PAIR, &[("crosses/X22-01.ron", page)]);
    assert_eq!(
        told_of(one_of),
        [
            ("female-pollen-parent", Warning),
            ("one-plant-both-parents", Warning)
        ]
    );
    let twice =
        "(code: \"X22-01\", parents: seed_one_of(seed: [\"S1\", \"S1\"], pollen: \"truncata\"))";
    let told = told_of(twice);
    assert_eq!(
        told,
        [("male-seed-parent", Fault); 2],
        "one plant named twice is certain"
    );
}

#[test]
fn numbers_that_are_guesses_or_out_of_date_give_warnings() {
    let estimated = "seed_lots: [(code: \"L1\", seeds: 60, estimated: true)], sowings: [(code: \"W1\", lot: \"L1\", seeds: 70)]";
    assert_eq!(cross(estimated), [("more-sown-than-seed", Warning)]);
    let come_up = "seed_lots: [(code: \"L1\", seeds: 10)], sowings: [(code: \"W1\", lot: \"L1\", germinated: [(on: \"2023\", count: 11)])]";
    assert_eq!(cross(come_up), [("more-sown-than-seed", Fault)]);
    let later = "sowings: [(code: \"W1\", seeds: 9, germinated: [(on: \"2023\", count: 1)])], seedlings: [(number: \"1\"), (number: \"2\")]";
    assert_eq!(cross(later), [("more-seedlings-than-germinated", Warning)]);
    let beyond =
        "sowings: [(code: \"W1\", seeds: 1)], seedlings: [(number: \"1\"), (number: \"2\")]";
    assert_eq!(cross(beyond), [("more-seedlings-than-germinated", Fault)]);
    let unsure_order = "sowings: [(code: \"W1\", germinated: [(on: \"2023\", count: 9), (on: \"2023-03\", count: 7)])]";
    assert_eq!(cross(unsure_order), []);
}

/// Those counted in a pot that no pricking out filled are out of their sowing all the same.
#[test]
fn more_in_pots_than_came_up() {
    let page = |pricked: &str, second: &str| {
        format!(
            "sowings: [(code: \"W1\", germinated: [(on: \"2022-06\", count: 26)]{pricked})], community_pots: [\
             (code: \"A\", sowing: \"W1\", alive: [(on: \"2022-09\", count: 19), (on: \"2023-05\", count: 16)], pot: \"tray 7\"), \
             (code: \"B\", sowing: \"W1\", alive: [(on: \"2023-06\", count: 16)]{second})]"
        )
    };
    let told = [("more-pricked-out-than-germinated", Warning)];
    let pricked = ", pricked_out: [(on: \"2023-06\", moved: 16, to: \"B\")]";
    assert_eq!(cross(&page(pricked, "")), told);
    assert_eq!(cross(&page("", ", pot: \"tray 8\"")), told);
    let known = "sowings: [(code: \"W1\", germinated: [(on: \"2022-06\", count: 26)], pricked_out: [\
        (on: \"2022-09\", moved: 19, to: \"A\"), (on: \"2023-06\", moved: 7, to: \"A\")])], community_pots: [\
        (code: \"A\", sowing: \"W1\", alive: [(on: \"2022-09\", count: 19), (on: \"2023-07\", count: 25)])]";
    assert_eq!(cross(known), []);
}

/// Seedlings that left a pot were in it, and a later count holds them no more.
#[test]
fn more_gone_from_a_pot_than_it_held() {
    let pot = |alive: &str, gone: &str| {
        format!("community_pots: [(code: \"A\", alive: [{alive}], gone: [{gone}])]")
    };
    let counted = "(on: \"2022-06\", count: 3)";
    let gone = |count: u32| format!("(count: {count}, fate: sold(on: \"2022-09\"))");
    assert_eq!(cross(&pot(counted, &gone(3))), []);
    let told = [("more-numbered-than-community-pot", Fault)];
    assert_eq!(cross(&pot(counted, &gone(4))), told);
    let most = format!("{}, {}", gone(u32::MAX), gone(u32::MAX));
    assert_eq!(cross(&pot(counted, &most)), told);
    let again = |count: u32| format!("{counted}, (on: \"2022-12\", count: {count})");
    let told = [("numbered-still-counted", Warning)];
    assert_eq!(cross(&pot(&again(2), &gone(2))), told);
    assert_eq!(cross(&pot(&again(1), &gone(2))), []);
    let read = cross(&pot(counted, "(count: 1, fate: sold(on: \"2022-13\"))"));
    assert_eq!(read, [("no-such-day", Fault)]);
}

/// A set of 0 is an outcome, and huge counts do not overflow.
#[test]
fn counts_at_their_ends() {
    assert_eq!(
        cross("pollinations: [(zone: \"A\", flowers: 9, set: 0)]"),
        []
    );
    let most = "pods: [(code: \"P1\", seeds: 4294967295)], seed_lots: [(code: \"L1\", pod: \"P1\", seeds: 4294967295), (code: \"L2\", pod: \"P1\", seeds: 4294967295)]";
    assert_eq!(cross(most), [("more-seed-than-pod", Fault)]);
}

/// A seedling that may come from another cross is bound by neither road.
#[test]
fn a_muddled_seedling_is_not_bound_to_the_dates_of_its_page() {
    let own = r#"(code: "X22-01", parents: known(seed: "V1", pollen: "S1"), pods: [(code: "P1", harvested: "2022-09")],
        seedlings: [(number: "1", one_of: ["P1", "X21-01.P1"], numbered: "2022-06")])"#;
    let other = r#"(code: "X21-01", parents: known(seed: "V1", pollen: "truncata"), pods: [(code: "P1", harvested: "2021-09")])"#;
    assert_eq!(
        told(
            PAIR,
            &[("crosses/X21-01.ron", other), ("crosses/X22-01.ron", own)]
        ),
        []
    );
}

#[test]
fn cells_as_growers_write_them_are_readings() {
    let rows = [
        (
            "span cm",
            vec!["9.6", "9,6", "3 1/2 in", "3½\"", "41 mm", "0.1 m", " 7 cm "],
        ),
        ("span", vec!["9.6 cm", "4 in"]),
        ("leaves", vec!["0", "12"]),
        ("banding", vec!["1", "3"]),
        ("pitcher", vec!["lower", "juvenile"]),
        ("note", vec!["anything at all"]),
        ("pest", vec!["mites"]),
    ];
    for (column, cells) in rows {
        for cell in cells {
            let cell = cell.replace('"', "\\\"");
            let more = format!(
                "seedlings: [(number: \"1\")], sittings: [(on: \"2024-05\", columns: [\"{column}\"], rows: [[\"1\", \"{cell}\"]])]"
            );
            assert_eq!(cross(&more), [], "{column}: {cell}");
        }
    }
}

#[test]
fn cells_that_are_no_readings() {
    for (column, cell, code, severity) in [
        ("span cm", "large", "outside-trait", Fault),
        ("span cm", "-3", "outside-trait", Fault),
        ("span cm", "9.6 feet", "unknown-unit", Fault),
        ("span cm", "1/0", "outside-trait", Fault),
        ("span", "9.6", "no-unit", Note),
        ("span cm", "9.6 m", "unbelievable-value", Warning),
        ("leaves", "3.5", "outside-trait", Fault),
        ("leaves", "-1", "outside-trait", Fault),
        ("leaves", "some", "outside-trait", Fault),
        ("banding", "0", "outside-trait", Fault),
        ("banding", "4", "outside-trait", Fault),
        ("banding", "b", "outside-trait", Fault),
        ("pitcher", "top", "outside-trait", Fault),
        ("banding mm", "2", "unit-not-needed", Fault),
    ] {
        let more = format!(
            "seedlings: [(number: \"1\")], sittings: [(on: \"2024-05\", columns: [\"{column}\"], rows: [[\"1\", \"{cell}\"]])]"
        );
        assert_eq!(cross(&more), [(code, severity)], "{column}: {cell}");
    }
}

/// Told once for a column, however many plants there are; and not of plants that may be old enough.
#[test]
fn too_young_and_too_small_are_told_once() {
    let sitting = |on: &str| {
        format!(
            "sowings: [(code: \"W1\", on: \"2023-01\")], seedlings: [(number: \"1\"), (number: \"2\")], sittings: [(on: \"{on}\", columns: [\"span cm\", \"banding\"], rows: [[\"1\", \"3\", \"1\"], [\"2\", \"3\", \"2\"]])]"
        )
    };
    assert_eq!(cross(&sitting("2023-09")), [("read-too-early", Note)]);
    assert_eq!(cross(&sitting("2024-01")), []);
    let small = sitting("2024-02").replace("\"3\"", "\"1.5\"");
    assert_eq!(cross(&small), [("read-too-early", Note)]);
}

#[test]
fn labels_are_compared_by_what_they_surely_say() {
    let received = |label: &str| cross(&format!("received: \"{label}\""));
    assert_eq!(received("N. ventricosa × N. spathulata"), []);
    assert_eq!(
        received("N. spathulata × N. ventricosa"),
        [],
        "direction is told elsewhere"
    );
    assert_eq!(received("N. ventricosa × unknown"), []);
    assert_eq!(
        received("N. ventricosa × truncata"),
        [("label-contradicts-record", Warning)]
    );
    assert_eq!(
        received("(N. ventricosa × N. spathulata) × N. spathulata"),
        [("label-contradicts-record", Warning)]
    );
    let sold = |label: &str| {
        cross(&format!(
            "seedlings: [(number: \"1\", fate: sold(on: \"2024\", label: \"{label}\"))]"
        ))
    };
    assert_eq!(sold("X22-01-1 N. ventricosa × N. spathulata"), []);
    assert_eq!(sold("X22-01-1"), []);
    assert_eq!(sold("N. truncata"), [("label-contradicts-record", Warning)]);
}

/// A label that fits none of the possible parentages contradicts the record; one that fits some of them is surer than it.
#[test]
fn labels_are_compared_with_each_possible_parentage() {
    let clones = PAIR.replacen(
        "(clones: [",
        "(clones: [(code: \"T1\", received: \"N. truncata\", confidence: tag), ",
        1,
    );
    let first = |seedling: &str| {
        format!(
            "(code: \"X22-01\", parents: pollen_one_of(seed: \"V1\", pollen: [\"S1\", \"T1\"]), seedlings: [{seedling}])"
        )
    };
    let sold =
        |label: &str| format!("(number: \"1\", fate: sold(on: \"2024\", label: \"{label}\"))");
    let later = |label: &str| told(&clones, &[("crosses/X22-01.ron", &first(&sold(label)))]);
    let surer = [("label-surer-than-record", Warning)];
    let wrong = [("label-contradicts-record", Warning)];
    assert_eq!(later("N. ventricosa × N. spathulata"), surer);
    assert_eq!(later("N. ventricosa × N. truncata"), surer);
    assert_eq!(later("N. ventricosa × unknown"), []);
    assert_eq!(later("N. spathulata × N. truncata"), wrong);
    assert_eq!(later("N. ventricosa"), wrong);
    // One generation on, half of the father is open to the same two.
    let further = |label: &str| {
        let second = format!(
            "(code: \"X24-01\", parents: known(seed: \"V1\", pollen: \"X22-01-1\"), seedlings: [{}])",
            sold(label)
        );
        let pages = [
            ("crosses/X22-01.ron", &*first("(number: \"1\")")),
            ("crosses/X24-01.ron", &*second),
        ];
        told(&clones, &pages)
    };
    assert_eq!(further("ventricosa × (ventricosa × truncata)"), surer);
    assert_eq!(further("ventricosa × (ventricosa × unknown)"), []);
    assert_eq!(further("ventricosa × (ventricosa × ventricosa)"), wrong);
}

#[test]
fn pollen_is_compared_with_what_can_be_known() {
    let with = |parents: &str, lot: &str| {
        let page = format!(
            "(code: \"X22-01\", parents: {parents}, pollinations: [(zone: \"A\", pollen: \"L\")])"
        );
        let lots = format!("(lots: [(code: \"L\", from: {lot})])");
        told(
            PAIR,
            &[("crosses/X22-01.ron", &page), ("pollen.ron", &lots)],
        )
    };
    let known = "known(seed: \"V1\", pollen: \"S1\")";
    assert_eq!(with(known, "plant(\"S1\")"), []);
    let ramet = with(known, "plant(\"S1-a\")");
    assert_eq!(
        ramet,
        [("unknown-ramet", Fault)],
        "the pollen of its plant, but no such ramet"
    );
    assert_eq!(
        with(known, "plant(\"truncata\")"),
        [],
        "S1 may be what was meant"
    );
    assert_eq!(
        with("known(seed: \"V1\", pollen: \"truncata\")", "plant(\"S1\")"),
        []
    );
    let mixed = "pollen_mixed(seed: \"V1\", pollen: [\"S1\", \"truncata\"])";
    assert_eq!(with(mixed, "mixed([\"S1\", \"truncata\"])"), []);
    assert_eq!(with("open(seed: \"V1\")", "unknown"), []);
    assert_eq!(with("pollen_unknown(seed: \"V1\")", "unknown"), []);
}

/// The year in a code of two or four digits, or none.
#[test]
fn years_in_codes() {
    let pollinated = |code: &str, on: &str| {
        let page = format!(
            "(code: \"{code}\", parents: unknown, pollinations: [(zone: \"A\", on: [\"{on}\"])])"
        );
        told(PAIR, &[("crosses/page.ron", &page)])
    };
    assert_eq!(pollinated("X22-07", "2022-12"), []);
    assert_eq!(pollinated("X22-07", "winter 2022/23"), []);
    assert_eq!(pollinated("X98-07", "1998"), []);
    assert_eq!(pollinated("X2022-07", "2022"), []);
    assert_eq!(pollinated("ANNA-07", "2022"), []);
    assert_eq!(pollinated("X22-07", "2021-12"), [("year-in-code", Note)]);
}

/// The others of a mix-up that is not settled are on record: what they are counts as mixed up too.
#[test]
fn a_mix_up_names_what_is_on_record() {
    let told_with = |with: &str, more: &str| {
        let page = format!(
            "(code: \"X22-01\", parents: unknown, sowings: [(code: \"S1\")],
              community_pots: [(code: \"T1\", sowing: \"S1\", muddled: [(on: \"2024-05\", with: [\"{with}\"]{more})])],
              seedlings: [(number: \"1\", muddled: [(on: \"2024-05\", with: [\"{with}\"]{more})])])"
        );
        let told = told(PAIR, &[("crosses/X22-01.ron", &page)]);
        let lost = told.iter().filter(|of| **of == ("unknown-plant", Warning));
        lost.count()
    };
    assert_eq!(told_with("X22-01-8", ""), 2);
    assert_eq!(told_with("X22-01.T1", ""), 0);
    assert_eq!(told_with("X22-01-1", ""), 0);
    assert_eq!(told_with("X22-01-8", ", settled: \"2024-06\""), 0);
}

#[test]
fn a_ramet_that_is_not_on_record() {
    let page = "(code: \"X22-01\", parents: known(seed: \"V1-q\", pollen: \"S1\"))";
    let told = told(PAIR, &[("crosses/X22-01.ron", page)]);
    assert_eq!(told, [("unknown-ramet", Fault)]);
}

/// What is done with an envelope follows its pollen; a treatment is before a plant's end; a mix-up is settled after it.
#[test]
fn what_follows_something_is_not_before_it() {
    let order = ("dates-out-of-order", Fault);
    let envelope = |more: &str| {
        let page = format!(
            "(lots: [(code: \"E\", from: plant(\"S1\"), collected: \"2021-03-15\", {more})])"
        );
        told(PAIR, &[("pollen.ron", &page)])
    };
    assert_eq!(envelope("finished: \"2021-02-01\""), [order]);
    assert_eq!(envelope("thawed: [\"2021-02\"]"), [order]);
    assert_eq!(envelope("thawed: [\"2021-03\"], finished: \"2021-05\""), []);
    let seedling = |more: &str| {
        cross(&format!(
            "pods: [(code: \"P1\")], seedlings: [(number: \"1\", pod: \"P1\", {more}), (number: \"2\", pod: \"P1\")]"
        ))
    };
    let treated = |on: &str| {
        seedling(&format!(
            "fate: died(on: \"2023-04\"), treatments: [(on: \"{on}\", product: \"soap\")]"
        ))
    };
    assert_eq!(treated("2023-05"), [("after-the-end", Fault)]);
    assert_eq!(treated("2023-04"), []);
    let mixed_up = |settled: &str| {
        seedling(&format!(
            "muddled: [(on: \"2023-05-01\", with: [\"X22-01-2\"], settled: \"{settled}\")]"
        ))
    };
    let codes = |found: Vec<(&'static str, Severity)>| {
        let order = found.into_iter().filter(|of| *of == order);
        order.count()
    };
    assert_eq!(codes(mixed_up("2023-04-01")), 1);
    assert_eq!(codes(mixed_up("2023-05")), 0);
}

/// What an envelope says beside the parents of the page is held against them only where both are read and on record.
#[test]
fn an_envelope_is_held_against_the_fathers_that_are_known() {
    let clones = PAIR.replace(
        "(clones: [",
        r#"(clones: [(code: "T1", received: "N. truncata"), (code: "W1", received: "N. truncata"), "#,
    );
    let known = r#"known(seed: "V1", pollen: "S1")"#;
    let one_of = r#"pollen_one_of(seed: "V1", pollen: ["S1", "T1"])"#;
    let mixed = r#"pollen_mixed(seed: "V1", pollen: ["S1", "T1"])"#;
    let unknown = r#"pollen_unknown(seed: "V1")"#;
    for (parents, envelope, code) in [
        (known, r#"plant("S1")"#, None),
        (known, r#"plant("S1-b")"#, None),
        (known, r#"plant("T1")"#, Some("other-pollen")),
        (known, r#"one_of(["T1", "W1"])"#, Some("other-pollen")),
        (known, r#"one_of(["S1", "T1"])"#, Some("unsure-pollen-used")),
        (known, r#"one_of(["S1", " S1 "])"#, None),
        (known, r#"mixed(["S1", "T1"])"#, Some("mixed-pollen-used")),
        (known, r#"one_of(["S1-a", "S1-b"])"#, None),
        (known, r#"mixed(["S1", "S1-b"])"#, None),
        (
            r#"known(seed: "V1", pollen: "S1-b")"#,
            r#"plant("T1")"#,
            Some("other-pollen"),
        ),
        (known, "unknown", Some("unknown-pollen-used")),
        (one_of, r#"one_of(["T1", "S1"])"#, None),
        (
            one_of,
            r#"one_of(["S1", "W1"])"#,
            Some("unsure-pollen-used"),
        ),
        (one_of, r#"mixed(["S1", "T1"])"#, Some("mixed-pollen-used")),
        (mixed, r#"mixed(["S1", "T1"])"#, None),
        (mixed, r#"mixed(["S1", "W1"])"#, Some("mixed-pollen-used")),
        (
            unknown,
            r#"plant("S1")"#,
            Some("pollen-parent-not-recorded"),
        ),
        (
            r#"known(seed: "V1", pollen: "?")"#,
            r#"plant("S1")"#,
            Some("pollen-parent-not-recorded"),
        ),
        (unknown, "unknown", None),
        (r#"direction_lost(("S1", "V1"))"#, r#"plant("S1")"#, None),
        (r#"direction_lost(("S1", "V1"))"#, r#"plant("V1")"#, None),
        (r#"known(seed: "V1", pollen: "Q9")"#, r#"plant("T1")"#, None),
        (r#"knwon(seed: "V1", pollen: "S1")"#, r#"plant("T1")"#, None),
        (r#"known(seed: "V1", pollen: 7)"#, r#"plant("T1")"#, None),
    ] {
        let page = format!(
            r#"(code: "X22-01", parents: {parents}, pollinations: [(zone: "a", on: ["2022-04-01"], pollen: "E1")])"#
        );
        let lots = format!(r#"(lots: [(code: "E1", from: {envelope})])"#);
        let told = told(
            &clones,
            &[("crosses/X22-01.ron", &page), ("pollen.ron", &lots)],
        );
        let of_envelope = |code: &&str| {
            let others = ["other-pollen", "pollen-parent-not-recorded"];
            code.ends_with("-pollen-used") || others.contains(code)
        };
        let codes: Vec<&str> = told
            .into_iter()
            .map(|(code, _)| code)
            .filter(of_envelope)
            .collect();
        assert_eq!(codes, Vec::from_iter(code), "{parents} and {envelope}");
    }
}

/// Days of seed that came or left and of treatments of trays are read like all others.
#[test]
fn a_day_of_seed_or_of_a_tray_that_cannot_be_read_is_a_fault() {
    let treated = r#"treatments: [(on: "DAY", place: "shelf", product: "soap", perhaps: true)]"#;
    for more in [
        r#"seed_lots: [(code: "L1", came: "DAY")]"#,
        r#"seed_lots: [(code: "L1", gone: [(count: 2, fate: sold(on: "DAY"))])]"#,
        r#"seed_lots: [(code: "L1", fate: given(on: "DAY"))]"#,
        &format!(r#"sowings: [(code: "S1", {treated})]"#),
        &format!(r#"community_pots: [(code: "T1", {treated})]"#),
    ] {
        let codes = |day: &str| {
            let told = cross(&more.replace("DAY", day)).into_iter();
            told.filter(|(_, of)| *of == Fault).collect::<Vec<_>>()
        };
        assert_eq!(codes("2023-05-01"), [], "{more}");
        assert_eq!(codes("2023-15-01"), [("no-such-day", Fault)], "{more}");
    }
}

/// Bought seed is sown once it is there.
#[test]
fn seed_is_not_sown_before_it_came() {
    let sown = |on: &str| {
        let more = format!(
            r#"seed_lots: [(code: "L1", came: "2023-05-01")], sowings: [(code: "S1", lot: "L1", on: "{on}")]"#
        );
        let told = cross(&more).into_iter();
        told.filter(|(_, of)| *of == Fault).count()
    };
    assert_eq!([sown("2023-05-01"), sown("2023-04-30")], [0, 1]);
}
