//! `species.ron` of a new registry says what its two tables say, no more and no less.
//!
//! When a table changes, run the test: it writes the text it expects beside the test binaries and names the file to
//! copy to `src/registry/starter/species.ron`.

use podbook::record::{SpeciesPage, Sureness, read_page};
use podbook::text::Sources;
use std::fmt::Write;

const SPECIES: &str = include_str!("../../src/registry/starter/species.csv");
const NAMED_HYBRIDS: &str = include_str!("../../src/registry/starter/nothospecies.csv");
const WRITTEN: &str = include_str!("../../src/registry/starter/species.ron");

const HEAD: &str = r#"// species.ron – names found on labels: species, Latin names of hybrids, other spellings, short codes.
//
// This is a starting list, not an authority. Accepted status was not checked against a current checklist, and rows of
// low confidence were left out. Edit it, add to it, remove what you do not grow.
//   sureness     how sure the row is
//   evidence     how it is supported: confirmed in a public source, partly confirmed, or memory
//   elevation_m  lowest and highest altitude of wild plants; left out when only one limit, or none, is known well
//   appendix     the treaty appendix a public list gave for the species: a fact about that list, which changes.
//                Before anything crosses a border ask your management authority and your plant health service.
//   doubt        why this name on a label may mean another plant; doubtful: true when it should not be used as a name
"#;

const HYBRIDS_HEAD: &str = r#"
    // Latin names of hybrids. Record the formula, because a Latin name says less: it is the same for both directions,
    // all later generations and all backcrosses between the same species.
    //   expand        a label with this name is read as its parents
    //   may_be_used   podbook may suggest the name for a plant of these parents; false for most trade Latin
"#;

const TAIL: &str = r#"
    // Old names that are read as another name, and why.
    synonyms: [
        // (name: "curtisii", now: "maxima", note: "usually placed there; check the plant"),
    ],

    // Short codes you write on tags. podbook guesses none, because three letters often fit two species.
    codes: [
        // (code: "ven", means: "ventricosa"),
    ],

    // Cultivar epithets you have looked up and found established. podbook comes with none.
    epithets: [
        // (epithet: "Red Lantern", source: "a society journal, read 2025-03", formula: "lowii × ventricosa"),
    ],
)
"#;

/// One row of a table: its cells under their column names.
type Row = std::collections::HashMap<String, String>;

fn rows(table: &str) -> Vec<Row> {
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    reader
        .deserialize()
        .map(|row| row.expect("a sound row"))
        .collect()
}

/// A text in double quotes, as RON writes it.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}

/// Writes the fields of a record over as many lines as it takes, no line longer than 120 columns.
fn record(out: &mut String, fields: &[String]) {
    let mut line = "        (".to_owned();
    for (at, field) in fields.iter().enumerate() {
        let end = if at + 1 == fields.len() { ")," } else { "," };
        if line.chars().count() + field.chars().count() + end.len() + 1 > 120 && line.trim() != "("
        {
            writeln!(out, "{}", line.trim_end()).expect("a string takes it");
            line = " ".repeat(12);
        }
        write!(line, "{field}{end} ").expect("a string takes it");
    }
    writeln!(out, "{}", line.trim_end()).expect("a string takes it");
}

/// A field with a text, if the cell is filled.
fn text_field(row: &Row, column: &str, field: &str) -> Option<String> {
    let cell = &row[column];
    (!cell.is_empty()).then(|| format!("{field}: {}", quoted(cell)))
}

fn sureness(cell: &str) -> String {
    let word = match cell {
        "H" => "high",
        "M" => "medium",
        other => panic!("a row of confidence {other} in the starter list"),
    };
    format!("sureness: {word}")
}

