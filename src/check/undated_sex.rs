//! Does each sex on record say when it was seen, and by what?
//!
//! Without `seen_by` a sex counts as seen on open flowers; a record that names no day of open flowers leaves open
//! whether any were seen.

use super::context::CheckContext;
use super::flowerings::of_flowerings;
use crate::diagnostic::{Code, Finding};
use crate::record::{Flowering, SeenBy};
use crate::registry::PlantRow;

/// The flowerings of a founder or seedling.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    of_flowerings(context, (plant, "sex"), |of| {
        note(&context.registry.code(plant), of)
    })
}

/// The note on a sex that counts as seen on open flowers although no day of open flowers is recorded.
fn note(code: &str, flowering: &Flowering) -> Option<Finding> {
    flowering.sex?;
    let in_flower = flowering.opened.is_some() || flowering.over.is_some();
    if in_flower || flowering.seen_by != SeenBy::Flowers {
        return None;
    }
    let found = match flowering.spike {
        Some(_) => "a spike and a sex, but no day of open flowers",
        None => "a sex without a day, and no `seen_by`",
    };
    Some(
        Finding::note(
            Code("undated-sex"),
            format!("no record of when or how the sex of {code} was seen"),
        )
        .found(found)
        .needed("the day of open flowers as exactly as it is known (`opened` or `over`), or `seen_by`")
        .help("without them the sex counts as seen on open flowers; if no flower was seen open, write `seen_by: buds`, `leaf_test` or `supplier`"),
    )
}
