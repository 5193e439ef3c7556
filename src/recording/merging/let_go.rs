//! What another grower sold or gave away: the day comes. The buyer, the price and the words that went along stay there, since
//! it is theirs to ask for and to correct.

use crate::recording::says::value::{Record, Value};
use crate::text::Outline;

/// Leaves only the day of whatever was sold or given away on a page.
pub fn only_the_day(page: &mut Record) {
    let fields: Vec<(String, Value)> = page
        .fields()
        .map(|(name, value)| (name.to_owned(), bare(name, value)))
        .collect();
    for (name, value) in fields {
        page.set(&name, Some(value));
    }
}

fn bare(field: &str, value: &Value) -> Value {
    match value {
        Value::Record(record) => {
            let mut record = record.clone();
            only_the_day(&mut record);
            Value::Record(record)
        }
        Value::List(values) => Value::List(values.iter().map(|of| bare("", of)).collect()),
        Value::Plain(fate) if matches!(field, "fate" | "left") => Value::Plain(day_of(fate)),
        value => value.clone(),
    }
}

/// `sold(on: "2024")` of `sold(on: "2024", to: "a visitor")`; any other fate as it is.
pub fn day_of(fate: &str) -> String {
    let outline = Outline::of(fate);
    let of = outline.root().and_then(|root| {
        let kind = outline
            .tag(root)
            .filter(|tag| matches!(*tag, "sold" | "given"))?;
        Some((kind, Value::of(&outline, outline.follow(root, "on")?)?))
    });
    of.map_or(fate.to_owned(), |(kind, on)| {
        format!("{kind}(on: {})", on.line())
    })
}
