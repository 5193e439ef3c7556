//! Three columns read back: the same parents, as far as they are known.

use super::nursery::Nursery;
use super::rows_of;
use crate::bench_top::BenchTop;
use podbook::context::Context;
use podbook::kinship::{NamedPedigree, TableRow, pedigree_of_table};
use podbook::record::{Day, Parents};
use podbook::registry::{PlantKind, Registry, build};
use podbook::render::Written;
use podbook::report::export::pedigree_table;
use podbook::text::Sources;
use std::collections::BTreeMap;
use std::path::Path;

/// Rows of the table by plant: seed parent, pollen parent, how known.
type Table = BTreeMap<String, [String; 3]>;

fn table(registry: &Registry) -> (Table, NamedPedigree) {
    let context = Context::of(registry, Day::new(2030, 1, 1).expect("a day"));
    let plants: Vec<_> = registry.plants().collect();
    let csv = Written::csv_table(&pedigree_table(&context, plants));
    let rows = rows_of(&String::from_utf8_lossy(csv.bytes())).rows;
    let of_table = rows.iter().enumerate().map(|(at, row)| TableRow {
        line: at as u64 + 2,
        id: &row[0],
        seed: &row[1],
        pollen: &row[2],
    });
    let pedigree = pedigree_of_table(of_table).expect("a sound table");
    let rows = rows.into_iter().map(|row| {
        let [plant, seed, pollen, how] = <[String; 4]>::try_from(row).expect("four columns");
        (plant, [seed, pollen, how])
    });
    (rows.collect(), pedigree)
}

/// The plant a code on a page names, a piece being its plant; none for a cross and a species.
fn plant(codes: &Table, code: &str) -> String {
    let is_plant = |code: &str| codes.contains_key(code);
    match code.rsplit_once('-') {
        _ if is_plant(code) => code.to_owned(),
        Some((plant, _)) if is_plant(plant) => plant.to_owned(),
        _ => String::new(),
    }
}

/// The slow twin: what the page itself says, field by field.
fn said(codes: &Table, parents: &Parents) -> [String; 2] {
    let one = |all: &[&str]| match all {
        [only] => plant(codes, only),
        _ => String::new(),
    };
    match parents {
        Parents::Known { seed, pollen } => [plant(codes, seed), plant(codes, pollen)],
        Parents::PollenOneOf { seed, pollen, .. } | Parents::PollenMixed { seed, pollen, .. } => {
            [plant(codes, seed), one(pollen)]
        }
        Parents::Open { seed, .. } | Parents::PollenUnknown { seed } => {
            [plant(codes, seed), String::new()]
        }
        Parents::SeedOneOf { seed, pollen } => [one(seed), plant(codes, pollen)],
        Parents::SeedUnknown { pollen } => [String::new(), plant(codes, pollen)],
        _ => [String::new(), String::new()],
    }
}

/// Compares all plants of a registry with what their pages say; gives back how many parents were named.
fn hold(sources: &Sources) -> usize {
    let (registry, _) = build(sources);
    let (table, read_back) = table(&registry);
    let mut named = 0;
    for row in registry
        .plants()
        .filter(|row| registry.kind(*row) != PlantKind::Unseen)
    {
        let code = registry.code(row);
        let [seed, pollen, how] = &table[&code];
        assert!(!how.is_empty(), "{code}");
        let Some(cross) = registry.cross_of(row) else {
            assert_eq!((seed.as_str(), pollen.as_str()), ("", ""), "{code}");
            continue;
        };
        let page = &registry[cross].page;
        let [said_seed, mut said_pollen] = said(&table, &page.parents);
        // Stray pollen, on whichever zone, is tried by itself below; a muddled plant may be of another page.
        let stray = page
            .pollinations
            .iter()
            .any(|of| of.control_set.unwrap_or(0) > 0);
        if stray && pollen.is_empty() {
            said_pollen.clear();
        }
        if registry.pods_it_may_be_of(row).is_empty() {
            assert_eq!((seed, pollen), (&said_seed, &said_pollen), "{code}: {how}");
        }
        let back = read_back.row(&code).expect("it was read back");
        let pair = read_back
            .pedigree
            .origin(back)
            .map(|origin| origin.pairs[0]);
        let id = |of: Option<podbook::lineage::PlantRow>| {
            of.map_or("", |row| &read_back.ids[row.index()])
        };
        let back = pair.map_or(("", ""), |pair| (id(pair.seed), id(pair.pollen)));
        assert_eq!(back, (seed.as_str(), pollen.as_str()), "{code}");
        named += usize::from(!seed.is_empty()) + usize::from(!pollen.is_empty());
    }
    named
}

