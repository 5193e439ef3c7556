//! A lineage that another grower handed over is taken in: nothing of it is lost, nothing of it counts as the grower's own
//! record, and nothing happens twice.

use crate::handover::nursery::{Chance, Nursery};
use podbook::check;
use podbook::context::Context;
use podbook::diagnostic::Severity;
use podbook::evidence::{Strength, Unit};
use podbook::observation::presence::{Presence, presence};
use podbook::record::{Day, Hemisphere, When};
use podbook::recording::draft::Draft;
use podbook::recording::handover::{HandedPage, Keep, Lineage, TakeIn, fingerprint, lines, pages};
use podbook::recording::recorded::Recorded;
use podbook::recording::slip::Slip;
use podbook::registry::{PlantKind, PlantRow, RametRow, Registry, build};
use podbook::text::Sources;
use std::collections::BTreeMap;
use std::path::Path;

/// Pages by path.
pub type Pages = BTreeMap<String, String>;

fn today() -> Day {
    When::read("2025-06-01", Hemisphere::North).unwrap().first
}

pub fn sources(pages: &Pages) -> Sources {
    let mut sources = Sources::new();
    for (path, text) in pages {
        sources.add(path.as_str(), text.as_str());
    }
    sources
}

fn demo() -> Sources {
    Sources::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo"))
}

pub fn handed(registry: &Registry, code: &str) -> Pages {
    let plant = registry.plant(code).expect("a plant");
    let pages = pages(registry, &Lineage::of(registry, plant)).into_iter();
    pages
        .map(|HandedPage { path, text }| (path, text))
        .collect()
}

pub fn empty() -> Pages {
    let settings = r#"(genus: "Nepenthes", hemisphere: north, registry: "mine", format: 2)"#;
    Pages::from([("registry.ron".to_owned(), settings.to_owned())])
}

/// Takes the lineage of a plant into the pages; they stay as they are where that is refused.
pub fn take_in(ours: &mut Pages, theirs: &Pages, code: &str, keep: Keep) -> Result<Recorded, Slip> {
    take_in_piece(ours, theirs, (code, 0), keep)
}

/// The same of a piece, by its place among those of the plant, where there are several.
pub fn take_in_piece(
    ours: &mut Pages,
    theirs: &Pages,
    (code, piece): (&str, usize),
    keep: Keep,
) -> Result<Recorded, Slip> {
    let theirs = sources(theirs);
    let (theirs, _) = build(&theirs);
    let plant = theirs.plant(code).expect("the plant that was handed over");
    let event = TakeIn {
        theirs: &theirs,
        plant,
        piece: (theirs.ramets(plant).len() > 1).then_some(RametRow::new(piece)),
        by: "tent",
        keep,
        on: None,
    };
    let here = sources(ours);
    let (registry, _) = build(&here);
    let mut draft = Draft::new(&registry, today());
    let recorded = event.record(&mut draft)?;
    for change in draft.changes() {
        ours.insert(change.path, change.now.expect("no page goes"));
    }
    Ok(recorded)
}

fn print(registry: &Registry, code: &str) -> String {
    let plant = registry.plant(code).expect("a plant");
    fingerprint(&lines(registry, &Lineage::of(registry, plant)))
}

