//! A slip made by hand in an editor, and then a recording: it changes the record that was named, or is refused with the fault,
//! and every byte stays. No slip sends it into the record beside, and none is overwritten.

use crate::played::said;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

const PAGES: [(&str, &str); 5] = [
    (
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, traits: [
    (code: "span", name: "leaf span", reads: length(cm)),
    (code: "leaves", name: "leaf count", reads: count),
], format: 2)"#,
    ),
    (
        "species.ron",
        r#"(species: [(epithet: "ventricosa"), (epithet: "spathulata"), (epithet: "maxima")])"#,
    ),
    (
        "clones.ron",
        r#"(clones: [
    // the red one
    (code: "V1", received: "N. ventricosa", ramets: [(code: "a", place: "shelf 1"), (code: "b", place: "shelf 2")],
        flowerings: [(opened: "2021-03", sex: female)]),
    (code: "S1", received: "N. spathulata", flowerings: [(opened: "2021-03", sex: male)]),
])"#,
    ),
    (
        "crosses/X22-01.ron",
        r#"(
    code: "X22-01",
    parents: known(seed: "V1", pollen: "S1"),
    pollinations: [(zone: "A", plant: "V1-a", on: ["2022-03-26"], flowers: 12, set: 8, counted: "2022-04-23")],
    pods: [(code: "P1", zone: "A", capsules: 8, harvested: "2022-08-13", seeds: 240)],
    seed_lots: [(code: "L1", pod: "P1", seeds: 240)],
    sowings: [(code: "S1", lot: "L1", on: "2022-09-10", seeds: 60, germinated: [(on: "2022-12-03", count: 38)])],
    community_pots: [(code: "T1", sowing: "S1", alive: [(on: "2023-06-01", count: 12)])],
    seedlings: [
        // the best
        (number: "1", sowing: "S1", place: "shelf 1"),
        (number: "2", sowing: "S1"), (number: "3", sowing: "S1"), (number: "5", sowing: "S1"),
        /* odd one */ (number: "4", sowing: "S1", fate: died(on: "2024-05", cause: "rot")),
    ],
    sittings: [
        (on: "2024-05-11", columns: ["span cm", "leaves"], rows: [
            ["1", "12.5", "9"], ["2", "4.1", "6"], // small
            ["3", "6.7", "8"],
        ]),
    ],
)"#,
    ),
    (
        "crosses/X24-01.ron",
        r#"(code: "X24-01", parents: known(seed: "X22-01-1", pollen: "S1"), seedlings: [(number: "1")])"#,
    ),
];

/// Filled sheets, in the FOLDER of the registry.
const SHEETS: [(&str, &str); 2] = [
    ("sheet.csv", "plant,span cm\nX22-01-5,13\n"),
    ("notes.csv", "plant,span cm,note\nX22-01-5,13,a red lip\n"),
];