#[test]
fn the_demo_is_read_back_as_it_was() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo");
    assert!(hold(&Sources::read(&demo)) > 50);
}

#[test]
fn made_up_nurseries_are_read_back_as_they_were() {
    for seedlings in [300, 3_000] {
        assert!(hold(&Nursery::of(seedlings).grow().sources()) > seedlings);
    }
}

/// The row of a plant, with the page of its cross changed.
fn row(from: &str, to: &str) -> Vec<String> {
    let top = BenchTop::sound().change("crosses/X22-02.ron", from, to);
    let told = top.run(&["export", "pedigree"]);
    let rows = rows_of(&told.stdout).rows;
    rows.into_iter()
        .find(|row| row[0] == "X22-02-1")
        .unwrap_or_else(|| panic!("{told}"))
}

#[test]
fn a_parent_in_doubt_is_left_empty_and_the_last_column_says_why() {
    let known = "parents: known(seed: \"X18-01-1\", pollen: \"T1\")";
    for (from, to, sides, why) in [
        (known, known, ["X18-01-1", "T1"], "witnessed"),
        (
            known,
            "parents: direction_lost((\"X18-01-1\", \"T1\"))",
            ["", ""],
            "which parent bore the seed is not known",
        ),
        (
            known,
            "parents: pollen_one_of(seed: \"X18-01-1\", pollen: [\"T1\", \"S1\"])",
            ["X18-01-1", ""],
            "T1 or S1",
        ),
        (
            known,
            "parents: known(seed: \"X18-01-1\", pollen: \"truncata\")",
            ["X18-01-1", ""],
            "no plant on record: some truncata",
        ),
        (
            known,
            "parents: known(seed: \"X18-01\", pollen: \"T1\")",
            ["", "T1"],
            "one seedling of X18-01",
        ),
        (
            "confidence: witnessed",
            "confidence: claim",
            ["X18-01-1", "T1"],
            "claimed",
        ),
        (
            "confidence: witnessed",
            "confidence: one_of_several",
            ["", ""],
            "one of several",
        ),
        (
            "set: 4)",
            "set: 4, control_flowers: 6, control_set: 2)",
            ["X18-01-1", ""],
            "stray",
        ),
        (
            "set: 4)",
            "set: 4, control_flowers: 6, control_set: 0)",
            ["X18-01-1", "T1"],
            "witnessed",
        ),
    ] {
        let row = row(from, to);
        assert_eq!([row[1].as_str(), row[2].as_str()], sides, "{to}: {row:?}");
        assert!(row[3].contains(why), "{to}: {row:?}");
    }
}

/// A plant with its ancestors, which the program reads as a table of its own.
#[test]
fn named_plants_bring_their_ancestors() {
    let top = crate::demo::copied();
    let told = top.run(&["export", "pedigree", "X22-02-5", "-o", "three.csv"]);
    assert_eq!(told.exit, Some(0), "{told}");
    let rows = rows_of(&top.text("three.csv")).rows;
    let at = |code: &str| rows.iter().position(|row| row[0] == code).expect("its row");
    assert!(
        at("Ven1") < at("X15-02-3")
            && at("X15-02-3") < at("X18-01-4")
            && at("X18-01-4") < at("X22-02-5")
    );
    assert!(!rows.iter().any(|row| row[0] == "X22-02-6"));
    let kinship = top.run(&["kinship", "--table", "three.csv", "X22-02-5", "X18-01-4"]);
    assert_eq!(kinship.exit, Some(0), "{kinship}");
}
