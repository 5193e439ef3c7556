//! Mix-ups in words, of a seedling or of a community pot.

use crate::registry::MixUp;
use crate::wording::{at_date, joined_if_any};

/// Each mix-up with how it happened and whether it is settled; `None` where there are none.
pub(super) fn muddles(all: &[MixUp]) -> Option<String> {
    let words = all.iter().map(|muddle| {
        let why = muddle.why.as_deref();
        let why = why.map(|why| format!(" ({why})")).unwrap_or_default();
        let settled = muddle
            .settled
            .map(|on| format!(", known apart again since {on}"))
            .unwrap_or_default();
        let with = muddle.with.join(", ");
        format!("with {with} {}{why}{settled}", at_date(muddle.on))
    });
    joined_if_any(words, "; ")
}
