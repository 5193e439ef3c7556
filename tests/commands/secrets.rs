//! A registry with something private in every field that may hold it, for whatever others are to read.

use crate::bench_top::BenchTop;

/// The registry; every private word begins with `secret`, but for the grower's own name and contact.
pub fn with_secrets() -> BenchTop {
    let files = include_str!("../../docs/files.md");
    let private: Vec<&str> = files
        .lines()
        .filter(|line| line.starts_with("| `") && line.contains("private"))
        .map(|line| line.split('`').nth(1).unwrap_or(""))
        .collect();
    // One that comes to be private has to be looked at here too.
    assert_eq!(
        private,
        [
            "grower", "contact", "place", "from", "from", "sold", "asked", "not_kept"
        ]
    );
    BenchTop::with([
        ("registry.ron", REGISTRY),
        ("clones.ron", CLONES),
        ("species.ron", SPECIES),
        ("crosses/X22-01.ron", CROSS),
    ])
}

const REGISTRY: &str = r#"(genus: "Nepenthes", hemisphere: north, format: 2, registry: "ours",
    grower: "the one who grows", contact: "at the table", note: "secret note of the registry",
    places: [(name: "secret shelf", climate: "warm and wet", note: "secret note of a place")],
    treatments: [(on: "2024-01-05", place: "secret shelf", product: "a mild soap", against: "mites", by: "secret helper", note: "secret note")],
    traits: [(code: "span", name: "leaf span", reads: length(cm))])"#;

const SPECIES: &str = r#"(species: [
    (epithet: "ventricosa", evidence: "secret letter", source: "secret visit", note: "secret remark"),
    (epithet: "spathulata", doubtful: true, note: "secret remark")],
    named_hybrids: [(epithet: "zetana", parents: ["ventricosa", "spathulata"], status: "published", expand: true, may_be_used: true, note: "secret hybrid")],
    synonyms: [(name: "ventri", now: "ventricosa", note: "secret spelling")])"#;

const CLONES: &str = r#"(clones: [
    (code: "V1", received: "N. ventricosa", from: "secret nursery", on: "2015", form: plant, confidence: tag,
        supplier_code: "secret stock 7", locality: "secret valley", papers: "secret papers", nights: "secret nights",
        identified: [(on: "2016", name: "N. ventricosa", by: "secret visitor", basis: "secret basis", confidence: claim, note: "secret opinion")],
        kept: (why: "secret reason"), note: "secret note of a clone",
        foreign: (registry: "secret club", code: "secret-3")),
    (code: "S1", received: "N. spathulata", from: "secret friend", confidence: tag),
])"#;

const CROSS: &str = r#"(code: "X22-01", parents: known(seed: "V1", pollen: "S1"), confidence: witnessed, goal: "secret goal", note: "secret note of the cross",
    pollinations: [(zone: "A", plant: "V1", on: ["2022-03-01"], note: "secret note of a zone")],
    pods: [(code: "P1", zone: "A", harvested: "2022-07-01", seeds: 90, note: "secret note of a pod")],
    sowings: [(code: "W1", pod: "P1", on: "2022-08-01", seeds: 50, container: "secret tray", place: "secret shelf", note: "secret note of a sowing")],
    seedlings: [
        (number: "1", sowing: "W1", place: "secret shelf, front", pots: [(on: "2023-05-01", pot: "7 cm", place: "secret shelf")],
            photos: [(file: "photos/secret.jpg", on: "2024-05-01", note: "secret note of a picture")],
            ramets: [(code: "a", made: original, place: "secret shelf", note: "secret note of a piece"), (code: "b", from: "a", made: cutting, cut: "2024-01", place: "secret shelf")],
            flowerings: [(opened: "2024-02-01", sex: female, note: "secret note of a spike")],
            treatments: [(on: "2023-12-01", product: "a mild soap", by: "secret helper", note: "secret note")],
            identified: [(on: "2024", name: "N. ventricosa", by: "secret visitor", confidence: claim)],
            kept: (on: "2024-05-01", why: "secret reason"), note: "secret note of a seedling"),
        (number: "2", sowing: "W1", fate: sold(on: "2024-05-20", label: "secret label", to: "secret buyer", price: "secret sum", said: "secret words")),
    ],
    sittings: [(on: "2024-05-01", place: "secret shelf", by: "secret helper", light: "secret lamp", columns: ["span cm", "note"],
        rows: [["1", "12.0", "secret remark"], ["2", "9.0", "secret remark"]], note: "secret note of a sitting")])"#;
