//! Every example of `docs/files.md` is a record of the kind it is said to be, and the whole files make one registry.

use crate::sections::{FILES, sections};
use podbook::record::*;
use podbook::registry::build;
use podbook::text::Sources;
use ron::extensions::Extensions;

/// Reads a text as one record, as the program does.
fn parses<'t, R: serde::Deserialize<'t>>(text: &'t str) -> Result<(), String> {
    let options = ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
    options
        .from_str::<R>(text)
        .map(drop)
        .map_err(|error| error.to_string())
}

fn parses_as(record: &str, text: &str) -> Result<(), String> {
    macro_rules! by_name {
        ($($record:ident),*) => {
            match record {
                $(stringify!($record) => parses::<$record>(text),)*
                _ => Err(format!("no record is called {record}")),
            }
        };
    }
    by_name!(
        RegistryPage,
        Intervals,
        PotStep,
        ShelfSpace,
        Trait,
        Reads,
        SpeciesPage,
        Species,
        NamedHybrid,
        Synonym,
        DeclaredCode,
        CheckedEpithet,
        ClonesPage,
        FounderClone,
        PollenPage,
        PollenLot,
        PollenSource,
        GoalsPage,
        TraitWeight,
        WantedPair,
        PollenLife,
        CrossPage,
        Parents,
        PossiblePair,
        Pollination,
        Pod,
        SeedLot,
        Sowing,
        Tally,
        Pricking,
        CommunityPot,
        Seedling,
        PartGone,
        Sitting,
        Ramet,
        Flowering,
        Identification,
        Potting,
        Kept,
        Cultivar,
        Fate,
        PlantPlace,
        Treatment,
        Photo,
        Foreign,
        ToldBy,
        Muddle,
        Return,
        JournalEntry,
        JournalPage,
        JournalEdit,
        JournalMerge,
        JournalRename,
        KeepRules,
        GoalsPage,
        TraitWeight,
        WantedPair,
        PollenLife,
        Weight,
        Need,
        Quota,
        Shelf,
        ImportChoices,
        ColumnChoice,
        ClassChoice,
        RowChoice
    )
}

#[test]
fn every_example_is_what_it_says_it_is() {
    let mut tried = 0;
    for section in sections() {
        for (record, text) in &section.examples {
            assert_eq!(
                *record, section.record,
                "an example of another record stands here"
            );
            parses_as(record, text).unwrap_or_else(|error| panic!("{record}: {error}\n{text}"));
            tried += 1;
        }
    }
    assert_eq!(
        tried,
        FILES.matches("```ron ").count(),
        "an example stands outside the sections"
    );
}

#[test]
fn an_example_with_a_wrong_field_would_be_told() {
    assert!(parses_as("Pod", "(code: \"P1\")").is_ok());
    assert!(parses_as("Pod", "(code: \"P1\", colour: \"red\")").is_err());
    assert!(parses_as("Parents", "open(\"Ven1\")").is_err());
}

#[test]
fn every_word_of_parents_and_fates_has_its_example() {
    for section in sections()
        .iter()
        .filter(|section| ["Parents", "Fate"].contains(&section.record.as_str()))
    {
        for word in &section.names {
            let shown = section
                .examples
                .iter()
                .any(|(_, text)| text == word || text.starts_with(&format!("{word}(")));
            assert!(shown, "no example of `{word}` under {}", section.record);
        }
    }
}

#[test]
fn an_example_shows_every_field() {
    for section in sections() {
        let Some((_, text)) = section.examples.first() else {
            continue;
        };
        if ["Parents", "Fate", "Reads", "PollenSource"].contains(&section.record.as_str()) {
            continue;
        }
        for field in &section.names {
            assert!(
                text.contains(&format!("{field}: ")),
                "the example of {} does not show `{field}`",
                section.record
            );
        }
    }
}

#[test]
fn the_examples_of_whole_files_are_one_sound_registry() {
    let mut sources = Sources::new();
    for (record, path) in [
        ("ClonesPage", "clones.ron"),
        ("CrossPage", "crosses/X25-01.ron"),
        ("PollenPage", "pollen.ron"),
        ("RegistryPage", "registry.ron"),
        ("SpeciesPage", "species.ron"),
    ] {
        let all = sections();
        let section = all
            .iter()
            .find(|section| section.record == record)
            .expect("a section");
        sources.add(path, section.examples[0].1.as_str());
    }
    let (registry, findings) = build(&sources);
    assert_eq!(findings.into_vec(), []);
    assert_eq!(registry.crosses.len(), 1);
    assert!(registry.plant("X25-01-2").is_some());
}
