//! What a fingerprint covers: facts, and what decides how labels and dates are read; neither order nor spelling.

use crate::played::{copied, said};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

const TODAY: &str = "2025-06-01";
/// A folder that was handed over when fingerprints were of the first form.
const OLD: &str = "tests/recording/handed-over-first";

const PAGES: [(&str, &str); 4] = [
    (
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, format: 2, registry: "tent")"#,
    ),
    (
        "species.ron",
        r#"(species: [(epithet: "lowii"), (epithet: "maxima"), (epithet: "veitchii")], codes: [(code: "low", means: "lowii")],
            synonyms: [(name: "curtisii", now: "maxima")])"#,
    ),
    (
        "clones.ron",
        r#"(clones: [(code: "L1", received: "N. low", ramets: [(code: "a"), (code: "b", from: "a", made: cutting)],
                identified: [(on: "2018", name: "N. maxima"), (on: "2019", name: "N. veitchii")],
                flowerings: [(opened: "2018-03", sex: female), (opened: "2019-03", sex: female)]),
            (code: "M1", received: "N. curtisii")])"#,
    ),
    (
        "crosses/X22-01.ron",
        r#"(code: "X22-01", parents: known(seed: "L1", pollen: "M1"), confidence: witnessed,
            pollinations: [(zone: "A", on: ["spring 2021", "2021-05-02"]), (zone: "B", on: ["2021-05-03"])],
            pods: [(code: "P1", zone: "A", harvested: "Oct 2021"), (code: "P2", zone: "B", harvested: "2021-11")],
            sowings: [(code: "S1", pod: "P1", on: "2022-01-01"), (code: "S2", pod: "P2", on: "2022-01-02")],
            seedlings: [(number: "1", sowing: "S1"), (number: "2", sowing: "S2")])"#,
    ),
];

fn registry() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("crosses")).unwrap();
    for (path, text) in PAGES {
        fs::write(folder.path().join(path), text).unwrap();
    }
    folder
}

fn replaced(folder: &Path, path: &str, (was, is): (&str, &str)) {
    let path = folder.join(path);
    let text = fs::read_to_string(&path).unwrap();
    let other = text.replacen(was, is, 1);
    assert_ne!(text, other, "{was}");
    fs::write(path, other).unwrap();
}

/// Hands a plant over, and gives its fingerprint and the folder.
fn handed(registry: &Path) -> (String, TempDir) {
    let out = tempfile::tempdir().unwrap();
    let line = format!(
        "handover X22-01-1 -o \"{}\"",
        out.path().join("out").display()
    );
    let answer = said(registry, &line, TODAY);
    let digits = answer.split("fingerprint ").nth(1);
    let digits = digits.unwrap_or_else(|| panic!("{answer}"));
    (digits.chars().take(19).collect(), out)
}

fn verified(folder: &Path, digits: &str) -> String {
    let line = format!("verify \"{}\" --fingerprint \"{digits}\"", folder.display());
    said(folder, &line, TODAY)
}

#[test]
fn what_decides_how_a_label_and_a_date_are_read_is_covered() {
    let own = registry();
    let changes = [
        (
            "species.ron",
            "means: \"lowii\"",
            "means: \"maxima\"",
            "code low",
        ),
        (
            "species.ron",
            "now: \"maxima\"",
            "now: \"lowii\"",
            "spelling curtisii",
        ),
        (
            "species.ron",
            "(epithet: \"lowii\"",
            "(epithet: \"lowii\", doubtful: true",
            "species lowii",
        ),
        (
            "species.ron",
            "(epithet: \"lowii\"",
            "(epithet: \"lowii\", doubt: \"often another\"",
            "species lowii",
        ),
        ("registry.ron", "north", "south", "cross X22-01"),
        (
            "registry.ron",
            "\"Nepenthes\"",
            "\"Heliamphora\"",
            "registry",
        ),
    ];
    for (page, was, is, differs) in changes {
        let (digits, out) = handed(own.path());
        let folder = out.path().join("out");
        replaced(&folder, page, (was, is));
        let said = verified(&folder, &digits);
        assert!(
            said.contains("the records do not match the fingerprint"),
            "{is}: {said}"
        );
        assert!(
            said.contains(&format!("Records that differ {differs}")),
            "{said}"
        );
    }
}

