//! What growers type without having read the manual: told in words that say what to write.

use crate::found;
use podbook::diagnostic::Drawing;

const CLONES: &str = r#"(clones: [
    (code: "Ven1", received: "N. ventricosa"),
    (code: "Spa1", received: "N. spathulata"),
    (code: "Tru1", received: "N. truncata"),
])"#;

/// What is found in these pages of crosses, drawn, notes on the only pot of a plant aside.
fn drawn(pages: &[(&str, &str)]) -> String {
    let mut files = vec![
        (
            "registry.ron".to_owned(),
            "(genus: \"Nepenthes\", hemisphere: north, traits: [\
             (code: \"span\", name: \"leaf span\", reads: length(cm)), \
             (code: \"rim\", name: \"rim\", reads: kinds([\"green\", \"red\"]))])"
                .to_owned(),
        ),
        (
            "species.ron".to_owned(),
            "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\"), (epithet: \"truncata\")])"
                .to_owned(),
        ),
        ("clones.ron".to_owned(), CLONES.to_owned()),
    ];
    files.extend(pages.iter().map(|(path, text)| {
        let path = path.to_string();
        (path, text.to_string())
    }));
    files.sort();
    let (sources, findings) = found(&files);
    let drawing = Drawing {
        width: 200,
        ..Drawing::default()
    };
    let told = findings.iter().filter(|f| f.code.0 != "sole-ramet");
    told.map(|finding| drawing.finding(finding, &sources).to_string())
        .collect()
}

fn page(parents: &str) -> String {
    drawn(&[(
        "crosses/X20-01.ron",
        &format!("(code: \"X20-01\", parents: {parents})"),
    )])
}

fn heads(drawn: &str) -> Vec<&str> {
    let head = |line: &&str| !line.starts_with(' ') && !line.is_empty();
    drawn.lines().filter(head).collect()
}

#[test]
fn two_fathers_are_told_what_to_write() {
    for parents in [
        r#"known(seed: "Ven1", pollen: ["Spa1", "Tru1"])"#,
        r#"known(seed: "Ven1", pollen: "Spa1", pollen: "Tru1")"#,
        r#"known(mother: "Ven1", father: "Spa1", father: "Tru1")"#,
    ] {
        let told = page(parents);
        assert_eq!(heads(&told).len(), 1, "{told}");
        for word in ["pollen_one_of", "pollen_mixed"] {
            let write = format!("{word}(seed: \"Ven1\", pollen: [\"Spa1\", \"Tru1\"])");
            assert!(told.contains(&write), "{told}");
        }
        assert!(
            told.contains("`parents: pollen_unknown(seed: \"Ven1\")` is assumed"),
            "{told}"
        );
    }
}

