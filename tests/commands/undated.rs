//! Plants whose age today is on the screen, and readings that have none: what is said to be missing is missing.

use crate::bench_top::BenchTop;

/// A cross with three seedlings, sown and read on these days.
fn read(sown: &str, read: &str) -> BenchTop {
    let founders = r#"(clones: [(code: "V1", received: "N. ventricosa", confidence: tag), (code: "S1", received: "N. spathulata", confidence: tag)])"#;
    let traits = r#"(genus: "Nepenthes", hemisphere: north, traits: [(code: "span", name: "leaf span", reads: length(cm))])"#;
    let species = r#"(species: [(epithet: "ventricosa"), (epithet: "spathulata")])"#;
    BenchTop::with([("registry.ron", traits), ("species.ron", species), ("clones.ron", founders)])
        .file(
            "crosses/K.ron",
            &format!(
                r#"(code: "K", parents: known(seed: "V1", pollen: "S1"), confidence: tag, pods: [(code: "P1")],
                sowings: [(code: "S1", pod: "P1"{sown})],
                seedlings: [(number: "1", sowing: "S1"), (number: "2", sowing: "S1"), (number: "3", sowing: "S1")],
                sittings: [(on: "{read}", columns: ["span"], rows: [["1", "4.5 cm"], ["2", "5.5 cm"], ["3", "5 cm"]])])"#
            ),
        )
}

fn said(top: &BenchTop, question: &str) -> String {
    let words: Vec<&str> = question.split(' ').collect();
    let run = top.run(&words);
    let said = format!("{} {}", run.stdout, run.stderr);
    said.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_day_that_is_missing_is_named() {
    let sown = r#", on: "2022-06-01""#;
    let cases = [
        (read(sown, "unknown"), "reading"),
        (read("", "2023-06-01"), "sowing"),
    ];
    for (top, missing) in cases {
        let growth =
            format!("K: 3 plants without a dated {missing}, so their readings have no age");
        let questions = [
            ("siblings K", format!("age not known ({missing} not dated)")),
            ("grade K.S1", format!("age not known ({missing} not dated)")),
            ("growth K", growth),
            (
                "growth K-1",
                format!("K-1: 1 plant without a dated {missing}, so its readings have no age"),
            ),
        ];
        for (question, words) in questions {
            let said = said(&top, question);
            assert!(said.contains(&words), "{question}: {words}\n{said}");
        }
    }
}

#[test]
fn a_comparison_at_an_age_asks_for_the_days_it_needs() {
    let top = read(r#", on: "2022-06-01""#, "unknown");
    let words = "write down when they were sown and when they were read";
    let said = said(&top, "merit --trait span --heritability 0.4");
    assert!(said.contains(words), "{said}");
}
