//! What a heading of a sitting names, and what a misspelt one may have meant.

use super::readings::Column;
use super::row_types::TraitRow;
use crate::record::{LengthUnit, Reads, Trait};
use crate::text::nearest;

/// What a heading such as `span cm` or `banding` names; `None` when it names nothing declared.
pub fn column_named(traits: &[Trait], heading: &str) -> Option<Column> {
    let heading = heading.trim();
    let index = |code: &str| {
        let at = traits.iter().position(|t| t.code == code)?;
        Some(TraitRow::new(at))
    };
    match heading {
        "pest" => return Some(Column::Pest),
        "pitcher" => return Some(Column::Pitcher),
        "note" => return Some(Column::Note),
        _ => {}
    }
    if let Some(index) = index(heading) {
        return Some(Column::Trait { index, unit: None });
    }
    let (code, unit) = heading.rsplit_once(' ')?;
    Some(Column::Trait {
        index: index(code.trim())?,
        unit: Some(LengthUnit::read(unit)?),
    })
}

/// The headings that a misspelt one may mean, the likeliest first. One that ends in a unit keeps it, and only lengths have
/// a unit.
pub(super) fn headings_meant(heading: &str, traits: &[Trait], known: &[&str]) -> Vec<String> {
    let Some((word, unit)) = word_and_unit(heading) else {
        let near = nearest(heading, known.iter().copied());
        return near.into_iter().map(str::to_owned).collect();
    };
    let lengths = traits
        .iter()
        .filter(|of| matches!(of.reads, Reads::Length(_)));
    let near = nearest(word, lengths.map(|of| of.code));
    near.into_iter()
        .map(|code| format!("{code} {unit}"))
        .collect()
}

/// A heading such as `hieght (cm)` or `hieght, cm` taken apart into its word and its unit of length.
fn word_and_unit(heading: &str) -> Option<(&str, &str)> {
    let is_mark = |c: char| c.is_whitespace() || "()[],;:/".contains(c);
    let (word, unit) = heading.trim_end_matches(is_mark).rsplit_once(is_mark)?;
    LengthUnit::read(unit)?;
    Some((word.trim_matches(is_mark), unit))
}
