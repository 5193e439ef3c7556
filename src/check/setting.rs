//! The finding on a setting that cannot be.

use super::context::{Anchor, CheckContext};
use crate::diagnostic::{Code, Finding};

/// A field of `registry.ron`, by its path, with what was found and what is needed.
pub(super) fn out_of_range<'t>(
    context: &CheckContext<'_, 't>,
    anchor: Anchor<'t>,
    field: &str,
    found: &str,
    needed: &str,
) -> Finding {
    Finding::fault(Code("bad-setting"), format!("`{field}` cannot be this"))
        .at(context.field(anchor, field))
        .found(found)
        .needed(needed)
}
