//! A lineage handed over says the same as the registry it was taken from, lets nothing private out, and a changed fact is
//! caught by its fingerprint, one after the other.

#[path = "../support/nursery.rs"]
pub mod nursery;

use nursery::{Chance, Nursery};
use podbook::analysis::promised::statement;
use podbook::check;
use podbook::context::Context;
use podbook::diagnostic::Severity;
use podbook::record::{Day, Hemisphere, When};
use podbook::recording::handover::{
    HandedPage, Lineage, Lines, contradictions, differences, fingerprint, grouped, lines, pages,
    read, written,
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
    let there = small.plant(&code).expect("the plant is on the pages");
    assert_eq!(stated(registry, plant), stated(&small, there), "{code}");
    let sheet = read(&written(&code, &before)).expect("the page of a lineage");
    assert_eq!((sheet.plant, sheet.lines), (code, before));
}

/// The name of a plant with how surely it is known, as it is written down at a sale.
fn stated(registry: &Registry, plant: PlantRow) -> String {
    statement(Context::of(registry, today()).evidence(), plant)
}

/// Two crosses of one spike; the control flowers are counted on the page of the one that stays at home.
fn one_spike(controls: &str) -> Sources {
    let mut sources = Sources::new();
    sources.add(
        "registry.ron",
        "(genus: \"Nepenthes\", hemisphere: north)".to_owned(),
    );
    sources.add(
        "clones.ron",
        "(clones: [\
         (code: \"Ven1\", received: \"N. ventricosa\", flowerings: [(code: \"23a\", opened: \"2023-05-01\", sex: female)]), \
         (code: \"Spa1\", received: \"N. spathulata\"), (code: \"Tru1\", received: \"N. truncata\")])"
            .to_owned(),
    );
    let cross = |code: &str, pollen: &str, on: &str, more: &str| {
        format!(
            "(code: \"{code}\", parents: known(seed: \"Ven1\", pollen: \"{pollen}\"), confidence: witnessed, \
             pollinations: [(zone: \"A\", spike: \"23a\", on: [\"{on}\"]{more})], \
             seedlings: [(number: \"1\")])"
        )
    };
    let home = cross("X23-01", "Spa1", "2023-05-03", controls);
    sources.add("crosses/X23-01.ron", home);
    sources.add(
        "crosses/X23-02.ron",
        cross("X23-02", "Tru1", "2023-05-06", ""),
    );
    sources
}

/// Stray pollen that was seen on a spike goes along with a plant of another cross of it, and changes the fingerprint.
#[test]
fn what_controls_on_another_page_showed_is_handed_over() {
    let said = |controls: &str| {
        let sources = one_spike(controls);
        let (registry, findings) = build(&sources);
        assert!(findings.is_empty(), "{findings:?}");
        let plant = registry.plant("X23-02-1").unwrap();
        survives(&registry, plant, 0);
        let lines = lines(&registry, &Lineage::of(&registry, plant));
        (stated(&registry, plant), fingerprint(&lines))
    };
    let (none, without) = said("");
    let (stray, with) = said(", control_flowers: 4, control_set: 1");
    let (clean, other) = said(", control_flowers: 4, control_set: 0");
    assert!(!none.contains("control"), "{none}");
    assert!(stray.contains("father probable"), "{stray}");
    assert!(clean.contains("none of 4 control flowers set"), "{clean}");
    assert!(without != with && with != other && without != other);
}

