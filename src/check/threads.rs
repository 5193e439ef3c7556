//! Threads that bear pollen of two crosses, where they are on record.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::evidence::{shared_threads, zone_code};
use crate::registry::ZoneRow;

/// A warning for each thread of the grower's own pages that another of them has, too.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let is_own = |zone: &ZoneRow| context.registry[zone.cross].page.told_by.is_none();
    let shared = shared_threads(context.registry).into_iter();
    let own = shared.filter(|(now, before)| before < now && is_own(now) && is_own(before));
    own.filter_map(|(now, before)| two_crosses(context, before, now))
        .collect()
}

fn two_crosses(context: &CheckContext, before: ZoneRow, now: ZoneRow) -> Option<Finding> {
    let code = |of: ZoneRow| zone_code(context.registry, of);
    let place = |of: ZoneRow| context.span(context.cross(of.cross).file, context.registry[of].zone);
    let finding = Finding::warning(
        Code("thread-of-two-crosses"),
        format!("{} and {} may be the same flowers", code(before), code(now)),
    )
    .at(place(now)?)
    .found("one zone name on one plant, with pollen of two fathers")
    .needed("different flowers for each cross, or `parents` with both possible fathers")
    .help("if they are the same flowers, write `pollen_one_of` or `pollen_mixed` on one page; if not, give one zone another name, here and on its thread");
    Some(finding.related(place(before), "dusted with other pollen here"))
}