/// A label whose name is in no list of its grower is not read by the list podbook brings along either.
#[test]
fn a_folder_without_known_names_is_read_by_no_other_list() {
    let own = registry();
    replaced(own.path(), "clones.ron", ("N. low\"", "N. rajah\""));
    replaced(own.path(), "clones.ron", ("N. curtisii", "N. x ventrata"));
    replaced(own.path(), "clones.ron", ("N. maxima", "N. rajah"));
    replaced(own.path(), "clones.ron", ("N. veitchii", "N. rajah"));
    let (_, out) = handed(own.path());
    let named = |folder: &Path| said(folder, "name X22-01-1", TODAY);
    assert_eq!(named(&out.path().join("out")), named(own.path()));
}

/// Authors that a label cites are no part of the plant's name, in the folder neither; those it does not cite stay at home.
#[test]
fn a_citation_on_a_label_is_one_in_the_folder_too() {
    for (label, authors, goes_along) in [
        ("N. lowii Hook.f. 1859", "Hook.f.", true),
        ("N. lowii Zetamann 1859", "Zetamann", true),
        ("N. lowii f. rubra", "Hook.f.", false),
    ] {
        let own = registry();
        replaced(
            own.path(),
            "clones.ron",
            ("N. low\"", &format!("{label}\"")),
        );
        let row = format!("(epithet: \"lowii\", authors: \"{authors}\", year: 1859");
        replaced(own.path(), "species.ron", ("(epithet: \"lowii\"", &row));
        let (_, out) = handed(own.path());
        let folder = out.path().join("out");
        let page = fs::read_to_string(folder.join("species.ron")).unwrap();
        assert_eq!(page.contains(authors), goes_along, "{page}");
        let name = said(&folder, "name X22-01-1", TODAY);
        assert_eq!(name, said(own.path(), "name X22-01-1", TODAY));
        assert!(!goes_along || !name.contains(authors), "{name}");
    }
}

