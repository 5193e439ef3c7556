//! Seasons in dates from the other half of the world: "spring 2021" there is other months here, so the months are written.

use super::dates::is_date;
use super::value::Value;
use crate::record::{Day, Hemisphere, When};
use crate::recording::page::PageFault;
use crate::recording::written::text;
use crate::text::Outline;
use crate::text::edit::{Edit, EditFault, made};
use crate::text::outline::{Kind, PartId};

/// The page with every date that is another time here written as the months or days it is there, and how many they are.
///
/// # Errors
/// If the page has faults of shape.
pub fn as_months(
    page: &str,
    (there, here): (Hemisphere, Hemisphere),
) -> Result<(String, usize), PageFault> {
    if there == here {
        return Ok((page.to_owned(), 0));
    }
    let outline = Outline::of(page);
    if let Some(fault) = outline.faults().first() {
        return Err(EditFault::FaultyText(*fault).into());
    }
    let edits = rewritten(&outline, &mut |words| months(words, there, here));
    Ok((made(page, &edits)?, edits.len()))
}

/// The edits that write dates of a page in other words, where there are other words.
pub(super) fn rewritten(
    outline: &Outline,
    other: &mut impl FnMut(&str) -> Option<String>,
) -> Vec<Edit> {
    let mut edits = Vec::new();
    if let Some(root) = outline.root() {
        dates(outline, ("", root), &mut |part, words| {
            let place = outline.part(part);
            edits.extend(other(words).map(|words| Edit {
                start: place.start,
                end: place.end,
                text: text(&words),
            }));
        });
    }
    edits
}

/// Gives every text of a field that holds dates; those of a list stand under its name.
fn dates(outline: &Outline, (field, part): (&str, PartId), found: &mut impl FnMut(PartId, &str)) {
    // A spike that was dusted is named by its code.
    if field == "pollinations" && outline.part(part).kind == Kind::Struct {
        let on = outline.field(part, "on").into_iter();
        let counted = outline.field(part, "counted").into_iter();
        for child in on.chain(counted) {
            dates(
                outline,
                (outline.name(child).unwrap_or_default(), child),
                found,
            );
        }
        return;
    }
    if outline.part(part).kind == Kind::Text {
        let value = Value::of(outline, part).filter(|_| is_date(field));
        if let Some(words) = value.as_ref().and_then(Value::words) {
            found(part, words);
        }
        return;
    }
    for child in outline.children(part) {
        let name = outline.name(child).unwrap_or(field);
        dates(outline, (name, child), found);
    }
}

/// A date in months or days, where its words mean another time here.
fn months(words: &str, there: Hemisphere, here: Hemisphere) -> Option<String> {
    let when = When::read(words, there).ok()?;
    if When::read(words, here) == Ok(when) {
        return None;
    }
    in_numbers(when)
}

/// A range of days in the numbers of its months, or of its days; nothing where both ends are open.
pub(super) fn in_numbers(when: When) -> Option<String> {
    let whole = is_first(when.first) && is_last(when.last);
    let day = |day: Day| match whole {
        true => day.to_string().get(..7).map(str::to_owned),
        false => Some(day.to_string()),
    };
    Some(match (when.first, when.last) {
        (Day::FIRST, last) => format!("by {}", day(last)?),
        (first, Day::LAST) => format!("after {}", day(first)?),
        (first, last) if day(first) == day(last) => day(first)?,
        (first, last) => format!("{} to {}", day(first)?, day(last)?),
    })
}

/// Whether a month begins; an open end is no reason to write days.
fn is_first(day: Day) -> bool {
    day == Day::FIRST || day.ymd().is_some_and(|(_, _, day)| day == 1)
}

fn is_last(day: Day) -> bool {
    day == Day::LAST || is_first(Day(day.0 + 1))
}
