//! Which fields of the pages hold dates, and what a value says whatever form its dates are written in.

use super::value::Value;
use crate::record::{Hemisphere, When};
use crate::text::Outline;
use crate::text::outline::Kind;

/// Whether a field of this name holds a date, or dates. `spike` does in a flowering and is a code elsewhere.
pub fn is_date(field: &str) -> bool {
    matches!(
        field,
        "on" | "counted"
            | "harvested"
            | "collected"
            | "came"
            | "thawed"
            | "finished"
            | "germinated"
            | "numbered"
            | "cut"
            | "rooted"
            | "spike"
            | "opened"
            | "over"
            | "settled"
    )
}

/// What the value of a field says, the same for two spellings of the same days.
pub fn said(field: &str, value: &Value, hemisphere: Hemisphere) -> String {
    match value {
        Value::Plain(_) if is_date(field) => {
            let when = value.words().and_then(|on| When::read(on, hemisphere).ok());
            when.map_or_else(
                || value.canonical(),
                |of| format!("{:?}", (of.first, of.last)),
            )
        }
        Value::Plain(text) => in_brackets(text, hemisphere).unwrap_or_else(|| value.canonical()),
        Value::List(values) => {
            let said = values.iter().map(|of| said(field, of, hemisphere));
            format!("[{}]", said.collect::<Vec<_>>().join(", "))
        }
        Value::Record(record) => of_fields(record.fields(), hemisphere),
    }
}

/// The same of a word with details, such as `died(on: "2025-05-01")`.
fn in_brackets(text: &str, hemisphere: Hemisphere) -> Option<String> {
    let outline = Outline::of(text);
    let root = outline.root().filter(|_| outline.faults().is_empty())?;
    if outline.part(root).kind != Kind::Struct {
        return None;
    }
    let fields: Vec<(&str, Value)> = outline
        .children(root)
        .filter_map(|of| Some((outline.name(of)?, Value::of(&outline, of)?)))
        .collect();
    let word = outline.tag(root).unwrap_or_default();
    let fields = fields.iter().map(|(name, value)| (*name, value));
    Some(format!("{word}{}", of_fields(fields, hemisphere)))
}

fn of_fields<'v>(
    fields: impl Iterator<Item = (&'v str, &'v Value)>,
    hemisphere: Hemisphere,
) -> String {
    let said = fields.map(|(name, value)| format!("{name}: {}", said(name, value, hemisphere)));
    let mut said: Vec<String> = said.collect();
    said.sort();
    format!("({})", said.join(", "))
}