/// What must hold of any lineage taken into an empty registry.
fn is_taken_in(registry: &Registry, plant: PlantRow, faults: usize) {
    let code = registry.code(plant);
    let theirs = handed(registry, &code);
    let mut ours = empty();
    take_in(&mut ours, &theirs, &code, Keep::Neither).unwrap_or_else(|why| panic!("{code}: {why}"));
    let once = ours.clone();
    let here = sources(&ours);
    let (taken, findings) = build(&here);
    let found = findings.count(Severity::Fault) + check::faults(&taken, today());
    assert!(found <= faults, "{code}: {found} faults");
    assert_eq!(print(&taken, &code), print(registry, &code), "{code}");
    let stands: Vec<String> = taken
        .plants()
        .filter(|&plant| presence(&taken, plant, today()) == Presence::Here)
        .map(|plant| taken.code(plant))
        .collect();
    assert_eq!(stands, [code.as_str()]);
    for plant in taken.plants() {
        let is_unseen = taken.kind(plant) == PlantKind::Unseen;
        assert!(is_unseen || taken.told_by(plant).is_some_and(|by| by.registry == "tent"));
    }
    let context = Context::of(&taken, today());
    let evidence = context.evidence();
    let plant = taken.plant(&code).expect("the plant");
    // No own record stands behind it, so nothing of it counts as witnessed here.
    assert!(
        evidence.strength(Unit::Plant(plant)) >= Strength::Told,
        "{code}"
    );
    take_in(&mut ours, &theirs, &code, Keep::Neither).unwrap_or_else(|why| panic!("{code}: {why}"));
    assert_eq!(ours, once, "{code} taken in twice");
}

#[test]
fn every_plant_of_the_demo_is_taken_in() {
    let sources = demo();
    let (registry, _) = build(&sources);
    for plant in registry.plants() {
        if registry.kind(plant) != PlantKind::Unseen {
            is_taken_in(&registry, plant, 0);
        }
    }
}

#[test]
fn plants_of_a_thousand_random_registries_are_taken_in() {
    let mut chance = Chance(41);
    for seed in 0..1000 {
        let nursery = Nursery {
            seed,
            ..Nursery::of(30)
        };
        let grown = nursery.grow();
        let sources = grown.sources();
        let (registry, findings) = build(&sources);
        let faults = findings.count(Severity::Fault) + check::faults(&registry, today());
        let plant = PlantRow(chance.below(registry.plant_count()) as u32);
        if registry.kind(plant) != PlantKind::Unseen {
            is_taken_in(&registry, plant, faults);
        }
    }
}

/// A code that is taken here gets the other registry's name before it, in every record that names it.
#[test]
fn other_plants_of_the_same_code_stay_apart() {
    let demo = demo();
    let (registry, _) = build(&demo);
    let theirs = handed(&registry, "X22-02-5");
    let mut ours = empty();
    ours.insert(
        "clones.ron".to_owned(),
        "(clones: [(code: \"Ven1\", received: \"N. mira\"), (code: \"Q1\", received: \"N. mira\")])".to_owned(),
    );
    ours.insert(
        "crosses/X22-02.ron".to_owned(),
        "(code: \"X22-02\", parents: known(seed: \"Ven1\", pollen: \"Q1\"), seedlings: [(number: \"5\")])".to_owned(),
    );
    let recorded = take_in(&mut ours, &theirs, "X22-02-5", Keep::Neither).expect("taken in");
    assert_eq!(recorded.about, ["tent-X22-02-5"]);
    let here = sources(&ours);
    let (taken, findings) = build(&here);
    assert_eq!(
        findings.count(Severity::Fault) + check::faults(&taken, today()),
        0
    );
    let mother = taken.plant("tent-X22-02-5").expect("the plant");
    let lineage = Lineage::of(&taken, mother);
    let codes: Vec<String> = lineage
        .plants
        .iter()
        .map(|&plant| taken.code(plant))
        .collect();
    assert!(codes.contains(&"tent-Ven1".to_owned()), "{codes:?}");
    assert!(!codes.contains(&"Ven1".to_owned()), "{codes:?}");
    // Its own cross and founder say what they said.
    assert_eq!(
        &*taken
            .founder(taken.plant("Ven1").unwrap())
            .unwrap()
            .received,
        "N. mira"
    );
    // And again nothing happens.
    let once = ours.clone();
    take_in(&mut ours, &theirs, "X22-02-5", Keep::Neither).expect("taken in");
    assert_eq!(ours, once);
}