/// What only a code with a sign, or the formula of an epithet or of a hybrid, leads to goes along, and its own code too: from the
/// label of a founder, of seed and of a cross.
#[test]
fn names_behind_names_go_along() {
    let hybrid = r#"named_hybrids: [(epithet: "zetana", parents: ["lowii", "maxima", "veitchii"], formula: "(lowii x ma) x vei",
        origin: "garden", status: "published", expand: true, may_be_used: true)], codes: ["#;
    let epithet = r#"epithets: [(epithet: "Red Lantern", source: "a journal", formula: "low x ra")], codes: ["#;
    let quoted = r#"epithets: [(epithet: "Ann's Lantern", source: "a journal", formula: "low x ra")], codes: ["#;
    let code = r#"codes: [(code: "qu_h", means: "rajah"), "#;
    let founder = ("clones.ron", "N. curtisii");
    let parents = r#"known(seed: "L1", pollen: "M1"), confidence: witnessed"#;
    let seed = ("crosses/X22-01.ron", parents);
    for ((page, was), label, row, kept) in [
        (founder, "N. qu_h x lowii", code, "rajah"),
        (founder, "N. 'Red Lantern'", epithet, "rajah"),
        (founder, "N. x zetana", hybrid, "\"vei\""),
        (founder, "N. xzetana", hybrid, "\"vei\""),
        (
            founder,
            "N. \u{2018}Ann\u{2019}s Lantern\u{2019}",
            quoted,
            "rajah",
        ),
        (seed, r#"label_only("N. qu_h x lowii")"#, code, "rajah"),
        (
            seed,
            &format!(r#"{parents}, received: "N. qu_h x lowii""#),
            code,
            "rajah",
        ),
    ] {
        let own = registry();
        replaced(own.path(), page, (was, label));
        replaced(own.path(), "species.ron", ("codes: [", row));
        let more = r#"codes: [(code: "ra", means: "rajah"), (code: "vei", means: "veitchii"), (code: "ma", means: "maxima"), "#;
        replaced(own.path(), "species.ron", ("codes: [", more));
        let species = r#"(epithet: "maxima"), (epithet: "rajah")"#;
        replaced(
            own.path(),
            "species.ron",
            (r#"(epithet: "maxima")"#, species),
        );
        let (_, out) = handed(own.path());
        let folder = out.path().join("out");
        let page = fs::read_to_string(folder.join("species.ron")).unwrap();
        assert!(page.contains(kept), "{label}\n{page}");
        assert_eq!(
            page.contains("origin: \"garden\""),
            label.contains("zetana"),
            "{page}"
        );
        let named = |folder: &Path| said(folder, "name X22-01-1", TODAY);
        assert_eq!(named(&folder), named(own.path()));
    }
}

/// Names with a sign in them, epithets of other growers and formulas of hybrids are handed over too, with the names in their
/// formulas: the folder names a plant as its own registry does, and a changed row is seen.
#[test]
fn names_with_signs_epithets_and_formulas_are_covered() {
    let rows = [
        (
            "N. tru_h x lowii",
            r#"codes: [(code: "tru_h", means: "veitchii"), "#,
            ("tru_h\", means: \"veitchii", "tru_h\", means: \"maxima"),
            "code tru_h",
        ),
        (
            "N. \u{2018}Red  Lantern\u{2019}",
            r#"epithets: [(epithet: "Red Lantern", source: "a journal", formula: "low x veitchii")], codes: ["#,
            ("low x veitchii", "low x maxima"),
            "epithet Red Lantern",
        ),
        (
            "N. x zetana",
            r#"named_hybrids: [(epithet: "zetana", parents: ["lowii", "maxima", "veitchii"], formula: "(lowii x maxima) x veitchii",
                status: "published", expand: true, may_be_used: true)], codes: ["#,
            ("(lowii x maxima) x veitchii", "(veitchii x maxima) x lowii"),
            "hybrid zetana",
        ),
    ];
    for (label, row, (was, is), differs) in rows {
        let own = registry();
        replaced(own.path(), "clones.ron", ("N. curtisii", label));
        replaced(own.path(), "species.ron", ("codes: [", row));
        let (digits, out) = handed(own.path());
        let folder = out.path().join("out");
        let named = |folder: &Path| said(folder, "name X22-01-1", TODAY);
        let name = named(&folder);
        assert_eq!(name, named(own.path()));
        assert!(name.contains("veitchii"), "{name}");
        assert!(verified(&folder, &digits).contains("the records match the fingerprint"));
        replaced(&folder, "species.ron", (was, is));
        let said = verified(&folder, &digits);
        assert!(
            said.contains(&format!("Records that differ {differs}")),
            "{said}"
        );
    }
}

#[test]
fn neither_order_nor_spelling_is_covered() {
    let own = registry();
    let (digits, _) = handed(own.path());
    let changes = [
        (
            "clones.ron",
            r#"(opened: "2018-03", sex: female), (opened: "2019-03", sex: female)"#,
            r#"(opened: "2019-03", sex: female), (sex: female, opened: "March 2018")"#,
        ),
        (
            "clones.ron",
            r#"(code: "a"), (code: "b", from: "a", made: cutting)"#,
            r#"(code: "b", from: "a", made: cutting), (code: "a")"#,
        ),
        (
            "clones.ron",
            r#"(on: "2018", name: "N. maxima"), (on: "2019", name: "N. veitchii")"#,
            r#"(on: "2019", name: "N. veitchii"), (on: "2018", name: "N. maxima")"#,
        ),
        (
            "crosses/X22-01.ron",
            r#"(zone: "A", on: ["spring 2021", "2021-05-02"]), (zone: "B", on: ["2021-05-03"])"#,
            r#"(zone: "B", on: ["3 May 2021"]), (zone: "A", on: ["2021-05-02", "2021-03 to 2021-05"])"#,
        ),
        (
            "crosses/X22-01.ron",
            r#"(code: "P1", zone: "A", harvested: "Oct 2021"), (code: "P2", zone: "B", harvested: "2021-11")"#,
            r#"(code: "P2", zone: "B", harvested: "2021-11"), (code: "P1", zone: "A", harvested: "2021-10")"#,
        ),
        (
            "crosses/X22-01.ron",
            r#"(code: "S1", pod: "P1", on: "2022-01-01"), (code: "S2", pod: "P2", on: "2022-01-02")"#,
            r#"(code: "S2", pod: "P2", on: "2022-01-02"), (code: "S1", pod: "P1", on: "2022-01-01")"#,
        ),
    ];
    for (page, was, is) in changes {
        replaced(own.path(), page, (was, is));
        let (other, out) = handed(own.path());
        assert_eq!(other, digits, "{is}");
        let said = verified(&out.path().join("out"), &digits);
        assert!(said.contains("the records match the fingerprint"), "{said}");
        assert!(
            said.contains("The same day written in two ways counts as equal"),
            "{said}"
        );
    }
    replaced(own.path(), "crosses/X22-01.ron", ("2021-10", "2021-09"));
    assert_ne!(handed(own.path()).0, digits);
}

/// Where dates do not say which of two accepted opinions is later, the one written last is the name, and so their order counts.
#[test]
fn order_counts_where_it_gives_the_name() {
    let [first, second] = [
        r#"(name: "N. maxima", accepted: true)"#,
        r#"(name: "N. veitchii", accepted: true)"#,
    ];
    let digits = |opinions: String| {
        let own = registry();
        let was = r#"(on: "2018", name: "N. maxima"), (on: "2019", name: "N. veitchii")"#;
        replaced(own.path(), "clones.ron", (was, &opinions));
        handed(own.path()).0
    };
    assert_ne!(
        digits(format!("{first}, {second}")),
        digits(format!("{second}, {first}"))
    );
}

/// A fingerprint of the first form holds as it did, and the answer says what it does not cover.
#[test]
fn a_fingerprint_of_the_first_form_still_holds() {
    let digits = "0bd8 ea46 082b 91f4";
    let limits = "This fingerprint was taken by an earlier podbook. Not compared: the names in species.ron and the hemisphere";
    let folder = copied(OLD);
    let said = verified(folder.path(), digits);
    assert!(said.contains("the records match the fingerprint"), "{said}");
    assert!(said.contains(limits), "{said}");
    replaced(folder.path(), "registry.ron", ("north", "south"));
    let said = verified(folder.path(), digits);
    assert!(said.contains("the records match the fingerprint"), "{said}");
    assert!(said.contains(limits), "{said}");
    replaced(folder.path(), "clones.ron", ("N. low", "N. maxima"));
    let said = verified(folder.path(), digits);
    assert!(
        said.contains("the records do not match the fingerprint"),
        "{said}"
    );
    assert!(said.contains("Records that differ founder L1"), "{said}");
}

/// It is taken in as before.
#[test]
fn a_lineage_of_the_first_form_is_taken_in() {
    let (own, folder) = (registry(), copied(OLD));
    fs::remove_file(own.path().join("crosses/X22-01.ron")).unwrap();
    fs::write(own.path().join("clones.ron"), "(clones: [])").unwrap();
    replaced(own.path(), "registry.ron", ("tent", "mine"));
    let merge = format!("merge \"{}\"", folder.path().display());
    let answer = crate::played::said(own.path(), &merge, TODAY);
    assert!(answer.contains("X22-01-1: in the collection"), "{answer}");
}

/// A lineage that was taken in on the other half of the world, where its seasons are months, has the fingerprint it came with.
#[test]
fn a_lineage_taken_in_keeps_its_fingerprint() {
    let (own, buyer) = (registry(), registry());
    let (digits, out) = handed(own.path());
    fs::remove_file(buyer.path().join("crosses/X22-01.ron")).unwrap();
    fs::write(buyer.path().join("clones.ron"), "(clones: [])").unwrap();
    replaced(buyer.path(), "registry.ron", ("tent", "mine"));
    replaced(buyer.path(), "registry.ron", ("north", "south"));
    let merge = format!("merge \"{}\"", out.path().join("out").display());
    let answer = said(buyer.path(), &merge, TODAY);
    assert!(answer.contains("X22-01-1: in the collection"), "{answer}");
    assert_eq!(handed(buyer.path()).0, digits);
    let page = buyer.path().join("crosses/X22-01.ron");
    let page = fs::read_to_string(page).unwrap();
    assert!(!page.contains("spring"), "{page}");
}

/// A page of a lineage that was changed in one way, and what `verify` says to it.
fn verified_with(plant: &str, page: &str, change: impl Fn(String) -> String) -> String {
    let own = registry();
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("out");
    let line = format!("handover {plant} -o \"{}\"", folder.display());
    said(own.path(), &line, TODAY);
    let page = folder.join(page);
    let text = change(fs::read_to_string(&page).unwrap());
    fs::write(&page, text).unwrap();
    said(
        own.path(),
        &format!("verify \"{}\"", folder.display()),
        TODAY,
    )
}

/// Who reads the page as a proof reads no line that was put into it.
#[test]
fn words_and_lines_put_into_the_page_of_a_lineage_are_seen() {
    let page = |change: &dyn Fn(String) -> String| verified_with("X22-01-1", "lineage.txt", change);
    let changed = "lineage.txt itself was changed";
    let said = page(&|text| text.replace("Records\n", "Records\ncross X22-01\t(code: \"EVIL\")\n"));
    assert!(
        said.contains(changed) && said.contains("Records that differ cross X22-01"),
        "{said}"
    );
    let said = page(&|text| text.replace("does not prove", "proves"));
    assert!(said.contains(changed), "{said}");
    let said = page(&|text| text.replace("\n\nRecords", "\n\nAnd it is true.\n\nRecords"));
    assert!(said.contains(changed), "{said}");
    // Digits that are none are not cut in the middle of a letter.
    let said = page(&|text| text.replacen("Fingerprint ", "Fingerprint abc\u{e9}", 1));
    assert!(said.contains(changed), "{said}");
    for same in [
        &|text: String| text + "\n \n",
        &|text: String| text.replace('\n', "\r\n"),
        &|text: String| text.replace(" the .ron pages", "\nthe .ron  pages"),
    ] as [&dyn Fn(String) -> String; 3]
    {
        let said = page(same);
        assert!(said.contains("the records match the fingerprint"), "{said}");
        assert!(!said.contains(changed), "{said}");
    }
}

/// Which piece came is one of the facts; where it is not, as in a folder from before, it is not vouched for.
#[test]
fn the_piece_is_covered() {
    let head = |was: &'static str, is: &'static str| {
        move |text: String| {
            text.replacen(
                &format!("Lineage of {was}\n"),
                &format!("Lineage of {is}\n"),
                1,
            )
            .replacen(
                &format!("podbook card\n{was}` in"),
                &format!("podbook card\n{is}` in"),
                1,
            )
        }
    };
    let said = verified_with("L1-b", "lineage.txt", head("L1-b", "L1-b"));
    assert!(
        said.starts_with("L1-b: the records match the fingerprint"),
        "{said}"
    );
    let said = verified_with("L1-b", "lineage.txt", head("L1-b", "L1-a"));
    assert!(
        said.contains("Records that differ piece a piece b"),
        "{said}"
    );
    let said = verified_with("L1", "lineage.txt", head("L1", "L1-a"));
    assert!(
        said.starts_with("L1: the records match the fingerprint"),
        "{said}"
    );
    assert!(
        said.contains("names the piece L1-a, but this fingerprint does not cover which piece"),
        "{said}"
    );
}

/// A page that is missing is a difference, and a lineage without its own page is no longer one.
#[test]
fn a_missing_page_is_seen() {
    let own = registry();
    let (digits, out) = handed(own.path());
    let folder = out.path().join("out");
    let buyer = registry();
    fs::remove_file(buyer.path().join("crosses/X22-01.ron")).unwrap();
    fs::write(buyer.path().join("clones.ron"), "(clones: [])").unwrap();
    replaced(buyer.path(), "registry.ron", ("tent", "mine"));
    let settings = fs::read(folder.join("registry.ron")).unwrap();
    fs::remove_file(folder.join("registry.ron")).unwrap();
    let answer = verified(&folder, &digits);
    assert!(
        answer.contains("Records that differ registry.ron"),
        "{answer}"
    );
    fs::write(folder.join("registry.ron"), settings).unwrap();
    fs::remove_file(folder.join("lineage.txt")).unwrap();
    let merge = format!("merge \"{}\"", folder.display());
    let answer = said(buyer.path(), &merge, TODAY);
    assert!(
        answer.contains("has a card as a lineage has, but no lineage.txt"),
        "{answer}"
    );
    // A folder in which something was recorded is a registry, whatever cards it has.
    said(buyer.path(), "undo", TODAY);
    said(&folder, "note L1 pale", TODAY);
    let answer = said(buyer.path(), &merge, TODAY);
    assert!(
        answer.contains("is on record here") && !answer.contains("has a card"),
        "{answer}"
    );
}

/// Under the code of a plant of which one piece is left that piece is handed over, and its card has the same digits.
#[test]
fn the_only_piece_left_is_the_one_handed_over() {
    let own = registry();
    let ended = r#"(code: "a", fate: died(on: "2024-05-01"))"#;
    replaced(own.path(), "clones.ron", (r#"(code: "a")"#, ended));
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("out");
    let line = format!("handover L1 -o \"{}\"", folder.display());
    let answer = said(own.path(), &line, TODAY);
    let digits = answer.split("fingerprint ").nth(1).expect("a fingerprint");
    let digits: String = digits.chars().take(19).collect();
    let sheet = fs::read_to_string(folder.join("lineage.txt")).unwrap();
    assert!(sheet.starts_with("Lineage of L1-b\n"), "{sheet}");
    assert!(sheet.contains("\npiece b\t"), "{sheet}");
    for registry in [own.path(), &folder] {
        let card = said(registry, "card L1-b", TODAY);
        assert!(card.contains(&digits), "{digits}\n{card}");
    }
    let said = verified(&folder, &digits);
    assert!(
        said.starts_with("L1-b: the records match the fingerprint"),
        "{said}"
    );
}
