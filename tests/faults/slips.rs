//! Slips that only the whole registry shows: sizes that no plant has, plants on the wrong page, counts and sexes that
//! do not add up. Each with the neighbouring cases in which nothing is told.

use crate::found;
use podbook::diagnostic::Severity::{self, Fault, Note, Warning};
use podbook::observation::{SexSeen, sex_seen};
use podbook::record::{SeenBy, Sex};

const REGISTRY: &str = "(genus: \"Nepenthes\", hemisphere: north, traits: [\
    (code: \"span\", name: \"leaf span\", reads: length(cm)), \
    (code: \"rim\", name: \"rim colour\", reads: kinds([\"green\", \"red\"]), from_span_cm: 2), \
    (code: \"mouth\", name: \"mouth width\", reads: length(mm), of_pitcher: true), \
    (code: \"banding\", name: \"banding\", reads: scale([\"a\", \"b\", \"c\"])), \
    (code: \"leaves\", name: \"leaf count\", reads: count)])";
const CLONES: &str = r#"(clones: [
    (code: "V1", received: "N. ventricosa", ramets: [(code: "a"), (code: "b")], flowerings: [(opened: "2021-03", sex: female)]),
    (code: "S1", received: "N. spathulata", ramets: [(code: "a"), (code: "b")], flowerings: [(opened: "2021-03", sex: male)]),
])"#;

/// What is found on a page of V1 × S1 with six seedlings and more fields.
fn told(more: &str) -> Vec<(&'static str, Severity)> {
    let numbered: Vec<String> = (1..=6).map(|n| format!("(number: \"{n}\")")).collect();
    told_of(&numbered.join(", "), more)
}

/// The same with seedlings of its own.
fn told_of(seedlings: &str, more: &str) -> Vec<(&'static str, Severity)> {
    let page = format!(
        "(code: \"X22-01\", parents: known(seed: \"V1\", pollen: \"S1\"), seedlings: [{seedlings}], {more})"
    );
    told_page(&page)
}

fn told_page(page: &str) -> Vec<(&'static str, Severity)> {
    let species = "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])";
    let files = [
        ("clones.ron", CLONES),
        ("crosses/X22-01.ron", page),
        ("registry.ron", REGISTRY),
        ("species.ron", species),
    ]
    .map(|(path, text)| (path.to_owned(), text.to_owned()));
    let (_, findings) = found(&files);
    findings.iter().map(|f| (f.code.0, f.severity)).collect()
}

fn sitting(columns: &str, rows: &[&str]) -> String {
    let rows: Vec<String> = (1..=rows.len())
        .zip(rows)
        .map(|(n, cells)| format!("[\"{n}\", {cells}]"))
        .collect();
    format!(
        "sittings: [(on: \"2024-05\", columns: [{columns}], rows: [{}])]",
        rows.join(", ")
    )
}

/// Lengths of eight siblings, the fifth as given.
fn of_eight(columns: &str, fifth: &str) -> Vec<(&'static str, Severity)> {
    let mut rows =
        ["6.8", "7.1", "7.4", "6.5", fifth, "7.0", "7.3", "6.9"].map(|cell| format!("\"{cell}\""));
    if columns.contains("pitcher") {
        rows = rows.map(|row| format!("{row}, \"lower\""));
    }
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    let numbered: Vec<String> = (1..=8).map(|n| format!("(number: \"{n}\")")).collect();
    told_of(&numbered.join(", "), &sitting(columns, &rows))
}

/// 2.8 is 7.1 in inches, 2.8 in inches is 7.1 cm; half as large is neither. Pitchers of one plant differ as much, and a
/// decimal point is no inch.
#[test]
fn inches_are_asked_about_among_siblings() {
    let asks = [("inches-among-siblings", Note)];
    assert_eq!(of_eight("\"span cm\"", "2.8"), asks);
    assert_eq!(of_eight("\"span cm\"", "17.8"), asks);
    assert_eq!(of_eight("\"span in\"", "17.8"), asks);
    assert_eq!(of_eight("\"span cm\"", "2.8 in"), []);
    assert_eq!(of_eight("\"span cm\"", "3.6"), []);
    assert_eq!(of_eight("\"span cm\"", "0.7"), FAR);
    assert_eq!(of_eight("\"mouth mm\", \"pitcher\"", "2.8"), []);
}

