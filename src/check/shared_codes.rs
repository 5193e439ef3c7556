//! Is the code of a founder or a cross the code of a seedling too?
//!
//! The code of a seedling is that of its cross with its number, so the two stand on different pages. What is recorded under
//! the code goes to the founder, or to the seedling where the other is a cross, and the other cannot be named.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::registry::PlantRow;
use crate::text::Span;

/// Founders and crosses with the code of a seedling.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let registry = context.registry;
    let founders = PlantRow::all(registry.founders().len());
    let founders = founders.filter_map(|founder| {
        let seedling = registry.seedling_coded(&registry.code(founder))?;
        Some(shared(
            context,
            seedling,
            ("founder", registry.place(founder)),
        ))
    });
    let crosses = registry.cross_rows().filter_map(|row| {
        let cross = &registry[row];
        let seedling = registry.seedling_coded(cross.page.code)?;
        let place = context.span(cross.file, cross.page.code);
        Some(shared(context, seedling, ("cross", place)))
    });
    founders.chain(crosses).collect()
}

fn shared(
    context: &CheckContext,
    seedling: PlantRow,
    (other, place): (&str, Option<Span>),
) -> Finding {
    let code = context.registry.code(seedling);
    Finding::fault(
        Code("repeated-code"),
        format!("{code} is a seedling and a {other}"),
    )
    .at(place)
    .found("a code that a seedling has by its cross and number")
    .needed("each plant and each cross under a code of its own")
    .help("read both tags, and give one of the two another code: under one code only one of them can be named")
    .related(context.registry.place(seedling), "the seedling of that code")
}
