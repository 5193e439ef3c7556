//! Whether a plant went is read alike in every column. What leaves it open is asked about, and the plant counts as here.

use crate::shapes::read;
use crate::tables::{assert_adds_up, brought, chosen, page, sorted, table};
use crate::workbook::{Put, PutSheet, ods, xlsx};
use podbook::analysis::import::{ImportRow, Why};
use podbook::record::RowClass;

/// Columns in which a sale or a gift can stand.
const HANDED_ON: [&str; 6] = ["Sold", "Given", "Sold to", "Buyer", "Given to", "Traded"];

/// Cells of such columns by what they say.
const NOT_GONE: &str =
    "no | not for sale | not yet | N | kept | unsold | still here | nobody | alive | - | n/a";
const OPEN: &str = "2 cuttings to Dan | reserved for Bo | Bo (cutting) | for sale | Bo? | maybe Bo | half | pollen 2020 | \
    wanted by Cy | 3 of 5 | in spring? | to be collected May 2020 | Bo 2019, returned 2020 | still alive 2023 | \
    promised to Bo | ?? | unknown | 2 cuttings 2014 | no, a cutting | Bo, not collected yet | 1899-12-31 | 2031-05-01";
const GONE: &str = "yes | x | 2019-05-01 | Bo | Bo May 2021 | Bo 2020-02 to 2020-03 | 2019 to 2021 | to Bo | £20 to Bo";

/// The one row of a table with a cell under a heading.
fn row(heading: &str, cell: &str) -> ImportRow {
    let head = format!("Code|Name|{heading}");
    let row = format!("A1|N. maxima|{cell}");
    let mut import = sorted(&[table("a.csv", &[&head, &row])]);
    assert_adds_up(&import);
    import.rows.remove(0)
}

fn assert_open(heading: &str, cell: &str) {
    let row = row(heading, cell);
    assert_eq!(row.facts.fate, None, "{heading}: {cell}");
    assert_eq!(row.facts.to, None, "{heading}: {cell}");
    assert_eq!(row.class, RowClass::Other, "{heading}: {cell}");
    assert_eq!(row.doubts[0].why, Why::NoStatus, "{heading}: {cell}");
}

#[test]
fn a_sale_or_gift_is_read_alike_in_every_column() {
    for heading in HANDED_ON {
        let word = match heading {
            "Sold" | "Sold to" | "Buyer" => "sold",
            _ => "given",
        };
        for cell in NOT_GONE.split(" | ") {
            let row = row(heading, cell);
            assert_eq!(row.class, RowClass::Clean, "{heading}: {cell}");
            assert_eq!(row.facts.fate, None, "{heading}: {cell}");
        }
        for cell in OPEN.split(" | ") {
            assert_open(heading, cell);
        }
        for cell in GONE.split(" | ") {
            let row = row(heading, cell);
            assert_eq!(row.class, RowClass::Clean, "{heading}: {cell}");
            let fate = row.facts.fate.as_ref();
            assert_eq!(fate.map(|of| of.word), Some(word), "{heading}: {cell}");
            let to = row.facts.to.as_deref();
            assert_eq!(to, cell.contains("Bo").then_some("Bo"), "{heading}: {cell}");
        }
    }
}

#[test]
fn only_a_day_or_a_cause_under_died_is_a_death() {
    for cell in [
        "maybe",
        "one branch 2019",
        "almost (2019)",
        "old crown 2018",
        "nearly",
        "still alive 2023",
        "tag lost",
        "lost label",
        "rot on one leaf",
        "crown rot, recovered",
        "2019, resprouted 2020",
        "2",
    ] {
        assert_open("Died", cell);
    }
    for (cell, on, clean) in [
        ("2019-05-01", "2019-05-01", true),
        ("2020-02 to 2020-03", "2020-02 to 2020-03", true),
        ("2019 (rot)", "2019", true),
        ("dead 2019", "2019", true),
        ("yes", "?", true),
        // These say that it died, and not when.
        ("rot", "?", false),
        ("root rot 2019", "?", false),
        ("yes, slugs", "?", false),
        ("2019?", "?", false),
        ("2019 or 2020", "?", false),
        ("sometime in 2019", "?", false),
    ] {
        let row = row("Died", cell);
        let fate = row.facts.fate.as_ref();
        let fate = fate.map(|of| (of.word, of.on.as_str()));
        assert_eq!(fate, Some(("died", on)), "{cell}");
        assert_eq!(row.class == RowClass::Clean, clean, "{cell}");
    }
}