/// What is offered for a misspelt heading keeps its unit, however it is bracketed, and gives none to what has none.
#[test]
fn a_misspelt_heading_keeps_its_unit() {
    let offered = |heading: &str| -> Vec<String> {
        let page = format!(
            "(code: \"X22-01\", parents: known(seed: \"V1\", pollen: \"S1\"), seedlings: [(number: \"1\")], \
             sittings: [(on: \"2024-05\", columns: [\"{heading}\"], rows: [[\"1\", \"7\"]])])"
        );
        let species = "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])";
        let files = [
            ("clones.ron", CLONES),
            ("crosses/X22-01.ron", &page),
            ("registry.ron", REGISTRY),
            ("species.ron", species),
        ]
        .map(|(path, text)| (path.to_owned(), text.to_owned()));
        let (_, findings) = found(&files);
        let unknown = findings.iter().find(|f| f.code.0 == "unknown-trait");
        let unknown = unknown.expect("the heading is not known");
        unknown
            .help
            .iter()
            .filter(|help| help.starts_with("did you mean"))
            .cloned()
            .collect()
    };
    assert_eq!(offered("spna (cm)"), ["did you mean `span cm`?"]);
    assert_eq!(offered("spna, in"), ["did you mean `span in`?"]);
    assert_eq!(offered("spna mm"), ["did you mean `span mm`?"]);
    assert_eq!(offered("span [cm]"), ["did you mean `span cm`?"]);
    assert_eq!(offered("spna"), ["did you mean `span`?"]);
    assert_eq!(offered("leafes"), ["did you mean `leaves`?"]);
    assert_eq!(offered("leafes (cm)"), [""; 0]);
}

const FAR: [(&str, Severity); 1] = [("far-from-siblings", Warning)];

#[test]
fn a_slipped_point_among_siblings_is_told() {
    let spans = |last: &str| {
        let cells = ["\"1.8\"", "\"1.6\"", "\"2.1\"", "\"1.9\"", "\"1.7\"", last];
        told(&sitting("\"span cm\"", &cells))
    };
    for slip in ["\"18\"", "\"180\"", "\"0.18\"", "\"18 cm\""] {
        assert_eq!(spans(slip), FAR, "{slip}");
    }
    for sound in ["\"18 mm\"", "\"4.0\"", "\"0.9\"", "\"\""] {
        assert_eq!(spans(sound), [], "{sound}");
    }
    assert_eq!(spans("\"0\""), [("outside-trait", Fault)]);
}

#[test]
fn few_siblings_a_flagged_row_and_other_traits_are_left_alone() {
    let few = ["\"1.8\"", "\"1.6\"", "\"2.1\"", "\"18\""];
    assert_eq!(told(&sitting("\"span cm\"", &few)), []);
    let pest = [
        "\"1.8\", \"\"",
        "\"1.6\", \"\"",
        "\"2.1\", \"\"",
        "\"1.9\", \"\"",
        "\"18\", \"thrips\"",
    ];
    assert_eq!(told(&sitting("\"span cm\", \"pest\"", &pest)), []);
    let leaves = ["\"2\"", "\"2\"", "\"2\"", "\"2\"", "\"20\""];
    assert_eq!(told(&sitting("\"leaves\"", &leaves)), []);
}

/// An older sowing in the same sitting is not compared with a younger one.
#[test]
fn siblings_are_of_one_sowing() {
    let of = |sowing: &str, from: usize| -> Vec<String> {
        (from..from + 5)
            .map(|n| format!("(number: \"{n}\", sowing: \"{sowing}\")"))
            .collect()
    };
    let seedlings = [of("W1", 1), of("W2", 6)].concat().join(", ");
    let cells = [
        "\"1.8\"", "\"1.6\"", "\"2.1\"", "\"1.9\"", "\"1.7\"", "\"18\"", "\"16\"", "\"21\"",
        "\"19\"", "\"17\"",
    ];
    let sowings = "sowings: [(code: \"W1\", on: \"2024-01\"), (code: \"W2\", on: \"2022-10\")]";
    let more = format!("{sowings}, {}", sitting("\"span cm\"", &cells));
    assert_eq!(told_of(&seedlings, &more), []);
}

