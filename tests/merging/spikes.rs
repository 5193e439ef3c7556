//! Spikes that got one code on two sides are two spikes; what was seen of one never becomes what was seen of another.

use crate::book::Book;
use crate::others::merge;
use podbook::recording::merging::conflict::Decisions;
use podbook::recording::says::value::Record;
use std::collections::BTreeSet;

const PAGES: [(&str, &str); 3] = [
    (
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, registry: "tent", format: 2)"#,
    ),
    (
        "clones.ron",
        r#"(clones: [
        (code: "Ven1", received: "N. ventricosa", ramets: [(code: "a", made: original), (code: "b", from: "a")]),
        (code: "Spa1", received: "N. spathulata"),
    ])"#,
    ),
    (
        "crosses/X20-01.ron",
        r#"(code: "X20-01", parents: known(seed: "Ven1", pollen: "Spa1"), pollinations: [])"#,
    ),
];

/// A copy in which a spike of the plant is on record, and a zone of it.
fn with_spike(spike: &str, zone: &str) -> Book {
    let mut book = Book::of(&PAGES);
    for (path, from, to) in [
        (
            "clones.ron",
            "received: \"N. ventricosa\",",
            format!("received: \"N. ventricosa\", flowerings: [{spike}],"),
        ),
        (
            "crosses/X20-01.ron",
            "pollinations: []",
            format!("pollinations: [{zone}]"),
        ),
    ] {
        let text = book.pages[path].replacen(from, &to, 1);
        book.replace(path, true, &text);
    }
    book
}

fn spikes(book: &Book) -> String {
    let page = Record::of_page(&book.pages["clones.ron"]).unwrap();
    let plant = page.record("clones", 0).unwrap();
    plant.get("flowerings").unwrap().line()
}

const LONG: &str = r#"(code: "26a", opened: "by 2026-02-20", sex: female, ramet: "a", note: "long spike", over: "2026-02-28")"#;
const SEEN: &str = r#"(code: "26a", spike: "2026-02-18", ramet: "b")"#;

/// The spike of each side stays whole, whoever merges, and a zone goes with its spike.
#[test]
fn two_spikes_of_one_code_are_two() {
    let first = Book::of(&PAGES);
    let [a, b] = [
        with_spike(LONG, r#"(zone: "A", spike: "26a")"#),
        with_spike(SEEN, r#"(zone: "B", plant: "Ven1-b", spike: "26a")"#),
    ];
    let [mut here, mut there] = [a.clone(), b.clone()];
    let merged = here.merge(&b, Some(&first), None);
    there.merge(&a, Some(&first), None);
    assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
    assert_eq!(
        merged.apart.renamed,
        [("Ven1 spike 26a".to_owned(), "Ven1 spike 26b".to_owned())]
    );
    assert_eq!(here.says(), there.says());
    let (page, zones) = (spikes(&here), &here.pages["crosses/X20-01.ron"]);
    let coded = |spike: &str, code: &str| spike.replacen("26a", code, 1);
    let long_first = page.contains(LONG) && page.contains(&coded(SEEN, "26b"));
    let seen_first = page.contains(SEEN) && page.contains(&coded(LONG, "26b"));
    assert!(long_first || seen_first, "{page}");
    let (long, seen) = if long_first {
        ("26a", "26b")
    } else {
        ("26b", "26a")
    };
    for zone in [
        format!(r#"(zone: "A", spike: "{long}")"#),
        format!(r#"(zone: "B", plant: "Ven1-b", spike: "{seen}")"#),
    ] {
        assert!(zones.contains(&zone), "{zones}");
    }
    // The same once more is nothing new.
    let again = here.merge(&there, Some(&first), None);
    assert!(again.changes.is_empty(), "{:#?}", again.changes);
}

/// One spike of which both wrote the same is one, and so is one that the grower says is one.
#[test]
fn one_spike_stays_one() {
    let first = Book::of(&PAGES);
    let [mut a, b] = [with_spike(LONG, ""), with_spike(LONG, "")];
    a.merge(&b, Some(&first), None);
    assert_eq!(spikes(&a), format!("[{LONG}]"));
    let seen = r#"(code: "26a", spike: "2026-02-10", opened: "by 2026-02-20")"#;
    let (a, b) = (with_spike(LONG, ""), with_spike(seen, ""));
    let same = BTreeSet::from(["Ven1 spike 26a".to_owned()]);
    let merged = a
        .merging(&b, Some(&first), &Decisions::default(), &same)
        .unwrap();
    assert!(merged.apart.renamed.is_empty());
    let clones = merged.changes.iter().find(|of| of.path == "clones.ron");
    let page = clones.and_then(|of| of.now.clone()).unwrap();
    assert_eq!(page.matches("26a").count(), 1, "{page}");
    assert!(
        page.contains("2026-02-10") && page.contains("long spike"),
        "{page}"
    );
}

/// A plant of ours of which the other grower keeps a piece: what they saw on theirs stays there and is counted, in either
/// direction.
#[test]
fn what_a_friend_saw_on_a_piece_stays_there() {
    let ours = Book::of(&[
        (
            "registry.ron",
            r#"(genus: "Nepenthes", hemisphere: north, registry: "alder", format: 2, traits: [(code: "span", name: "span", reads: length(cm))])"#,
        ),
        (
            "clones.ron",
            r#"(clones: [(code: "Ven1", received: "N. ventricosa", ramets: [(code: "a", made: original), (code: "b", from: "a", fate: given(on: "2026-01"))],
                flowerings: [(code: "25a", opened: "2025-03", sex: female, ramet: "a"), (code: "26a", opened: "by 2026-02-20", sex: female, ramet: "a")])])"#,
        ),
    ]);
    let theirs = Book::of(&[
        (
            "registry.ron",
            r#"(genus: "Nepenthes", hemisphere: north, registry: "birch", format: 2, traits: [(code: "span", name: "span", reads: length(cm))])"#,
        ),
        (
            "clones.ron",
            r#"(clones: [(code: "Ven1", received: "N. ventricosa", told_by: (registry: "alder", code: "Ven1"), ramets: [(code: "a", made: original, fate: elsewhere), (code: "b", from: "a")],
                flowerings: [(code: "25a", opened: "2025-03", sex: female, seen_by: flowers, ramet: "a"), (code: "26a", spike: "2026-02-18", ramet: "b")])],
            sittings: [
                (on: "2026-03-01", columns: ["span cm"], rows: [["Ven1", "20"]]),
                (on: "2026-03-02", by: "me", columns: ["span cm"], rows: [["Ven1", "21"]]),
                (on: "2026-03-03", by: "a helper", columns: ["span cm"], rows: [["Ven1", "22"]]),
            ])"#,
        ),
    ]);
    let said = |merged: &podbook::recording::merging::merged::Merged| {
        let stayed = merged.stayed.iter();
        stayed
            .map(|of| (of.of.clone(), of.what.clone()))
            .collect::<Vec<_>>()
    };
    let mut a = ours.clone();
    let merged = merge(&mut a, &theirs, "birch");
    assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
    assert_eq!(
        said(&merged),
        [(
            "Ven1".to_owned(),
            vec![(1, "flowering"), (1, "reading without a reader")]
        )]
    );
    assert_eq!(
        spikes(&a),
        r#"[(code: "25a", opened: "2025-03", sex: female, ramet: "a"), (code: "26a", opened: "by 2026-02-20", sex: female, ramet: "a")]"#
    );
    let page = &a.pages["clones.ron"];
    assert!(!page.contains("\"20\""), "{page}");
    assert!(
        page.contains("by: \"birch\"") && page.contains("by: \"birch, a helper\""),
        "{page}"
    );
    let mut b = theirs.clone();
    let merged = merge(&mut b, &ours, "alder");
    assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
    assert_eq!(said(&merged), [("Ven1".to_owned(), vec![(1, "flowering")])]);
    assert_eq!(
        spikes(&b),
        r#"[(code: "25a", opened: "2025-03", sex: female, seen_by: flowers, ramet: "a"), (code: "26a", spike: "2026-02-18", ramet: "b")]"#
    );
}

