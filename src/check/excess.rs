//! More of something than there can have been.

use super::context::{Anchor, CheckContext};
use crate::diagnostic::{Code, Finding, Severity};
use crate::registry::CrossRow;

/// The counts of one cross.
pub(super) struct Counts<'g, 'r, 't> {
    pub context: &'g CheckContext<'r, 't>,
    pub cross: CrossRow,
    pub found: Vec<Finding>,
}

/// More of something than there was of another.
pub(super) struct Excess<'t> {
    pub code: Code,
    pub severity: Severity,
    pub title: String,
    /// The number that is too great, and its name.
    pub more: (u64, &'static str),
    /// The number it may not exceed, and its name.
    pub than: (u64, &'static str),
    pub anchor: Anchor<'t>,
    pub field: &'static str,
    pub help: &'static str,
}

/// A count that sums cannot overflow.
pub(super) fn wide(count: u32) -> u64 {
    u64::from(count)
}

/// A number with what it counts; the first word of several, such as `flowers set`, loses its s for one.
fn said(count: u64, several: &str) -> String {
    let (noun, rest) = match several.find(' ') {
        Some(at) => several.split_at(at),
        None => (several, ""),
    };
    match (count, noun.strip_suffix('s')) {
        (1, Some(one)) => format!("1 {one}{rest}"),
        _ => format!("{count} {several}"),
    }
}

impl<'t> Counts<'_, '_, 't> {
    pub fn anchor(&self, text: &'t str) -> Anchor<'t> {
        let file = self.context.cross(self.cross).file;
        Anchor { file, text }
    }

    /// Tells an excess, if it is one.
    pub fn compare(&mut self, excess: Excess<'t>) {
        let ((more, what), (than, of)) = (excess.more, excess.than);
        if more <= than {
            return;
        }
        let place = self.context.field(excess.anchor, excess.field);
        self.found.push(
            Finding::new(excess.severity, excess.code, excess.title)
                .at(place)
                .found(format!("{}, {}", said(more, what), said(than, of)))
                .needed(format!("at most {}", said(than, what)))
                .help(excess.help),
        );
    }
}