#[test]
fn words_behind_a_status_may_take_it_back() {
    for cell in [
        "sold 2019, returned 2020",
        "lost 2019, found 2020",
        "dead: no, resprouted 2020",
        "dead - came back 2020",
        "dead or dying",
        "sold 3 of 5",
        "died (not sure)",
        "sold to be collected May 2020",
        "sold, not collected yet",
        "sold to Bo?",
        "sold to Bo (cutting)",
        "given on loan to Fi",
    ] {
        assert_open("Status", cell);
    }
    // A doubt about when or why is none about the end.
    for cell in [
        "dead, probably rot",
        "lost, never found",
        "died, never recovered",
        "sold 2019 or 2020",
        "dead 2019?",
    ] {
        let row = row("Status", cell);
        assert!(row.facts.fate.is_some(), "{cell}");
        assert_eq!(row.doubts[0].why, Why::NoDayOfEnd, "{cell}");
    }
    for cell in ["sold 2019, died 2020", "sold & died"] {
        let row = row("Status", cell);
        assert_eq!(row.doubts[0].why, Why::TwoEnds, "{cell}");
    }
}

/// What the columns say together: sold and dead is asked about, a person in a column that does not say how too.
#[test]
fn a_receiver_beside_another_end_is_asked_about() {
    let asked = |lines: &[&str]| sorted(&[table("a.csv", lines)]).rows.remove(0);
    let both = asked(&["Code|Name|Died|Sold to", "A1|N. maxima|2020|Bo"]);
    assert_eq!(both.class, RowClass::Contradiction);
    let here = asked(&["Code|Name|Status|Sold to", "A1|N. maxima|alive|Bo"]);
    assert_eq!(here.class, RowClass::Contradiction);
    let two = asked(&["Code|Name|Status|Sold to", "A1|N. maxima|sold to Ann|Bo"]);
    assert_eq!(two.class, RowClass::Contradiction);
    let one = asked(&[
        "Code|Name|Status|Sold to",
        "A1|N. maxima|sold to Ann|Ann C.",
    ]);
    assert_eq!(one.class, RowClass::Clean);
    let bare = asked(&["Code|Name|Who to", "A1|N. maxima|Bo"]);
    assert_eq!(bare.doubts[0].why, Why::NoStatus);
    assert_eq!(bare.facts.fate, None);
    let given = asked(&["Code|Name|Status|Sold to", "A1|N. maxima|swapped|Bo"]);
    let fate = given.facts.fate.map(|of| of.word);
    assert_eq!((given.class, fate), (RowClass::Clean, Some("given")));
}

