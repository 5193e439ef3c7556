//! Sound texts to mutilate: one page of each sort, and labels as growers write them. All of it made up.

/// The pages, in the order of the files they stand for: clones, a cross, pollen, registry, species.
pub const ALL: &[&str] = &[CLONES, CROSS, POLLEN, REGISTRY, SPECIES];

const CLONES: &str = r##"// founder clones
(
    clones: [
        (
            code: "vei-1",
            received: "N. veitchii (highland)",
            form: cutting, // three nodes
            on: "2019-04",
            confidence: tag,
            note: r#"said "never again""#,
        ),
        (code: "max-2", received: "N. maxima", ramets: []),
        (code: "max-3", received: "N. maxima \"wavy\" \u{2642}"),
    ],
)
"##;

const CROSS: &str = r#"(
    code: "2024-03",
    parents: pollen_one_of(seed: "vei-1", pollen: ["max-2", /* or /* perhaps */ */ "max-3"]),
    goal: "a wide lip",
    pollinations: [(zone: "a", on: ["2024-03-01", "2024-03-02"], flowers: 24, set: 11)],
    pods: [(code: "1", zone: "a", harvested: "2024-06-20", capsules: 11)],
    seed_lots: [(code: "1", pod: "1", seeds: 300, estimated: true)],
    sowings: [
        (code: "1", lot: "1", on: "2024-06-25", seeds: 120, germinated: [(on: "2024-08-01", count: 31)]),
    ],
    seedlings: [
        (number: "1", sowing: "1"),
        (number: "2", sowing: "1"),
    ],
)
"#;

const POLLEN: &str = r#"(
    lots: [
        (code: "P24-1", from: plant("max-2"), collected: "2024-02-20", stored: freezer),
    ],
)
"#;

const REGISTRY: &str = r#"#![enable(implicit_some)]
(
    genus: "Nepenthes",
    hemisphere: south,
    traits: [
        (code: "span", name: "leaf span", reads: length(mm), between: (1.0, 2e3)),
        (code: "pitchers", name: "open pitchers", reads: count),
    ],
)
"#;

const SPECIES: &str = r#"(
    species: [
        (epithet: "veitchii", year: 1881, elevation_m: (0, 1600), area: "Borneo", sureness: high),
        (epithet: "maxima", varieties: ["minor"], doubtful: false),
    ],
    synonyms: [(name: "lanata", now: "veitchii")],
)
"#;

/// Labels as they stand on pots.
pub const LABELS: &[&str] = &[
    "N. veitchii × maxima",
    "N. (veitchii × maxima) × rajah",
    "(lowii x veitchii) x [boschiana x (maxima x rajah)]",
    "N. 'Red Lip' × self",
    "N. ventricosa \"red\" clone 2",
    "veitchii (k) x robcantleyi F2 #14",
    "N. sp. aff. gracilis × ?",
    "N. × hookeriana",
    "N. maxima ♀ × (ampullaria + rafflesiana) ♂",
    "unknown",
];