/// Two sittings of one column, a year apart.
fn two(column: &str, first: &[&str], second: &[&str]) -> String {
    let rows = |cells: &[&str]| -> String {
        let numbered = (1..=cells.len()).zip(cells);
        let rows: Vec<String> = numbered
            .map(|(n, cell)| format!("[\"{n}\", \"{cell}\"]"))
            .collect();
        rows.join(", ")
    };
    format!(
        "sittings: [(on: \"2023-05\", columns: [\"{column}\"], rows: [{}]), (on: \"2024-05\", columns: [\"{column}\"], rows: [{}])]",
        rows(first),
        rows(second)
    )
}

const SHRINKS: [(&str, Severity); 1] = [("plant-shrinks", Warning)];

#[test]
fn a_plant_that_shrinks_is_told() {
    assert_eq!(told(&two("span cm", &["9.8"], &["1.8"])), SHRINKS);
    assert_eq!(told(&two("span", &["9.8 cm"], &["1.8 in"])), SHRINKS);
    assert_eq!(told(&two("span", &["3.8 cm"], &["1.8 in"])), []);
    assert_eq!(told(&two("span cm", &["9.8"], &["4.9"])), []);
    assert_eq!(
        told(&two("mouth mm", &["40"], &["9"])),
        [],
        "another pitcher"
    );
    assert_eq!(
        told(&two("span", &["9.8"], &["1.8"])),
        [("no-unit", Note); 2]
    );
}

#[test]
fn several_ramets_may_differ_in_size() {
    let ramets = "(number: \"1\", ramets: [(code: \"a\"), (code: \"b\")])";
    assert_eq!(told_of(ramets, &two("span cm", &["9.8"], &["1.8"])), []);
    assert_eq!(
        told_of("(number: \"1\")", &two("span cm", &["9.8"], &["1.8"])),
        SHRINKS
    );
}

/// A whole column in another unit is one finding, two plants of many are two.
#[test]
fn a_column_that_shrinks_is_told_once() {
    let before = ["4.6", "5.1", "3.9", "4.4", "4.8", "5.0"];
    let inches = ["1.8", "2.0", "1.5", "1.7", "1.9", "2.0"];
    assert_eq!(told(&two("span cm", &before, &inches)), SHRINKS);
    let two_of_them = ["1.8", "2.0", "4.5", "4.7", "4.9", "5.0"];
    assert_eq!(
        told(&two("span cm", &before, &two_of_them)),
        [SHRINKS[0]; 2]
    );
}

/// The slip upward is told where it stands, not once more at the sound reading after it.
#[test]
fn after_a_slipped_point_the_plant_does_not_shrink() {
    let before = ["18", "1.9", "1.7", "2.0", "1.8"];
    let after = ["2.8", "2.9", "2.7", "3.0", "2.8"];
    assert_eq!(told(&two("span cm", &before, &after)), FAR);
}

#[test]
fn the_plant_pollinated_is_the_seed_parent() {
    let page = |parents: &str, plant: &str| {
        told_page(&format!(
            "(code: \"X22-01\", parents: {parents}, pollinations: [(zone: \"A\", plant: \"{plant}\", on: [\"2022-04\"])])"
        ))
    };
    let known = "known(seed: \"V1\", pollen: \"S1\")";
    for plant in ["V1", "V1-b"] {
        assert_eq!(page(known, plant), []);
    }
    for plant in ["S1", "S1-a"] {
        assert_eq!(page(known, plant), [("other-seed-parent", Fault)]);
    }
    for parents in [
        "unknown",
        "label_only(\"N. ventricosa\")",
        "seed_unknown(pollen: \"S1\")",
        "direction_lost((\"V1\", \"S1\"))",
        "known(seed: \"ventricosa\", pollen: \"S1\")",
    ] {
        assert_eq!(page(parents, "V1"), [], "{parents}");
    }
    // Told as the unknown code it is, and not a second time.
    assert_eq!(page(known, "V9"), [("unknown-plant", Fault)]);
}

