//! Names in use whose status is doubtful, or that are no names.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::naming::Vocabulary;
use crate::record::parents;
use crate::text::Span;
use std::collections::{BTreeMap, BTreeSet};

/// Names on a label that are doubtful, or that are no names. Where it is settled what the plant is, a doubtful name on its
/// label asks for nothing more.
pub(super) fn doubtful_words(
    (text, place): (&str, Option<Span>),
    vocabulary: &Vocabulary,
    settled: bool,
) -> Vec<Finding> {
    let words = text.split(|c: char| !(c.is_alphabetic() || c == '-'));
    let words: BTreeSet<String> = words.map(str::to_lowercase).collect();
    let mut found = Vec::new();
    for word in &words {
        let species = vocabulary.species(word).filter(|_| !settled);
        if let Some(doubt) = species.and_then(|row| row.doubt.as_deref()) {
            found.push(doubtful(place, word, doubt));
        }
        if let Some(row) = vocabulary.named_hybrid(word).filter(|row| !row.may_emit) {
            let finding = Finding::note(
                Code("not-a-name"),
                format!("{word} is not an accepted name"),
            )
            .at(place)
            .found(format!("`{}`", text))
            .needed(format!("the formula: {}", row.formula))
            .help(format!(
                "its status: {}; the label is kept as it came",
                row.status
            ));
            found.push(finding);
        }
    }
    found
}

fn doubtful(place: Option<Span>, epithet: &str, doubt: &str) -> Finding {
    Finding::warning(
        Code("doubtful-name"),
        format!("{epithet} is a doubtful name"),
    )
    .at(place)
    .found(format!("`{epithet}`"))
    .needed("a name that makes clear which plant is meant")
    .help(doubt.to_owned())
    .help("write what the plant is now thought to be under `identified`, with the date and who said so")
    .help("`accepted: true` on that opinion shows its name, with the received name beside it")
}

/// Species named as parents whose names are doubtful.
pub(super) fn doubtful_parents(context: &CheckContext) -> Vec<Finding> {
    let registry = context.registry;
    let doubts: BTreeMap<&str, &str> = registry
        .taxa
        .species
        .iter()
        .filter(|row| row.doubtful)
        .map(|row| {
            (
                row.epithet,
                row.doubt
                    .as_deref()
                    .or(row.note.as_deref())
                    .unwrap_or("marked doubtful in species.ron"),
            )
        })
        .collect();
    if doubts.is_empty() {
        return Vec::new();
    }
    let mut found = Vec::new();
    for cross in &registry.crosses {
        for parent in parents(&cross.page) {
            let code = parent.code.trim();
            if let Some(doubt) = doubts.get(code).filter(|_| context.plant(code).is_none()) {
                found.push(doubtful(context.span(cross.file, parent.code), code, doubt));
            }
        }
    }
    found
}
