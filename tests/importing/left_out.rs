//! Rows that are left out: they stand for no parent, and a plant on record keeps its code.

use crate::tables::{assert_adds_up, brought, page, pages_with, sources, table, today};
use podbook::analysis::import::{Import, InputTable, Why, import};
use podbook::record::{ImportChoices, RowClass};
use podbook::recording::draft::{Draft, PageChange};
use podbook::recording::import::bring_in;
use podbook::registry::build;
use podbook::report::import::import_report;

/// What tables bring into a registry that has these pages.
fn into(before: &[PageChange], tables: &[InputTable], choices: &str) -> (Import, Vec<PageChange>) {
    let kept = sources(&pages_with(before));
    let (registry, _) = build(&kept);
    let choices = ImportChoices::read(choices).expect("choices");
    let sorted = import(&registry, tables, &choices, today());
    assert_adds_up(&sorted);
    let mut draft = Draft::new(&registry, today());
    bring_in(&sorted, &mut draft).expect("it comes in");
    (sorted, draft.changes())
}

fn on_record() -> Vec<PageChange> {
    let lines = [
        "Tag|Name",
        "1|N. ventricosa 'Red'",
        "2|N. truncata (Pasian)",
    ];
    brought(&[table("before.csv", &lines)], "()")
}

/// A list that says no more than the species of plants on record is left out, and its codes are those plants. What it is
/// left out with is no plant: a parent named by species is that species, in the report as on the page.
#[test]
fn a_code_on_record_is_the_plant_on_record() {
    let tables = [
        table("a.csv", &["Tag|Name", "1|N. ventricosa", "2|N. truncata"]),
        table(
            "b.csv",
            &[
                "Seedling|Parents|Span",
                "S1|ventricosa x truncata|3 cm",
                "S2|1 x 2|4 cm",
            ],
        ),
        table("c.csv", &["Cross|Mother|Father", "P8|1|2"]),
    ];
    let (sorted, changes) = into(&on_record(), &tables, "()");
    let left = &sorted.rows[..2];
    assert!(
        left.iter()
            .all(|row| row.class == RowClass::CodeTaken && !row.comes)
    );
    let said = import_report(&sorted, &[]);
    assert!(
        !said
            .doubts
            .iter()
            .any(|of| of.done.contains("your one plant"))
    );
    assert!(!said.cautions.iter().any(|of| of.contains("taken for your")));
    for (path, parents) in [
        ("crosses/XX-01.ron", "label_only(\"ventricosa x truncata\")"),
        ("crosses/XX-02.ron", "known(seed: \"1\", pollen: \"2\")"),
        ("crosses/P8.ron", "known(seed: \"1\", pollen: \"2\")"),
    ] {
        let text = page(&changes, path);
        assert!(text.contains(&format!("parents: {parents}")), "{text}");
    }
    // Taken as one more plant, its code is that of two.
    let take = "(choices: [(class: code_taken, choose: take)])";
    let (_, changes) = into(&on_record(), &tables, take);
    assert!(page(&changes, "crosses/P8.ron").contains("parents: unknown"));
}

/// A list that calls another plant by the code may mean that one: the parent stays unknown.
#[test]
fn a_code_of_another_plant_names_neither() {
    let tables = [
        table("a.csv", &["Tag|Name", "1|N. maxima"]),
        table("c.csv", &["Cross|Mother|Father", "P8|1|2", "P9|maxima|2"]),
    ];
    let (sorted, changes) = into(&on_record(), &tables, "()");
    assert!(
        sorted.rows[1]
            .doubts
            .iter()
            .any(|of| of.why == Why::CodeOfTwo)
    );
    assert!(page(&changes, "crosses/P8.ron").contains("seed_unknown(pollen: \"2\")"));
    let own = page(&changes, "crosses/P9.ron");
    assert!(
        own.contains("known(seed: \"maxima\", pollen: \"2\")"),
        "{own}"
    );
}