#[test]
fn no_more_are_numbered_than_a_community_pot_held() {
    let numbered = |on: &str| -> String {
        let all: Vec<String> = (1..=4)
            .map(|n| format!("(number: \"{n}\", community_pot: \"A\"{on})"))
            .collect();
        all.join(", ")
    };
    let community_pot = |alive: &str| format!("community_pots: [(code: \"A\", alive: [{alive}])]");
    let three = community_pot("(on: \"2023-06\", count: 3)");
    let dated = |day: &str| numbered(&format!(", numbered: \"{day}\""));
    let code = "more-numbered-than-community-pot";
    assert_eq!(told_of(&dated("2023-09"), &three), [(code, Fault)]);
    assert_eq!(told_of(&numbered(""), &three), [(code, Warning)]);
    assert_eq!(
        told_of(&dated("2023-05"), &three),
        [],
        "counted what was left"
    );
    assert_eq!(
        told_of(
            &dated("2023-09"),
            &community_pot("(on: \"2023-06\", count: 4)")
        ),
        []
    );
    let again = community_pot("(on: \"2023-06\", count: 9), (on: \"2023-12\", count: 9)");
    assert_eq!(
        told_of(&dated("2023-09"), &again),
        [("numbered-still-counted", Warning)]
    );
    let left = community_pot("(on: \"2023-06\", count: 9), (on: \"2023-12\", count: 5)");
    assert_eq!(told_of(&dated("2023-09"), &left), []);
    let never_counted = "community_pots: [(code: \"A\")]";
    assert_eq!(told_of(&dated("2023-09"), never_counted), []);
}

#[test]
fn the_cull_of_the_only_plant_of_a_sex_is_a_note() {
    let seedlings = |first: &str, second: &str| {
        told_of(
            &format!(
                "(number: \"1\", flowerings: [(opened: \"2023-04\", sex: female)], {first}), \
                 (number: \"2\", flowerings: [(opened: \"2023-04\", sex: {second})]), (number: \"3\")"
            ),
            "",
        )
    };
    let culled = "fate: culled(on: \"2023-06\")";
    assert_eq!(
        seedlings(culled, "male"),
        [("only-one-of-sex-culled", Note)]
    );
    assert_eq!(seedlings(culled, "female"), [], "another is left");
    assert_eq!(
        seedlings("fate: died(on: \"2023-06\")", "male"),
        [],
        "no cull"
    );
    let given_up = "(number: \"1\", flowerings: [(opened: \"2023-04\", sex: female)], fate: culled(on: \"2023-06\"))";
    assert_eq!(told_of(given_up, ""), [], "nothing of the cross is left");
}

/// Longer than four months is a slip; vague dates are given the benefit of the doubt.
#[test]
fn flowers_do_not_stay_open_for_a_year() {
    let flowering = |opened: &str, over: &str| {
        told_of(
            &format!(
                "(number: \"1\", flowerings: [(opened: \"{opened}\", over: \"{over}\", sex: male)])"
            ),
            "",
        )
    };
    let slip = [("flowers-open-too-long", Warning)];
    assert_eq!(flowering("2022-03-05", "2023-03-28"), slip);
    assert_eq!(flowering("2022-03-05", "2022-07-04"), slip, "121 days");
    assert_eq!(flowering("2022-03-05", "2022-07-03"), [], "120 days");
    assert_eq!(flowering("2022", "2023"), []);
}

