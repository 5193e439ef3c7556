//! Was the plant that was pollinated the recorded seed parent?

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::record::{Parent, Parents, Pollination, parents};
use crate::registry::CrossRow;
use crate::registry::Who;

/// Each pollinated plant against the seed parents of its page.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let page = context.page(cross);
    if page.parents_misread {
        // What stands in for parents that could not be read contradicts no pollination.
        return Vec::new();
    }
    let all = parents(page);
    let either = matches!(page.parents, Parents::DirectionLost(_));
    let mothers: Vec<Parent> = all
        .into_iter()
        .filter(|parent| parent.bore_the_seed || either)
        .collect();
    let pollinations = page.pollinations.iter();
    pollinations
        .filter_map(|pollination| of_pollination(context, cross, pollination, &mothers))
        .collect()
}

/// The fault when the plant pollinated can be none of the seed parents; `None` also where a code names nothing, which is
/// told elsewhere.
fn of_pollination(
    context: &CheckContext,
    cross: CrossRow,
    pollination: &Pollination,
    mothers: &[Parent],
) -> Option<Finding> {
    let code = pollination.plant?;
    let pollinated = Who::Plant(context.plant(code)?);
    let named: Option<Vec<Who>> = mothers
        .iter()
        .map(|mother| Who::named(context.registry, mother.code))
        .collect();
    let named = named?;
    if named.is_empty()
        || named
            .iter()
            .any(|mother| mother.may_be(context.registry, pollinated))
    {
        return None;
    }
    let file = context.cross(cross).file;
    let codes: Vec<&str> = mothers.iter().map(|mother| mother.code).collect();
    let finding = Finding::fault(
        Code("other-seed-parent"),
        format!("{code} was pollinated, but it is not the seed parent of this cross"),
    )
    .at(context.span(file, code))
    .found(format!("`{code}` in zone {}", pollination.zone))
    .needed(format!("{}, or one of its pieces", codes.join(" or ")))
    .help("was this pollination written on the wrong page, or is the seed parent wrong?");
    let first = context.span(file, mothers[0].code);
    Some(finding.related(first, "the recorded seed parent"))
}