const ALDER: [(&str, &str); 3] = [
    (
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, registry: "alder", format: 2, traits: [(code: "rim", name: "rim", reads: scale(["plain", "crisp"]))])"#,
    ),
    (
        "clones.ron",
        r#"(clones: [(code: "Ven1", received: "N. ventricosa", ramets: [(code: "a", made: original)]), (code: "Spa1", received: "N. spathulata")])"#,
    ),
    (
        "crosses/X24-01.ron",
        r#"(code: "X24-01", parents: known(seed: "Ven1", pollen: "Spa1"), pollinations: [(zone: "A", plant: "Ven1-a", on: ["2024-01-05"])],
            sowings: [(code: "S1", on: "2024-05")], seedlings: [(number: "1", sowing: "S1")])"#,
    ),
];

/// What was recorded here of a plant of theirs comes back neither as a conflict nor a second time, and what nobody recorded
/// there is not counted as left there.
#[test]
fn one_s_own_words_do_not_come_back() {
    let mut alder = Book::of(&ALDER);
    let mut birch = Book::of(&[
        (
            "registry.ron",
            r#"(genus: "Nepenthes", hemisphere: north, registry: "birch", format: 2, traits: [(code: "rim", name: "rim", reads: scale(["crisp", "plain"]))])"#,
        ),
        (
            "clones.ron",
            r#"(clones: [(code: "Ven1", received: "N. maxima")])"#,
        ),
    ]);
    merge(&mut birch, &alder, "alder");
    for (path, from, to) in [
        (
            "clones.ron",
            "received: \"N. ventricosa\",",
            "received: \"N. ventricosa\", identified: [(on: \"2025-05\", name: \"N. alata\", by: \"me\", accepted: true)],",
        ),
        (
            "crosses/X24-01.ron",
            "sowing: \"S1\"",
            "sowing: \"S1\", identified: [(on: \"2025-05\", name: \"N. alata\", by: \"a visitor\")]",
        ),
        (
            "crosses/X24-01.ron",
            "seedlings:",
            "sittings: [(on: \"2025-06-01\", by: \"me\", columns: [\"rim\"], rows: [[\"1\", \"2\"]])], seedlings:",
        ),
    ] {
        assert!(birch.pages[path].contains(from), "{}", birch.pages[path]);
        let text = birch.pages[path].replacen(from, to, 1);
        birch.replace(path, false, &text);
    }
    let merged = merge(&mut alder, &birch, "birch");
    assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
    assert!(merged.stayed.is_empty(), "{:?}", merged.stayed);
    let was = birch.pages.clone();
    for _ in 0..2 {
        let merged = merge(&mut birch, &alder, "alder");
        assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
        assert_eq!(birch.pages, was);
        let merged = merge(&mut alder, &birch, "birch");
        assert!(merged.changes.is_empty(), "{:#?}", merged.changes);
    }
    let page = &alder.pages["clones.ron"];
    assert!(
        page.contains("by: \"birch\"") && !page.contains("birch, birch"),
        "{page}"
    );
}
