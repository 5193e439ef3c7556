//! Every text that a finding offers to write is itself accepted.
//!
//! Sound pages are mutilated in the ways in which people slip, checked, and each text offered is put in place of what
//! is underlined. The finding must be gone, and no fault may stand where it was put.

#[path = "../fuzz/mutate.rs"]
#[allow(dead_code)]
mod mutate;

use crate::found;
use mutate::SplitMix64;
use podbook::diagnostic::{Finding, Severity};
use podbook::text::Sources;

const REGISTRY: &str = r#"(
    genus: "Nepenthes",
    hemisphere: north,
    traits: [
        (code: "span", name: "leaf span", reads: length(cm), between: (0.1, 250)),
        (code: "banding", name: "rim banding", reads: scale(["plain", "ghost lines", "clear bands"])),
        (code: "rim", name: "rim colour", reads: kinds(["green", "red", "striped"])),
        (code: "leaves", name: "leaf count", reads: count),
    ],
)
"#;
const CLONES: &str = r#"(
    clones: [
        (code: "Ven1", received: "N. ventricosa", confidence: tag, on: "2019-04", ramets: [
            (code: "a", made: original),
            (code: "b", from: "a", made: cutting, cut: "2020-05"),
        ], flowerings: [(opened: "2021-03", sex: female, ramet: "a")]),
        (code: "Spa1", received: "N. spathulata", pots: [(on: "2022-04", pot: "7 cm")], flowerings: [
            (spike: "2021-02", opened: "2021-03", sex: male, seen_by: flowers),
        ]),
    ],
)
"#;
const POLLEN: &str = r#"(
    lots: [(code: "Spa1-22", from: plant("Spa1"), collected: "2022-03-20", stored: freezer)],
)
"#;
const CROSS: &str = r#"(
    code: "X22-01",
    parents: known(seed: "Ven1", pollen: "Spa1"),
    confidence: witnessed,
    pollinations: [(zone: "A", plant: "Ven1-a", on: ["2022-04-03"], pollen: "Spa1-22", flowers: 24, set: 11, covered: true)],
    pods: [(code: "P1", zone: "A", harvested: "2022-08-20", capsules: 11, seeds: 400)],
    seed_lots: [(code: "L1", pod: "P1", seeds: 300, estimated: true)],
    sowings: [(code: "W1", lot: "L1", on: "2022-09-25", seeds: 120, germinated: [(on: "2022-12-01", count: 31)])],
    community_pots: [(code: "T1", sowing: "W1", alive: [(on: "2023-03", count: 20)])],
    seedlings: [
        (number: "1", sowing: "W1", place: "bench", kept: (on: "2024-02")),
        (number: "2", sowing: "W1", fate: sold(on: "2024-03", label: "N. ventricosa × spathulata")),
        (number: "3", sowing: "W1"),
    ],
    sittings: [(on: "2023-09-12", place: "bench", columns: ["span cm", "banding", "rim", "leaves"], rows: [
        ["1", "2.4", "1", "red", "7"],
        ["2", "2.6", "2", "green", "8"],
        ["3", "1 1/8 in", "3", "striped", "6"],
    ])],
    note: "by the door",
)
"#;

fn files() -> Vec<(String, String)> {
    let species = "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])";
    [
        ("clones.ron", CLONES),
        ("crosses/X22-01.ron", CROSS),
        ("pollen.ron", POLLEN),
        ("registry.ron", REGISTRY),
        ("species.ron", species),
    ]
    .map(|(path, text)| (path.to_owned(), text.to_owned()))
    .to_vec()
}

