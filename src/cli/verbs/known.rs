//! What the codes on a command line name.

use crate::cli::request::Refusal;
use crate::recording::slip::Slip;
use crate::registry::{Registry, Target};

/// An answer for each code; an unknown one is refused.
pub(super) fn each<T>(
    registry: &Registry,
    ids: &[String],
    answer: impl Fn(&str) -> Result<T, Refusal>,
) -> Result<Vec<T>, Refusal> {
    let answered = ids.iter().map(|id| {
        known(registry, id)?;
        answer(id)
    });
    answered.collect()
}

/// What a code on the command line names; an unknown one is refused with the nearest.
pub(super) fn known<'t>(registry: &Registry<'t>, id: &str) -> Result<Target<'t>, Refusal> {
    if let Some(target) = registry.target(id) {
        return Ok(target);
    }
    let near = match Slip::unknown(registry, "record", id, registry.near(id)) {
        Slip::Unknown { near, .. } => near,
        left_out => return Err(Refusal::slip(&left_out)),
    };
    let hint = if near.is_empty() {
        "see `podbook list plants`, `podbook list crosses`".to_owned()
    } else {
        format!("did you mean {}?", near.join(" or "))
    };
    Err(Refusal::arguments(format!(
        "no record has the code `{id}`\n{hint}"
    )))
}
