//! Does the year in a cross's code agree with the year it was pollinated? The code's year means that year.

use super::context::CheckContext;
use super::events::{Event, earliest};
use crate::diagnostic::{Code, Finding};
use crate::record::Day;
use crate::registry::CrossRow;

/// The year in the code of a cross.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    of(context, cross).into_iter().collect()
}

fn of(context: &CheckContext, cross: CrossRow) -> Option<Finding> {
    let page = context.page(cross);
    let file = context.cross(cross).file;
    let (this_year, ..) = context.today.ymd()?;
    let year = year_in(page.code, this_year)?;
    let days = page.pollinations.iter().flat_map(|p| &p.on);
    let events = days.filter_map(|on| Event::new(context, file, "flowers were pollinated", on));
    let first = earliest(events)?;
    let begins = Day::new(year, 1, 1)?;
    let ends = Day::new(year, 12, 31)?;
    if first.when.first <= ends && begins <= first.when.last {
        return None;
    }
    Some(
        Finding::note(
            Code("year-in-code"),
            "the year in the code is not the year of pollination",
        )
        .at(context.span(file, page.code))
        .found(format!("{year} in the code, pollinated {}", first.text))
        .needed("the year of pollination, if your codes mean that year")
        .help("a code on tags is never changed; if it means another year, say so in `note`")
        .related(context.span(file, first.text), "pollinated here"),
    )
}

/// The year a code such as `X22-07` or `X2022-07` begins with; two digits mean the latest such year up to this one.
fn year_in(code: &str, this_year: i32) -> Option<i32> {
    let (head, _) = code.split_once('-')?;
    let digits = head.trim_start_matches(|c: char| c.is_ascii_alphabetic());
    if digits.len() == head.len() || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let number: i32 = digits.parse().ok()?;
    match digits.len() {
        2 => {
            let century = this_year - this_year % 100;
            let year = century + number;
            Some(if year > this_year { year - 100 } else { year })
        }
        4 => (1900..=2999).contains(&number).then_some(number),
        _ => None,
    }
}