/// A page, what of it is typed over, and what stands there then.
type Slip = (&'static str, &'static str, &'static str);

/// What comes of a line that is entered then.
#[derive(Clone, Copy)]
enum Comes {
    /// The record that was named has changed: the page holds this.
    Right(&'static str),
    /// It is refused with these words.
    Refused(&'static str),
}
use Comes::{Refused, Right};

const CROSS: &str = "crosses/X22-01.ron";
const CLONES: &str = "clones.ron";

/// The record before the one that is named was left out.
const BESIDE: &[(Slip, &str, Comes)] = &[
    (
        (CROSS, r#"["1", "12.5", "9"]"#, r#"["1", 12.5, "9"]"#),
        "correct X22-01-3 span 6.8cm --on 2024-05-11",
        Right(r#"["3", "6.8cm", "8"]"#),
    ),
    (
        (
            CROSS,
            "sittings: [",
            r#"sittings: [(on: 2023, columns: ["span cm"], rows: [["1", "5"]]),"#,
        ),
        "correct X22-01-1 span 12.6cm --on 2024-05-11",
        Right(r#"["1", "12.6cm", "9"]"#),
    ),
    (
        (
            CROSS,
            "sittings: [",
            r#"sittings: [(on: 2023, columns: ["span cm"], rows: [["1", "5"]]),"#,
        ),
        "measure --from FOLDER/sheet.csv --on 2024-05-11",
        Right(r#"["5", "13", ""]"#),
    ),
    (
        (
            CROSS,
            "sowings: [",
            r#"sowings: [(Code: "S0", lot: "L1", seeds: 10), "#,
        ),
        "count X22-01.S1 --up 39 --on 2023-02",
        Right(r#"(on: "2022-12-03", count: 38), (on: "2023-02", count: 39)]"#),
    ),
    (
        (
            CROSS,
            "sowings: [",
            r#"sowings: [(Code: "S0", lot: "L1", seeds: 10), "#,
        ),
        "gone X22-01.S1 --culled",
        Right(r#"count: 38)], fate: culled(on: "2026-06-01"))"#),
    ),
    (
        (
            CROSS,
            "sowings: [",
            r#"sowings: [(Code: "S0", lot: "L1", seeds: 10), "#,
        ),
        "move X22-01.S1 \"shelf 4\"",
        Right(r#"count: 38)], place: "shelf 4")"#),
    ),
    (
        (
            CLONES,
            r#"flowerings: [(opened: "2021-03", sex: female)]"#,
            r#"flowerings: ["female 2020", (opened: "2021-03", over: "2021-04", sex: female), (code: "26a", opened: "2026-05-10")]"#,
        ),
        "flower V1 --spike 26a --over 2026-05-30",
        Right(r#"(code: "26a", opened: "2026-05-10", over: "2026-05-30")"#),
    ),
    (
        (
            CROSS,
            r#"(number: "2","#,
            r#"(number: 2, place: "x"), (number: "2","#,
        ),
        "gone X22-01-2 --died",
        Right(r#"(number: "2", sowing: "S1", fate: died(on: "2026-06-01"))"#),
    ),
    (
        (CROSS, "seed_lots: [", "seed_lots: [(code: 7, seeds: 30), "),
        "gone X22-01.L1 --sold --seeds 30",
        Right(r#"seeds: 240, gone: [(count: 30, fate: sold(on: "2026-06-01"))]"#),
    ),
    (
        (
            CROSS,
            "pollinations: [",
            "pollinations: [(zone: 3, flowers: 5), ",
        ),
        "took X22-01.A 9 --again",
        Right("flowers: 12, set: 9"),
    ),
    (
        (CROSS, r#"(number: "3","#, r#"(number: "3", number: "2","#),
        "move X22-01-3 \"shelf 4\"",
        Right(r#"number: "2", sowing: "S1", place: "shelf 4")"#),
    ),
    (
        (
            CROSS,
            "community_pots: [",
            r#"community_pots: [{1: 2}, (code: 1), "#,
        ),
        "count X22-01.T1 --standing 8 --on 2024-06-01",
        Right(r#"(on: "2023-06-01", count: 12), (on: "2024-06-01", count: 8)]"#),
    ),
];

/// What is to be changed stands on the page, and was left out.
const NOT_READ: &[(Slip, &str, Comes)] = &[
    (
        (CROSS, "fate: died(", r#"place: "shelf 1", fate: dead("#),
        "gone --place \"shelf 1\" --died --why frost",
        Refused("crosses/X22-01.ron:13: `fate` needs a known word (`dead`)"),
    ),
    (
        (
            CROSS,
            r#"died(on: "2024-05", cause: "rot")"#,
            r#"sold(to: "a friend", price: "20")"#,
        ),
        "gone X22-01-4 --died",
        Refused("crosses/X22-01.ron:13: `sold` has no `on`"),
    ),
    (
        (
            CROSS,
            r#"died(on: "2024-05", cause: "rot")"#,
            r#""sold May 2025""#,
        ),
        "gone X22-01-4 --died",
        Refused("crosses/X22-01.ron:13: "),
    ),
    (
        (CROSS, r#"died(on: "2024-05""#, r#"died(on: "2062-05""#),
        "gone X22-01-4 --sold",
        Refused("died 2062-05 (rot)"),
    ),
    (
        (CROSS, "fate: died(", "Fate: died("),
        "gone X22-01-4 --died",
        Refused("did you mean `fate`?"),
    ),
    (
        (
            CROSS,
            r#"(number: "3","#,
            r#"(number: "3", kept: "2025 best red","#,
        ),
        "keep X22-01-3 --why again",
        Refused("crosses/X22-01.ron:12: "),
    ),
    (
        (CROSS, r#"(number: "3","#, r#"(number: "3", place: 7,"#),
        "move X22-01-3 \"shelf 2\"",
        Refused("crosses/X22-01.ron:12: "),
    ),
    (
        (
            CROSS,
            r#"[(on: "2022-12-03", count: 38)]"#,
            r#""38 by December""#,
        ),
        "count X22-01.S1 --up 40",
        Refused("crosses/X22-01.ron:7: "),
    ),
    (
        (
            CLONES,
            r#"[(opened: "2021-03", sex: female)]"#,
            r#""March 2021""#,
        ),
        "flower V1 --opened 2026-05-30",
        Refused("clones.ron:4: "),
    ),
    (
        (
            CLONES,
            r#"[(code: "a", place: "shelf 1"), (code: "b", place: "shelf 2")]"#,
            r#""two""#,
        ),
        "cutting V1",
        Refused("clones.ron:3: "),
    ),
    (
        (CROSS, r#"["1", "12.5", "9"]"#, r#"["1", 12.5, "9"]"#),
        "correct X22-01-1 span 12.6cm",
        Refused("crosses/X22-01.ron:17: "),
    ),
    // A second row of one plant next to the one that was left out; a row without a column that all others get.
    (
        (CROSS, r#"["3", "6.7", "8"],"#, r#"["5", 7],"#),
        "measure --from FOLDER/sheet.csv --on 2024-05-11",
        Refused("crosses/X22-01.ron:18: "),
    ),
    (
        (CROSS, r#"["3", "6.7", "8"],"#, r#"["3", 7],"#),
        "measure --from FOLDER/notes.csv --on 2024-05-11",
        Refused("crosses/X22-01.ron:18: "),
    ),
];

/// Which record is meant is not said, and one that may be was left out.
const WHICH: &[(Slip, &str, Comes)] = &[
    (
        (
            CROSS,
            "pollinations: [",
            "pollinations: [(zone: 3, flowers: 5), ",
        ),
        "took X22-01 9 --again",
        Refused(
            "which zone of X22-01 is meant is not known: crosses/X22-01.ron has one that could not be read",
        ),
    ),
    (
        (
            CLONES,
            "sex: female)]",
            "sex: female), \"open since 2026-05-10\"]",
        ),
        "flower V1 --over 2026-05-30",
        Refused("clones.ron:4: "),
    ),
    (
        (
            CLONES,
            r#"(code: "b", place: "shelf 2")"#,
            r#"(code: 7, place: "shelf 2")"#,
        ),
        "gone V1 --died",
        Refused("clones.ron:3: "),
    ),
    (
        (
            CLONES,
            r#"(code: "b", place: "shelf 2")"#,
            r#"(code: 7, place: "shelf 2")"#,
        ),
        "move V1 \"shelf 3\"",
        Refused("clones.ron:3: "),
    ),
    (
        (
            CLONES,
            r#"(code: "b", place: "shelf 2")"#,
            r#"(code: 7, place: "shelf 2")"#,
        ),
        "move V1-a \"shelf 3\"",
        Right(r#"(code: "a", place: "shelf 3")"#),
    ),
    (
        (
            CROSS,
            "sittings: [",
            r#"sittings: [(on: 2025, columns: ["span cm"], rows: [["1", "15"]]),"#,
        ),
        "correct X22-01-1 span 12.6cm",
        Refused("crosses/X22-01.ron:15: "),
    ),
];

/// A field that stands twice: podbook reads the first.
const TWICE: &[(Slip, &str, Comes)] = &[
    (
        (
            CROSS,
            r#"place: "shelf 1""#,
            r#"place: "shelf 1", place: "shelf 3""#,
        ),
        "move X22-01-1 \"shelf 2\"",
        Refused("crosses/X22-01.ron:11: the field `place` is here twice"),
    ),
    (
        (
            CLONES,
            "\n])",
            r#"], clones: [(code: "M1", received: "N. maxima")])"#,
        ),
        "add M2 \"N. maxima\"",
        Refused("clones.ron:5: the field `clones` is here twice"),
    ),
    (
        (CROSS, "sittings: [", r#"sittings: [], sittings: ["#),
        "note X22-01-1 y",
        Refused("crosses/X22-01.ron:15: the field `sittings` is here twice"),
    ),
    (
        (
            CROSS,
            r#"place: "shelf 1""#,
            r#"kept: (on: "2025", why: "a"), kept: (on: "2024", why: "b")"#,
        ),
        "keep X22-01-1 --no-longer",
        Refused("crosses/X22-01.ron:11: the field `kept` is here twice"),
    ),
    (
        (CROSS, "    seedlings: [", "    seedling: ["),
        "number X22-01.S1 1-2",
        Refused("did you mean `seedlings`?"),
    ),
];

/// A fault that the recording does not touch does not stand in its way.
const ELSEWHERE: &[(Slip, &str, Comes)] = &[
    (
        (CROSS, r#"(number: "3","#, r#"(number: "3", note: 7,"#),
        "move X22-01-1 \"shelf 2\"",
        Right(r#"(number: "1", sowing: "S1", place: "shelf 2")"#),
    ),
    (
        (CROSS, r#"(number: "3","#, r#"(number: "3", kept: "2025","#),
        "move X22-01-3 \"shelf 2\"",
        Right(r#"kept: "2025", sowing: "S1", place: "shelf 2")"#),
    ),
    (
        (CROSS, r#"["2", "4.1", "6"]"#, r#"["2", 4.1, "6"]"#),
        "note X22-01-1 \"a red lip\"",
        Right("\"a red lip\""),
    ),
];

/// Files of a newer podbook.
const NEWER: &[(Slip, &str, Comes)] = {
    const SLIP: Slip = ("registry.ron", "format: 2", "format: 3");
    const SAYS: Comes = Refused("registry.ron says `format: 3`, and this podbook knows 1 to 2");
    &[
        (SLIP, "gone X22-01-3 --died", SAYS),
        (SLIP, "gone X22-01-3 --died --dry-run", SAYS),
        (SLIP, "add M1 \"N. maxima\"", SAYS),
        (SLIP, "note X22-01-1 y", SAYS),
        (SLIP, "treat X22-01-1 soap", SAYS),
        (SLIP, "measure X22-01-1 --traits span", SAYS),
        (SLIP, "undo", SAYS),
        (
            ("registry.ron", "format: 2", "format: \"2b\""),
            "note X22-01-1 y",
            Refused("registry.ron says `format: \"2b\"`"),
        ),
    ]
};

/// A registry after a slip.
fn slipped((page, was, now): Slip) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("crosses")).unwrap();
    for (path, text) in PAGES {
        assert!(path != page || text.contains(was), "{was}");
        let text = if path == page {
            text.replacen(was, now, 1)
        } else {
            text.to_owned()
        };
        fs::write(folder.path().join(path), text).unwrap();
    }
    for (name, sheet) in SHEETS {
        fs::write(folder.path().join(name), sheet).unwrap();
    }
    folder
}

fn pages(folder: &Path) -> Vec<String> {
    let read = |(path, _): (&str, &str)| fs::read_to_string(folder.join(path)).unwrap();
    PAGES.map(read).to_vec()
}

/// What is wrong after a slip and a line; nothing where it comes as it should.
fn wrong(slip: Slip, line: &str, comes: Comes) -> Option<String> {
    let folder = slipped(slip);
    let before = pages(folder.path());
    let line = line.replace("FOLDER", &folder.path().to_string_lossy());
    let answer = said(folder.path(), &line, "2026-06-01");
    let after = pages(folder.path());
    let is_right = match comes {
        Refused(words) => {
            let is_untouched = before == after && !folder.path().join("journal").exists();
            answer.contains(words) && is_untouched
        }
        Right(record) => {
            let changed = before.iter().zip(&after).filter(|(was, now)| was != now);
            let changed: Vec<&String> = changed.map(|(_, now)| now).collect();
            said(folder.path(), "undo", "2026-06-01");
            let is_back = before == pages(folder.path());
            is_back && matches!(changed[..], [now] if now.contains(record))
        }
    };
    (!is_right).then(|| format!("{slip:?}\n{line}\n{answer}\n{}", after.join("\n")))
}

#[test]
fn a_recording_changes_the_record_that_is_named_or_is_refused_with_the_fault() {
    let cases = [BESIDE, NOT_READ, WHICH, TWICE, ELSEWHERE, NEWER].concat();
    let wrong: Vec<String> = cases
        .into_iter()
        .filter_map(|(slip, line, comes)| wrong(slip, line, comes))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}
