//! What the codes on a command line name.

use crate::cli::request::Refusal;
use crate::registry::{Registry, Target};

/// What a code on the command line names; an unknown one is refused with the nearest.
pub(super) fn known<'t>(registry: &Registry<'t>, id: &str) -> Result<Target<'t>, Refusal> {
    if let Some(target) = registry.target(id) {
        return Ok(target);
    }
    let near = registry.near(id);
    let may_hold = registry.may_be_on(id);
    if !may_hold.is_empty() {
        return Err(unread(id, &may_hold, &near));
    }
    let hint = if near.is_empty() {
        "see `podbook list plants`, `podbook list crosses`".to_owned()
    } else {
        format!("did you mean {}?", near.join(" or "))
    };
    Err(Refusal::arguments(format!(
        "no record has the code `{id}`\n{hint}"
    )))
}

/// How many pages are named that a code may stand on.
const PAGES_NAMED: usize = 3;

/// The refusal of a code that may stand on a page that could not be read.
fn unread(id: &str, pages: &[String], near: &[String]) -> Refusal {
    let mut lines = vec![format!(
        "`{id}` was not found, and it may be on a page that could not be read:"
    )];
    let named = pages.iter().take(PAGES_NAMED);
    lines.extend(named.map(|page| format!("  {page}")));
    if let Some(more) = pages
        .len()
        .checked_sub(PAGES_NAMED)
        .filter(|more| *more > 0)
    {
        lines.push(format!("  and {more} more"));
    }
    lines.push("mend that first (`podbook check` shows how), then ask again".to_owned());
    if !near.is_empty() {
        lines.push(format!("or did you mean {}?", near.join(" or ")));
    }
    Refusal::files(lines.join("\n"))
}
