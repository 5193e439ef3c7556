//! What pictures hold, from a small registry to the chart: groups of the trait grid, its brackets, the front of a scatter
//! and the spread of many plants; each beside a slow count of the same.

use podbook::analysis::growth::{GrowthWishes, growth};
use podbook::analysis::select::{KeepWish, SelectReport, keep};
use podbook::context::Context;
use podbook::record::{Day, Hemisphere, KeepRules, When};
use podbook::registry::build;
use podbook::report::growth::growth_chart;
use podbook::report::select::{select_grid, select_scatter};
use podbook::text::Sources;

use crate::lot::Lot;

const TODAY: &str = "2025-01-01";

/// Seedlings of two sowings of one day, read once: span and banding of each.
fn tray(seedlings: &str, rows: &str) -> Sources {
    let mut sources = Sources::new();
    sources.add(
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, traits: [
            (code: "span", name: "leaf span", reads: length(cm)),
            (code: "banding", name: "rim banding", reads: scale(["plain", "part", "half", "whole"])),
        ])"#,
    );
    sources.add(
        "species.ron",
        "(species: [(epithet: \"burbidgeae\"), (epithet: \"veitchii\")])",
    );
    sources.add(
        "clones.ron",
        r#"(clones: [(code: "B1", received: "N. burbidgeae"), (code: "V1", received: "N. veitchii")])"#,
    );
    let page = format!(
        "(code: \"X1\", parents: known(seed: \"B1\", pollen: \"V1\"), confidence: witnessed, \
         sowings: [(code: \"S1\", on: \"2023-01-01\"), (code: \"S2\", on: \"2023-01-01\")], \
         seedlings: [{seedlings}], sittings: [(on: \"2024-06-01\", columns: [\"span cm\", \"banding\"], rows: [{rows}])])"
    );
    sources.add("crosses/X1.ron", page);
    sources
}

fn today() -> Day {
    let when = When::read(TODAY, Hemisphere::North);
    when.expect("a day").first
}

fn proposal(sources: &Sources, rules: &str) -> SelectReport {
    let (registry, _) = build(sources);
    let rules = KeepRules::read(rules).expect("rules");
    let wish = KeepWish {
        today: today(),
        minutes: None,
        minutes_each: 1.0,
        heritability: 0.4,
    };
    keep(&registry, &["X1".to_owned()], &rules, wish).expect("a proposal")
}

/// Six plants, the last sold after it was read and one that died before.
fn six() -> Sources {
    let seedlings: String = (1..=7)
        .map(|n| {
            let fate = match n {
                6 => ", fate: sold(on: \"2024-07\")",
                7 => ", fate: died(on: \"2024-02\", cause: \"rot\")",
                _ => "",
            };
            format!("(number: \"{n}\", sowing: \"S1\"{fate}), ")
        })
        .collect();
    let rows = [
        (1, "20", 1),
        (2, "12", 4),
        (3, "12", 4),
        (4, "9", 2),
        (5, "8", 1),
        (6, "15", 3),
    ];
    let rows: String = rows
        .iter()
        .map(|(n, span, banding)| format!("[\"{n}\", \"{span}\", \"{banding}\"], "))
        .collect();
    tray(&seedlings, &rows)
}