fn species_fields(row: &Row) -> Vec<String> {
    let elevation = (!row["elev_min_m"].is_empty()
        && !row["elev_max_m"].is_empty()
        && row["elev_confidence"] != "L")
        .then(|| {
            format!(
                "elevation_m: ({}, {})",
                row["elev_min_m"], row["elev_max_m"]
            )
        });
    let year = (!row["year"].is_empty()).then(|| format!("year: {}", row["year"]));
    let disputed = row["status"] != "believed-accepted";
    [
        text_field(row, "epithet", "epithet"),
        text_field(row, "authors", "authors"),
        year,
        elevation,
        text_field(row, "area", "area"),
        text_field(row, "cites_appendix", "appendix"),
        text_field(row, "status", "status"),
        disputed.then(|| "doubtful: true".to_owned()),
        text_field(row, "doubt", "doubt"),
        Some(sureness(&row["name_confidence"])),
        text_field(row, "evidence", "evidence"),
        text_field(row, "source", "source"),
        text_field(row, "note", "note"),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn hybrid_fields(row: &Row) -> Vec<String> {
    let parents: Vec<String> = row["parent_set"]
        .split(';')
        .filter(|name| !name.is_empty())
        .map(quoted)
        .collect();
    let year = (!row["year"].is_empty()).then(|| format!("year: {}", row["year"]));
    [
        text_field(row, "epithet", "epithet"),
        Some(format!("parents: [{}]", parents.join(", "))),
        text_field(row, "formula", "formula"),
        text_field(row, "authors", "authors"),
        year,
        text_field(row, "nomenclatural_status", "status"),
        text_field(row, "origin", "origin"),
        Some(format!("expand: {}", row["expand_automatically"] == "yes")),
        Some(format!("may_be_used: {}", row["may_emit_as_name"] == "yes")),
        Some(sureness(&row["confidence"])),
        text_field(row, "evidence", "evidence"),
        text_field(row, "source", "source"),
        text_field(row, "note", "note"),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn expected() -> String {
    let mut out = format!("{HEAD}(\n    species: [\n");
    for row in rows(SPECIES) {
        record(&mut out, &species_fields(&row));
    }
    write!(out, "    ],\n{HYBRIDS_HEAD}    named_hybrids: [\n").expect("a string takes it");
    for row in rows(NAMED_HYBRIDS) {
        record(&mut out, &hybrid_fields(&row));
    }
    out + "    ],\n" + TAIL
}

#[test]
fn the_starter_list_is_what_the_tables_say() {
    let expected = expected();
    if expected != WRITTEN {
        let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("species.ron");
        std::fs::write(&path, &expected).expect("the text can be written");
        panic!(
            "src/registry/starter/species.ron is out of date; the text expected lies in {}",
            path.display()
        );
    }
}

#[test]
fn the_starter_list_is_read_back_row_by_row() {
    let mut sources = Sources::new();
    let file = sources.add("species.ron", WRITTEN);
    let (page, findings) = read_page::<SpeciesPage>(&sources, file);
    assert_eq!(findings, []);
    let page = page.expect("the page is sound");
    let (species, hybrids) = (rows(SPECIES), rows(NAMED_HYBRIDS));
    assert_eq!(page.species.len(), species.len());
    assert_eq!(page.named_hybrids.len(), hybrids.len());
    for (read, row) in page.species.iter().zip(&species) {
        assert_eq!(read.epithet, row["epithet"]);
        assert_eq!(read.appendix.unwrap_or(""), row["cites_appendix"]);
        assert_eq!(read.authors.as_deref().unwrap_or(""), row["authors"]);
        assert_eq!(
            read.year.map_or(String::new(), |y| y.to_string()),
            row["year"]
        );
        assert_ne!(read.sureness, Sureness::Low);
        assert_ne!(read.sureness, Sureness::Unsaid);
        assert!(read.evidence.is_some(), "{} has no evidence", read.epithet);
        assert!(
            read.elevation_m.is_none_or(|(low, high)| low <= high),
            "{}",
            read.epithet
        );
    }
    for (read, row) in page.named_hybrids.iter().zip(&hybrids) {
        assert_eq!(read.epithet, row["epithet"]);
        assert_eq!(read.parents.join(";"), row["parent_set"]);
        assert_eq!(read.expand, row["expand_automatically"] == "yes");
        assert_eq!(read.may_be_used, row["may_emit_as_name"] == "yes");
        assert!(!read.status.is_empty(), "{} has no status", read.epithet);
        for parent in &read.parents {
            assert!(
                page.species.iter().any(|s| s.epithet == *parent),
                "{parent} of {} is no species",
                read.epithet
            );
        }
    }
}

#[test]
fn rows_of_low_confidence_are_left_out() {
    for left_out in [
        "putaiguneung",
        "sericea",
        "briggsiana",
        "emmarene",
        "intermedia",
        "stewartii",
    ] {
        assert!(
            !WRITTEN.contains(&quoted(left_out)),
            "{left_out} is in the starter list"
        );
    }
}
