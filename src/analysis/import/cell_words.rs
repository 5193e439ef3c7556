//! What single words of a cell mean: a sex, what a plant came as, what became of it.

use super::dates::is_blank;
use crate::record::Sex;

/// The sex a word says.
pub(super) fn sex(cell: &str) -> Option<Sex> {
    match cell.to_lowercase().trim_end_matches('.') {
        "f" | "fem" | "female" | "♀" => Some(Sex::Female),
        "m" | "male" | "♂" => Some(Sex::Male),
        _ => None,
    }
}

/// A word of the files for what a plant came as.
pub(super) fn form(cell: &str) -> Option<&'static str> {
    Some(match cell.to_lowercase().as_str() {
        "seed" | "seeds" => "seed",
        "seedling" | "seedlings" | "young plant" => "seedling",
        "cutting" | "cuttings" | "rooted cutting" | "unrooted cutting" => "cutting",
        "division" | "divided" => "division",
        "lab" | "lab plant" | "tc" | "tissue culture" | "in vitro" | "flask" => "lab_plant",
        "plant" | "adult" | "mature" | "grown plant" => "plant",
        _ => return None,
    })
}

/// Whether a supplier is the grower: such a plant was raised here and came from nowhere.
pub(super) fn is_own(cell: &str) -> bool {
    let words = [
        "own",
        "my own",
        "mine",
        "me",
        "own cross",
        "my cross",
        "my own cross",
        "own seed",
        "own plant",
        "bred here",
        "made here",
        "raised here",
    ];
    words.contains(&cell.trim().to_lowercase().trim_end_matches('.'))
}

/// Whether a cell says that there is no seed.
pub(super) fn is_none(cell: &str) -> bool {
    let lower = cell.to_lowercase();
    ["none", "no", "nothing", "nil"].contains(&lower.trim().trim_end_matches('.'))
}

/// What is left of seed, in the words of a cell.
pub(super) fn left_words(cell: &str) -> Option<String> {
    if is_none(cell) {
        return Some("none".to_owned());
    }
    (!is_blank(cell)).then(|| cell.to_owned())
}

/// Whether a status says that the plant is still here.
pub(super) fn is_here(cell: &str) -> bool {
    let words = [
        "alive",
        "living",
        "here",
        "still here",
        "still alive",
        "ok",
        "okay",
        "good",
        "fine",
        "healthy",
        "growing",
        "yes",
        "y",
        "in collection",
        "in the collection",
    ];
    words.contains(&cell.to_lowercase().trim_end_matches('.'))
}

/// What became of a plant, and the words behind that.
pub(super) fn fate_and_rest(cell: &str) -> Option<(&'static str, &str)> {
    if let Some(word) = fate(cell) {
        return Some((word, ""));
    }
    let blanks = cell.match_indices([' ', ',', ':', ';']).map(|(at, _)| at);
    let ends: Vec<usize> = blanks.collect();
    // `given away to` before `given`.
    ends.into_iter().rev().find_map(|end| {
        let rest = cell[end..].trim_start_matches([' ', ',', ':', ';']);
        Some((fate(cell[..end].trim())?, rest))
    })
}

/// A word of the files for what became of a plant.
pub(super) fn fate(cell: &str) -> Option<&'static str> {
    Some(match cell.to_lowercase().trim_end_matches('.') {
        "dead" | "died" | "rip" | "✝" | "†" => "died",
        "sold" => "sold",
        "given" | "given away" | "gave" | "gave away" | "gift" | "traded" | "swapped" => "given",
        "lost" | "missing" => "lost",
        "culled" | "binned" | "discarded" | "thrown out" => "culled",
        _ => return None,
    })
}
