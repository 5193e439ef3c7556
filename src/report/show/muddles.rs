//! Mix-ups in words, of a seedling or of a community pot.

use crate::registry::MixUp;
use crate::wording::{at_date, in_brackets, joined_if_any, led_by};

/// Each mix-up with how it happened and whether it is settled; `None` where there are none.
pub(super) fn muddles(all: &[MixUp]) -> Option<String> {
    let words = all.iter().map(|muddle| {
        let why = in_brackets(muddle.why.as_deref());
        let settled = led_by(", settled ", muddle.settled.map(at_date));
        let with = muddle.with.join(", ");
        format!("with {with} {}{why}{settled}", at_date(muddle.on))
    });
    joined_if_any(words, "; ")
}
