//! What became of plants, in the words of a status column; plants of one's own; how surely parents are written.

use crate::tables::{assert_adds_up, brought, page, sorted, table};
use podbook::analysis::import::Why;
use podbook::record::RowClass;

/// The day and the person are both taken, in either order; two ends in one cell contradict each other.
#[test]
fn a_status_says_when_and_to_whom() {
    let lines = [
        "Code|Name|Status",
        "A1|N. maxima|given to Bo May 2021",
        "A2|N. maxima|sold 2023 to a visitor",
        "A3|N. maxima|sold to a visitor",
        "A4|N. maxima|sold 2022; died 2023",
        "A5|N. maxima|sold; a good price",
        "A6|N. maxima|sold to Bo on 3 May 2021",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let (clean, asked) = (RowClass::Clean, RowClass::Contradiction);
    assert_eq!(classes[..4], [clean, clean, clean, asked]);
    assert_eq!(classes[4..], [RowClass::Other, clean]);
    assert_eq!(import.rows[3].doubts[0].why, Why::TwoEnds);
    let pages = brought(&tables, "()");
    let clones = page(&pages, "clones.ron");
    for fate in [
        "given(on: \"May 2021\", to: \"Bo\")",
        "sold(on: \"2023\", to: \"a visitor\")",
        "sold(on: \"?\", to: \"a visitor\")",
        "sold(on: \"3 May 2021\", to: \"Bo\")",
    ] {
        assert!(clones.contains(fate), "{fate}: {clones}");
    }
}

/// One capitalised word behind it is the buyer; what may be another word stays a question.
#[test]
fn a_name_behind_sold_is_the_buyer() {
    let lines = [
        "Code|Name|Status",
        "A1|N. maxima|sold Anna",
        "A2|N. maxima|Sold Anna May 2021",
        "A3|N. maxima|given Bo £5",
        "A4|N. maxima|sold Cheap",
        "A5|N. maxima|sold Spring",
        "A6|N. maxima|sold Anna or Bo",
        "A7|N. maxima|sold good plant",
        "A8|N. maxima|died Anna",
        "A9|N. maxima|Sold Out",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    assert_eq!(classes[..3], [RowClass::Clean; 3]);
    assert!(
        classes[3..].iter().all(|class| *class != RowClass::Clean),
        "{classes:?}"
    );
    let buyers = import.rows.iter().map(|row| row.facts.to.as_deref());
    let buyers: Vec<Option<&str>> = buyers.collect();
    assert_eq!(buyers[..4], [Some("Anna"), Some("Anna"), Some("Bo"), None]);
    assert!(buyers[4..].iter().all(Option::is_none), "{buyers:?}");
    let pages = brought(&tables, "()");
    let clones = page(&pages, "clones.ron");
    assert!(
        clones.contains("sold(on: \"May 2021\", to: \"Anna\")"),
        "{clones}"
    );
}

/// Neither the price nor a date in figures is part of the buyer's name.
#[test]
fn a_price_and_a_day_are_no_buyer() {
    let lines = [
        "Code|Name|Status",
        "A1|N. maxima|sold to a friend 2/10/2022 for 60",
        "A2|N. maxima|sold 12/5/23 £20 to a friend",
        "A3|N. maxima|sold to Bo 13/10/2022 in a swap",
        "A4|N. maxima|sold May 2021 20 EUR",
        "A5|N. maxima|sold to the 2023 show for £5.50 in May 2022",
        "A6|N. maxima|given to a club 2022, for free",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let (clean, two_ways) = (RowClass::Clean, RowClass::DateTwoWays);
    assert_eq!(classes[..2], [two_ways, two_ways]);
    assert!(classes[2..].iter().all(|class| *class == clean));
    let pages = brought(&tables, "()");
    let clones = page(&pages, "clones.ron");
    for fate in [
        "sold(on: \"2022-02-10 to 2022-10-02\", to: \"a friend\")",
        "sold(on: \"2023-05-12 to 2023-12-05\", to: \"a friend\")",
        "sold(on: \"13/10/2022\", to: \"Bo\")",
        "sold(on: \"May 2021\")",
        "sold(on: \"May 2022\", to: \"the 2023 show\")",
        "given(on: \"2022\", to: \"a club\")",
    ] {
        assert!(clones.contains(fate), "{fate}: {clones}");
    }
}

/// The same under a heading that says how it went.
#[test]
fn a_column_of_sales_says_to_whom() {
    let lines = [
        "Code|Name|Sold",
        "A1|N. maxima|13/10/2022 for £60",
        "A2|N. maxima|May 2021 to Bo",
        "A3|N. maxima|to Bo",
        "A4|N. maxima|not yet",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert_eq!(import.count(RowClass::Clean), 4);
    assert_eq!(import.rows[3].facts.fate, None);
    let pages = brought(&tables, "()");
    let clones = page(&pages, "clones.ron");
    for fate in [
        "sold(on: \"13/10/2022\")",
        "sold(on: \"May 2021\", to: \"Bo\")",
        "sold(on: \"?\", to: \"Bo\")",
    ] {
        assert!(clones.contains(fate), "{fate}: {clones}");
    }
}

/// And in a column of names.
#[test]
fn a_column_of_buyers_may_say_when() {
    let lines = [
        "Code|Name|Sold to",
        "A1|N. maxima|a friend £20 13/10/22",
        "A2|N. maxima|Bo",
        "A3|N. maxima|-",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert_eq!(import.count(RowClass::Clean), 3);
    assert_eq!(import.rows[2].facts.fate, None);
    let pages = brought(&tables, "()");
    let clones = page(&pages, "clones.ron");
    assert!(
        clones.contains("sold(on: \"13/10/2022\", to: \"a friend\")"),
        "{clones}"
    );
    assert!(clones.contains("sold(on: \"?\", to: \"Bo\")"), "{clones}");
}

/// What is lost, dead or sold of a plant is not the plant: such words are asked about, and it counts as here.
#[test]
fn a_part_that_is_gone_is_not_the_plant() {
    let parts = [
        "lost label",
        "lost tag 2022",
        "dead leaf",
        "sold out?",
        "died back",
        "lost pitchers",
        "sold cutting 2021",
        "gift from Bo",
    ];
    let rows = parts.iter().enumerate();
    let rows = rows.map(|(at, cell)| format!("A{at}|N. maxima|{cell}|not yet"));
    let head = "Code|Name|Status|Sold".to_owned();
    let lines: Vec<String> = std::iter::once(head).chain(rows).collect();
    let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
    let import = sorted(&[table("a.csv", &lines)]);
    for row in &import.rows {
        assert_eq!(row.facts.fate, None, "{row:#?}");
        assert_eq!(row.doubts.len(), 1, "{row:#?}");
        assert_eq!(row.doubts[0].why, Why::NoStatus);
    }
    let gone = [
        "dead, slugs",
        "died slugs",
        "dead of rot",
        "lost in the post",
        "dead May 2021",
    ];
    for cell in gone {
        let row = format!("A1|N. maxima|{cell}");
        let import = sorted(&[table("a.csv", &["Code|Name|Status", &row])]);
        assert!(import.rows[0].facts.fate.is_some(), "{cell}");
    }
}

/// A person, a place, a season or a cause behind what became of a plant is no part of it: it went, and what the words say
/// is asked about.
#[test]
fn a_person_or_a_cause_is_no_part_of_the_plant() {
    let gone = [
        ("sold Anna", "sold"),
        ("given Anna 2023-05-02", "given"),
        ("sold on market 2024-05-01", "sold"),
        ("dead by frost", "died"),
        ("dead from rot", "died"),
        ("dead root rot", "died"),
        ("dead leaf spot", "died"),
        ("dead last winter", "died"),
        ("lost winter 2023", "lost"),
    ];
    for (cell, word) in gone {
        let row = format!("A1|N. maxima|{cell}");
        let import = sorted(&[table("a.csv", &["Code|Name|Status", &row])]);
        let fate = import.rows[0].facts.fate.as_ref();
        assert_eq!(fate.map(|fate| fate.word), Some(word), "{cell}");
    }
    for cell in [
        "lost its label",
        "dead old leaves",
        "lost 2 pitchers in 2022",
        "dead growth point",
        "sold a cutting",
        "lost the flower spike",
        "dead root",
    ] {
        let row = format!("A1|N. maxima|{cell}");
        let import = sorted(&[table("a.csv", &["Code|Name|Status", &row])]);
        assert_eq!(import.rows[0].facts.fate, None, "{cell}");
        assert_eq!(import.rows[0].doubts[0].why, Why::NoStatus, "{cell}");
    }
}

/// Under a heading that says how it went only plain words say that it did not; whatever leaves that open is asked about.
#[test]
fn only_a_plain_no_is_no_end() {
    for heading in ["Died", "Sold"] {
        let of = |cell: &str| {
            let head = format!("Code|Name|{heading}");
            let row = format!("A1|N. maxima|{cell}");
            let mut import = sorted(&[table("a.csv", &[&head, &row])]);
            assert_adds_up(&import);
            import.rows.remove(0)
        };
        for cell in ["no", "not yet", "-", "alive", "Not yet.", "no, still here"] {
            let row = of(cell);
            assert_eq!(row.class, RowClass::Clean, "{heading}: {cell}");
            assert_eq!(row.facts.fate, None, "{heading}: {cell}");
        }
        for cell in [
            "not known",
            "unknown",
            "not recorded",
            "not sure",
            "no, a gift",
        ] {
            let row = of(cell);
            assert_eq!(row.doubts.len(), 1, "{heading}: {cell}");
            assert_eq!(row.doubts[0].why, Why::NoStatus, "{heading}: {cell}");
            assert_eq!(row.facts.fate, None, "{heading}: {cell}");
        }
        // These say that it went, and not when.
        for cell in ["no date", "not sure when", "no idea when", "No longer here"] {
            let row = of(cell);
            assert_eq!(row.doubts.len(), 1, "{heading}: {cell}");
            let on = row.facts.fate.as_ref().map(|fate| fate.on.as_str());
            assert_eq!(on, Some("?"), "{heading}: {cell}");
        }
    }
}

/// `no` under `Alive` is an end, and `Dead?` asks what `Dead` says.
#[test]
fn not_alive_is_dead() {
    let lines = [
        "Code|Name|Alive|Dead?",
        "A1|N. maxima|yes|",
        "A2|N. maxima|no|",
        "A3|N. maxima|N|2023-05-01",
        "A4|N. maxima||yes",
        "A5|N. maxima|yes|yes",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_adds_up(&import);
    let fates = import.rows.iter().map(|row| row.facts.fate.as_ref());
    let fates: Vec<_> = fates
        .map(|fate| fate.map(|of| (of.word, of.on.as_str())))
        .collect();
    let (died, on) = (Some(("died", "?")), Some(("died", "2023-05-01")));
    assert_eq!(fates[..4], [None, died, on, died]);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let (clean, asked) = (RowClass::Clean, RowClass::Contradiction);
    assert_eq!(classes, [clean, clean, clean, clean, asked]);
    // Under another heading it answers a question that is not known.
    let import = sorted(&[table("a.csv", &["Code|Name|Status", "A1|N. maxima|no"])]);
    assert_eq!(import.rows[0].doubts[0].why, Why::NoStatus);
}

/// A supplier that is the grower is none: the parents of such a plant are those of the row.
#[test]
fn a_plant_of_ones_own_keeps_its_parents() {
    let lines = [
        "Code|Name|From|Mother|Father",
        "B1|N. maxima|a friend||",
        "B2|N. alata|a friend||",
        "B3||own|B1|B2",
    ];
    let pages = brought(&[table("a.csv", &lines)], "()");
    let cross = pages.iter().find(|change| {
        let text = change.now.clone().unwrap_or_default();
        text.contains("known(seed: \"B1\", pollen: \"B2\")")
    });
    let cross = cross
        .unwrap_or_else(|| panic!("{pages:?}"))
        .now
        .clone()
        .unwrap_or_default();
    assert!(cross.contains("code: \"B3\""), "{cross}");
}

/// That a father is one of several stands in the form; whoever the table names is only claimed.
#[test]
fn parents_of_a_table_are_claimed() {
    let lines = [
        "Code|Name|Mother|Father",
        "V1|N. maxima||",
        "V2|N. alata||",
        "V3|N. mira||",
        "C1||V1|V2 & V3",
        "C2||V1|V2 or V3",
    ];
    let pages = brought(&[table("a.csv", &lines)], "()");
    for parents in ["pollen_mixed(seed: \"V1\"", "pollen_one_of(seed: \"V1\""] {
        let mut crosses = pages
            .iter()
            .map(|change| change.now.clone().unwrap_or_default());
        let cross = crosses.find(|text| text.contains(parents));
        let cross = cross.unwrap_or_else(|| panic!("{parents}: {pages:?}"));
        assert!(cross.contains("confidence: claim"), "{cross}");
    }
}
