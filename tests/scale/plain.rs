//! What is read without `ron` is what `ron` reads.

use super::nursery::{Chance, Nursery};
use podbook::record::{ClonesPage, CrossPage, RegistryPage, SpeciesPage, read_without_ron};
use proptest::prelude::*;
use ron::extensions::Extensions;
use serde::Deserialize;

/// A page as `ron` reads it, in the dialect of every file; `None` when it is faulty.
fn read_by_ron<'t, P: Deserialize<'t>>(text: &'t str) -> Option<P> {
    let dialect = ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
    dialect.from_str(text).ok()
}

/// Whether a cross page is read without `ron`; if so it must be what `ron` reads.
fn agrees(text: &str) -> Result<bool, String> {
    let Some(plain) = read_without_ron::<CrossPage>(text) else {
        return Ok(false);
    };
    let by_ron = read_by_ron::<CrossPage>(text).map(|page| format!("{page:?}"));
    if by_ron == Some(format!("{plain:?}")) {
        Ok(true)
    } else {
        Err(format!("without ron: {plain:?}\nby ron: {by_ron:?}"))
    }
}

#[test]
fn generated_pages_are_of_the_plainest_form() {
    for (path, text) in Nursery::hobby().grow().pages {
        match path.as_str() {
            "registry.ron" => assert!(read_by_ron::<RegistryPage>(&text).is_some()),
            "species.ron" => same(
                read_without_ron::<SpeciesPage>(&text),
                read_by_ron::<SpeciesPage>(&text),
            ),
            "clones.ron" => same(
                read_without_ron::<ClonesPage>(&text),
                read_by_ron::<ClonesPage>(&text),
            ),
            _ => assert_eq!(agrees(&text), Ok(true), "{path}"),
        }
    }
}

fn same<P: std::fmt::Debug>(plain: Option<P>, by_ron: Option<P>) {
    assert!(plain.is_some());
    assert_eq!(format!("{plain:?}"), format!("{by_ron:?}"));
}

const PAGE: &str = r#"(
    code: "X1",
    parents: pollen_one_of(seed: "V1", pollen: ["V2", "V3"], weights: [2, 1]),
    confidence: witnessed,
    pods: [(code: "P1", zone: "A", seeds: 40)],
    seed_lots: [(code: "L1", seeds: 120, estimated: true, embryo_percent: 80)],
    seedlings: [(number: "1", fate: died(on: "2024", cause: "rot \"again\"")), (number: "2", ramets: [(code: "a", made: cutting)])],
    sittings: [(on: "2024", pitcher: lower, columns: ["span"], rows: [["1", "9.6"], ["2", "\u{bd}"]])],
)"#;

/// The page as words, texts and marks.
fn tokens() -> Vec<&'static str> {
    let mut rest = PAGE;
    let mut tokens = Vec::new();
    while let Some(first) = rest.chars().next() {
        let length = match first {
            '"' => {
                let mut escaped = false;
                let closing = rest.char_indices().skip(1).find(|&(_, c)| {
                    let closes = c == '"' && !escaped;
                    escaped = c == '\\' && !escaped;
                    closes
                });
                closing.unwrap().0 + 1
            }
            c if c.is_ascii_alphanumeric() => rest
                .find(|c: char| !c.is_ascii_alphanumeric() && c != '_')
                .unwrap(),
            c => c.len_utf8(),
        };
        if !first.is_whitespace() {
            tokens.push(&rest[..length]);
        }
        rest = &rest[length..];
    }
    tokens
}

const BETWEEN: [&str; 9] = [
    "",
    "",
    "",
    " ",
    "\n",
    "\r\n",
    "\t",
    " // why (\n",
    "/* no */",
];
const INSTEAD: [&str; 22] = [
    ",",
    ":",
    "(",
    ")",
    "[",
    "]",
    "{",
    "Some(1)",
    "None",
    "\"x\"",
    "r\"x\"",
    "1",
    "007",
    "-3",
    "1_0",
    "0x1f",
    "true",
    "lower",
    "r#code",
    "'c'",
    "99999999999",
    "code",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    /// Blanks and comments between any two tokens, and a token or two replaced, left out or doubled.
    #[test]
    fn agrees_with_ron_on_pages_gone_wrong(seed in any::<u64>()) {
        let mut chance = Chance(seed);
        let mut tokens = tokens();
        for _ in 0..chance.below(4) {
            let at = chance.below(tokens.len());
            match chance.below(4) {
                0 => { tokens.remove(at); }
                1 => tokens.insert(at, INSTEAD[chance.below(INSTEAD.len())]),
                2 => tokens.insert(at, tokens[at]),
                _ => tokens[at] = INSTEAD[chance.below(INSTEAD.len())],
            }
        }
        let blanks = chance.below(30);
        let mut text = String::new();
        for token in tokens {
            if chance.below(30) < blanks {
                text.push_str(BETWEEN[chance.below(BETWEEN.len())]);
            }
            text.push_str(token);
        }
        prop_assert!(agrees(&text).is_ok(), "{}\n{}", text, agrees(&text).unwrap_err());
    }
}

#[test]
fn the_page_itself_is_plain() {
    assert_eq!(agrees(PAGE), Ok(true));
    assert_eq!(agrees(&tokens().join(" ")), Ok(true));
}