/// What was handed over and what stands on a page at home too are the same flowers, and count once.
#[test]
fn controls_that_were_handed_over_and_stand_on_a_page_count_once() {
    let mut sources = one_spike(", control_flowers: 4, control_set: 1");
    let (registry, _) = build(&sources);
    let before = stated(&registry, registry.plant("X23-02-1").unwrap());
    let page = sources.text(sources.find("crosses/X23-02.ron").unwrap());
    let told = page.replace(
        "spike: \"23a\"",
        "spike: \"23a\", spike_control_flowers: 4, spike_control_set: 1",
    );
    let mut both = Sources::new();
    for path in ["registry.ron", "clones.ron", "crosses/X23-01.ron"] {
        both.add(path, sources.text(sources.find(path).unwrap()).to_owned());
    }
    both.add("crosses/X23-02.ron", told);
    sources = both;
    let (registry, findings) = build(&sources);
    assert!(findings.is_empty(), "{findings:?}");
    let after = stated(&registry, registry.plant("X23-02-1").unwrap());
    assert_eq!(before, after);
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

/// Every text and number of the pages of facts and names, one at a time.
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
        if page.path == "registry.ron" {
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

/// Whose pollen another grower's envelope held is that grower's word, here and wherever the plant goes.
#[test]
fn a_father_known_by_an_envelope_of_another_grower_is_told() {
    let mut sources = Sources::new();
    sources.add(
        "clones.ron",
        "(clones: [(code: \"Ven1\", received: \"N. ventricosa\", confidence: tag), \
         (code: \"Spa1\", received: \"N. spathulata\", confidence: tag, fate: elsewhere, told_by: (registry: \"shed\", code: \"Spa1\"))])",
    );
    sources.add(
        "crosses/X22-01.ron",
        "(code: \"X22-01\", parents: known(seed: \"Ven1\", pollen: \"Spa1\"), confidence: witnessed, \
         pollinations: [(zone: \"A\", pollen: \"Spa1-2204\", on: [\"2022-05-01\"])], seedlings: [(number: \"1\")])",
    );
    sources.add(
        "pollen.ron",
        "(lots: [(code: \"Spa1-2204\", from: plant(\"Spa1\"), told_by: (registry: \"shed\", code: \"Spa1-2204\"))])",
    );
    sources.add(
        "registry.ron",
        "(genus: \"Nepenthes\", hemisphere: north, registry: \"tent\")",
    );
    sources.add(
        "species.ron",
        "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])",
    );
    let (registry, _) = build(&sources);
    let plant = registry.plant("X22-01-1").expect("the plant");
    let said = stated(&registry, plant);
    assert!(
        said.contains("; seed parent witnessed; father as told by the registry shed; "),
        "{said}"
    );
    survives(&registry, plant, 0);
}

/// A pollination is as sure of its father as its envelope; the other pod of the cross, as its own. The envelope stays at home,
/// so the page that goes along is no surer than the least of them.
#[test]
fn an_envelope_that_is_not_sure_leaves_no_father_witnessed() {
    let said = |from: &str| {
        let mut sources = Sources::new();
        sources.add(
            "clones.ron",
            "(clones: [(code: \"Ven1\", received: \"N. ventricosa\", confidence: tag), (code: \"Spa1\", received: \"N. spathulata\", \
             confidence: tag), (code: \"Tru1\", received: \"N. truncata\", confidence: tag)])",
        );
        sources.add(
            "crosses/X22-01.ron",
            "(code: \"X22-01\", parents: known(seed: \"Ven1\", pollen: \"Spa1\"), confidence: witnessed, pollinations: [\
             (zone: \"A\", pollen: \"L1\"), (zone: \"B\", pollen: \"L2\")], pods: [(code: \"P1\", zone: \"A\"), (code: \"P2\", zone: \"B\")], \
             seedlings: [(number: \"1\", pod: \"P1\"), (number: \"2\", pod: \"P2\"), (number: \"3\")])",
        );
        sources.add(
            "crosses/X24-01.ron",
            "(code: \"X24-01\", parents: known(seed: \"X22-01-1\", pollen: \"Tru1\"), confidence: witnessed, seedlings: [(number: \"1\")])",
        );
        let lots = format!(
            "(lots: [(code: \"L1\", from: {from}), (code: \"L2\", from: plant(\"Spa1\"))])"
        );
        sources.add("pollen.ron", lots);
        sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)");
        sources.add(
            "species.ron",
            "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\"), (epithet: \"truncata\")])",
        );
        let (registry, _) = build(&sources);
        let of = |code: &str| stated(&registry, registry.plant(code).expect("the plant"));
        let plant = registry.plant("X22-01-1").expect("the plant");
        let pages = self::sources(&pages(&registry, &Lineage::of(&registry, plant)));
        let (small, findings) = build(&pages);
        assert_eq!(findings.count(Severity::Fault), 0);
        let there = stated(&small, small.plant("X22-01-1").expect("the plant"));
        assert!(
            of("X22-01-2").contains("; parents witnessed; founders"),
            "{}",
            of("X22-01-2")
        );
        [of("X22-01-1"), of("X22-01-3"), of("X24-01-1"), there]
    };
    for (from, own, further, handed) in [
        (
            "one_of([\"Spa1\", \"Tru1\"])",
            "; seed parent witnessed; father one of two by the envelope (Spa1 or Tru1); founders",
            "; parents witnessed; further back, the father of X22-01-1 is one of two by the envelope; ",
            "; parents one of several, the others not recorded; ",
        ),
        (
            "mixed([\"Spa1\", \"Tru1\"])",
            "; seed parent witnessed; pollen of Spa1 and Tru1 mixed in the envelope, so fathers may differ from seed to seed; founders",
            "; parents witnessed; further back, the father of X22-01-1 is one of two whose pollen was mixed in the envelope; ",
            "; parents one of several, the others not recorded; ",
        ),
        (
            "unknown",
            "; seed parent witnessed; father not known by the envelope; founders",
            "; parents witnessed; further back, the father of X22-01-1 is not known by the envelope; ",
            "; how the parents are known is not recorded; ",
        ),
    ] {
        let [of_pod, of_any, child, there] = said(from);
        assert!(of_pod.contains(own), "{of_pod}");
        assert!(of_any.contains(own), "{of_any}");
        assert!(child.contains(further), "{child}");
        assert!(there.contains(handed), "{there}");
    }
}

/// Mix-ups of plants and pots that stay at home leave the same doubt there, whichever record they stand on.
#[test]
fn a_plant_mixed_up_with_what_stays_at_home_is_no_surer_there() {
    let mixed_up = |with: &str| format!("muddled: [(on: \"2021-07-01\", with: [\"{with}\"])]");
    let said = |of_a: &str, of_b: &str, code: &str| {
        let mut sources = Sources::new();
        sources.add(
            "clones.ron",
            "(clones: [(code: \"Ven1\", received: \"N. ventricosa\"), (code: \"Spa1\", received: \"N. spathulata\")])",
        );
        for (cross, parts) in [("A", of_a), ("B", of_b)] {
            sources.add(
                format!("crosses/{cross}.ron"),
                format!(
                    "(code: \"{cross}\", parents: known(seed: \"Ven1\", pollen: \"Spa1\"), confidence: witnessed, pods: [(code: \"P1\")], {parts})"
                ),
            );
        }
        sources.add(
            "crosses/C.ron",
            "(code: \"C\", parents: known(seed: \"Ven1\", pollen: \"A-1\"), confidence: witnessed, \
             pollinations: [(zone: \"a\", on: [\"2022-04-05\"])], seedlings: [(number: \"1\")])",
        );
        sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)");
        sources.add(
            "species.ron",
            "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])",
        );
        let (registry, _) = build(&sources);
        let plant = registry.plant(code).expect("the plant");
        let pages = self::sources(&pages(&registry, &Lineage::of(&registry, plant)));
        let (small, _) = build(&pages);
        let there = stated(&small, small.plant(code).expect("the plant"));
        (stated(&registry, plant), there)
    };
    let with_b = format!(
        "seedlings: [(number: \"1\", {}), (number: \"2\")]",
        mixed_up("B-1")
    );
    let plain = "seedlings: [(number: \"1\"), (number: \"2\")]";
    let (home, there) = said(&with_b, plain, "A-1");
    let words = "; from one of two crosses (mixed up with B-1); A itself witnessed; ";
    assert!(home.contains(words), "{home}");
    assert!(there.contains(words), "{there}");
    let sibling = with_b.replace("B-1", "A-2");
    let (home, there) = said(&sibling, plain, "C-1");
    assert!(
        home.contains("father one of two (A-1 or A-2, mixed up by then)"),
        "{home}"
    );
    assert_eq!(home, there);
    let out_of_pot = "seedlings: [(number: \"1\", community_pot: \"T1\", numbered: \"2022\")]";
    let of_a = format!("community_pots: [(code: \"T1\")], {out_of_pot}");
    let of_b = format!(
        "community_pots: [(code: \"T1\", {})], {out_of_pot}",
        mixed_up("A.T1")
    );
    let (home, there) = said(&of_a, &of_b, "A-1");
    let words = "; from one of two crosses (mixed up with B.T1); A itself witnessed; ";
    assert!(home.contains(words), "{home}");
    assert!(there.contains(words), "{there}");
}

