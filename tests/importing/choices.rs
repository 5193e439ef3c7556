//! Choices for classes and rows, and the file they are kept in.

use crate::bench_top::BenchTop;
use crate::tables::{brought, chosen, page, table};
use podbook::record::{Choose, ImportChoices, RowClass};

const TABLE: [&str; 4] = [
    "code|name|got|size",
    "V1|N. maxima|03/04/21|12",
    "V2|N. maxima|05/06/21|13 cm",
    "V3|zorkleana|2020|",
];

#[test]
fn a_row_is_read_as_chosen_and_every_other_as_its_class() {
    let tables = [table("a.csv", &TABLE)];
    let plain = brought(&tables, "()");
    let clones = page(&plain, "clones.ron");
    assert!(
        clones.contains("on: \"2021-03-04 to 2021-04-03\""),
        "{clones}"
    );
    assert!(
        clones.contains("[\"V1\", \"12\"]"),
        "a size without a unit keeps none\n{clones}"
    );
    let choices = "(choices: [(class: date_two_ways, choose: day_first), (class: size_without_unit, choose: mm)],
        rows: [(table: \"a.csv\", row: 3, choose: month_first), (table: \"a.csv\", row: 4, choose: leave_out)])";
    let changes = brought(&tables, choices);
    let clones = page(&changes, "clones.ron");
    assert!(
        clones.contains("on: \"2021-04-03\"") && clones.contains("on: \"2021-05-06\""),
        "{clones}"
    );
    assert!(
        clones.contains("[\"V1\", \"12 mm\"]") && !clones.contains("zorkleana"),
        "{clones}"
    );
    // What was chosen stays written beside the doubt, and the rows stay counted in their classes.
    let import = chosen(&tables, choices);
    assert_eq!(import.count(RowClass::DateTwoWays), 2);
    assert_eq!(import.rows[1].doubts[0].chosen, Choose::MonthFirst);
}

#[test]
fn choices_are_kept_beside_the_file_and_remarks_in_it_stay() {
    let top = BenchTop::empty().file("a/a.csv", &TABLE.join("\n").replace('|', ","));
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    let ask = ["import", "a/a.csv", "--registry", "mine"];
    assert_eq!(top.run(&ask).exit, Some(0));
    assert!(
        !top.path().join("a/import.ron").exists(),
        "a report writes nothing"
    );
    let run = top.run(&[&ask[..], &["--choose", "date_two_ways=day_first"]].concat());
    let file = std::path::Path::new("a").join("import.ron");
    let wrote = format!("wrote {}\n", file.display());
    assert_eq!(
        (run.exit, run.stderr.as_str()),
        (Some(0), wrote.as_str()),
        "{run}"
    );
    let top = top.change(
        "a/import.ron",
        "(class: date_two_ways, choose: day_first)",
        "(class: date_two_ways, choose: day_first /* as we write */)",
    );
    let more = [
        "--choose",
        "a.csv:2=month_first",
        "--choose",
        "date_two_ways=month_first",
        "--choose",
        "other=leave_out",
    ];
    assert_eq!(top.run(&[&ask[..], &more].concat()).exit, Some(0));
    let text = top.text("a/import.ron");
    assert!(
        text.contains("choose: month_first /* as we write */"),
        "{text}"
    );
    let kept = ImportChoices::read(&text).expect("choices");
    assert_eq!((kept.choices.len(), kept.rows.len()), (2, 1));
}

#[test]
fn what_cannot_be_chosen_is_refused_with_what_can() {
    let top = BenchTop::empty().file("a.csv", "code,name\nV1,N. maxima\n");
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    for (choice, words) in [
        (
            "date_two_ways=cm",
            "its choices: take, day_first, month_first, year_first, leave_out",
        ),
        ("dates=take", "`dates=take` is not a choice"),
        ("other", "`other` is not a choice"),
        ("b.csv:3=take", "the tables are a.csv"),
    ] {
        let run = top.run(&["import", "a.csv", "--registry", "mine", "--choose", choice]);
        assert_eq!(run.exit, Some(2), "{run}");
        assert!(run.stderr.contains(words), "{run}");
    }
    assert!(!top.path().join("import.ron").exists());
    let top = top.file("import.ron", "(choices: [(class: dates, choose: take)])");
    let run = top.run(&["import", "a.csv", "--registry", "mine"]);
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(run.stderr.contains("import.ron:1:"), "{run}");
}

/// In a registry's own folder the file is no page; where pages of crosses are looked for it would be one.
#[test]
fn the_file_of_choices_is_never_a_page() {
    let top = BenchTop::sound().file("a.csv", "code,name,got\nV9,N. ventricosa,03/04/21\n");
    let choose = ["--choose", "date_two_ways=day_first"];
    let run = top.run(&[&["import", "a.csv"][..], &choose].concat());
    assert_eq!(run.exit, Some(0), "{run}");
    let checked = top.run(&["check"]);
    assert!(!checked.stdout.contains("import.ron"), "{checked}");
    let top = top.file(
        "crosses/b.csv",
        "code,name,got\nV9,N. ventricosa,03/04/21\n",
    );
    let run = top.run(&[&["import", "crosses/b.csv"][..], &choose].concat());
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(!top.path().join("crosses/import.ron").exists());
}

/// The words of an import of tables into a registry that was begun for it.
fn import_into_new<'a>(top: &BenchTop, tables: &[&'a str]) -> Vec<&'a str> {
    let new = top.run(&["new", "mine"]);
    assert_eq!(new.exit, Some(0), "{new}");
    let into = ["--registry", "mine", "--apply", "--today", "2025-06-01"];
    [&["import"][..], tables, &into].concat()
}

