//! The files of a new registry are sound as they stand, and their examples are sound when taken out of the comments.

use podbook::diagnostic::Findings;
use podbook::registry::{Registry, STARTER, build};
use podbook::text::Sources;

fn starter(path: &str) -> &'static str {
    STARTER
        .iter()
        .find(|file| file.path == path)
        .expect("a starter file")
        .text
}

/// The text with the slashes taken off its examples, which stand inside lists.
fn uncommented(text: &str) -> String {
    let lines = text
        .lines()
        .map(|line| line.strip_prefix("        // ").unwrap_or(line));
    lines.collect::<Vec<_>>().join("\n")
}

fn faults(files: &[(&str, String)], look: impl Fn(&Registry)) -> String {
    let mut sources = Sources::new();
    for (path, text) in files {
        sources.add(*path, text.as_str());
    }
    let (registry, findings): (Registry, Findings) = build(&sources);
    look(&registry);
    findings
        .iter()
        .map(|finding| format!("{finding:?}\n"))
        .collect()
}

#[test]
fn a_new_registry_has_nothing_to_mend() {
    let files: Vec<_> = STARTER
        .iter()
        .filter(|file| file.path.ends_with(".ron"))
        .map(|file| (file.path, file.text.to_owned()))
        .collect();
    let found = faults(&files, |registry| {
        assert!(registry.settings.traits.len() > 20);
        assert!(registry.taxa.species.len() > 150);
        assert_eq!(registry.plant_count(), 0);
    });
    assert_eq!(found, "");
}

#[test]
fn the_commented_examples_are_sound_records() {
    let spathulata = r#"(code: "Spa1", received: "N. spathulata"),"#;
    let clones = uncommented(starter("clones.ron")).replacen(
        "clones: [",
        &format!("clones: [{spathulata}"),
        1,
    );
    assert_ne!(clones, starter("clones.ron"));
    let pollen = uncommented(starter("pollen.ron")).replace("Spa1-2304", "Spa1-2504");
    let files = [
        ("clones.ron", clones),
        (
            "crosses/X25-01.ron",
            starter("crosses/page-to-copy.txt").to_owned(),
        ),
        ("pollen.ron", pollen),
        ("registry.ron", starter("registry.ron").to_owned()),
        ("species.ron", starter("species.ron").to_owned()),
    ];
    let found = faults(&files, |registry| {
        assert_eq!(registry.founders().len(), 2);
        assert_eq!(registry.pollen.len(), 1);
        let ventricosa = registry.plant("Ven1").expect("the example");
        assert_eq!(registry.ramets(ventricosa).len(), 2);
        assert_eq!(registry.flowerings(ventricosa).len(), 1);
        assert_eq!(registry.readings.of(ventricosa).count(), 2);
        assert!(registry.plant("X25-01-2").is_some());
    });
    assert_eq!(found, "");
}
