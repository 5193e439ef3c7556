//! Which records have a code, and where it stands.

use super::kinds::Kind;
use super::marks::Marks;
use crate::text::Outline;
use crate::text::outline::{Kind as Shape, PartId, Role};

/// What a record is to those who name it, and where its code stands: under its name, or first of all.
pub(super) fn coded(
    outline: &Outline,
    marks: &Marks,
    record: PartId,
) -> Option<(&'static str, PartId)> {
    let (what, name) = named(marks.kind(record)?)?;
    let mut values = outline.children(record);
    let first = values.find(|at| outline.part(*at).role != Role::Key);
    let code = outline.field(record, name).or(first)?;
    let is_plain = matches!(
        outline.part(code).kind,
        Shape::Text | Shape::Word | Shape::Number
    );
    is_plain.then_some((what, code))
}

/// What the records of a kind are to those who name them, and the field of their code; `None` for those without one.
fn named(kind: &'static Kind) -> Option<(&'static str, &'static str)> {
    Some(match kind.word {
        "species" | "named hybrid" => ("species", "epithet"),
        "clone" => ("plant", "code"),
        "seedling" => ("plant", "number"),
        "ramet" => ("piece", "code"),
        "flowering" => ("spike", "code"),
        "pollination" => ("zone", "zone"),
        word @ ("pod" | "seed lot" | "sowing" | "community pot" | "pollen lot" | "trait") => {
            (word, "code")
        }
        _ => return None,
    })
}