/// The envelope stays at home, and what it says against the father counts all the same.
#[test]
fn a_father_whom_the_envelope_contradicts_is_not_handed_over() {
    let said = |father: &str| {
        let mut sources = Sources::new();
        sources.add(
            "clones.ron",
            "(clones: [(code: \"Ven1\", received: \"N. ventricosa\"), (code: \"Spa1\", received: \"N. spathulata\"), \
             (code: \"Tru1\", received: \"N. truncata\")])",
        );
        sources.add(
            "crosses/X22-01.ron",
            format!(
                "(code: \"X22-01\", parents: known(seed: \"Ven1\", pollen: \"{father}\"), confidence: witnessed, \
                 pollinations: [(zone: \"A\", pollen: \"Spa1-2204\", on: [\"2022-05-01\"])], seedlings: [(number: \"1\")])"
            ),
        );
        sources.add(
            "pollen.ron",
            "(lots: [(code: \"Spa1-2204\", from: plant(\"Spa1\"), collected: \"2022-04-30\")])",
        );
        sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)");
        sources.add(
            "species.ron",
            "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\"), (epithet: \"truncata\")])",
        );
        let (registry, _) = build(&sources);
        let plant = registry.plant("X22-01-1").expect("the plant");
        contradictions(&registry, &Lineage::of(&registry, plant), today())
    };
    assert_eq!(said("Spa1"), Vec::<String>::new());
    assert_eq!(
        said("Tru1"),
        ["X22-01: the pollen used is not from the recorded pollen parent"]
    );
}
