//! Codes and dates spelt with escapes are read as what they say, at the place where they are typed.

use podbook::record::spelt_out;
use podbook::registry::build;
use podbook::text::Sources;
use proptest::prelude::*;

fn sources(pages: &[(&str, &str)]) -> Sources {
    let mut sources = Sources::new();
    for (path, text) in pages {
        sources.add(*path, *text);
    }
    sources
}

const REGISTRY: &str = r#"(genus: "Nepen\x74hes", hemisphere: north,
    traits: [(code: "sp\u{61}n", name: "leaf sp\u{61}n", reads: length(cm))])"#;
const CLONES: &str =
    r#"(clones: [(code: "V\x31", received: "N. mira"), (code: "V2", received: "N. \x6dira")])"#;
const CROSS: &str = r#"(code: "X22\u{2d}02", parents: known(seed: "\u{56}1", pollen: "V2"),
    pods: [(code: "P\u{31}", harvested: "202\x33-08")],
    seedlings: [(number: "\u{31}", pod: "P1"), (number: "2", pod: "\x501", note: "tag read \"7\"\nor \"1\"")],
    sittings: [(on: "2024\u{2d}05-01", columns: ["sp\u{61}n \x63m"], rows: [["1", "9\u{2e}6"], ["\u{32}", "7.5"]])])"#;

#[test]
fn codes_spelt_with_escapes_are_found_on_every_page() {
    let sources = sources(&[
        ("clones.ron", CLONES),
        ("crosses/X22-02.ron", CROSS),
        ("registry.ron", REGISTRY),
    ]);
    let (registry, findings) = build(&sources);
    assert!(findings.is_empty(), "{findings:?}");
    assert_eq!(registry.settings.genus, "Nepenthes");
    for code in ["V1", "V2", "X22-02", "X22-02-1", "X22-02-2", "X22-02.P1"] {
        assert!(registry.target(code).is_some(), "{code}");
    }
    let second = registry.plant("X22-02-2").unwrap();
    let seedling = registry.seedling(second).unwrap();
    assert_eq!(seedling.note.as_deref(), Some("tag read \"7\"\nor \"1\""));
    for (code, read) in [("X22-02-1", "9.6"), ("X22-02-2", "7.5")] {
        let plant = registry.plant(code).unwrap();
        let cells: Vec<&str> = registry
            .readings
            .of(plant)
            .map(|r| registry.cell(r))
            .collect();
        assert_eq!(cells, [read], "{code}");
    }
}

#[test]
fn a_fault_on_a_page_with_escapes_keeps_its_place() {
    let cross = CROSS.replace("pods:", "podz: 1, pods:");
    let sources = sources(&[
        ("clones.ron", CLONES),
        ("crosses/X22-02.ron", &cross),
        ("registry.ron", REGISTRY),
    ]);
    let (registry, findings) = build(&sources);
    let told: Vec<_> = findings.iter().map(|f| (f.code.0, f.place)).collect();
    let place = told[0].1.expect("a fault of a page has a place");
    assert_eq!((told.len(), told[0].0), (1, "unknown-field"));
    assert_eq!(&sources.text(place.file)[place.range()], "podz");
    assert!(registry.plant("X22-02-1").is_some());
}

proptest! {
    /// Nothing moves: what is not spelt out stands where it stood, and what is reads the same.
    #[test]
    fn a_copy_keeps_every_offset(text in "[a\"\\\\x41u{}é\n(,)r#]{0,80}") {
        if let Some(copy) = spelt_out(&text) {
            prop_assert_eq!(copy.len(), text.len());
            prop_assert!(copy != text);
        }
    }
}
