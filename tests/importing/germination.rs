//! Tables about the seed of crosses: sown, counted, left over. No row of them is a plant.

use crate::tables::{
    assert_adds_up, brought, faults, page, pages_with, sorted, sources, table, today,
};
use podbook::analysis::import::import;
use podbook::record::{ImportChoices, RowClass};
use podbook::recording::draft::{Draft, PageChange};
use podbook::recording::import::bring_in;
use podbook::registry::build;
use podbook::report::import::import_report;

const COUNTS: [&str; 6] = [
    "Cross|Sown|Seeds|Germinated|Counted on",
    "C19-A|2 Nov 2019|100|42|15 Jan 2020",
    "C19-A|3 Nov 2019|60|0|15 Jan 2020",
    "C19-B|12 Nov 2019|60|11|2 Feb 2020",
    "C19-B||||",
    "C19-B|12 Nov 2019||9|",
];

/// What `podbook import --apply` makes of a table in a registry with these pages.
fn then(
    changes: &[PageChange],
    lines: &[&str],
) -> (podbook::analysis::import::Import, Vec<PageChange>) {
    let kept = sources(&pages_with(changes));
    let (registry, _) = build(&kept);
    let import = import(
        &registry,
        &[table("g.csv", lines)],
        &ImportChoices::default(),
        today(),
    );
    assert_adds_up(&import);
    let mut draft = Draft::new(&registry, today());
    bring_in(&import, &mut draft).expect("it comes in");
    (import, draft.changes())
}

/// The first row begins the cross, a second sowing is added to it, and what may be the same sowing is said and left out.
#[test]
fn a_table_of_counts_begins_crosses_and_adds_sowings() {
    let tables = [table("g.csv", &COUNTS)];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let changes = brought(&tables, "()");
    let first = page(&changes, "crosses/C19-A.ron");
    for words in [
        "parents: unknown",
        "(code: \"L1\", seeds: 100)",
        "(code: \"S1\", lot: \"L1\", on: \"2 Nov 2019\", seeds: 100, germinated: [(on: \"15 Jan 2020\", count: 42)])",
        "(code: \"S2\", on: \"3 Nov 2019\", seeds: 60, germinated: [(on: \"15 Jan 2020\", count: 0)], note: \"{g.csv, row 3:",
    ] {
        assert!(first.contains(words), "{words}\n{first}");
    }
    assert!(!first.contains("seedlings:"), "{first}");
    let second = page(&changes, "crosses/C19-B.ron");
    assert!(!second.contains("S2"), "{second}");
    let last = import.rows.last().expect("a row");
    assert!(!last.comes);
    assert_eq!(last.class, RowClass::Differs);
    let report = import_report(&import, &[]);
    let said = report.doubts.last().expect("a doubt");
    assert!(
        said.why.starts_with("may be the sowing in another row"),
        "{}",
        said.why
    );
    assert_eq!(faults(&changes), Vec::<String>::new());
    let again: Vec<String> = then(&changes, &COUNTS)
        .1
        .into_iter()
        .map(|of| of.path)
        .collect();
    assert!(
        !again.iter().any(|path| path.ends_with("C19-A.ron")),
        "{again:?}"
    );
}

/// A cross on record gets a further sowing; seed that is not said to be sown is not taken in, and the page is named.
#[test]
fn a_cross_on_record_gets_a_sowing_and_nothing_else() {
    let tables = [
        table("p.csv", &["code|name", "V1|N. maxima", "V2|N. ventricosa"]),
        table(
            "c.csv",
            &[
                "code|mother|father|pollinated|sown|seeds",
                "X20-01|V1|V2|2020-05-01|2020-11-01|80",
            ],
        ),
    ];
    let before = brought(&tables, "()");
    let cross = page(&before, "crosses/X20-01.ron");
    assert!(
        cross.contains("(code: \"S1\", lot: \"L1\", on: \"2020-11-01\", seeds: 80)"),
        "the number sown stands with the sowing\n{cross}"
    );
    let lines = [
        "Cross|Sown|Seeds|Germinated|Pods",
        "X20-01|2020-12-24|40|7|",
        "X20-01|2020-11-01|80|31|",
        "X20-01||500||3",
    ];
    let (import, changes) = then(&before, &lines);
    let comes: Vec<bool> = import.rows.iter().map(|row| row.comes).collect();
    assert_eq!(comes, [true, false, false]);
    let cross = page(&changes, "crosses/X20-01.ron");
    let added =
        "(code: \"S2\", on: \"2020-12-24\", seeds: 40, germinated: [(on: \"?\", count: 7)], note:";
    assert!(cross.contains(added), "{cross}");
    assert!(
        !cross.contains("S3") && !cross.contains("seedlings:"),
        "{cross}"
    );
    let report = import_report(&import, &[]);
    let whys: Vec<&str> = report.doubts.iter().map(|of| of.why.as_str()).collect();
    assert!(
        whys[0].starts_with("may be sowing X20-01.S1, which is on record"),
        "{whys:?}"
    );
    assert!(
        whys[1].contains("write what is new on crosses/X20-01.ron"),
        "{whys:?}"
    );
    let both: Vec<PageChange> = before
        .into_iter()
        .filter(|of| !of.path.contains("X20"))
        .chain(changes)
        .collect();
    assert_eq!(faults(&both), Vec::<String>::new());
    assert!(
        then(&both, &lines[..2]).1.is_empty(),
        "a second run adds nothing"
    );
}

