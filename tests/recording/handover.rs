//! A lineage handed over says the same as the registry it was taken from, lets nothing private out, and a changed fact is
//! caught by its fingerprint, one after the other.

#[path = "../support/nursery.rs"]
pub mod nursery;

use nursery::{Chance, Nursery};
use podbook::check;
use podbook::diagnostic::Severity;
use podbook::record::{Day, Hemisphere, When};
use podbook::recording::handover::{
    HandedPage, Lineage, Lines, differences, fingerprint, grouped, lines, pages, read, written,
};
use podbook::registry::{PlantKind, PlantRow, Registry, build};
use podbook::text::outline::{Kind, PartId};
use podbook::text::{Outline, Sources};
use std::path::Path;

fn today() -> Day {
    When::read("2025-06-01", Hemisphere::North).unwrap().first
}

fn sources(pages: &[HandedPage]) -> Sources {
    let mut sources = Sources::new();
    let mut sorted: Vec<&HandedPage> = pages.iter().collect();
    sorted.sort_by(|a, b| a.path.cmp(&b.path));
    for page in sorted {
        sources.add(page.path.as_str(), page.text.as_str());
    }
    sources
}

/// The records of a plant in the pages that were handed over; none when it is not on them.
fn handed(pages: &[HandedPage], code: &str) -> Option<Lines> {
    let sources = sources(pages);
    let (registry, _) = build(&sources);
    let plant = registry.plant(code)?;
    Some(lines(&registry, &Lineage::of(&registry, plant)))
}

/// Hands a plant over and reads it back: the same records, no fault that its own registry does not have.
fn survives(registry: &Registry, plant: PlantRow, faults: usize) {
    let code = registry.code(plant);
    let lineage = Lineage::of(registry, plant);
    let before = lines(registry, &lineage);
    let pages = pages(registry, &lineage);
    let after = handed(&pages, &code).unwrap_or_else(|| panic!("{code} is not on the pages"));
    assert_eq!(differences(&before, &after), Vec::<String>::new(), "{code}");
    assert_eq!(fingerprint(&before), fingerprint(&after));
    let sources = sources(&pages);
    let (small, findings) = build(&sources);
    let found = findings.count(Severity::Fault) + check::faults(&small, today());
    assert!(found <= faults, "{code}: {found} faults");
    let sheet = read(&written(&code, &before)).expect("the page of a lineage");
    assert_eq!((sheet.plant, sheet.lines), (code, before));
}

fn demo() -> Sources {
    Sources::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo"))
}

#[test]
fn every_plant_of_the_demo_survives() {
    let sources = demo();
    let (registry, _) = build(&sources);
    for plant in registry.plants() {
        if registry.kind(plant) != PlantKind::Unseen {
            survives(&registry, plant, 0);
        }
    }
}

#[test]
fn plants_of_random_registries_survive() {
    let mut chance = Chance(2025);
    for seedlings in [40, 120, 300, 700] {
        let grown = Nursery::of(seedlings).grow();
        let sources = grown.sources();
        let (registry, findings) = build(&sources);
        let faults = findings.count(Severity::Fault) + check::faults(&registry, today());
        for _ in 0..60 {
            let plant = PlantRow(chance.below(registry.plant_count()) as u32);
            if registry.kind(plant) != PlantKind::Unseen {
                survives(&registry, plant, faults);
            }
        }
    }
}

/// Every text, number and word of the pages of facts, one at a time.
#[test]
fn every_fact_that_is_changed_is_caught() {
    let sources = demo();
    let (registry, _) = build(&sources);
    let plant = registry.plant("X22-02-5").unwrap();
    let lineage = Lineage::of(&registry, plant);
    let before = lines(&registry, &lineage);
    let pages = pages(&registry, &lineage);
    let mut changed = 0;
    for (at, page) in pages.iter().enumerate() {
        if ["species.ron", "registry.ron"].contains(&page.path.as_str()) {
            continue;
        }
        let outline = Outline::of(&page.text);
        for part in (0..outline.parts().len() as u32).map(PartId) {
            let slice = outline.slice(part);
            let other = match outline.part(part).kind {
                Kind::Text => format!("\"{}1\"", slice.trim_matches('"')),
                Kind::Number => format!("{slice}1"),
                _ => continue,
            };
            let range = outline.part(part).range();
            let mut text = page.text.clone();
            text.replace_range(range.start as usize..range.end as usize, &other);
            let mut pages = pages.clone();
            pages[at].text = text;
            let after = handed(&pages, "X22-02-5").unwrap_or_default();
            assert_ne!(
                fingerprint(&before),
                fingerprint(&after),
                "{}: {slice} → {other}",
                page.path
            );
            assert!(!differences(&before, &after).is_empty());
            changed += 1;
        }
    }
    assert!(changed > 150, "{changed}");
}

