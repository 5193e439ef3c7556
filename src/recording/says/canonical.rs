//! A record in canonical form: two that say the same are the same text.

use super::seasons::{in_numbers, rewritten};
use super::value::Value;
use crate::record::{Hemisphere, When};
use crate::text::Outline;
use crate::text::edit::made;

/// A record in one line, its dates in the numbers of the days they mean, its fields and the entries of its lists in an order
/// of their own. A text that is no record is left as it is.
pub fn canonical(record: &str, hemisphere: Hemisphere) -> String {
    let outline = Outline::of(record);
    let edits = rewritten(&outline, &mut |words| {
        When::read(words, hemisphere).ok().and_then(in_numbers)
    });
    let dated = made(record, &edits).unwrap_or_else(|_| record.to_owned());
    let outline = Outline::of(&dated);
    let value = outline.root().and_then(|root| Value::of(&outline, root));
    value.map_or_else(|| dated.clone(), |value| value.canonical())
}
