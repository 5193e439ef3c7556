//! Values typed without the names they need, such as `sold("2023")`.

use super::words::{Told, Wrong};
use crate::diagnostic::{Code, Finding, shorten};
use crate::record::listed::listed;
use crate::text::Span;
use ron::Error;

/// A field no record knows; the parse then tells the fields it does know.
const NO_FIELD: &str = "no_such_field:0";

impl Told<'_, '_> {
    /// What might stand in brackets in place of a value, such as `died(on: "2025-05-30", cause: …)`: the word before the
    /// brackets, if any, and the first two of the fields.
    pub fn example(self, wrong: &Wrong, word: &str) -> String {
        let trial = (wrong.trial)(&format!("{word}({NO_FIELD})"));
        let fields = match &trial {
            Some(Err(Error::NoSuchStructField { expected, .. })) => *expected,
            _ => &[],
        };
        let value = |name: &&str| match *name {
            "on" => "on: \"2025-05-30\"".to_owned(),
            name => format!("{name}: …"),
        };
        let fields: Vec<String> = fields.iter().take(2).map(value).collect();
        match fields.as_slice() {
            [] => format!("`{word}( … )`"),
            fields => format!("`{word}({})`", fields.join(", ")),
        }
    }

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
        let finding = finding
            .found(self.found(wrong.part))
            .needed(format!("a name before it: {}", listed(expected, "nothing")));
        let is_short = slice == self.outline.slice(wrong.part);
        let alone = self.outline.children(around).count() == 1;
        let one_line = !self.outline.slice(around).contains('\n');
        Some(if is_short && alone && one_line {
            let group = Span::new(self.file, self.outline.part(around).range());
            finding.at(group).write(format!("{tag}({name}: {slice})"))
        } else if is_short {
            finding
                .at(self.value(wrong.part))
                .write(format!("{name}: {slice}"))
        } else {
            finding
                .at(self.value(wrong.part))
                .help(format!("write {name}: before it"))
        })
    }
}