/// A second plant of the same grower shares its ancestors with the first.
#[test]
fn a_sibling_joins_the_lineage_that_is_there() {
    let demo = demo();
    let (registry, _) = build(&demo);
    let mut ours = empty();
    take_in(
        &mut ours,
        &handed(&registry, "X22-02-5"),
        "X22-02-5",
        Keep::Neither,
    )
    .expect("taken in");
    let first = ours.clone();
    let recorded = take_in(
        &mut ours,
        &handed(&registry, "X22-02-3"),
        "X22-02-3",
        Keep::Neither,
    )
    .expect("taken in");
    assert_eq!(recorded.about, ["X22-02-3"]);
    let changed: Vec<&String> = ours
        .keys()
        .filter(|path| ours.get(*path) != first.get(*path))
        .collect();
    assert_eq!(changed, ["crosses/X22-02.ron"]);
    // An ancestor that comes later stands here from then on.
    take_in(
        &mut ours,
        &handed(&registry, "X18-01-4"),
        "X18-01-4",
        Keep::Neither,
    )
    .expect("taken in");
    let here = sources(&ours);
    let (taken, _) = build(&here);
    for code in ["X22-02-5", "X22-02-3", "X18-01-4"] {
        let plant = taken.plant(code).expect("a plant");
        assert_eq!(presence(&taken, plant, today()), Presence::Here, "{code}");
    }
}

/// The same founder under another code here, as one of the two registries says.
#[test]
fn a_plant_that_is_here_already_is_not_doubled() {
    let demo = demo();
    let (registry, _) = build(&demo);
    let theirs = handed(&registry, "X15-02-3");
    for (known_by, mine, is_told) in [
        ("foreign: (registry: \"tent\", code: \"Ven1\")", "V9", false),
        // The demo's Ven1 is V-3 of the club.
        ("", "V-3", false),
        // The club told of it here too.
        (
            "told_by: (registry: \"club\", code: \"V-3\", on: \"2020\"), fate: elsewhere",
            "K3",
            true,
        ),
    ] {
        let mut ours = empty();
        let name = if mine == "V-3" { "club" } else { "mine" };
        ours.insert(
            "registry.ron".to_owned(),
            format!("(genus: \"Nepenthes\", hemisphere: north, registry: \"{name}\", format: 2)"),
        );
        ours.insert(
            "clones.ron".to_owned(),
            format!("(clones: [(code: \"{mine}\", received: \"N. ventricosa\", {known_by})])"),
        );
        // What the club told of it has another label.
        let keep = if is_told { Keep::Ours } else { Keep::Neither };
        take_in(&mut ours, &theirs, "X15-02-3", keep).expect("taken in");
        let here = sources(&ours);
        let (taken, _) = build(&here);
        assert!(taken.plant("Ven1").is_none());
        let page = &taken[taken.cross("X15-02").unwrap()].page;
        assert!(
            format!("{:?}", page.parents).contains(mine),
            "{:?}",
            page.parents
        );
        let own = taken.plant(mine).unwrap();
        assert_eq!(taken.told_by(own).is_some(), is_told);
    }
}

/// What says something else than before is refused with both words, until the grower says which stays.
#[test]
fn a_contradiction_is_for_the_grower_to_settle() {
    let demo = demo();
    let (registry, _) = build(&demo);
    let theirs = handed(&registry, "X22-02-5");
    let mut ours = empty();
    take_in(&mut ours, &theirs, "X22-02-5", Keep::Neither).expect("taken in");
    let once = ours.clone();
    let mut later = theirs.clone();
    let page = later.get_mut("crosses/X15-02.ron").unwrap();
    *page = page.replace("confidence: witnessed", "confidence: claim");
    let why = take_in(&mut ours, &later, "X22-02-5", Keep::Neither)
        .unwrap_err()
        .to_string();
    assert!(
        why.contains("X15-02, confidence: here witnessed, in the lineage claim"),
        "{why}"
    );
    assert_eq!(ours, once);
    let stays = take_in(&mut ours, &later, "X22-02-5", Keep::Ours).unwrap_err();
    assert!(stays.to_string().contains("stays as it is"), "{stays}");
    assert_eq!(ours, once);
    take_in(&mut ours, &later, "X22-02-5", Keep::Theirs).expect("theirs comes");
    assert!(ours["crosses/X15-02.ron"].contains("confidence: claim"));
}

