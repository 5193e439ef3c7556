//! The parents of a cross as its page writes them: no surer than the row that names them.

use super::codes::Codes;
use crate::analysis::import::{RowParents, Who};
use crate::recording::written::{RonRecord, text, texts};

/// The value of `parents`, and how it is known.
pub(super) fn parents(of: &RowParents, codes: &Codes) -> (String, &'static str) {
    if let Some(label) = &of.label {
        return (format!("label_only({})", text(label)), "claim");
    }
    let (seed, pollen) = (named(&of.seed, codes), named(&of.pollen, codes));
    let word = match of.mixed {
        true => "pollen_mixed",
        false => "pollen_one_of",
    };
    let known = match (seed.as_slice(), pollen.as_slice()) {
        ([seed], _) if of.open => RonRecord::new().text("seed", seed).named("open"),
        ([seed], [pollen]) => RonRecord::new()
            .text("seed", seed)
            .text("pollen", pollen)
            .named("known"),
        ([seed], []) => RonRecord::new().text("seed", seed).named("pollen_unknown"),
        ([], [pollen]) => RonRecord::new()
            .text("pollen", pollen)
            .named("seed_unknown"),
        ([seed], several) => one_of(word, ("seed", seed), ("pollen", several)),
        (several, [pollen]) => one_of("seed_one_of", ("pollen", pollen), ("seed", several)),
        ([], []) => return ("unknown".to_owned(), "unknown"),
        ([], several) => one_of(word, ("seed", "?"), ("pollen", several)),
        (several, []) => one_of("seed_one_of", ("pollen", "?"), ("seed", several)),
        (seeds, pollens) => pairs(seeds, pollens),
    };
    // That a parent is one of several, or pollen mixed, stands in the form; whoever is named is only claimed.
    (known, "claim")
}

fn one_of(word: &str, sure: (&'static str, &str), several: (&'static str, &[String])) -> String {
    let record = RonRecord::new().text(sure.0, sure.1);
    record.value(several.0, texts(several.1)).named(word)
}

fn pairs(seeds: &[String], pollens: &[String]) -> String {
    let pair = |seed: &String, pollen: &String| {
        RonRecord::new()
            .text("seed", seed)
            .text("pollen", pollen)
            .line()
    };
    let pairs: Vec<String> = seeds
        .iter()
        .flat_map(|seed| pollens.iter().map(move |pollen| pair(seed, pollen)))
        .collect();
    format!("one_of_pairs([{}])", pairs.join(", "))
}

/// Their codes here; a row that does not come in leaves its plant unknown.
fn named(all: &[Who], codes: &Codes) -> Vec<String> {
    let code = |who: &Who| match who {
        Who::Row(row) => codes.rows.get(row).and_then(|codes| codes.first()).cloned(),
        Who::OnRecord(code) | Who::Species(code) => Some(code.clone()),
    };
    let known: Option<Vec<String>> = all.iter().map(code).collect();
    known.unwrap_or_default()
}
