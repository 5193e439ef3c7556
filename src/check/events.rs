//! Two dated things, and the finding when the later one came first.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::record::{Day, When};
use crate::text::FileId;

/// Something that happened, told in a clause such as "the seed was sown".
#[derive(Clone, Copy, Debug)]
pub(super) struct Event<'t> {
    pub clause: &'static str,
    pub text: &'t str,
    pub when: When,
    pub file: FileId,
}

impl<'t> Event<'t> {
    /// An event; `None` when its date cannot be read.
    pub fn new(
        context: &CheckContext<'_, 't>,
        file: FileId,
        clause: &'static str,
        text: &'t str,
    ) -> Option<Event<'t>> {
        let when = context.when(text)?;
        Some(Event {
            clause,
            text,
            when,
            file,
        })
    }

    /// Whether this surely came before another.
    pub fn surely_before(&self, other: &Event) -> bool {
        self.when.surely_before(other.when)
    }

    /// The finding when this came before what it must follow; `None` when the dates allow the right order.
    pub fn must_follow(&self, context: &CheckContext, earlier: &Event) -> Option<Finding> {
        if !self.surely_before(earlier) {
            return None;
        }
        let title = format!("{} before {}", self.clause, earlier.clause);
        let finding = Finding::fault(Code("dates-out-of-order"), title)
            .at(context.span(self.file, self.text))
            .found(as_read(self))
            .needed(format!("{} or later", earlier.when.first))
            .help("one of the two dates is wrong or in the wrong record; if the exact day is not known, write `2021` or `by 2021-10`");
        Some(finding.related(context.span(earlier.file, earlier.text), earlier.clause))
    }
}

/// The date as typed, and what it means at the latest.
fn as_read(event: &Event) -> String {
    let last = event.when.last;
    match last {
        Day::LAST => format!("`{}`", event.text),
        last if event.when.is_exact() && event.text == last.to_string() => {
            format!("`{}`", event.text)
        }
        last => format!("`{}`, at the latest {last}", event.text),
    }
}

/// The earliest of several events: on the first day any of them can have been, and at the latest on the day by which
/// one of them surely was.
pub(super) fn earliest<'t>(events: impl Iterator<Item = Event<'t>>) -> Option<Event<'t>> {
    events.reduce(|one, other| {
        let last = one.when.last.min(other.when.last);
        let (mut first, then) = if other.when.first < one.when.first {
            (other, one)
        } else {
            (one, other)
        };
        debug_assert!(first.when.first <= then.when.first);
        first.when.last = last;
        first
    })
}