/// Seedlings that came up, with and without a day of sowing, and a pod that did not set.
#[test]
fn what_came_up_and_what_did_not_set_is_recorded() {
    let tables = [
        table("p.csv", &["code|name", "V1|N. maxima", "V2|N. ventricosa"]),
        table(
            "c.csv",
            &[
                "code|mother|father|pollinated|pods|seeds|sown|came up",
                "X20-01|V1|V2|2020-05-01|1|90|2020-11-01|0",
                "X20-02|V1|V2|2020-05-02|1|90||12",
                "X20-03|V1|V2|2020-05-03|0|||",
                "X20-04|V1|V2|2020-05-04||~90|2020-11-01|a few",
            ],
        ),
    ];
    let changes = brought(&tables, "()");
    for (number, words) in [
        (1, "germinated: [(on: \"?\", count: 0)]"),
        (
            2,
            "(code: \"S1\", lot: \"L1\", seeds: 90, germinated: [(on: \"?\", count: 12)])",
        ),
        (3, "(zone: \"A\", on: [\"2020-05-03\"], set: 0)"),
        // An estimate is no number of seeds sown, and a few is no count.
        (4, "(code: \"S1\", lot: \"L1\", on: \"2020-11-01\")"),
    ] {
        let cross = page(&changes, &format!("crosses/X20-0{number}.ron"));
        assert!(cross.contains(words), "{words}\n{cross}");
    }
    let none_set = page(&changes, "crosses/X20-03.ron");
    assert!(
        !none_set.contains("pods: [") && !none_set.contains("seed_lots:"),
        "{none_set}"
    );
    assert_eq!(faults(&changes), Vec::<String>::new());
    assert_eq!(sorted(&tables).rows[5].class, RowClass::Other);
}

/// Seed in words is seed, and no plant; `none` is none.
#[test]
fn seed_in_words_is_no_plant() {
    let lines = [
        "Code|Name|From|Seeds",
        "S1|N. mirabilis|swap|30",
        "S2|N. gracilis|swap|a pinch",
        "S3|N. khasiana|swap|too many to count",
        "S4|N. alata|swap|none",
    ];
    let tables = [table("s.csv", &lines)];
    let import = sorted(&tables);
    let (clean, other) = (RowClass::Clean, RowClass::Other);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    assert_eq!(classes, [clean, other, other, clean]);
    let changes = brought(&tables, "()");
    for (code, lot) in [
        (
            "S2",
            "(code: \"L1\", pod: \"P1\", left: \"not known from the table\")",
        ),
        (
            "S3",
            "(code: \"L1\", pod: \"P1\", left: \"not known from the table\")",
        ),
        ("S4", "(code: \"L1\", pod: \"P1\", seeds: 0)"),
    ] {
        let text = page(&changes, &format!("crosses/{code}.ron"));
        assert!(text.contains(lot), "{lot}\n{text}");
    }
    assert!(
        changes.iter().all(|of| of.path != "clones.ron"),
        "{changes:?}"
    );
}

/// What is left of seed is in the table's words; beside plants `Left` and `Qty` say nothing of seed.
#[test]
fn what_is_left_is_in_the_words_of_the_table() {
    let lines = [
        "Packet no|Species / cross|From|Rec'd|Qty|Left|Stored",
        "SP1|N. mirabilis|swap|June 2018|30 seeds|none|",
        "SP2|N. gracilis|swap|2020-03-02|approx 50|about 20|fridge",
        "SP3|N. khasiana|swap|2020-03-02|1 pinch|?|fridge",
        "SP4|N. khasiana|swap|2020-03-02||120|fridge",
        "SP5|N. alata|swap|2020-03-02|||",
    ];
    let tables = [table("s.csv", &lines)];
    assert_eq!(sorted(&tables).tables[0].headed, Some(1));
    let changes = brought(&tables, "()");
    for (code, lot) in [
        ("SP1", "seeds: 30, came: \"June 2018\", left: \"none\""),
        (
            "SP2",
            "seeds: 50, estimated: true, came: \"2020-03-02\", left: \"about 20\"",
        ),
        (
            "SP3",
            "(code: \"L1\", pod: \"P1\", came: \"2020-03-02\", left: \"not known from the table\"",
        ),
        (
            "SP4",
            "(code: \"L1\", pod: \"P1\", came: \"2020-03-02\", left: \"120\"",
        ),
        (
            "SP5",
            "(code: \"L1\", pod: \"P1\", came: \"2020-03-02\", left: \"not known from the table\"",
        ),
    ] {
        let text = page(&changes, &format!("crosses/{code}.ron"));
        assert!(text.contains(lot), "{lot}\n{text}");
    }
    assert_eq!(faults(&changes), Vec::<String>::new());
    let plants = table(
        "a.csv",
        &["Code|Name|Qty|Left", "V1|N. maxima|3|2020-05-01"],
    );
    let import = sorted(std::slice::from_ref(&plants));
    let unread = import_report(&import, &[]).cautions.remove(0);
    assert!(
        unread.ends_with("in the notes: Qty and Left. Name what one holds in import.ron"),
        "{unread}"
    );
    let changes = brought(&[plants], "()");
    assert!(page(&changes, "clones.ron").contains("code: \"V1\""));
}