#[test]
fn the_grid_holds_every_plant_once_and_those_gone_apart() {
    let report = proposal(&six(), r#"(weigh: [(of: "banding", weight: 1)], keep: 1)"#);
    let grid = select_grid(&report);
    let groups: Vec<(&str, Vec<&str>)> = grid.crosses[0]
        .groups
        .iter()
        .map(|group| {
            let numbers = group.rows.iter().map(|row| row.number.as_str());
            (group.heading.as_str(), numbers.collect())
        })
        .collect();
    assert_eq!(groups[0], ("Keep 1", vec!["2"]));
    assert_eq!(groups[1], ("Sell 4", vec!["3", "4", "1", "5"]));
    assert_eq!(groups[2], ("No longer here 1", vec!["6"]));
    assert_eq!(grid.crosses[0].groups[2].rows[0].remark, "sold 2024-07");
    let steps: Vec<Option<f64>> = grid.crosses[0]
        .groups
        .iter()
        .flat_map(|group| &group.rows)
        .map(|row| row.cells[0].as_ref().map(|cell| cell.value))
        .collect();
    assert_eq!(steps, [4.0, 4.0, 2.0, 1.0, 1.0, 3.0].map(Some));
    // 2 and 3 share an index, and so do 1 and 5; 3 is not to be told from the last one kept.
    assert_eq!(grid.crosses[0].equal, [(0, 1), (3, 4)]);
    assert_eq!(grid.crosses[0].unsure, [(0, 1)]);
    let notes = grid.notes.join("\n");
    assert!(
        notes.contains("1 sibling is no longer here and not read"),
        "{notes}"
    );
}

#[test]
fn the_front_holds_those_that_no_sibling_beats() {
    let rules = r#"(weigh: [(of: "span", weight: 1), (of: "banding", weight: 1)], keep: 2)"#;
    let report = proposal(&six(), rules);
    let chart = select_scatter(&report).expect("two traits");
    for dot in &chart.dots {
        // By looking at every other plant.
        let beats =
            |other: (f64, f64)| other != dot.at && other.0 >= dot.at.0 && other.1 >= dot.at.1;
        let beaten = chart.dots.iter().any(|other| beats(other.at));
        assert_eq!(dot.is_on_front, !beaten, "{dot:?}");
    }
    assert_eq!(chart.front, [(12.0, 4.0), (12.0, 1.0), (20.0, 1.0)]);
    let shared = chart.dots.iter().find(|dot| dot.at == (12.0, 4.0));
    assert_eq!(shared.expect("a dot").numbers, ["2", "3"]);
    let title: String = chart.title.iter().map(|run| run.text.as_str()).collect();
    assert!(
        title.starts_with("No plant has the most of both; no sibling beats"),
        "{title}"
    );
    // Where less is better the front turns round.
    let rules = r#"(weigh: [(of: "span", weight: -1), (of: "banding", weight: 1)], keep: 2)"#;
    let chart = select_scatter(&proposal(&six(), rules)).expect("two traits");
    assert_eq!(
        chart.front,
        [(8.0, 1.0), (9.0, 1.0), (9.0, 2.0), (12.0, 2.0), (12.0, 4.0)]
    );
    let one = proposal(&six(), r#"(weigh: [(of: "span", weight: 1)], keep: 2)"#);
    let refused = select_scatter(&one).expect_err("one trait");
    assert!(
        refused.starts_with("--scatter sets two traits"),
        "{refused}"
    );
}

/// The quartile by its definition (type 7 of Hyndman & Fan 1996): between the two readings about a part of the way.
fn quartile(sorted: &[f64], part: f64) -> f64 {
    let at = part * (sorted.len() - 1) as f64;
    let below = at.floor() as usize;
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + (at - at.floor()) * (sorted[above] - sorted[below])
}

#[test]
fn many_plants_are_a_band_and_few_are_lines() {
    for (each, many) in [(20, false), (60, true)] {
        let mut lot = Lot(each as u64);
        let all = 2 * each;
        let sizes: Vec<f64> = (0..all)
            .map(|_| 5.0 + lot.below(200) as f64 / 10.0)
            .collect();
        let sowing = |n: usize| if n < each { "S1" } else { "S2" };
        let seedlings: String = (0..all)
            .map(|n| format!("(number: \"{}\", sowing: \"{}\"), ", n + 1, sowing(n)))
            .collect();
        let rows: String = (0..all)
            .map(|n| format!("[\"{}\", \"{}\", \"2\"], ", n + 1, sizes[n]))
            .collect();
        let sources = tray(&seedlings, &rows);
        let (registry, _) = build(&sources);
        let context = Context::of(&registry, today());
        let wishes = GrowthWishes {
            at: None,
            of_trait: None,
            by_pod: false,
        };
        let ids = ["X1.S1".to_owned(), "X1.S2".to_owned()];
        let report = growth(&context, &ids, &wishes).expect("growth");
        let chart = growth_chart(&report);
        for (curve, sizes) in chart.curves.iter().zip(sizes.chunks(each)) {
            assert_eq!(curve.behind.len(), if many { 0 } else { each });
            assert_eq!(curve.band.len(), usize::from(many));
            let mut sorted = sizes.to_vec();
            sorted.sort_by(f64::total_cmp);
            for &(_, low, high) in &curve.band {
                assert!((low - quartile(&sorted, 0.25)).abs() < 1e-9);
                assert!((high - quartile(&sorted, 0.75)).abs() < 1e-9);
            }
        }
        assert_eq!(chart.curves.len(), 2);
        assert_ne!(chart.curves[0].group, chart.curves[1].group);
    }
}
