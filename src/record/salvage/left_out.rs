//! Which records and fields of a page were not read, each by what it is and its code.

use super::codes::coded;
use super::kinds::Page;
use super::marks::Marks;
use super::unread_fields::unread_fields;
use crate::text::outline::PartId;
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
    if !nothing_kept {
        source.leave_open(unread_fields(source, &outline, &marks));
    }
}

/// The record around the list a record stands in.
fn outer(outline: &Outline, record: PartId) -> Option<PartId> {
    outline.part(outline.part(record).parent()?).parent()
}
