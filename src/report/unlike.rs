//! What was not alike of groups that are set side by side, in words.

use crate::observation::circumstances::{Circumstance, What};
use crate::report::as_text::{in_words, serialize_as_text};
use crate::wording::{led_by, listed};

serialize_as_text!(What);

in_words!(What {
    What::Sown => "sown",
    What::ReadOn => "read on",
    What::Place => "place",
    What::Light => "light",
    What::Pot => "pot",
    What::Method => "method",
    What::ReadBy => "read by",
    What::PottedOn => "day of potting",
    What::Medium => "sowing mix",
    What::SownAt => "place of sowing",
    What::Stands => "where they stand",
    What::Treated => "treatments",
});

/// What was not the same on all sides, and what may not have been; `None` where all was alike. Siblings have the same parents
/// and one plant has only itself, so the words blame no parents.
pub(crate) fn unlike_words<'c>(
    whom: &str,
    circumstances: impl Iterator<Item = &'c Circumstance>,
) -> Option<String> {
    let (differed, unsaid) = unlike(circumstances);
    let unsaid = (!unsaid.is_empty()).then(|| format!("not recorded: {}", listed(unsaid)));
    if differed.is_empty() {
        return unsaid.map(|unsaid| {
            format!("whether {whom} were grown alike is not known ({unsaid}), so a difference may come from that")
        });
    }
    let also = led_by("; ", unsaid);
    let differed = listed(differed);
    Some(format!(
        "{whom} were not grown alike (differed: {differed}{also}), so a difference may come from that"
    ))
}

/// What differed, and what is not known to be alike.
fn unlike<'c>(circumstances: impl Iterator<Item = &'c Circumstance>) -> (Vec<String>, Vec<String>) {
    let (mut differed, mut unsaid) = (Vec::new(), Vec::new());
    for of in circumstances {
        match (of.alike, of.what, &of.first) {
            (Some(true), ..) => {}
            (Some(false), what, _) => differed.push(what.to_string()),
            (None, What::Sown | What::ReadOn | What::PottedOn, Some(_)) => {
                unsaid.push(format!("{} to the day", of.what));
            }
            (None, what, _) => unsaid.push(what.to_string()),
        }
    }
    (differed, unsaid)
}
