//! Every record as JSON, read back by `serde_json` into the types of the pages: the same, field by field.

use super::nursery::Nursery;
use podbook::record::{
    ClonesPage, CrossPage, Page, PollenPage, RegistryPage, SpeciesPage, read_goals, read_page,
};
use podbook::render::Written;
use podbook::report::export::registry_records;
use podbook::text::Sources;
use serde::Deserialize;
use serde_json::Value;
use std::fmt::Debug;
use std::path::Path;

/// A page as it is in the file and as it comes back from JSON.
fn same<'t, P: Page<'t> + Debug>(sources: &'t Sources, path: &str, back: &'t str) {
    let file = sources.find(path).expect("the page is there");
    let (page, findings) = read_page::<P>(sources, file);
    assert!(findings.is_empty(), "{path}");
    let back: P = serde_json::from_str(back).unwrap_or_else(|fault| panic!("{path}: {fault}"));
    assert_eq!(
        format!("{:?}", page.expect("a page")),
        format!("{back:?}"),
        "{path}"
    );
}

/// Writes all records, reads them back and compares; gives back how many pages there were.
fn hold(sources: &Sources) -> usize {
    let (records, fault) = registry_records(sources);
    assert_eq!(fault, None);
    let written = Written::json_value(&records).expect("JSON");
    let value: Value = serde_json::from_slice(written.bytes()).expect("JSON");
    let text = |of: &str| value[of].to_string();
    let there = |path: &str| sources.find(path).is_some();
    let [registry, species, clones, pollen] = ["registry", "species", "clones", "pollen"].map(text);
    same::<RegistryPage>(sources, "registry.ron", &registry);
    if there("species.ron") {
        same::<SpeciesPage>(sources, "species.ron", &species);
    }
    same::<ClonesPage>(sources, "clones.ron", &clones);
    if there("pollen.ron") {
        same::<PollenPage>(sources, "pollen.ron", &pollen);
    }
    if let Some(file) = sources.find("goals.ron") {
        let goals = text("goals");
        let back: podbook::record::GoalsPage = serde_json::from_str(&goals).expect("goals");
        assert_eq!(
            format!("{back:?}"),
            format!("{:?}", read_goals(sources.text(file)).expect("goals"))
        );
    }
    let crosses = value["crosses"].as_array().expect("crosses");
    let pages = sources
        .iter()
        .filter(|(_, source)| source.path.starts_with("crosses/"));
    assert_eq!(pages.count(), crosses.len());
    for cross in crosses {
        let path = format!("crosses/{}.ron", cross["code"].as_str().expect("a code"));
        same::<CrossPage>(sources, &path, &cross.to_string());
    }
    crosses.len()
}

#[test]
fn every_field_of_every_record_comes_back() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for folder in [
        "registry-demo",
        "tests/commands/sound",
        "tests/commands/june",
        "tests/commands/season",
    ] {
        assert!(hold(&Sources::read(&root.join(folder))) > 0, "{folder}");
    }
    assert!(hold(&Nursery::of(2_000).grow().sources()) > 3);
}

/// The page of fields holds an example with every field of a record filled in.
#[test]
fn a_record_with_every_field_comes_back() {
    let page = include_str!("../../../docs/files.md");
    let example = |kind: &str| {
        let (_, rest) = page
            .split_once(&format!("```ron {kind}\n"))
            .expect("an example");
        rest.split("```").next().unwrap_or_default()
    };
    let implicit =
        ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
    fn both<'t, R: Deserialize<'t> + serde::Serialize + Debug>(read: R, json: &'t mut String) {
        *json = serde_json::to_string(&read).expect("JSON");
        let back: R = serde_json::from_str(json).expect("the record");
        assert_eq!(format!("{back:?}"), format!("{read:?}"));
    }
    macro_rules! each {
        ($($kind:ident),+) => {$({
            let read = implicit.from_str::<podbook::record::$kind>(example(stringify!($kind)));
            let mut json = String::new();
            both(read.expect("the example"), &mut json);
        })+};
    }
    each!(
        RegistryPage,
        SpeciesPage,
        Species,
        ClonesPage,
        FounderClone,
        PollenLot,
        GoalsPage,
        CrossPage,
        Pollination,
        Pod,
        SeedLot,
        Sowing,
        CommunityPot,
        Seedling,
        Sitting,
        Flowering,
        Ramet
    );
}
