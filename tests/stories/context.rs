//! A registry made ready: what is asked for twice is made once, what is not asked for is not made, and all of it is what the
//! parts made one by one would be, in whatever order they are asked for.

use podbook::analysis::name::NameWishes;
use podbook::context::{Context, Descent};
use podbook::evidence::{Evidence, Unit};
use podbook::kinship::Kinship;
use podbook::lineage::{FounderStock, Founding, Lineage};
use podbook::naming::recorded::{Names, TopOf};
use podbook::naming::{Writing, breeder};
use podbook::record::Day;
use podbook::registry::{Registry, build};
use podbook::report::name::name;
use podbook::text::Sources;
use std::ptr::eq;
use std::sync::Arc;

const PAGES: [(&str, &str); 5] = [
    ("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)"),
    (
        "species.ron",
        "(species: [(epithet: \"mira\", background_kinship: 0.1), (epithet: \"hamata\"), (epithet: \"truncata\")])",
    ),
    (
        "clones.ron",
        "(clones: [\
            (code: \"A1\", received: \"N. mira\", confidence: tag), \
            (code: \"B1\", received: \"N. hamata\", confidence: claim), \
            (code: \"C1\", received: \"N. truncata\", confidence: tag, batch: \"one packet\"), \
            (code: \"C2\", received: \"N. truncata\", confidence: tag, batch: \"one packet\"), \
            (code: \"D1\", received: \"N. mira cf.\")])",
    ),
    (
        "crosses/X20-01.ron",
        "(code: \"X20-01\", parents: known(seed: \"A1\", pollen: \"B1\"), confidence: witnessed, \
            seedlings: [(number: \"1\"), (number: \"2\")])",
    ),
    (
        "crosses/X24-01.ron",
        "(code: \"X24-01\", parents: pollen_one_of(seed: \"X20-01-1\", pollen: [\"C1\", \"X20-01-2\"]), \
            confidence: tag, seedlings: [(number: \"1\"), (number: \"2\")])",
    ),
];

fn sources() -> Sources {
    let mut sources = Sources::new();
    for (path, text) in PAGES {
        sources.add(path, text.to_owned());
    }
    sources
}

fn with_context(work: impl FnOnce(&Context)) {
    let sources = sources();
    let (registry, findings) = build(&sources);
    assert!(findings.is_empty(), "{findings:?}");
    work(&Context::of(&registry, today()));
}

fn today() -> Day {
    Day::new(2025, 6, 1).expect("a day")
}

/// The parts that are made, as the context itself says.
fn made(context: &Context) -> String {
    let words = format!("{context:?}");
    let (_, ready) = words.split_once("ready: ").expect("it says what is ready");
    ready.trim_end_matches(" }").to_owned()
}

#[test]
fn what_is_asked_for_twice_is_made_once() {
    with_context(|context| {
        assert!(eq(context.lineage(), context.lineage()));
        assert!(eq(context.names(), context.names()));
        assert!(eq(context.evidence(), context.evidence()));
        assert!(eq(context.descent(), context.descent()));
        assert!(eq(context.founding(), context.founding()));
        // What is made of others takes those that are there.
        assert!(eq(context.names().lineage(), context.lineage()));
        assert!(eq(context.evidence().names(), context.names()));
        let plant = context.registry.plant("A1").expect("it is there");
        let label = || context.names().founder(plant).expect("a founder");
        assert!(eq(label(), label()), "a label is read once");
    });
}

#[test]
fn nothing_is_made_that_is_not_asked_for() {
    with_context(|context| {
        assert_eq!(made(context), "[]");
        context.lineage();
        assert_eq!(made(context), "[\"lineage\"]");
        context.names();
        assert_eq!(made(context), "[\"lineage\", \"names\"]");
    });
    with_context(|context| {
        context.kinship().expect("a small pedigree");
        let all_but_evidence = "[\"lineage\", \"names\", \"descent\", \"founding\"]";
        assert_eq!(made(context), all_but_evidence);
    });
}