#[test]
fn a_sex_says_when_it_was_seen_and_by_what() {
    let flowering =
        |fields: &str| told_of(&format!("(number: \"1\", flowerings: [({fields})])"), "");
    for bare in ["sex: male", "spike: \"2023-03\", sex: male"] {
        assert_eq!(flowering(bare), [("undated-sex", Note)], "{bare}");
    }
    for sound in [
        "opened: \"2023-04\", sex: male",
        "over: \"by 2023-05\", sex: male",
        "spike: \"2023-03\", sex: male, seen_by: buds",
        "sex: male, seen_by: leaf_test",
        "spike: \"2023-03\"",
    ] {
        assert_eq!(flowering(sound), [], "{sound}");
    }
}

/// What the figures use is what check accepts, and the other way round.
#[test]
fn a_cell_is_read_as_the_figures_read_it() {
    let one = |column: &str, cell: &str| {
        told(&sitting(
            &format!("\"{column}\""),
            &[&format!("\"{cell}\"")],
        ))
    };
    for (column, cell) in [
        ("banding", "3.0"),
        ("rim", "Red"),
        ("leaves", "4.0"),
        ("leaves", "4,0"),
    ] {
        assert_eq!(one(column, cell), [], "{cell}");
    }
    for (column, cell, code) in [
        ("banding", "3.5", "outside-trait"),
        ("leaves", "-1", "outside-trait"),
        ("leaves", "1,200", "comma-in-number"),
        ("span cm", "1,200", "comma-in-number"),
        ("span cm", "about 9.6", "words-around-number"),
        ("span", "c. 9.6 cm", "words-around-number"),
        ("span", "9.6 cmm", "unknown-unit"),
    ] {
        assert_eq!(one(column, cell), [(code, Fault)], "{cell}");
    }
    // The leaf span is that of the same row, whatever the trait is called.
    assert_eq!(
        told(&sitting("\"span cm\", \"rim\"", &["\"1.5\", \"red\""])),
        [("read-too-early", Note)]
    );
    assert_eq!(
        told(&sitting("\"span cm\", \"rim\"", &["\"2.5\", \"red\""])),
        []
    );
}

/// One rule of sex: how surely a plant is of a sex is the same for a check of the parts it played and for the figures.
#[test]
fn check_and_figures_judge_a_sex_alike() {
    let open = "(opened: \"2021-03\", sex: male)";
    let guess = |sex: &str, by: &str| format!("(spike: \"2020\", sex: {sex}, seen_by: {by})");
    let cases = [
        (open.to_owned(), SexSeen::Certain(Sex::Male), Some(Fault)),
        (
            guess("male", "leaf_test"),
            SexSeen::Guess(Sex::Male, SeenBy::LeafTest),
            Some(Warning),
        ),
        (
            guess("male", "buds"),
            SexSeen::Guess(Sex::Male, SeenBy::Buds),
            Some(Warning),
        ),
        (
            format!("{}, {open}", guess("female", "supplier")),
            SexSeen::Certain(Sex::Male),
            Some(Fault),
        ),
        (
            format!("{}, {}", guess("female", "buds"), guess("male", "supplier")),
            SexSeen::Unsexed,
            None,
        ),
        (
            format!("(opened: \"2020\", sex: female), {open}"),
            SexSeen::Contradicted,
            None,
        ),
    ];
    for (flowerings, seen, severity) in cases {
        let clones = format!(
            "(clones: [(code: \"V1\", received: \"N. ventricosa\", flowerings: [{flowerings}])])"
        );
        let files = [
            ("clones.ron", clones.as_str()),
            (
                "crosses/X22-01.ron",
                "(code: \"X22-01\", parents: pollen_unknown(seed: \"V1\"))",
            ),
            ("registry.ron", REGISTRY),
        ]
        .map(|(path, text)| (path.to_owned(), text.to_owned()));
        let (sources, findings) = found(&files);
        let (registry, _) = podbook::registry::build(&sources);
        let plant = registry.plant("V1").expect("it is on record");
        assert_eq!(sex_seen(&registry, plant), seen, "{flowerings}");
        let told = findings
            .iter()
            .find(|finding| finding.code.0 == "male-seed-parent");
        assert_eq!(
            told.map(|finding| finding.severity),
            severity,
            "{flowerings}"
        );
    }
}