/// A range of days has a `to` of its own, which is before no person.
#[test]
fn a_range_of_days_is_whole() {
    let lines = [
        "Code|Name|Status|Sold|Sold to",
        "A1|N. maxima|died 2020-02 to 2020-03||",
        "A2|N. maxima|sold May 2021 to June 2021||",
        "A3|N. maxima|lost 2019 to 2021||",
        "A4|N. maxima|sold 2020-02-03 to 2020-03-02 to Bo||",
        "A5|N. maxima|culled 2020-02-03 to 2020-03-02 (rot)||",
        "A6|N. maxima||2019 to 2021|Bo",
        "A7|N. maxima|||Bo 2020-02 to 2020-03",
        "A8|N. maxima|||2019-05-01",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert_eq!(import.count(RowClass::Clean), 8, "{:#?}", import.rows);
    let pages = brought(&tables, "()");
    let clones = page(&pages, "clones.ron");
    for (code, fate) in [
        ("A1", "died(on: \"2020-02 to 2020-03\")"),
        ("A2", "sold(on: \"May 2021 to June 2021\")"),
        ("A3", "lost(on: \"2019 to 2021\")"),
        ("A4", "sold(on: \"2020-02-03 to 2020-03-02\", to: \"Bo\")"),
        (
            "A5",
            "culled(on: \"2020-02-03 to 2020-03-02\", reason: \"rot\")",
        ),
        ("A6", "sold(on: \"2019 to 2021\", to: \"Bo\")"),
        ("A7", "sold(on: \"2020-02 to 2020-03\", to: \"Bo\")"),
        ("A8", "sold(on: \"2019-05-01\")"),
    ] {
        let line = clones
            .lines()
            .find(|line| line.contains(&format!("\"{code}\"")));
        assert!(
            line.is_some_and(|line| line.contains(fate)),
            "{fate}: {clones}"
        );
    }
}

/// In a list of all plants a bare date beside the buyers of a few may be the day a plant came as well as the day it went.
#[test]
fn a_bare_date_beside_the_buyers_of_a_few_is_asked_about() {
    for heading in ["Sold to", "Buyer", "Given to"] {
        let head = format!("Code|Name|Date|{heading}");
        let of = |rows: &[&str], choices: &str| {
            let lines = [&[head.as_str()][..], rows].concat();
            let import = chosen(&[table("a.csv", &lines)], choices);
            assert_adds_up(&import);
            let rows = import.rows.into_iter().map(|row| {
                let on = row.facts.fate.as_ref().map(|of| of.on.clone());
                (row.class, row.facts.acquired, on)
            });
            rows.collect::<Vec<_>>()
        };
        let day = || Some("2019-05-01".to_owned());
        let unknown = || Some("?".to_owned());
        let (clean, other) = (RowClass::Clean, RowClass::Other);
        let rows = ["A1|N. maxima|2019-05-01|", "A2|N. maxima|2019-05-01|Bo"];
        assert_eq!(
            of(&rows, "()"),
            [(other, None, None), (other, None, unknown())]
        );
        // The grower says which, and is believed.
        let came = "(columns: [(heading: \"Date\", holds: acquired)])";
        assert_eq!(
            of(&rows, came),
            [(clean, day(), None), (clean, day(), unknown())]
        );
        // A list of what was sold names who has each, one without a buyer has none.
        assert_eq!(of(&rows[1..], "()"), [(clean, None, day())]);
        assert_eq!(of(&rows[..1], "()"), [(clean, day(), None)]);
        let kept = ["A1|N. maxima|2019-05-01|not for sale"];
        assert_eq!(of(&kept, "()"), [(clean, day(), None)]);
    }
}

/// What became of a plant is no place.
#[test]
fn an_end_under_location_is_asked_about() {
    for cell in [
        "dead",
        "sold 2020",
        "given to Bo 2020",
        "gone",
        "no",
        "✝ 2020",
    ] {
        let row = row("Location", cell);
        assert_eq!(row.doubts[0].why, Why::NoPlace, "{cell}");
        assert_eq!((row.facts.place, row.facts.fate), (None, None), "{cell}");
    }
    let shelf = row("Location", "shelf 2");
    assert_eq!(shelf.class, RowClass::Clean);
    assert_eq!(shelf.facts.place.as_deref(), Some("shelf 2"));
}

/// A failure that was written down is a 0; seed that was given away was not sown.
#[test]
fn none_is_a_count() {
    let lines = [
        "Cross|Mother|Father|Pods|Seeds|Sown|Came up|Counted",
        "X20-01|N. maxima|N. truncata|none|none|2020-05-01|none|2020-09-01",
        "X20-02|N. maxima|N. truncata|1|40|2020-05-01|-|",
        "X20-03|N. maxima|N. truncata|1|40|given away||",
        "X20-04|N. maxima|N. truncata|no|no|no|no|",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_adds_up(&import);
    let said = import.rows.iter().map(|row| {
        let facts = &row.facts;
        (
            facts.pods,
            facts.seed_number(),
            facts.germinated,
            facts.is_sown(),
        )
    });
    let said: Vec<_> = said.collect();
    assert_eq!(
        said,
        [
            (Some(0), Some(0), Some(0), true),
            (Some(1), Some(40), None, true),
            (Some(1), Some(40), None, false),
            (Some(0), Some(0), None, false),
        ]
    );
    assert_eq!(import.rows[2].class, RowClass::Other);
}

/// A 0 in a cell of dates is blank, and a time is no day.
#[test]
fn a_zero_is_no_day() {
    let rows = vec![
        ["Code", "Name", "Got", "Died"].map(Put::from).to_vec(),
        vec![
            Put::from("A1"),
            Put::from("N. maxima"),
            Put::Day(0, "1899-12-30"),
            Put::Day(0, "1899-12-30"),
        ],
        vec![
            Put::from("A2"),
            Put::from("N. maxima"),
            Put::Day(43586, "2019-05-01"),
            Put::Day(0, "1899-12-30"),
        ],
    ];
    let sheet = PutSheet {
        name: "Plants",
        rows,
        joined: Vec::new(),
    };
    let book = std::slice::from_ref(&sheet);
    for (name, bytes) in [("a.xlsx", xlsx(book)), ("a.ods", ods(book))] {
        let import = sorted(&read(name, &bytes));
        let days = import.rows.iter().map(|row| row.facts.acquired.as_deref());
        assert_eq!(days.collect::<Vec<_>>(), [None, Some("2019-05-01")]);
        assert!(import.rows.iter().all(|row| row.facts.fate.is_none()));
        assert_eq!(import.count(RowClass::Clean), 2, "{:#?}", import.rows);
    }
    // The same as words of a `.csv`.
    let words = row("Got", "1899-12-31");
    assert_eq!(words.doubts[0].why, Why::NoDate);
}
