//! podbook's own sheet of plants, read again: known by its headings, and nothing in it taken for something else.

use crate::bench_top::BenchTop;
use crate::tables::{assert_adds_up, page, sorted, table};
use podbook::record::RowClass;

const TODAY: [&str; 2] = ["--today", "2025-06-01"];

/// Into the registry it came from: every row is on record, and no page changes.
#[test]
fn into_its_own_registry_it_adds_nothing() {
    for sheet in ["sheet.csv", "sheet.xlsx"] {
        let top = BenchTop::empty();
        let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/registry-demo");
        let of_demo = [&["--registry", demo][..], &TODAY].concat();
        let wrote = top.run(&[&["export", "plants", "--output", sheet][..], &of_demo].concat());
        assert_eq!(wrote.exit, Some(0), "{wrote}");
        let asked = [&["import", sheet, "--json"][..], &of_demo].concat();
        let report = top.run(&asked);
        let said: serde_json::Value = serde_json::from_str(&report.stdout).expect("JSON");
        assert_eq!(said["coming"], 0, "{report}");
        let classes = said["classes"].as_array().expect("classes");
        assert_eq!(classes.len(), 1, "{classes:?}");
        assert_eq!(classes[0]["class"], "on_record", "{sheet}");
        assert_eq!(
            said["rows"],
            classes[0]["rows"].as_u64().map_or(0, |rows| rows + 1)
        );
    }
}

/// Into another: seedlings of their crosses, those gone as gone, readings with their days.
#[test]
fn into_another_registry_it_brings_what_it_has() {
    let heads = "plant|name|evidence|sex|status|kept|place|pot|sown|arrived|received as|from|supplier's code|nickname|note|leaf span, cm|leaf span, as written|leaf span, read on";
    let tables = [table(
        "sheet.csv",
        &[
            heads,
            "Max1|N. maxima|name claimed|male, claimed by the supplier|in the collection||shelf 1|9 cm||2020-05-01|N. maxima|a fair|M7|||12.5|12.5 cm|2024-05-01",
            "Max2|N. maxima|name claimed|unsexed|lost by 2023-11 (tag found without a pot)|||||by 2015-05-31|N. maxima|a fair|||||",
            "K1-3|N. (maxima × maxima)|witnessed|unsexed|died 2023-01-05||||2020-01|||||||4.1|41|2022-05-01",
            "K1-4|N. (maxima × maxima)|witnessed|female|in the collection|kept|||2020-01|||||||5|5 cm|2023-05-01",
        ],
    )];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let (clean, listed) = (RowClass::Clean, RowClass::CrossNotListed);
    assert_eq!(
        classes,
        [clean, clean, listed, listed],
        "{:#?}",
        import.rows
    );
    let pages = crate::tables::brought(&tables, "()");
    let clones = page(&pages, "clones.ron");
    assert!(
        clones.contains("fate: lost(on: \"by 2023-11\")"),
        "{clones}"
    );
    assert!(clones.contains("on: \"2024-05-01\""), "{clones}");
    assert!(!clones.contains("K1-3"), "{clones}");
    let cross = page(&pages, "crosses/K1.ron");
    assert!(cross.contains("fate: died(on: \"2023-01-05\")"), "{cross}");
    // Written in another unit than the one shown: the value with its unit is the surer one.
    assert!(cross.contains("[\"3\", \"4.1 cm\"]"), "{cross}");
    assert!(
        cross.contains("on: \"2022-05-01\"") && cross.contains("on: \"2023-05-01\""),
        "{cross}"
    );
}

/// A grower's own columns with the day in the heading are the readings of that day.
#[test]
fn a_day_in_a_heading_is_that_of_its_readings() {
    let lines = [
        "Code|Name|Span 2022-05-01 (cm)|Span 2023-05 (cm)",
        "V1|N. maxima|4|6.5",
    ];
    let pages = crate::tables::brought(&[table("a.csv", &lines)], "()");
    let clones = page(&pages, "clones.ron");
    for day in ["2022-05-01", "2023-05"] {
        assert!(
            clones.contains(&format!("(on: \"{day}\", columns: [\"span\"]")),
            "{clones}"
        );
    }
    assert!(
        clones.contains("\"4 cm\"") && clones.contains("\"6.5 cm\""),
        "{clones}"
    );
}
