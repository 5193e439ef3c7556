//! Repeated, foreign and muddled: what is left out is told, what is kept is found.

use super::nursery::Grown;
use podbook::diagnostic::Findings;
use podbook::registry::{Registry, build};
use podbook::text::Sources;

/// Readings of all plants.
fn kept(registry: &Registry) -> usize {
    let read = |plant| registry.readings.of(plant).count();
    registry.plants().map(read).sum()
}

fn sources(pages: &[(&str, &str)]) -> Sources {
    let mut grown = Grown::default();
    let registry = "(genus: \"Nepenthes\", hemisphere: north, traits: [(code: \"span\", name: \"leaf span\", reads: length(cm))])";
    let clones =
        "(clones: [(code: \"V1\", received: \"N. mira\"), (code: \"V2\", received: \"N. mira\")])";
    let always = [("registry.ron", registry), ("clones.ron", clones)];
    let all = always.iter().chain(pages);
    grown
        .pages
        .extend(all.map(|(path, text)| (path.to_string(), text.to_string())));
    grown.sources()
}

fn told(findings: &Findings) -> Vec<(&str, &str)> {
    let all = findings.iter();
    all.map(|finding| (finding.code.0, &*finding.found))
        .collect()
}

fn cells<'r>(registry: &'r Registry, code: &str) -> Vec<&'r str> {
    let plant = registry.plant(code).expect("the plant is there");
    let readings = registry.readings.of(plant);
    readings.map(|reading| registry.cell(reading)).collect()
}

const PARENTS: &str = "parents: known(seed: \"V1\", pollen: \"V2\")";

#[test]
fn of_two_seedlings_under_one_number_the_first_is_kept() {
    let page = format!(
        "(code: \"X1\", {PARENTS}, seedlings: [(number: \"3\"), (number: \"1\"), (number: \"2\", note: \"first\"), \
         (number: \"2\", note: \"second\"), (number: \"2\"), (number: \"a\")], \
         sittings: [(on: \"2024\", columns: [\"span cm\"], rows: [[\"2\", \"7\"], [\"1\", \"5\"], [\"3\", \"9\"]])])"
    );
    let sources = sources(&[("crosses/X1.ron", &page)]);
    let (registry, findings) = build(&sources);
    assert_eq!(
        told(&findings),
        [
            ("repeated-code", "a number already given on this page"),
            ("repeated-code", "a number already given on this page"),
            ("bad-code", "`a`"),
        ]
    );
    assert_eq!(registry.crosses[0].seedlings.len(), 3);
    let numbers: Vec<_> = registry.crosses[0]
        .seedlings
        .iter()
        .map(|&row| registry.number(row).unwrap())
        .collect();
    assert_eq!(numbers, ["3", "1", "2"]);
    let second = registry.plant("X1-2").unwrap();
    assert_eq!(
        registry.seedling(second).unwrap().note.as_deref(),
        Some("first")
    );
    assert_eq!(cells(&registry, "X1-1"), ["5"]);
    assert_eq!(cells(&registry, "X1-2"), ["7"]);
    assert_eq!(cells(&registry, "X1-3"), ["9"]);
}

#[test]
fn plants_of_other_pages_are_read_in_one_sitting() {
    let one = format!(
        "(code: \"X1\", {PARENTS}, seedlings: [(number: \"1\")], sittings: [(on: \"2024\", columns: [\"span cm\"], \
         rows: [[\"X2-1\", \"6\"], [\"1\", \"5\"], [\"X2-9\", \"7\"], [\"V1\", \"30\"], [\"X\\u{{32}}-8\", \"8\"], [], \
         [\"1\", \"\", \"late\"], [\"1\", \"4 \\u{{bd}}\"]])])"
    );
    let two = format!("(code: \"X2\", {PARENTS}, seedlings: [(number: \"1\")])");
    let sources = sources(&[("crosses/X1.ron", &one), ("crosses/X2.ron", &two)]);
    let (registry, findings) = build(&sources);
    assert_eq!(
        told(&findings),
        [
            ("cell-without-column", "`late`"),
            ("unknown-plant", "`X2-8`"),
            ("unknown-plant", "`X2-9`"),
        ]
    );
    assert!(findings.iter().all(|finding| finding.place.is_some()));
    assert_eq!(cells(&registry, "X2-1"), ["6"]);
    assert_eq!(cells(&registry, "X1-1"), ["5", "4 \u{bd}"]);
    assert_eq!(cells(&registry, "V1"), ["30"]);
    assert_eq!(kept(&registry), 4);
}

#[test]
fn more_columns_than_can_be_told_apart_lose_no_cell() {
    let many = |what: &str, count: usize| vec![format!("\"{what}\""); count].join(", ");
    let page = format!(
        "(code: \"X1\", {PARENTS}, seedlings: [(number: \"1\")], \
         sittings: [(on: \"2024\", columns: [{}], rows: [[\"1\", {}]])])",
        many("note", 300),
        many("x", 300),
    );
    let sources = sources(&[("crosses/X1.ron", &page)]);
    let (registry, findings) = build(&sources);
    let told = findings
        .iter()
        .filter(|finding| finding.code.0 == "cell-without-column");
    assert_eq!(told.count() + kept(&registry), 300);
}

/// Each of many seedlings names an unknown pod, and each of many crosses an unknown parent: all are told, in time.
#[test]
fn a_registry_in_which_every_reference_is_wrong_is_told_of() {
    const CROSSES: usize = 4_000;
    let pages: Vec<(String, String)> = (0..CROSSES)
        .map(|at| {
            let text = format!(
                "(code: \"X{at}\", parents: known(seed: \"W{at}\", pollen: \"V2\"), \
                 seedlings: [(number: \"1\", one_of: [\"Y{at}.P1\", \"P1\"])], \
                 sittings: [(on: \"2024\", columns: [\"span cm\"], rows: [[\"Z{at}-1\", \"6\"]])])"
            );
            (format!("crosses/X{at}.ron"), text)
        })
        .collect();
    let pages: Vec<(&str, &str)> = pages
        .iter()
        .map(|(p, t)| (p.as_str(), t.as_str()))
        .collect();
    let sources = sources(&pages);
    let (registry, findings) = build(&sources);
    let count = |code| findings.iter().filter(|f| f.code.0 == code).count();
    assert_eq!(count("unknown-parent"), CROSSES);
    assert_eq!(count("unknown-pod"), 2 * CROSSES);
    assert_eq!(count("unknown-plant"), CROSSES);
    assert_eq!(registry.crosses.len(), CROSSES);
}