/// A cross whose own code is free gives way too when one of its seedlings has a code that is taken.
#[test]
fn a_seedling_never_shares_its_code() {
    let demo = demo();
    let (registry, _) = build(&demo);
    let mut ours = empty();
    ours.insert(
        "clones.ron".to_owned(),
        "(clones: [(code: \"X22-02-5\", received: \"N. mira\")])".to_owned(),
    );
    let theirs = handed(&registry, "X22-02-5");
    let recorded = take_in(&mut ours, &theirs, "X22-02-5", Keep::Neither).expect("taken in");
    assert_eq!(recorded.about, ["tent-X22-02-5"]);
    let here = sources(&ours);
    let (taken, _) = build(&here);
    let codes: Vec<String> = taken.plants().map(|plant| taken.code(plant)).collect();
    let apart: std::collections::BTreeSet<&String> = codes.iter().collect();
    assert_eq!(apart.len(), codes.len(), "{codes:?}");
}

/// Only the field that contradicts gives way, and what is recorded beside it in the same entry stays.
#[test]
fn what_gives_way_is_one_field() {
    let demo = demo();
    let (registry, _) = build(&demo);
    let theirs = handed(&registry, "X22-02-5");
    let mut ours = empty();
    take_in(&mut ours, &theirs, "X22-02-5", Keep::Neither).expect("taken in");
    let page = ours.get_mut("crosses/X22-02.ron").unwrap();
    *page = page
        .replace(
            "flowers: 12, set: 8,",
            "flowers: 12, set: 7, note: \"as the grower said\",",
        )
        .replace(
            "(number: \"5\", ",
            "(number: \"5\", flowerings: [(opened: \"2025-05\", sex: female)], ",
        );
    assert!(page.contains("set: 7") && page.contains("female)]"));
    let mut later = theirs.clone();
    let page = later.get_mut("crosses/X22-02.ron").unwrap();
    *page = page.replace(
        "(number: \"5\", ",
        "(number: \"5\", flowerings: [(opened: \"2025-06\", sex: female)], ",
    );
    let why = take_in(&mut ours, &later, "X22-02-5", Keep::Neither)
        .unwrap_err()
        .to_string();
    assert!(
        why.contains("X22-02, pollinations A, set: here 7, in the lineage 8"),
        "{why}"
    );
    let recorded = take_in(&mut ours, &later, "X22-02-5", Keep::Theirs).expect("theirs");
    assert_eq!(recorded.remarks.len(), 1);
    let page = &ours["crosses/X22-02.ron"];
    for kept in [
        "set: 8",
        "as the grower said",
        "(opened: \"2025-05\", sex: female)",
        "(opened: \"2025-06\", sex: female",
    ] {
        assert!(page.contains(kept), "{kept}: {page}");
    }
}

/// What the new owner records on the plant is no contradiction.
#[test]
fn what_was_recorded_since_then_stays() {
    let demo = demo();
    let (registry, _) = build(&demo);
    let theirs = handed(&registry, "X22-02-5");
    let mut ours = empty();
    take_in(&mut ours, &theirs, "X22-02-5", Keep::Neither).expect("taken in");
    let page = ours.get_mut("crosses/X22-02.ron").unwrap();
    *page = page.replace(
        "(number: \"5\", sowing: \"S1\", pod: \"P1\")",
        "(number: \"5\", sowing: \"S1\", pod: \"P1\", place: \"window\", flowerings: [(opened: \"2025-05\", sex: female)]) /* mine */",
    );
    assert!(page.contains("mine"));
    let once = ours.clone();
    take_in(&mut ours, &theirs, "X22-02-5", Keep::Neither).expect("nothing new");
    assert_eq!(ours, once);
}
