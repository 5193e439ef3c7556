//! What is shown the mutilated texts, and what must hold of each.

use podbook::diagnostic::{Drawing, Finding, Findings, Severity};
use podbook::naming::{Chains, ReadOptions, Vocabulary, read, starter};
use podbook::registry::build;
use podbook::text::edit::{EditFault, apply};
use podbook::text::outline::{Kind, PartId};
use podbook::text::{Outline, Sources, nearest};

use std::sync::LazyLock;

use super::pages;

/// An outline's parts lie within each other, its faults within the text, and every question has an answer.
pub fn outline(text: &str) {
    let outline = Outline::of(text);
    for (number, part) in outline.parts().iter().enumerate() {
        let id = PartId(number as u32);
        assert!(text.get(part.start as usize..part.end as usize).is_some());
        if let Some(around) = part.parent() {
            let around = outline.part(around);
            assert!(around.start <= part.start && part.end <= around.end);
        }
        assert!(
            outline
                .at(part.start)
                .is_some_and(|at| at <= id || outline.part(at).start == part.start)
        );
        let _ = (
            outline.name(id),
            outline.tag(id),
            outline.record_at(part.start),
            outline.comma_after(id),
        );
    }
    let mut sources = Sources::new();
    let file = sources.add("page.ron", text);
    let text = sources.text(file);
    let outline = Outline::of(text);
    let told: Findings = outline
        .faults()
        .iter()
        .take(50)
        .map(|fault| Finding::of_shape(fault, file, text))
        .collect();
    Drawing::default()
        .findings_from(Severity::Note, &told, &sources)
        .to_string();
}

/// An edit of a sound text gives a sound text; of a faulty one it is refused.
pub fn edits(text: &str) {
    let outline = Outline::of(text);
    for number in 0..outline.parts().len().min(12) {
        let id = PartId(number as u32);
        let edits = match outline.part(id).kind {
            Kind::List => outline.append(id, "(\n    new: \"x\",\n)"),
            Kind::Struct => outline.set_field(id, "new", "[1, 2]"),
            _ => outline.remove(id),
        };
        let Ok(edits) = edits else { continue };
        match apply(text, &edits) {
            Ok(_) => assert!(outline.faults().is_empty()),
            Err(EditFault::FaultyText(_)) => assert!(!outline.faults().is_empty()),
            Err(fault) => panic!("{fault}"),
        }
    }
}

/// A small registry; `faulty` takes the place of the page it looks most like.
pub fn sources(faulty: Option<&str>) -> Sources {
    let mut sources = Sources::new();
    let paths = [
        "clones.ron",
        "crosses/2024-03.ron",
        "pollen.ron",
        "registry.ron",
        "species.ron",
    ];
    let alike = faulty.and_then(|faulty| {
        pages::ALL
            .iter()
            .position(|page| page.get(..12) == faulty.get(..12))
    });
    for (number, (path, page)) in paths.iter().zip(pages::ALL).enumerate() {
        let page = faulty
            .filter(|_| number == alike.unwrap_or(1))
            .unwrap_or(page);
        sources.add(*path, page);
    }
    sources
}

/// A registry with one mutilated page is built as far as it goes, and what is wrong is told and can be drawn.
pub fn registry(text: &str) {
    let sources = sources(Some(text));
    let (_, findings) = build(&sources);
    let drawn = Drawing::default()
        .findings_from(Severity::Note, &findings, &sources)
        .to_string();
    assert_eq!(drawn.is_empty(), findings.is_empty());
    let sound = sources
        .iter()
        .all(|(_, source)| Outline::of(&source.text).faults().is_empty());
    assert!(
        sound || findings.count(Severity::Fault) > 0,
        "a fault of shape was not told"
    );
}

static VOCABULARY: LazyLock<Vocabulary> = LazyLock::new(starter);

/// A label is read or refused, never both; it is kept byte for byte; and what was read can be read again, but where botanical
/// order only says that it is of a later generation: which one, the words leave open, and so they are refused.
pub fn labels(label: &str) {
    for chains in [Chains::Ask, Chains::LeftToRight] {
        let reading = read(label, &VOCABULARY, ReadOptions { chains });
        assert_eq!(reading.label, label);
        assert_eq!(reading.formula.is_none(), reading.refused.is_some());
        assert_eq!(reading.formula.is_none(), reading.shares.is_empty());
        for written in [reading.breeder, reading.botanical].into_iter().flatten() {
            let again = read(&written, &VOCABULARY, ReadOptions { chains });
            let is_open = written.contains("(later generation)");
            assert!(again.formula.is_some() != is_open, "{written:?}");
        }
    }
}

/// At most three names are offered, each a known one.
pub fn near_names(word: &str) {
    let found = nearest(word, pages::LABELS.iter().copied());
    assert!(found.len() <= 3 && found.iter().all(|name| pages::LABELS.contains(name)));
}