/// One slip as people make them; `at` is any byte of the text.
fn slip(text: &mut String, random: &mut SplitMix64) {
    let at = text.floor_char_boundary(random.below(text.len()));
    let after = |marks: &[char]| text[at..].find(marks).map(|found| at + found);
    match random.below(12) {
        // A letter left out, doubled, or swapped for its neighbour.
        0..=3 => {
            let Some(letter) = after(&['a', 'e', 'i', 'o', 's', 'n', 'r', 't']) else {
                return;
            };
            match random.below(3) {
                0 => drop(text.remove(letter)),
                1 => text.insert(letter, text[letter..].chars().next().unwrap_or('x')),
                _ => text.replace_range(letter..letter + 1, "x"),
            }
        }
        // Quotation marks left out, or single ones.
        4 | 5 => {
            let Some(open) = after(&['"']) else { return };
            let Some(length) = text[open + 1..].find('"') else {
                return;
            };
            let mark = if random.below(2) == 0 { "'" } else { "" };
            text.replace_range(open + 1 + length..open + 2 + length, mark);
            text.replace_range(open..open + 1, mark);
        }
        // A number or word in quotation marks.
        6 | 7 => {
            let Some(colon) = after(&[':']) else { return };
            let value: String = text[colon + 1..]
                .trim_start()
                .chars()
                .take_while(|c| c.is_alphanumeric())
                .collect();
            if !value.is_empty() {
                let start = colon + 1 + text[colon + 1..].find(&value).unwrap_or(0);
                let words = ["", "about ", "1,"][random.below(3)];
                text.replace_range(start..start + value.len(), &format!("\"{words}{value}\""));
            }
        }
        // Other marks.
        8 => {
            if let Some(comma) = after(&[',']) {
                text.replace_range(comma..comma + 1, ";");
            }
        }
        9 => {
            if let Some(colon) = after(&[':']) {
                text.replace_range(colon..colon + 1, "=");
            }
        }
        // Digits: thousands, words and units in a cell.
        10 => {
            if let Some(digit) = after(&['1', '2', '3', '4']) {
                let more = ["1,2", "1,20", "about ", "6 cmm", "\"", "-"][random.below(6)];
                text.insert_str(digit, more);
            }
        }
        // A name taken out, as in `sold("2024")`.
        _ => {
            if let Some(open) = after(&['('])
                && let Some(colon) = text[open..].find(": ")
                && colon < 12
            {
                text.replace_range(open + 1..open + colon + 2, "");
            }
        }
    }
}

/// What may still be said of a text that can be read: it contradicts another record.
fn is_contradiction(code: &str) -> bool {
    code.starts_with("more-")
        || ["dates-out-of-order", "after-the-end", "repeated-code"].contains(&code)
}

/// Why a text offered is not accepted; `None` when it is. On a page with another slip (`alone` is false) a fault of that
/// slip may show where the text was put: then only the finding itself must be gone.
fn refused(
    (files, sources): (&[(String, String)], &Sources),
    finding: &Finding,
    offer: &str,
    alone: bool,
) -> Option<String> {
    let place = finding.place?;
    let path = &sources.get(place.file).path;
    let mut mended = files.to_vec();
    let (_, text) = mended.iter_mut().find(|(own, _)| own == path)?;
    text.replace_range(place.start as usize..place.end as usize, offer);
    let (_, after) = found(&mended);
    let put = place.start..place.start + offer.len() as u32;
    let fault = after.iter().find(|other| {
        let here = other
            .place
            .is_some_and(|at| at.file == place.file && put.contains(&at.start));
        let same =
            other.code == finding.code && other.place.map(|at| at.start) == Some(place.start);
        let fault = alone && other.severity == Severity::Fault && !is_contradiction(other.code.0);
        here && (fault || same)
    });
    fault.map(|fault| format!("{}: {} ({})", fault.code, fault.title, fault.found))
}

#[test]
fn what_is_offered_is_accepted() {
    let mut random = SplitMix64(0x0ffe7);
    let mut told = Vec::new();
    let mut tried = std::collections::BTreeMap::new();
    for _ in 0..4_000 {
        let mut files = files();
        let page = [0, 1, 1, 1, 1, 1, 2, 3][random.below(8)];
        let slips = 1 + random.next().trailing_zeros().saturating_sub(1).min(3);
        for _ in 0..slips {
            slip(&mut files[page].1, &mut random);
        }
        let (sources, findings) = found(&files);
        for finding in findings.iter() {
            for offer in finding.offers.iter() {
                *tried.entry(finding.code.0).or_insert(0) += 1;
                let lines = finding.help.join("\n") + &finding.needed;
                if !lines.contains(offer.as_str()) {
                    told.push(format!("{}: `{offer}` is not printed", finding.code));
                }
                if let Some(why) = refused((&files, &sources), finding, offer, slips == 1) {
                    let found = &finding.found;
                    told.push(format!("{}: {found}: `{offer}` gives {why}", finding.code));
                }
            }
        }
    }
    told.sort();
    told.dedup();
    assert!(
        told.is_empty(),
        "{} of {tried:?}:\n{}",
        told.len(),
        told.join("\n")
    );
    let all: i32 = tried.values().sum();
    assert!(
        all > 2_000 && tried.len() > 15,
        "too little was tried: {tried:?}"
    );
}