#[test]
fn the_name_of_one_plant_needs_no_shares_and_no_other_founders_label() {
    with_context(|context| {
        let report = name(context, "X20-01-1", NameWishes::default()).expect("a plant");
        assert_eq!(
            report.breeder.as_deref(),
            Some("N. mira × N. hamata (seed parent first)")
        );
        assert_eq!(made(context), "[\"lineage\", \"names\", \"evidence\"]");
        let read = format!("{:?}", context.names());
        assert_eq!(read, "Names { read: [\"A1\", \"B1\"] }");
    });
}

#[test]
fn the_parts_are_those_made_by_hand() {
    with_context(|context| {
        let registry = context.registry;
        let lineage = Arc::new(Lineage::of(registry));
        let names = Arc::new(Names::of(registry, lineage.clone()));
        assert_eq!(context.lineage().pedigree, lineage.pedigree);
        same_names_and_evidence(context, &names);
        let descent = Descent::of(registry, &lineage, &names);
        assert_eq!(context.descent().species, descent.species);
        assert_eq!(descent.species, ["mira", "hamata", "truncata", "mira (?)"]);
        let founding = founding(registry);
        assert_eq!(*context.founding(), founding);
        let kinship = context.kinship().expect("a small pedigree");
        let by_hand = Kinship::of(&lineage.pedigree, &founding).expect("a small pedigree");
        for one in registry.plants() {
            let shares = descent.shares_of(&lineage, one).expect("a short line");
            let found = context.descent().shares_of(context.lineage(), one);
            assert_eq!(found.expect("a short line"), shares);
            for other in registry.plants() {
                assert_eq!(kinship.pair(one, other), by_hand.pair(one, other));
            }
        }
        let row = |code| registry.plant(code).expect("it is there");
        let pair = |one, other| kinship.pair(row(one), row(other));
        assert_eq!(pair("C1", "C2"), 0.25, "full siblings of one batch");
        assert_eq!(pair("A1", "B1"), 0.0);
    });
}

/// The plants are asked of the context from the first on, and by hand from the last: what is known behind one may not
/// depend on which others were asked of before.
fn same_names_and_evidence<'r, 't>(context: &Context<'r, 't>, names: &Arc<Names<'r, 't>>) {
    let registry = context.registry;
    let evidence = Evidence::of(registry, names.clone());
    let of_both = |evidence: &Evidence, names: &Names, plant| {
        let unit = Unit::Plant(plant);
        let formula = names.formula(TopOf::Plant(plant), true);
        let text = breeder(&formula, &Writing::plain(names.vocabulary()));
        (
            text.expect("a short formula"),
            evidence.sentence(unit),
            evidence.further(unit),
            evidence.weakest_name(unit),
        )
    };
    let plants: Vec<_> = registry.plants().collect();
    let ready = |&plant| of_both(context.evidence(), context.names(), plant);
    let found: Vec<_> = plants.iter().map(ready).collect();
    let by_hand = |&plant| of_both(&evidence, names, plant);
    let mut wanted: Vec<_> = plants.iter().rev().map(by_hand).collect();
    wanted.reverse();
    assert_eq!(found, wanted);
}

/// What is assumed of the founders: one species with a background kinship, one batch of two, and a doubtful name as a
/// species of its own.
fn founding(registry: &Registry) -> Founding {
    let mut founding = Founding::with_background(vec![0.1, 0.0, 0.0, 0.0]);
    for (code, species) in [
        ("A1", Some(0)),
        ("B1", Some(1)),
        ("C1", Some(2)),
        ("C2", Some(2)),
        ("D1", Some(3)),
    ] {
        let mixture: Vec<(u32, f64)> = species.map(|species| (species, 1.0)).into_iter().collect();
        let stock = FounderStock {
            sides: [mixture.clone(), mixture],
            batch: code.starts_with('C').then_some(0),
        };
        founding.declare(registry.plant(code).expect("it is there"), stock);
    }
    founding
}