/// Remarks, layout, the order of fields and what is no part of the lineage change nothing.
#[test]
fn layout_and_remarks_are_not_complained_of() {
    let sources = demo();
    let (registry, _) = build(&sources);
    let plant = registry.plant("X22-02-5").unwrap();
    let lineage = Lineage::of(&registry, plant);
    let before = lines(&registry, &lineage);
    let remarked: Vec<HandedPage> = pages(&registry, &lineage)
        .into_iter()
        .map(|page| HandedPage {
            text: format!(
                "// mine now\n{}\n\n// the end",
                page.text.replace('\n', "\r\n")
            ),
            ..page
        })
        .collect();
    assert_eq!(handed(&remarked, "X22-02-5").unwrap(), before);
}

#[test]
fn nothing_private_is_handed_over() {
    let mut sources = Sources::new();
    sources.add(
        "clones.ron",
        r#"(clones: [
            (code: "V1", received: "N. ventricosa", from: "SECRET 1", supplier_code: "SECRET 2", note: "SECRET 3", nights: "SECRET 4",
                papers: "SECRET 5", nickname: "SECRET 6", identified: [(name: "N. ventricosa", by: "SECRET 7", note: "SECRET 8")],
                ramets: [(code: "a", place: "SECRET 9", note: "SECRET 10", fate: given(on: "2024", to: "SECRET 11"))],
                flowerings: [(opened: "2021-03", sex: female, note: "SECRET 12")], pots: [(on: "2021", pot: "7 cm", place: "SECRET 13")],
                treatments: [(on: "2021", product: "SECRET 14")], photos: [(file: "SECRET 15")], kept: (why: "SECRET 16")),
            (code: "S1", received: "N. spathulata", flowerings: [(opened: "2021-03", sex: male)]),
        ])"#,
    );
    sources.add(
        "crosses/X22-01.ron",
        r#"(code: "X22-01", parents: known(seed: "V1", pollen: "S1"), confidence: witnessed, from: "SECRET 17", goal: "SECRET 18", note: "SECRET 19",
            pollinations: [(zone: "A", on: ["2022-03"], pollen: "secret", note: "SECRET 20")],
            pods: [(code: "P1", zone: "A", note: "SECRET 21")],
            seed_lots: [(code: "L1", pod: "P1", stored: "SECRET 22", note: "SECRET 23")],
            sowings: [(code: "W1", lot: "L1", on: "2022-09", place: "SECRET 24", container: "SECRET 25", medium: "SECRET 26", note: "SECRET 27")],
            community_pots: [(code: "T1", sowing: "W1", place: "SECRET 28", pot: "SECRET 29", note: "SECRET 30", fate: given(on: "2024", to: "SECRET 31"))],
            seedlings: [(number: "1", community_pot: "T1", place: "SECRET 32", nickname: "SECRET 33", note: "SECRET 34",
                muddled: [(on: "2023", with: ["X22-01-2"], why: "SECRET 35")], kept: (why: "SECRET 36"),
                fate: sold(on: "2024", to: "SECRET 37", price: "SECRET 38", said: "SECRET 39", label: "SECRET 40"))],
            sittings: [(on: "2023", place: "SECRET 41", by: "SECRET 42", columns: ["note"], rows: [["1", "SECRET 43"]])])"#,
    );
    sources.add(
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, grower: "SECRET 44", contact: "SECRET 45", note: "SECRET 46", registry: "tent",
            places: [(name: "SECRET 47")], treatments: [(on: "2021", place: "SECRET 48", product: "SECRET 49")])"#,
    );
    let (registry, _) = build(&sources);
    let plant = registry.plant("X22-01-1").expect("the seedling");
    let lineage = Lineage::of(&registry, plant);
    assert_eq!(lineage.plants.len(), 3);
    for page in pages(&registry, &lineage) {
        assert!(
            !page.text.contains("SECRET"),
            "{}\n{}",
            page.path,
            page.text
        );
    }
    assert!(!written("X22-01-1", &lines(&registry, &lineage)).contains("SECRET"));
}

/// The checksum is the published one: SHA-256 of "abc" (FIPS 180-4, example of the standard's test vectors).
#[test]
fn digits_are_grouped_and_the_checksum_is_the_published_one() {
    use podbook::recording::journal::checksum;
    assert_eq!(
        checksum("abc"),
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
    assert_eq!(grouped("0123456789abcdef"), "0123 4567 89ab cdef");
}
