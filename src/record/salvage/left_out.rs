//! Which records of a page were not read, each by what it is and its code.

use super::kinds::{Kind, Page};
use super::marks::Marks;
use crate::text::outline::{Kind as Shape, PartId, Role};
use crate::text::{LeftOut, Outline, Source};

/// Notes at a source the records that are not among those kept of it.
pub(in crate::record) fn note_left_out<'t, P: Page<'t>>(source: &Source, nothing_kept: bool) {
    let outline = Outline::of(&source.text);
    let marks = Marks::new(&outline, P::KIND);
    let mut left_out = LeftOut::new();
    for record in (0..outline.parts().len() as u32).map(PartId) {
        if let Some((what, code)) = coded(&outline, &marks, record)
            && let place = outline.part(code).range()
            && let text = outline.slice(code)
            && (nothing_kept || !source.kept()[place.start as usize..].starts_with(text))
        {
            let whole = std::iter::successors(outer(&outline, record), |at| outer(&outline, *at));
            let code = text.trim_matches('"');
            let around = whole.filter_map(|around| coded(&outline, &marks, around));
            let code = around.fold(code.to_owned(), |inner, (_, around)| {
                format!("{}-{inner}", outline.slice(around).trim_matches('"'))
            });
            left_out.entry((code, what)).or_insert(place.start);
        }
    }
    source.leave_out(left_out);
}

/// The record around the list a record stands in.
fn outer(outline: &Outline, record: PartId) -> Option<PartId> {
    outline.part(outline.part(record).parent()?).parent()
}

/// What a record is to those who name it, and where its code stands: under its name, or first of all.
fn coded(outline: &Outline, marks: &Marks, record: PartId) -> Option<(&'static str, PartId)> {
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