#[test]
fn mother_and_father_are_seed_and_pollen() {
    for parents in [
        r#"known(mother: "Ven1", father: "Spa1")"#,
        r#"known("Ven1", "Spa1")"#,
        r#"(seed: "Ven1", pollen: "Spa1")"#,
    ] {
        let told = page(parents);
        assert_eq!(heads(&told).len(), 1, "{told}");
        assert!(
            told.contains(r#"known(seed: "Ven1", pollen: "Spa1")"#),
            "{told}"
        );
    }
}

const DAUGHTER: (&str, &str) = (
    "crosses/X23-01.ron",
    r#"(code: "X23-01", parents: known(seed: "X20-01-1", pollen: "Spa1"))"#,
);

/// A page that cannot be kept is not "no parent": the note names it.
#[test]
fn a_parent_on_a_page_left_out_is_told_so() {
    for broken in ["", "{}", "(code: “X20-01”, parents: unknown)"] {
        let told = drawn(&[("crosses/X20-01.ron", broken), DAUGHTER]);
        assert!(!told.contains("unknown-parent"), "{told}");
        assert!(
            told.contains("note rests-on-left-out: the parent `X20-01-1`"),
            "{told}"
        );
        assert!(told.contains("mend crosses/X20-01.ron first"), "{told}");
    }
    let seedling_lost = r#"(code: "X20-01", parents: unknown, seedlings: [(number: "1" sowing: 5, pod: 4, number: 3)])"#;
    let told = drawn(&[("crosses/X20-01.ron", seedling_lost), DAUGHTER]);
    assert!(told.contains("fault"), "{told}");
}

/// What refers to a record left out for a slip of its own is told so, whatever kind of record that is.
#[test]
fn what_refers_to_a_record_left_out_is_told_so() {
    for (what, lost, refers) in [
        (
            "zone `A`",
            "pollinations: [(zone: A, on: [])]",
            "pods: [(code: \"P1\", zone: \"A\")]",
        ),
        (
            "pod `P1`",
            "pods: [{code: \"P1\"}]",
            "seed_lots: [(code: \"L1\", pod: \"P1\")]",
        ),
        (
            "pod `P1`",
            "pods: [(Code: \"P1\")]",
            "seedlings: [(number: \"1\", pod: \"P1\")]",
        ),
        (
            "pod `P1`",
            "pods: [{code: \"P1\"}]",
            "community_pots: [(code: \"T1\", one_of: [\"P1\"])]",
        ),
        (
            "seed lot `L1`",
            "seed_lots: [(code: L1)]",
            "sowings: [(code: \"S1\", lot: \"L1\")]",
        ),
        (
            "sowing `S1`",
            "sowings: [(code: \"S1\", 5)]",
            "seedlings: [(number: \"1\", sowing: \"S1\")]",
        ),
        (
            "community pot `T1`",
            "community_pots: [(code: T1)]",
            "seedlings: [(number: \"1\", community_pot: \"T1\")]",
        ),
        (
            "plant `1`",
            "seedlings: [{number: \"1\"}]",
            "sittings: [(on: \"2021\", columns: [], rows: [[\"1\"]])]",
        ),
        (
            "piece `X20-01-1-a`",
            "seedlings: [(number: \"1\", ramets: [{code: \"a\"}, (code: \"b\", from: \"a\")])]",
            "",
        ),
        (
            "spike `X20-01-1-s`",
            "seedlings: [(number: \"1\", flowerings: [{code: \"s\"}])]",
            "pollinations: [(zone: \"A\", plant: \"X20-01-1\", spike: \"s\", on: [])]",
        ),
    ] {
        let page = format!("(code: \"X20-01\", parents: unknown, {lost}, {refers})");
        let told = drawn(&[("crosses/X20-01.ron", &page)]);
        assert!(!told.contains("there is no"), "{told}");
        assert!(
            told.contains(&format!("note rests-on-left-out: the {what} was left out")),
            "{told}"
        );
        assert!(told.contains("mend crosses/X20-01.ron first"), "{told}");
    }
    let lot = "(lots: [(code: V1-2001, from: plant(\"V1\"))])";
    let page = "(code: \"X20-01\", parents: unknown, pollinations: [(zone: \"A\", pollen: \"V1-2001\", on: [])])";
    let told = drawn(&[("crosses/X20-01.ron", page), ("pollen.ron", lot)]);
    assert!(
        told.contains("the pollen lot `V1-2001` was left out"),
        "{told}"
    );
}

/// A word alone where more belongs in brackets after it, or where brackets belong: told at the word, with an example, and
/// nothing else is left out.
#[test]
fn a_word_without_its_brackets_is_told_with_an_example() {
    for (field, at, found, needed) in [
        (
            "fate: died",
            68,
            "died",
            "`died(on: \"2025-05-30\", cause: …)`",
        ),
        (
            "fate: lost",
            68,
            "lost",
            "`lost(on: \"2025-05-30\", note: …)`",
        ),
        ("kept: true", 68, "true", "`(on: \"2025-05-30\", why: …)`"),
    ] {
        let seedlings = format!("[(number: \"1\", {field})]");
        let page = format!("(code: \"X20-01\", parents: unknown, seedlings: {seedlings})");
        let told = drawn(&[("crosses/X20-01.ron", &page)]);
        assert_eq!(heads(&told).len(), 1, "{told}");
        assert!(told.contains(&format!("X20-01.ron:1:{at}\n")), "{told}");
        assert!(
            told.contains(&format!("found   the word `{found}`\n")),
            "{told}"
        );
        assert!(told.contains(&format!("needed  {needed}\n")), "{told}");
        assert!(!told.contains("left out"), "{told}");
    }
}

/// One slip of the hand is one fault, with what to write, and the records beside it are kept.
#[test]
fn a_slip_of_the_hand_is_one_fault_with_what_to_write() {
    let mut wrong = Vec::new();
    for (page, code, write) in [
        (
            "pods: [(code: \"P1\", embryo_percent: 80,5)]",
            "comma-in-number",
            "write 80.5",
        ),
        (
            "pods: [(code: \"P1\", seeds: 1,240)]",
            "comma-in-number",
            "write 1240",
        ),
        (
            "pollinations: [(zone: \"A\", on: [], control-flowers: 6)]",
            "unknown-field",
            "did you mean `control_flowers`?",
        ),
        (
            "pollinations: [(zone: \"A\", on: [], control flowers: 6)]",
            "unknown-field",
            "did you mean `control_flowers`?",
        ),
        (
            "note: \"Nep. spathulata \"red\" 4in\"",
            "inner-quotes",
            r#"write "Nep. spathulata \"red\" 4in""#,
        ),
        (
            "pods: [(code: \"P1\")), (code: \"P2\")], seedlings: [(number: \"1\", pod: \"P2\")]",
            "stray-bracket",
            "needed",
        ),
        (
            "\n / for the rim,\n",
            "wrong-remark",
            "write `//` instead of `/`",
        ),
        (
            "note: \"a\",\n -- for the rim (perhaps)\n",
            "wrong-remark",
            "write `//` instead of `--`",
        ),
        (
            "note:\u{a0}\"a\"",
            "stray-characters",
            "type a plain blank instead",
        ),
        (
            "pods: [(code: \"P1\", harvested: \"2022–08–13\")]",
            "bad-date",
            "did you mean `2022-08-13`?",
        ),
    ] {
        let page =
            format!("(code: \"X20-01\", parents: known(seed: \"Ven1\", pollen: \"Spa1\"), {page})");
        let told = drawn(&[("crosses/X20-01.ron", &page)]);
        let is_one = heads(&told).len() == 1 && told.contains(code) && told.contains(write);
        if !is_one || told.contains("this cross is left out") {
            wrong.push(told);
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
    let between = |text: &str| {
        let traits =
            format!("(code: \"span\", name: \"leaf span\", reads: length(cm), between: {text})");
        let registry = format!("(genus: \"Nepenthes\", hemisphere: north, traits: [{traits}])");
        let (_, findings) = found(&[("registry.ron".to_owned(), registry)]);
        findings.into_vec().swap_remove(0)
    };
    let told = between("(0,1, 250,0)");
    assert_eq!(
        (told.code.0, &told.offers[0][..]),
        ("comma-in-number", "(0.1, 250.0)")
    );
    assert_eq!(between("(1, 250, 3)").code.0, "wrong-kind");
}

/// A misspelt cross in a seedling's code, whichever of the two is misspelt.
#[test]
fn a_slip_in_a_cross_code_is_guessed() {
    for (recorded, asked) in [("X2O-01", "X20-01"), ("X20-01", "X2O-01")] {
        let mother =
            format!("(code: \"{recorded}\", parents: unknown, seedlings: [(number: \"1\")])");
        let daughter =
            format!("(code: \"X23-01\", parents: known(seed: \"{asked}-1\", pollen: \"Spa1\"))");
        let told = drawn(&[
            ("crosses/X20-01.ron", &mother),
            ("crosses/X23-01.ron", &daughter),
        ]);
        assert!(
            told.contains(&format!("did you mean `{recorded}-1`")),
            "{told}"
        );
    }
}

/// Only pods there are, are said to be recorded.
#[test]
fn no_pod_is_invented() {
    let muddled = r#"(code: "X20-01", parents: unknown, pods: [(code: "P1")],
        seedlings: [(number: "1", one_of: ["P1", "P9"])])"#;
    let other = r#"(code: "X21-01", parents: unknown, pods: [(code: "P1")])"#;
    let told = drawn(&[
        ("crosses/X20-01.ron", muddled),
        ("crosses/X21-01.ron", other),
    ]);
    assert!(told.contains("recorded: P1\n"), "{told}");
}

#[test]
fn codes_of_pods_zones_lots_and_sowings_are_codes() {
    let told = drawn(&[(
        "crosses/X20-01.ron",
        r#"(code: "X20-01", parents: unknown, pollinations: [(zone: "A b./")],
            pods: [(code: "P 1/<b>")], seed_lots: [(code: "L.1")], sowings: [(code: "S 1")])"#,
    )]);
    for what in ["zone", "pod", "seed lot", "sowing"] {
        assert!(
            told.contains(&format!("bad-code: this cannot be the code of a {what}")),
            "{told}"
        );
    }
}

#[test]
fn a_fate_without_names_is_told_its_names() {
    let told = drawn(&[(
        "crosses/X20-01.ron",
        r#"(code: "X20-01", parents: unknown, seedlings: [(number: "1", fate: sold("2023"))])"#,
    )]);
    assert!(told.contains(r#"write sold(on: "2023")"#), "{told}");
}

/// Two rows of one plant are right when each is another kind of pitcher or fills other columns.
#[test]
fn two_rows_of_a_plant_may_tell_two_things() {
    for (columns, rows, twice) in [
        (
            r#"["span", "pitcher"]"#,
            r#"["1", "3 cm", "lower"], ["1", "4 cm", "upper"]"#,
            false,
        ),
        (
            r#"["span", "pitcher"]"#,
            r#"["1", "3 cm", "lower"], ["1", "4 cm", "lower"]"#,
            true,
        ),
        (
            r#"["span", "rim"]"#,
            r#"["1", "3 cm", ""], ["1", "", "red"]"#,
            false,
        ),
        (
            r#"["span", "rim"]"#,
            r#"["1", "3 cm", ""], ["2", "1 cm", ""], ["1", "2 cm", ""]"#,
            true,
        ),
    ] {
        let text = format!(
            "(code: \"X20-01\", parents: unknown, seedlings: [(number: \"1\"), (number: \"2\")], \
             sittings: [(on: \"2022\", columns: {columns}, rows: [{rows}])])"
        );
        let told = drawn(&[("crosses/X20-01.ron", &text)]);
        assert_eq!(told.contains("read-twice"), twice, "{told}");
        assert!(!told.contains("short-row"), "{told}");
    }
}

/// Of two pages with one code the one whose file bears it is kept, however the files sort.
#[test]
fn a_copy_does_not_take_the_place_of_the_page() {
    let page = r#"(code: "X20-01", parents: unknown)"#;
    let told = drawn(&[
        ("crosses/X20-01 copy.ron", page),
        ("crosses/X20-01.ron", page),
    ]);
    assert!(told.contains("at crosses/X20-01 copy.ron:1:"), "{told}");
}

#[test]
fn a_page_of_brackets_is_told_briefly() {
    let told = drawn(&[("crosses/X20-01.ron", &"(".repeat(100_000))]);
    assert!(
        told.lines().count() < 20 && told.contains("nested-too-deep"),
        "{told}"
    );
    let told = drawn(&[("crosses/X20-01.ron", &")".repeat(100_000))]);
    assert!(told.lines().count() < 300, "{} lines", told.lines().count());
    assert!(told.contains("more of the same kind in this file"));
}

/// Under three weeks on every reading of the dates, and not a day more.
#[test]
fn pods_need_time_to_ripen() {
    for (pollinated, harvested, short) in [
        ("2022-05-20", "2022-06-09", true),
        ("2022-05-20", "2022-06-10", false),
        ("2022-05", "2022-05-20", true),
        ("2022-05", "2022-06", false),
        ("spring 2022", "by 2022-06", false),
    ] {
        let text = format!(
            "(code: \"X22-01\", parents: unknown, pollinations: [(zone: \"A\", on: [\"{pollinated}\"])], \
             pods: [(code: \"P1\", zone: \"A\", harvested: \"{harvested}\")])"
        );
        let told = drawn(&[("crosses/X22-01.ron", &text)]);
        assert_eq!(
            told.contains("too-short-to-ripen"),
            short,
            "{pollinated} {harvested}: {told}"
        );
    }
}

/// A label's own column is not put beside the place in the file.
#[test]
fn a_label_is_told_without_a_second_column() {
    let told = drawn(&[(
        "crosses/X20-01.ron",
        r#"(code: "X20-01", parents: label_only("N. ventricossa × truncata"))"#,
    )]);
    assert!(
        told.contains("name-not-listed") && !told.contains("at column"),
        "{told}"
    );
    assert!(
        told.contains("it may mean N. ventricosa × N. truncata"),
        "{told}"
    );
}
