//! The line of a page on which a value stands.

use super::conflict::Step;
use super::lists::{keys, manner};
use crate::recording::says::value::Value;
use crate::text::Outline;
use crate::text::outline::PartId;

/// The line on which the value at these steps stands, or the innermost thing around it that is there; counted from 1.
pub fn line_of(text: &str, steps: &[Step]) -> Option<usize> {
    let outline = Outline::of(text);
    let mut part = outline.root()?;
    let mut list = "";
    for step in steps {
        let next = match step {
            Step::Field(name) => {
                list = name;
                outline.follow(part, name)
            }
            Step::Entry(key, number) => entry(&outline, part, list, (key, *number)),
        };
        match next {
            Some(next) => part = next,
            None => break,
        }
    }
    let start = outline.part(part).whole().start as usize;
    Some(text[..start].matches('\n').count() + 1)
}

fn entry(
    outline: &Outline,
    list: PartId,
    field: &str,
    (key, number): (&str, usize),
) -> Option<PartId> {
    let said = outline
        .children(list)
        .filter_map(|part| Some((part, Value::of(outline, part)?)));
    let (parts, values): (Vec<PartId>, Vec<Value>) = said.unzip();
    let keys = keys(manner(field), &values);
    let at = keys.iter().position(|of| of.0 == key && of.1 == number)?;
    Some(parts[at])
}
