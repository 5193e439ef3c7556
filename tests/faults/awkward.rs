//! Faults in awkward numbers and shapes: everything is told, nothing sound is lost, nothing overflows.

use crate::found;
use podbook::diagnostic::Severity;
use podbook::registry::build;
use podbook::text::Sources;

fn file(path: &str, text: impl Into<String>) -> (String, String) {
    (path.to_owned(), text.into())
}

fn registry() -> (String, String) {
    file("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)")
}

/// Codes of all findings, with their lines.
fn told(files: &[(String, String)]) -> Vec<(String, u32)> {
    let (sources, findings) = found(files);
    findings
        .iter()
        .map(|f| {
            let line = f.place.map_or(0, |place| sources.locate(place).line);
            (f.code.0.to_owned(), line)
        })
        .collect()
}

/// Every third of 3,000 seedlings is at fault; all of these are told, all others are kept.
#[test]
fn a_thousand_faulty_records_in_one_file() {
    let mut page = String::from("(code: \"X22-01\", parents: unknown, seedlings: [\n");
    for number in 1..=3000 {
        let text = match number % 3 {
            0 => format!("    (number: \"{number}\", plase: \"bench\", pod: 5),\n"),
            1 => format!("    (number: \"{number}\"),\n"),
            _ => format!("    (number: \"{number}\", place: \"bench, row {number}\"),\n"),
        };
        page.push_str(&text);
    }
    page.push_str("])\n");
    let files = [registry(), file("crosses/X22-01.ron", page)];
    let told = told(&files);
    assert_eq!(told.len(), 2000);
    assert_eq!(told[0], ("unknown-field".to_owned(), 4));
    assert_eq!(told[1999], ("wrong-kind".to_owned(), 3001));
    let mut sources = Sources::new();
    files.iter().for_each(|(path, text)| {
        sources.add(path.as_str(), text.as_str());
    });
    let (registry, _) = build(&sources);
    assert_eq!(registry.crosses[0].seedlings.len(), 3000);
    let plant = registry
        .plant("X22-01-2999")
        .expect("a sound seedling is kept");
    assert_eq!(registry.number(plant), Some("2999"));
}

/// A record that cannot be kept costs itself only, and what it was part of stays.
#[test]
fn a_nested_fault_costs_only_the_nested_record() {
    let page = r#"(code: "X22-01", parents: unknown,
        sowings: [(code: "W1", on: "2022-10-01", seeds: 60, germinated: [
            (on: "2022-12-01", count: 10), (on: 5, count: 12), (on: "2023-02-01", count: 14)])],
        seedlings: [(number: "1"), (2), (number: "3")],
    )"#;
    let mut sources = Sources::new();
    sources.add("crosses/X22-01.ron", page);
    let (registry, findings) = build(&sources);
    let codes: Vec<_> = findings.iter().map(|f| f.code.0).collect();
    assert_eq!(codes, ["no-registry", "wrong-kind", "wrong-kind"]);
    let cross = &registry.crosses[0];
    assert_eq!(cross.seedlings.len(), 2);
    let counts: Vec<_> = cross.page.sowings[0]
        .germinated
        .iter()
        .map(|t| t.count)
        .collect();
    assert_eq!(counts, [10, 14]);
}

#[test]
fn a_hundred_thousand_brackets_are_answered() {
    for bracket in [
        "(",
        "[",
        "{",
        "(seedlings: [",
        "(code: \"a\", parents: one_of_pairs([",
    ] {
        let files = [
            registry(),
            file("crosses/X22-01.ron", bracket.repeat(100_000)),
        ];
        let (_, findings) = found(&files);
        assert!(findings.count(Severity::Fault) > 0, "{bracket} is no page");
    }
    let closed = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
    let inside = format!("(code: \"X22-01\", parents: unknown, seedlings: [(number: {closed})])");
    let told = told(&[registry(), file("crosses/X22-01.ron", inside)]);
    assert_eq!(told, [("nested-too-deep".to_owned(), 1)]);
}

#[test]
fn a_thousand_unknown_fields_do_not_stop_the_rest() {
    let spare: String = (0..1000).map(|at| format!("x{at}: 1,\n")).collect();
    let page = format!(
        "(code: \"X22-01\", parents: unknown,\n{spare} seedlings: [(number: \"1\", pod: 3)])"
    );
    let told = told(&[registry(), file("crosses/X22-01.ron", page)]);
    let count = |code: &str| told.iter().filter(|(c, _)| c == code).count();
    assert_eq!(count("many-faults"), 1);
    assert_eq!(count("unknown-field"), 100);
    assert_eq!(
        count("wrong-kind"),
        1,
        "the seedling inside is looked at too"
    );
}

/// Texts with letters of several bytes: the place is still the place.
#[test]
fn places_are_right_after_letters_of_several_bytes() {
    let page = "(code: \"X22-01\", parents: unknown, note: \"♀ × ♂ – größer\", goal: 5, from: \"é\", seedlings: [(number: \"1\", note: \"日本\", place: 7)])";
    let (sources, findings) = found(&[registry(), file("crosses/X22-01.ron", page)]);
    let places: Vec<_> = findings
        .iter()
        .map(|f| f.place.expect("both have a place"))
        .map(|place| &sources.text(place.file)[place.range()])
        .collect();
    assert_eq!(places, ["5", "7"]);
}

/// Every beginning of a sound page, and the page with each byte taken out, is answered, and places lie in the file.
#[test]
fn mutilated_pages_are_answered() {
    let page = r#"(code: "X22-01", parents: known(seed: "V1", pollen: "S1"), // ♀ first
    pods: [(code: "P1", zone: "A", harvested: "2022-09", seeds: 12)],
    seedlings: [(number: "1", fate: died(on: "2023", cause: "rot")), (number: "2é")],
    sittings: [(on: "2024", columns: ["span cm"], rows: [["1", "4"], ["2", r"5"]])],
)"#;
    let cut = page.char_indices().map(|(at, _)| page[..at].to_owned());
    let without = page.char_indices().map(|(at, letter)| {
        let past = at + letter.len_utf8();
        format!("{}{}", &page[..at], &page[past..])
    });
    for text in cut.chain(without) {
        let (sources, findings) = found(&[registry(), file("crosses/X22-01.ron", text.clone())]);
        for finding in findings.iter() {
            if let Some(place) = finding.place {
                let length = sources.text(place.file).len() as u32;
                assert!(
                    place.end <= length,
                    "{} lies outside of\n{text}",
                    finding.code
                );
            }
        }
    }
}
