//! Files and texts that were never RON: each is named for what it is, once, with what to do.

use crate::found;
use podbook::diagnostic::{Finding, Severity};

/// What is found when a page of a cross holds this text; notes aside.
fn told(page: &str) -> Vec<Finding> {
    let registry = "(genus: \"Nepenthes\", hemisphere: north, traits: [(code: \"span\", name: \"leaf span\", reads: length(cm))])";
    let clones = r#"(clones: [(code: "V1", received: "N. ventricosa"), (code: "S1", received: "N. spathulata")])"#;
    let species = "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])";
    let files = [
        ("clones.ron", clones),
        ("crosses/X22-01.ron", page),
        ("registry.ron", registry),
        ("species.ron", species),
    ]
    .map(|(path, text)| (path.to_owned(), text.to_owned()));
    let (_, findings) = found(&files);
    let all = findings.into_vec().into_iter();
    all.filter(|finding| finding.severity != Severity::Note)
        .collect()
}

fn codes(page: &str) -> Vec<&'static str> {
    told(page).iter().map(|finding| finding.code.0).collect()
}

fn page(more: &str) -> String {
    format!(
        "(\n    code: \"X22-01\",\n    parents: known(seed: \"V1\", pollen: \"S1\"),\n{more})\n"
    )
}

/// Seventy readings in inches are one finding that names the inch mark.
#[test]
fn inch_marks_are_told_once_for_a_file() {
    let seedlings: Vec<String> = (1..=70).map(|n| format!("(number: \"{n}\")")).collect();
    let rows = |cell: &str| -> String {
        let rows: Vec<String> = (1..=70)
            .map(|n| format!("        [\"{n}\", {cell}],\n"))
            .collect();
        rows.concat()
    };
    let whole = |cell: &str| {
        page(&format!(
            "    seedlings: [{}],\n    sittings: [(on: \"2024-05\", columns: [\"span\"], rows: [\n{}    ])],\n",
            seedlings.join(", "),
            rows(cell)
        ))
    };
    for cell in [
        "\"1 1/8\"\"",
        "\"2\"\"",
        "\"3½\"\"",
        "\"2 \"\"",
        "\"2\" tall\"",
    ] {
        let told = told(&whole(cell));
        assert_eq!(told.len(), 1, "{cell}: {told:#?}");
        assert_eq!(told[0].code.0, "inch-mark");
        let help = told[0].help.join("\n");
        assert!(
            help.contains("and 69 more of the same kind in this file"),
            "{help}"
        );
        assert!(help.contains(" in"), "{help}");
        let offers = &told[0].offers;
        assert_eq!(offers.is_empty(), cell.contains("tall"), "{offers:?}");
        for offer in offers.iter() {
            // In place of the first it leaves the others to be told, and is no fault itself.
            let mended = whole(cell).replacen(cell, offer, 1);
            assert_eq!(codes(&mended), ["inch-mark"], "{offer}");
        }
    }
    for sound in ["\"1 1/8 in\"", "\"1 1/8\\\"\"", "\"1 1/8''\""] {
        assert_eq!(codes(&whole(sound)), [""; 0], "{sound}");
    }
}

/// A comma left out after a text that ends in a digit is a comma left out.
#[test]
fn a_missing_comma_is_no_inch_mark() {
    for more in [
        "    seedlings: [(number: \"1\" place: \"bench\")],\n",
        "    seedlings: [(number: \"1\" nickname: \"x\", place: \"\")],\n",
        "    seedlings: [(number: \"1\"), (number: \"2\")],\n    sittings: [(on: \"2024-05\", columns: [\"span cm\"], rows: [[\"1\" \"2\"], [\"2\" \"\"]])],\n",
    ] {
        let told = codes(&page(more));
        assert!(
            !told.is_empty() && told.iter().all(|code| *code == "missing-comma"),
            "{more}: {told:?}"
        );
    }
}

#[test]
fn single_quotes_are_told_once_for_a_file() {
    for (text, rest) in [
        (page("    note: 'windowsill',\n"), ""),
        (
            page("    note: 'windowsill', goal: 'squat', received: 'N. x'\n"),
            "and 2 more",
        ),
    ] {
        let told = told(&text);
        assert_eq!(told.len(), 1, "{told:#?}");
        assert_eq!(told[0].code.0, "single-quotes");
        assert_eq!(*told[0].offers, ["\"windowsill\""]);
        assert!(told[0].help.join("\n").contains(rest));
    }
    let one_letter = told(&page("    seedlings: [(number: '1')],\n"));
    assert_eq!(
        (one_letter[0].code.0, &*one_letter[0].offers[0]),
        ("single-quotes", "\"1\"")
    );
    let whole = "(\n    code: 'X22-01',\n    parents: known(seed: 'V1', pollen: 'S1'),\n)\n";
    let told = told(whole);
    assert!(
        told.iter().any(|finding| finding.code.0 == "single-quotes"),
        "{told:#?}"
    );
    assert!(
        !told
            .iter()
            .any(|finding| finding.code.0 == "stray-characters"),
        "{told:#?}"
    );
}

