//! `docs/due.md` is true: its commands print what it shows, and its table of ranges is the one the program goes by.

use crate::run::hold_in;
use podbook::analysis::due::{Basis, By, DueOptions, Task, due};
use podbook::context::Context;
use podbook::record::{Day, PollenLife};
use podbook::registry::build;
use podbook::text::Sources;
use std::collections::BTreeMap;
use std::path::Path;

const PAGE: &str = include_str!("../../docs/due.md");

#[test]
fn the_page_is_true() {
    hold_in("docs/due.md", PAGE, Path::new(env!("CARGO_MANIFEST_DIR")));
}

const CLONES: &str = r#"(clones: [
    (code: "B1", received: "N. spathulata"),
    (code: "A1", received: "N. ventricosa",
        ramets: [(code: "a"), (code: "b", made: cutting, cut: "2024-05-01")],
        flowerings: [(opened: "2024-04-28", over: "2024-06-20", sex: female)]),
])"#;

/// A zone dusted on a spike that is open, and one on a spike that is not recorded.
const DUSTED: &str = r#"(code: "X24-01", parents: known(seed: "A1", pollen: "B1"),
    pollinations: [(zone: "A", on: ["2024-05-01"], flowers: 3)])"#;
const SWELLING: &str = r#"(code: "X24-02", parents: known(seed: "B1", pollen: "A1"),
    pollinations: [(zone: "A", on: ["2024-05-01"], flowers: 3)])"#;

/// Seed, a sowing not counted and one counted.
const SOWN: &str = r#"(code: "X24-03", parents: known(seed: "A1", pollen: "B1"),
    pods: [(code: "P1", harvested: "2024-05-01")], seed_lots: [(code: "L1", pod: "P1", seeds: 9)],
    sowings: [
        (code: "S1", on: "2024-04-01", seeds: 9),
        (code: "S2", on: "2024-04-01", seeds: 9, germinated: [(on: "2024-05-01", count: 2)]),
    ])"#;

/// The field of `intervals` a task goes by.
fn field(task: &Task) -> Option<&'static str> {
    Some(match task {
        Task::DustAgain { .. } => "dust_again",
        Task::Harvest { .. } => "pods_ripen",
        Task::CountSet { .. } => "count_set",
        Task::Sow { .. } => "sow",
        Task::CountSeedlings { up: None, .. } => "germination",
        Task::CountSeedlings { .. } => "count_again",
        Task::PrickOut { .. } => "prick_out",
        Task::CheckCutting => "rooting",
        _ => return None,
    })
}

#[test]
fn the_ranges_of_common_practice_are_those_of_the_program() {
    let mut sources = Sources::new();
    sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)");
    sources.add("clones.ron", CLONES);
    for (at, page) in [DUSTED, SWELLING, SOWN].into_iter().enumerate() {
        sources.add(format!("crosses/{at}.ron"), page);
    }
    let (registry, findings) = build(&sources);
    assert!(findings.is_empty(), "{findings:?}");
    let today = Day::new(2024, 5, 10).expect("a day");
    let options = DueOptions {
        within: 400,
        pollen_lasts: PollenLife::default(),
    };
    let report = due(&Context::of(&registry, today), options);
    let mut ranges = BTreeMap::new();
    for row in &report.rows {
        if let (Basis::Days(range), Some(field)) = (&row.basis, field(&row.task)) {
            assert_eq!(range.by, By::Practice, "{field}");
            ranges.insert(field, range.days);
        }
    }
    assert_eq!(ranges.len(), 8, "{ranges:?}");
    for (field, (least, most)) in ranges {
        let row = PAGE
            .lines()
            .find(|line| line.starts_with(&format!("| `{field}`:")));
        let row = row.unwrap_or_else(|| panic!("no row of {field}"));
        assert!(
            row.contains(&format!("| {least}–{most} days |")),
            "{least}–{most}: {row}"
        );
    }
}
