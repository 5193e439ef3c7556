//! `docs/files.md` names every field of every record and every word of every choice, and nothing else.
//!
//! The records are found by reading `src/record`: a public type that can be read from a file, its public fields or its
//! variants. A field that has no default is one that is needed.

use crate::sections::sections;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// A record as the program has it: its fields or words, and which of them must be there.
#[derive(Default, Debug)]
struct Declared {
    names: Vec<String>,
    needed: Vec<String>,
}

fn declared() -> BTreeMap<String, Declared> {
    let mut folders = vec![PathBuf::from(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/src/record"
    ))];
    let mut all = BTreeMap::new();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).expect("the folder of records") {
            let path = entry.expect("a file").path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let text = std::fs::read_to_string(path).expect("a source file");
            let public = text
                .match_indices("#[derive(Deserialize")
                .filter_map(|(at, _)| declaration(&text[at..]));
            all.extend(public);
        }
    }
    all
}

/// Reads one declaration: from its derive to the brace that closes it, which alone stands at the margin.
fn declaration(text: &str) -> Option<(String, Declared)> {
    let body = text.split_once("\n}").map_or(text, |(body, _)| body);
    let head = body.lines().find(|line| line.starts_with("pub "))?;
    let mut words = head.split([' ', '<', '{']);
    let is_struct = words.nth(1) == Some("struct");
    let name = words.next().expect("a name").to_owned();
    let mut declared = Declared::default();
    // `default` on the type itself makes every field one that may be left out.
    let all_default = body
        .lines()
        .any(|line| line.starts_with("#[serde(") && line.contains("default"));
    let mut has_default = false;
    let mut renamed: Option<String> = None;
    for line in body.lines() {
        let Some(line) = line
            .strip_prefix("    ")
            .filter(|line| !line.starts_with([' ', '/', '}', ')', ']']))
        else {
            continue;
        };
        if line.starts_with("#[") {
            has_default |= line.contains("default");
            let rename = line.split_once("rename = \"");
            renamed =
                renamed.or(rename.and_then(|(_, rest)| Some(rest.split_once('"')?.0.to_owned())));
            continue;
        }
        let field = if is_struct {
            line.strip_prefix("pub ")
                .and_then(|field| field.split_once(':'))
                .map(|(name, _)| name.to_owned())
        } else {
            line.split([',', ' ', '(', '{']).next().map(snake_case)
        };
        // A value that may be missing may be left out.
        has_default |= line.contains(": Option<");
        // What stands in the file is the name it is renamed to.
        if let Some(field) = field.map(|field| renamed.take().unwrap_or(field)) {
            if is_struct && !has_default && !all_default {
                declared.needed.push(field.clone());
            }
            declared.names.push(field);
        }
        has_default = false;
    }
    Some((name, declared))
}

fn snake_case(name: &str) -> String {
    let mut out = String::new();
    for letter in name.chars() {
        if letter.is_uppercase() && !out.is_empty() {
            out.push('_');
        }
        out.extend(letter.to_lowercase());
    }
    out
}

#[test]
fn the_page_names_every_record_field_and_word() {
    let page = sections();
    let declared = declared();
    assert!(declared.len() > 30, "the records were not found");
    for (record, Declared { names, needed }) in &declared {
        let section = page.iter().find(|section| section.record == *record);
        let section =
            section.unwrap_or_else(|| panic!("docs/files.md has no section (`{record}`)"));
        let missing: Vec<_> = names
            .iter()
            .filter(|name| !section.names.contains(name))
            .collect();
        let stale: Vec<_> = section
            .names
            .iter()
            .filter(|name| !names.contains(name))
            .collect();
        assert!(
            missing.is_empty(),
            "not on the page under {record}: {missing:?}"
        );
        assert!(
            stale.is_empty(),
            "on the page under {record}, not in the program: {stale:?}"
        );
        assert_eq!(section.needed, *needed, "marked as needed under {record}");
    }
    for section in &page {
        assert!(
            declared.contains_key(&section.record),
            "no record is called {}",
            section.record
        );
    }
}

#[test]
fn every_record_with_fields_has_an_example() {
    for section in sections() {
        let plain_words = [
            "Hemisphere",
            "ShownUnit",
            "MeasuredIn",
            "Sureness",
            "ReceivedAs",
            "NameAs",
            "PollenPlace",
            "PitcherType",
            "Confidence",
            "Made",
            "Sex",
            "SeenBy",
            "Holds",
            "RowClass",
            "Choose",
        ];
        assert!(
            !section.examples.is_empty() || plain_words.contains(&section.record.as_str()),
            "no example of {}",
            section.record
        );
    }
}

/// Kinds of records with descent, a name or a sex.
const LOWERABLE: [&str; 15] = [
    "CrossPage",
    "Pollination",
    "Pod",
    "SeedLot",
    "Sowing",
    "CommunityPot",
    "Seedling",
    "FounderClone",
    "Ramet",
    "Flowering",
    "Potting",
    "Identification",
    "PollenLot",
    "Species",
    "Muddle",
];
/// Their fields whose loss makes nothing surer: they name or count something, or what is without them is not known.
const NO_DOUBTS: &str = "accepted alive appendix area authors background_kinship basis batch by came came_back capsules \
    collected community_pot community_pots container counted covered cultivar cut dried elevation_m \
    embryo_percent epithet evidence fate finished flowerings flowers foreign form germinated given_away \
    goal gone harvested identified kept left locality lot made medium name name_as nickname nights note \
    number numbered on one_of_before opened over papers photos plant pod pods pot pricked_out received \
    rooted seed_lots seedlings set settled source sowings spike status stored supplier_code sureness \
    thawed treatments varieties why with year zone";

/// A field that lowers a claim is in the table of those whose loss is a doubt; a new field is listed there, or here.
#[test]
fn every_field_is_a_doubt_or_none() {
    let table = include_str!("../../src/record/salvage/unread_fields.rs");
    let declared = declared();
    for kind in LOWERABLE {
        for field in &declared[kind].names {
            let listed = table.contains(&format!("\"{field}\""));
            let excused = NO_DOUBTS.split_whitespace().any(|name| name == field);
            assert!(listed || excused, "{kind}: `{field}` is in neither list");
        }
    }
}