#[test]
fn numbers_with_commas_and_words_are_named() {
    let seeds = |value: &str| {
        told(&page(&format!(
            "    pods: [(code: \"P1\", seeds: {value}, note: \"\")],\n"
        )))
    };
    for (value, code, offer) in [
        ("1,200", "comma-in-number", "1200"),
        ("1,200,300", "comma-in-number", "1200300"),
        ("\"1,200\"", "comma-in-number", "1200"),
        ("\"about 100\"", "words-around-number", "100"),
        ("\"100+\"", "words-around-number", "100"),
        ("\"100 seeds\"", "words-around-number", "100"),
        ("\"120\"", "wrong-kind", "120"),
    ] {
        let told = seeds(value);
        assert_eq!(told.len(), 1, "{value}: {told:#?}");
        assert_eq!(
            (told[0].code.0, &told[0].offers[..]),
            (code, &[offer.to_owned()][..]),
            "{value}"
        );
    }
    for value in ["\"100-120\"", "\"12.5\"", "\"-3\"", "\"many\""] {
        let told = seeds(value);
        assert_eq!(
            (told[0].code.0, told[0].offers.len()),
            ("wrong-kind", 0),
            "{value}"
        );
    }
    // In a list the comma separates, as it must.
    let weights = "(code: \"X22-01\", parents: pollen_one_of(seed: \"V1\", pollen: [\"S1\", \"spathulata\"], weights: [1,200]))";
    assert_eq!(codes(weights), [""; 0]);
}

#[test]
fn a_table_is_no_page() {
    for (table, by) in [
        ("number,span,rim\n1,9.6,red\n2,7.1,green\n", "commas"),
        ("\"number\",\"span\"\n\"1\",\"9.6\"\n", "commas"),
        ("number;span\n1;9,6\n", "semicolons"),
        ("number\tspan\n1\t9.6\n", "tabs"),
        ("number\tspan, cm\n1\t9.6\n2\t\n", "tabs"),
        ("number,span,rim\r\n", "commas"),
    ] {
        let told = told(table);
        assert_eq!(told.len(), 1, "{table}: {told:#?}");
        assert_eq!(told[0].code.0, "spreadsheet-file");
        assert!(told[0].found.contains(by), "{}", told[0].found);
    }
    for no_table in [
        "code: \"X22-01\",\nparents: unknown,\n",
        "// a, b\n(code: \"X22-01\", parents: unknown\n",
        "one line of words, no more",
    ] {
        assert!(!codes(no_table).contains(&"spreadsheet-file"), "{no_table}");
    }
}

#[test]
fn other_bytes_are_named() {
    let utf16: String = "(code: \"X22-01\")"
        .chars()
        .flat_map(|c| [c, '\0'])
        .collect();
    assert_eq!(codes(&utf16), ["not-utf8"]);
    assert_eq!(codes("PK\u{3}\u{4}\u{14}\0\u{6}\0"), ["spreadsheet-file"]);
    let folder = tempfile::tempdir().expect("a folder");
    for (name, bytes) in [
        ("a.ron", &b"PK\x03\x04\x14\x00\x06\x00\xff\xfe"[..]),
        (
            "b.ron",
            &[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1][..],
        ),
        ("c.ron", &[0xff, 0xfe, 0x28, 0x00][..]),
    ] {
        std::fs::write(folder.path().join(name), bytes).expect("a file");
    }
    let sources = podbook::text::Sources::read(folder.path());
    let codes: Vec<_> = sources
        .unread()
        .iter()
        .map(|unread| Finding::from(unread).code.0)
        .collect();
    assert_eq!(codes, ["spreadsheet-file", "spreadsheet-file", "not-utf8"]);
}

/// A decimal comma without quotation marks makes two cells of one number; two cells that are meant stay two.
#[test]
fn a_bare_decimal_comma_in_a_row_is_one_number() {
    let rows = |row: &str| {
        page(&format!(
            "    seedlings: [(number: \"1\")],\n    sittings: [(on: \"2024-05\", columns: [\"span cm\", \"note\"], rows: [{row}])],\n"
        ))
    };
    let one = told(&rows("[\"1\", 14,5, \"6\"]"));
    assert_eq!(one.len(), 1, "{one:#?}");
    assert_eq!(
        (one[0].code.0, &*one[0].offers),
        ("comma-in-number", &["\"14.5\"".to_owned()][..])
    );
    for row in ["[\"1\", 14,5]", "[\"1\", 14, 5, \"6\"]"] {
        let two = told(&rows(row));
        assert!(
            two.iter().all(|of| of.code.0 != "comma-in-number"),
            "{row}: {two:#?}"
        );
    }
}
