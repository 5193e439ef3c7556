//! Values typed without the names they need, such as `sold("2023")`.

use super::words::{Told, Wrong, listed, shorten};
use crate::diagnostic::{Code, Finding};
use ron::Error;

/// A field no record knows; the parse then tells the fields it does know.
const NO_FIELD: &str = "no_such_field:0";

impl Told<'_, '_> {
    /// A value without a name in brackets that hold named values, such as `sold("2023")`.
    pub fn no_name(self, wrong: &Wrong) -> Option<Finding> {
        let around = self.outline.part(wrong.part).parent()?;
        let tag = self.outline.tag(around)?;
        let Some(Err(Error::NoSuchStructField { expected, .. })) = (wrong.trial)(NO_FIELD) else {
            return None;
        };
        let slice = shorten(self.outline.slice(wrong.part));
        let is_date = self
            .inside(wrong.part)
            .starts_with(|c: char| c.is_ascii_digit());
        let name = match expected {
            fields if is_date && fields.contains(&"on") => "on",
            [first, ..] => first,
            [] => return None,
        };
        let finding = Finding::fault(
            Code("wrong-kind"),
            format!("a value in `{tag}( … )` has no name"),
        );
        Some(
            finding
                .at(self.value(wrong.part))
                .found(self.found(wrong.part))
                .needed(format!("a name before it: {}", listed(expected)))
                .help(format!("write {tag}({name}: {slice})")),
        )
    }
}
