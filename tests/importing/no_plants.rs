//! Rows between those of plants that are none.

use crate::tables::{assert_adds_up, brought, chosen, page, sorted, table};
use podbook::record::RowClass;
use podbook::report::import::import_report;

const LINES: [&str; 9] = [
    "Code|Name|Span (cm)",
    "Shelf 1:||",
    "V1|N. maxima|3",
    "|N. truncata|4",
    "||6",
    "Mean||4.3",
    "Ø||4.3",
    "Average:||",
    "Max|N. lowii|7 cm",
];

/// Sums, means and titles are left out and said to be such; a plant whose code is such a word has a name.
#[test]
fn means_and_titles_are_no_plants() {
    let import = sorted(&[table("a.csv", &LINES)]);
    assert_adds_up(&import);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let (clean, none) = (RowClass::Clean, RowClass::NoPlant);
    assert_eq!(classes, [none, clean, clean, none, none, none, none, clean]);
    let whys: Vec<String> = import_report(&import, &[])
        .doubts
        .into_iter()
        .map(|of| of.why)
        .collect();
    let figures = "a sum, mean or other figure of other rows";
    assert_eq!(
        whys,
        [
            "a title of other rows",
            "neither a code nor a name nor a cross; if the row is about the plant above it, write that plant's code into it",
            figures,
            figures,
            figures,
        ]
    );
}

/// A line of headings below the headings is no plant; a row of dittos is one.
#[test]
fn a_second_line_of_headings_is_no_plant() {
    let lines = [
        "Code|Name|Status|Span",
        "Plant|Species|What|cm",
        "V1|N. maxima||9",
        "V2|\"|\"|\"",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_adds_up(&import);
    let comes: Vec<bool> = import.rows.iter().map(|row| row.comes).collect();
    assert_eq!(comes, [false, true, true]);
    assert_eq!(import.rows[0].class, RowClass::NoPlant);
    assert_eq!(
        import_report(&import, &[]).doubts[0].why,
        "one more line of headings"
    );
}

/// A row that the grower takes all the same is read as any other.
#[test]
fn a_mean_that_is_a_plant_can_be_taken() {
    let choices = "(rows: [(table: \"a.csv\", row: 6, choose: take)])";
    let import = chosen(&[table("a.csv", &LINES)], choices);
    let row = &import.rows[4];
    assert_eq!((row.comes, row.facts.code.as_deref()), (true, Some("Mean")));
}

/// The same where the cross stands before the number of the seedling.
#[test]
fn figures_below_seedlings_are_no_seedlings() {
    let lines = [
        "Cross|Seedling|Span (cm)|Measured",
        "X20-01|1|5|2023-06-01",
        "X20-01|sum|21|2023-06-01",
        "X20-01|mean|5.25|2023-06-01",
        "X20-01|2|3|2023-06-01",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_adds_up(&import);
    let (listed, none) = (RowClass::CrossNotListed, RowClass::NoPlant);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    assert_eq!(classes, [listed, none, none, listed]);
}

/// Numbers from one to another are several seedlings, however the range is written, and never one nor a further cross. No
/// choice makes plants of them: of a seedling there is one on a row.
#[test]
fn a_range_is_several_seedlings() {
    let rows = ["X20-01|1", "X20-01|4-6", "X20-01|7, 8", "X20-01|20a"];
    let of_cross = [&["Cross|Seedling"][..], &rows].concat();
    let by_code = [
        "Code",
        "X20-01-1",
        "X20-01-4-6",
        "X20-01-7..9",
        "X20-01-20a",
    ];
    for lines in [&of_cross[..], &by_code] {
        for choices in ["()", "(choices: [(class: several_plants, choose: take)])"] {
            let import = chosen(&[table("a.csv", lines)], choices);
            assert_adds_up(&import);
            let comes: Vec<bool> = import.rows.iter().map(|row| row.comes).collect();
            assert_eq!(comes, [true, false, false, true], "{lines:?}");
            let several = RowClass::SeveralPlants;
            assert!(import.rows[1..3].iter().all(|row| row.class == several));
            let said = import_report(&import, &[]).doubts.into_iter();
            let mut said = said.filter(|of| of.class == "several_plants");
            assert!(said.all(|of| of.why == "several plants: write a row for each"));
        }
    }
    // The cross `A-20-01` may have a seedling 4, and the cross `2020-4` one with the number 6.
    for code in ["A-20-01-4", "2020-4-6"] {
        let import = sorted(&[table("a.csv", &["Code|Span (cm)", &format!("{code}|5")])]);
        assert!(import.rows[0].comes, "{code}");
    }
}

/// Words alone in the place of a code are a title; a code alone is a plant.
#[test]
fn words_alone_in_the_place_of_a_code_are_a_title() {
    let lines = [
        "Code|Name|Span (cm)",
        "Shelf 1||",
        "V1|N. maxima|3",
        "Greenhouse||",
        "V2||",
        "17||",
        "printed 3 May||",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_adds_up(&import);
    let comes: Vec<bool> = import.rows.iter().map(|row| row.comes).collect();
    assert_eq!(comes, [false, true, false, true, true, false]);
    assert_eq!(import.count(RowClass::NoPlant), 3);
}

/// A code in doubt is not the plant of that code, nor a further one.
#[test]
fn a_code_in_doubt_is_no_plant() {
    let lines = [
        "Code|Name|Span (cm)",
        "V1|N. maxima|12",
        "V1?|N. maxima|9",
        "V2 (?)|N. maxima|9",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_adds_up(&import);
    let comes: Vec<bool> = import.rows.iter().map(|row| row.comes).collect();
    assert_eq!(comes, [true, false, false]);
    assert_eq!(import.count(RowClass::NoPlant), 2);
    let said = import_report(&import, &[]).doubts;
    assert_eq!(
        said[0].why,
        "V1, in doubt in the table: write the code without the mark if it is right"
    );
    let clones = brought(&[table("a.csv", &lines)], "()");
    assert!(!page(&clones, "clones.ron").contains("row 3"));
}

/// Two columns of one measure and no day: the second reading is asked about, and does not fall out in silence.
#[test]
fn two_readings_of_no_day_are_asked_about() {
    let lines = [
        "Code|Name|Span|Span",
        "V1|N. maxima|12 cm|13 cm",
        "V2|N. maxima|12 cm|12 cm",
        "V3|N. maxima||13 cm",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let clean = RowClass::Clean;
    assert_eq!(classes, [RowClass::Other, clean, clean]);
    assert_eq!(
        import_report(&import, &[]).doubts[0].why,
        "another reading of this measure on the same day, or on none: give each column its day"
    );
}