/// A row that would bring a fault, here a plant among its own ancestors, is named with its table, and the choice given leaves it out.
#[test]
fn a_refused_table_names_its_row() {
    let top = BenchTop::empty()
        .file(
            "plants.csv",
            "Code,Name,Span (cm)\nV1,N. maxima,4\nX20-01-1,,3\n",
        )
        .file(
            "crosses.csv",
            "Cross no.,Mother,Father\nX20-01,X20-01-1,V1\nX20-02,V1,?\n",
        );
    let import = import_into_new(&top, &["plants.csv", "crosses.csv"]);
    let refused = top.run(&import);
    assert_eq!(refused.exit, Some(2), "{refused}");
    let choice = "crosses.csv:2=leave_out";
    assert!(refused.stderr.contains("crosses.csv, row 2"), "{refused}");
    assert!(refused.stderr.contains(choice), "{refused}");
    let applied = top.run(&[&import[..], &["--choose", choice]].concat());
    assert_eq!(applied.exit, Some(0), "{applied}");
}

/// Of several rows in the place of a fault only the one that takes it away is offered, and each of them is named.
#[test]
fn what_is_offered_takes_the_fault_away() {
    let top = BenchTop::empty()
        .file("p.csv", "Code,Name\nV1,N. maxima\nV2,N. ventricosa\n")
        .file("c.csv", "Cross no.,Mother,Father\nX20-01,V1,V2\n")
        .file("g.csv", "Cross,Sown,Seeds\nX20-01,2021-05-01,20\n")
        .file("d.csv", "Code,Sown,Died\nX20-01-1,2021-05-01,2021-01-01\n");
    let import = import_into_new(&top, &["p.csv", "c.csv", "g.csv", "d.csv"]);
    let refused = top.run(&import);
    assert_eq!(refused.exit, Some(2), "{refused}");
    for words in [
        "d.csv, row 2; g.csv, row 2",
        "leave a row out: --choose 'd.csv:2=leave_out'",
    ] {
        assert!(refused.stderr.contains(words), "{words}\n{refused}");
    }
    let applied = top.run(&[&import[..], &["--choose", "d.csv:2=leave_out"]].concat());
    assert_eq!(applied.exit, Some(0), "{applied}");
}
