//! `podbook sheet`: what is on the paper, in which order, on how many pages.

use crate::bench_top::BenchTop;
use crate::sixty::sixty;
use insta::assert_snapshot;

fn sheet(top: &BenchTop, arguments: &[&str]) -> String {
    let run = top.run(&[&["sheet"], arguments].concat());
    assert_eq!(run.exit, Some(0), "{run}");
    run.stdout
}

/// The words on an SVG, in painting order.
fn words(svg: &str) -> Vec<String> {
    let texts = svg
        .split("</text>")
        .filter_map(|piece| piece.rsplit_once("fill-opacity=\"0\">"));
    texts.map(|(_, words)| words.to_owned()).collect()
}

#[test]
fn the_list_shows_last_readings_and_how_each_is_read() {
    assert_snapshot!(
        "sheet-of-a-shelf",
        sixty().run(&[
            "sheet",
            "--place",
            "shelf 1",
            "--traits",
            "span,banding,rim"
        ])
    );
    assert_snapshot!(
        "sheet-for-a-spreadsheet",
        sixty().run(&[
            "sheet",
            "X23-01-1..4",
            "--traits",
            "span in,rim",
            "--format",
            "csv"
        ])
    );
}

/// Rows come in the order of the page, the plants that are gone are not among them, 25 fit on A4 and 12 on A5.
#[test]
fn rows_fill_pages_in_the_order_of_the_tray() {
    for (paper, most) in [("a4", 25), ("a5", 12)] {
        let svg = sheet(
            &sixty(),
            &[
                "X23-01", "--traits", "span", "--paper", paper, "--format", "svg",
            ],
        );
        let all = words(&svg);
        let plants: Vec<&String> = all
            .iter()
            .filter(|word| word.starts_with("X23-01-"))
            .collect();
        let expected: Vec<String> = (1..=62)
            .filter(|n| ![7, 9].contains(n))
            .map(|n| format!("X23-01-{n}"))
            .collect();
        assert_eq!(plants, expected.iter().collect::<Vec<_>>());
        let feet = all.iter().filter(|word| word.contains(" of 60 · page "));
        assert_eq!(feet.count(), 60_usize.div_ceil(most), "{paper}");
        assert!(
            all.iter()
                .any(|word| word.starts_with(&format!("1–{most} of 60"))),
            "{paper}"
        );
    }
}

/// Whatever follows `/MediaBox`, and how often: every page has the size of the paper.
#[test]
fn pages_have_the_size_of_the_paper() {
    for (paper, size, pages) in [
        ("a4", "595.2756 841.8898", 3),
        ("a5", "419.52756 595.2756", 5),
    ] {
        let pdf = sheet(&sixty(), &["X23-01", "--paper", paper, "--format", "pdf"]);
        let boxes = pdf.matches(&format!("/MediaBox [0 0 {size}]")).count();
        assert_eq!(boxes, pages, "{paper}");
    }
}

#[test]
fn a_stocktake_has_a_box_for_each_plant_of_a_place() {
    let top = sixty().file(
        "clones.ron",
        "(clones: [\n    (code: \"Ven1\", received: \"N. ventricosa\", ramets: [(code: \"a\", place: \"shelf 1\"), (code: \"b\", place: \"shelf 10\"), (code: \"c\", place: \"shelf 1\", fate: died(on: \"2023\"))]),\n    (code: \"Spa1\", received: \"N. spathulata\"),\n])\n",
    );
    assert_snapshot!(
        "sheet-to-tick",
        top.run(&["sheet", "--place", "shelf 1", "--stocktake"])
    );
}

#[test]
fn what_cannot_be_printed_is_refused_with_what_to_do() {
    let top = sixty();
    let refusals = [
        top.run(&["sheet"]),
        top.run(&["sheet", "X23-02"]),
        top.run(&["sheet", "X23-01-7"]),
        top.run(&["sheet", "--place", "attic"]),
        top.run(&["sheet", "X23-01", "--traits", "spam"]),
        top.run(&["sheet", "X23-01", "--traits", "span,leaf span"]),
        top.run(&[
            "sheet",
            "X23-01",
            "--traits",
            "span,height,banding,teeth,rim,note",
            "--paper",
            "a5",
            "--format",
            "pdf",
        ]),
    ];
    let told: Vec<String> = refusals.iter().map(ToString::to_string).collect();
    assert_snapshot!("sheet-refused", told.join("\n"));
}

/// A last reading without a unit is not shown as though it had that of its column.
#[test]
fn a_last_reading_without_a_unit_says_so() {
    let top = BenchTop::sound().change(
        "crosses/X22-02.ron",
        "columns: [\"span cm\"], rows: [[\"1\", \"4.1\"], [\"2\", \"3.6\"]",
        "columns: [\"span\"], rows: [[\"1\", \"7\"], [\"2\", \"3.6 cm\"]",
    );
    let list = sheet(&top, &["X22-02-1..2", "--traits", "span in"]);
    assert!(list.contains("7 (no unit)"), "{list}");
    assert!(list.contains("1.42"), "{list}");
}

/// Steps to ring give way to a long code: it stays large enough for wet hands.
#[test]
fn a_long_code_is_written_to_be_read() {
    let marks: String = (1..=2)
        .map(|n| format!("(code: \"s{n}\", name: \"mark {n}\", reads: scale([\"a\", \"b\", \"c\", \"d\", \"e\"])), "))
        .collect();
    let code = "X26-LONGCODE-LONGER-AND-LONGEST-ONE";
    let page = format!(
        "(code: \"{code}\", parents: known(seed: \"V\", pollen: \"S\"), seedlings: [(number: \"1\")])"
    );
    let top = crate::small_records::of("")
        .change("registry.ron", "traits: [", &format!("traits: [{marks}"))
        .file("crosses/L.ron", &page);
    let asked = [
        code, "--paper", "a5", "--traits", "s1,s2", "--format", "svg",
    ];
    let svg = sheet(&top, &asked);
    let before = svg.split(&format!(">{code}-1<")).next().expect("the code");
    let size = before
        .rsplit("font-size=\"")
        .next()
        .and_then(|rest| rest.split('"').next());
    let size: f64 = size.and_then(|size| size.parse().ok()).expect("a size");
    assert!(size >= 7.0, "{size}");
}
