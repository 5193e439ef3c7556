//! Registries to begin with, all of them made up.

use crate::chance::Chance;
use crate::layout::laid_out;
use std::collections::BTreeMap;

/// Pages by path.
pub type Pages = BTreeMap<String, String>;

const REGISTRY: &str = r#"(
    genus: "Nepenthes",
    hemisphere: north,
    traits: [
        (code: "span", name: "leaf span", reads: length(cm), between: (0.1, 250.0)),
        (code: "leaves", name: "leaf count", reads: count),
        (code: "rim", name: "rim colour", reads: kinds(["green", "red"])),
    ],
)
"#;

const SPECIES: &str =
    r#"(species: [(epithet: "maxima"), (epithet: "veitchii"), (epithet: "ventricosa")])"#;

const CLONES: &str = r##"(
    clones: [
        (code: "Ven1", received: "N. ventricosa", form: cutting, on: "2019-04", confidence: tag,
            flowerings: [(code: "24a", opened: "2024-03-20", over: "2024-05-20", sex: female)]),
        (code: "Max2", received: "N. maxima", ramets: [(code: "a", made: original, place: "shelf 1"), (code: "b", from: "a", made: cutting, cut: "2023")],
            flowerings: [(code: "24a", opened: "2024-03-01", sex: male)]),
        (code: "Max3", received: "N. maxima \"wavy\" \u{2642}", note: r#"said "never // again""#),
        (code: "Vei4", received: "N. veitchii", pots: [(on: "2023-05", pot: "12 cm", place: "shelf 1")]),
    ],
    sittings: [
        (on: "2024-06-01", columns: ["span", "note"], rows: [["Ven1", "31 cm", ""], ["Vei4", "40.5 cm", "a // b"]]),
    ],
)
"##;

const POLLEN: &str = r#"(lots: [(code: "Max2-2403", from: plant("Max2"), collected: "2024-03-05", stored: freezer)])"#;

const CROSS: &str = r#"(
    code: "X22-02",
    parents: known(seed: "Ven1", pollen: "Max2"),
    confidence: witnessed,
    goal: "a wide lip",
    pollinations: [
        (zone: "A", on: ["2022-03-01", "2022-03-02"], flowers: 24, set: 11, counted: "2022-05"),
        (zone: "B", on: ["2022-03-09"], flowers: 6),
    ],
    pods: [(code: "P1", zone: "A", harvested: "2022-06-20", capsules: 11), (code: "P2", zone: "B", harvested: "2022-07")],
    seed_lots: [(code: "L1", pod: "P1", seeds: 300, estimated: true), (code: "L2", pod: "P2")],
    sowings: [
        (code: "S1", lot: "L1", on: "2022-06-25", seeds: 120, germinated: [(on: "2022-08-01", count: 31)]),
        (code: "S2", lot: "L2", on: "2022-07-25", seeds: 50),
    ],
    community_pots: [
        (code: "T1", sowing: "S1", alive: [(on: "2023-01", count: 25)]),
        (code: "T2", sowing: "S2", alive: [(on: "2023-01", count: 12)], place: "shelf 2"),
    ],
    seedlings: [
        (number: "1", sowing: "S1"),
        (number: "2", sowing: "S1", place: "shelf 1"),
        (number: "3", sowing: "S2", place: "shelf 1", note: "late"),
        (number: "4", sowing: "S2", fate: died(on: "2023-11", cause: "damping off")),
        (number: "5", pod: "P1", ramets: [(code: "a", made: cutting, cut: "2024")]),
        (number: "6", one_of: ["P1", "P2"]),
        (number: "7", community_pot: "T1", pots: [(on: "2023-05", pot: "5 cm", place: "shelf 1")]),
        (number: "8", sowing: "S1", identified: []),
    ],
    sittings: [
        (on: "2024-05-24", light: "LED", columns: ["span", "rim", "leaves", "note"], rows: [
            ["1", "8.5 cm", "red", "7", ""],
            ["2", "9 cm", "green", "8", "the \"best\""],
            ["3", "", "red", "5", "x"],
        ]),
        (on: "2025-05-20", columns: ["span"], rows: [["1", "14 cm"], ["2", "15.5 cm"], ["5", "12 cm"]]),
    ],
)
"#;

const LATER: &str = r#"(
    code: "X24-01",
    parents: pollen_one_of(seed: "Ven1", pollen: ["Max2", "Max3"]),
    pollinations: [(zone: "A", on: ["2024-03-28"], flowers: 12)],
)
"#;

/// A registry drawn by lot: a grown one, one with little in it, or an empty one, each page in a manner of its own.
pub fn base(chance: &mut Chance) -> Pages {
    let mut pages: Vec<(&str, &str)> = vec![("registry.ron", REGISTRY), ("species.ron", SPECIES)];
    let size = chance.below(6);
    if size > 0 {
        pages.push(("clones.ron", CLONES));
        pages.push(("pollen.ron", POLLEN));
    }
    if size > 1 {
        pages.push(("crosses/X22-02.ron", CROSS));
        pages.push(("crosses/X24-01.ron", LATER));
    }
    let laid_out = |(path, text): (&str, &str)| (path.to_owned(), laid_out(text, chance));
    pages.into_iter().map(laid_out).collect()
}

/// The grown registry as it is printed above.
pub fn plain() -> Pages {
    [
        ("registry.ron", REGISTRY),
        ("species.ron", SPECIES),
        ("clones.ron", CLONES),
        ("pollen.ron", POLLEN),
        ("crosses/X22-02.ron", CROSS),
        ("crosses/X24-01.ron", LATER),
    ]
    .map(|(path, text)| (path.to_owned(), text.to_owned()))
    .into()
}