/// So may a list in which the name says more than on record: its row is another plant's, and so perhaps is the parent.
#[test]
fn a_longer_name_than_on_record_is_another_plant() {
    let before = brought(
        &[table(
            "before.csv",
            &["Tag|Name", "1|N. maxima", "2|N. mira"],
        )],
        "()",
    );
    let tables = [
        table("a.csv", &["Tag|Name", "1|N. maxima dark"]),
        table("c.csv", &["Cross|Mother|Father", "P8|1|2"]),
    ];
    let (sorted, changes) = into(&before, &tables, "()");
    let other = &sorted.rows[0];
    assert_eq!((other.class, other.comes), (RowClass::CodeTaken, false));
    let cross = &sorted.rows[1];
    assert_eq!(cross.class, RowClass::ParentUnknown);
    assert_eq!(cross.doubts[0].why, Why::CodeOfTwo);
    let text = page(&changes, "crosses/P8.ron");
    assert!(text.contains("seed_unknown(pollen: \"2\")"), "{text}");
}

/// The same plant in two lists is one plant by its name too.
#[test]
fn a_plant_of_two_lists_is_one_parent() {
    let tables = [
        table(
            "a.csv",
            &["Tag|Name|Where", "1|N. maxima|shelf", "2|N. mira|"],
        ),
        table("b.csv", &["Tag|Name|Span", "1|N. maxima|9 cm"]),
        table("c.csv", &["Cross|Mother|Father", "P8|maxima|2"]),
    ];
    let (_, changes) = into(&[], &tables, "()");
    let text = page(&changes, "crosses/P8.ron");
    assert!(text.contains("known(seed: \"1\", pollen: \"2\")"), "{text}");
}

/// A parent whose own row is left out for something else is not known, and that is said; so is the parent of a cross that
/// is left out for it.
#[test]
fn a_parent_whose_row_is_left_out_is_said() {
    let tables = [
        table("c.csv", &["Cross|Mother|Father", "P9|P8|2", "P8|1|2"]),
        table("a.csv", &["Tag|Name", "1|zorkleana", "2|N. mira"]),
    ];
    let choices =
        |more: &str| format!("(choices: [(class: label_unread, choose: leave_out){more}])");
    let (sorted, changes) = into(&[], &tables, &choices(""));
    let row = &sorted.rows[1];
    assert_eq!((row.class, row.comes), (RowClass::ParentUnknown, true));
    assert_eq!(
        (row.doubts[0].found.as_str(), &row.doubts[0].why),
        ("1", &Why::PlantLeftOut)
    );
    assert_eq!(sorted.rows[0].class, RowClass::Clean);
    assert!(page(&changes, "crosses/P8.ron").contains("seed_unknown(pollen: \"2\")"));
    let out = choices(", (class: parent_unknown, choose: leave_out)");
    let (sorted, changes) = into(&[], &tables, &out);
    let comes: Vec<bool> = sorted.rows.iter().map(|row| row.comes).collect();
    assert_eq!(comes, [false, false, false, true]);
    assert!(!changes.iter().any(|of| of.path.starts_with("crosses/")));
}

/// A further row of a plant that is left out is left out with it: nothing of the plant is on record, so nothing is new or other.
#[test]
fn a_further_row_of_a_plant_left_out_is_out() {
    let leave = "(choices: [(class: label_unread, choose: leave_out)])";
    for further in ["1|shelf 2|9 cm", "1|shelf 2|", "1|shelf 1|"] {
        let tables = [
            table("a.csv", &["Tag|Name|Where", "1|zorkleana|shelf 1"]),
            table("b.csv", &["Tag|Where|Span", further]),
        ];
        let (sorted, changes) = into(&[], &tables, leave);
        let doubts = sorted.rows[1].doubts.iter();
        let why: Vec<_> = doubts.map(|of| (of.class, &of.why)).collect();
        assert_eq!(
            why,
            [(RowClass::LabelUnread, &Why::PlantLeftOut)],
            "{further}"
        );
        assert!(!sorted.rows[1].comes && changes.is_empty(), "{further}");
    }
}
