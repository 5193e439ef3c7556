//! The file of choices: what is chosen now goes in, everything else in it stays.

use crate::record::ImportChoices;
use crate::recording::page::{FieldChange, PageFault, PageText};
use crate::recording::written::RonRecord;

/// A file of choices that has none yet.
const EMPTY: &str = "// What you chose for the tables in this folder. podbook import reads it; docs/bring-in.md explains it.\n\
    // Edit it, and run podbook import again.\n(\n    columns: [],\n    choices: [],\n    rows: [],\n)\n";

/// The text of the file with what is given in it; `text` is what it holds, `kept` what that says.
///
/// # Errors
/// If the text does not let itself be changed.
pub fn with_choices(
    text: Option<&str>,
    kept: &ImportChoices,
    given: &ImportChoices,
) -> Result<String, PageFault> {
    let mut page = PageText::new(text.unwrap_or(EMPTY));
    let mut classes: Vec<_> = kept.choices.iter().map(|of| of.class).collect();
    for choice in &given.choices {
        let at = classes.iter().rposition(|of| *of == choice.class);
        let record = RonRecord::new().value("class", choice.class.word());
        put(&mut page, "choices", (at, record), choice.choose.word())?;
        classes.extend(at.is_none().then_some(choice.class));
    }
    let mut rows: Vec<_> = kept
        .rows
        .iter()
        .map(|of| (of.table.as_str(), of.row))
        .collect();
    for choice in &given.rows {
        let of = (choice.table.as_str(), choice.row);
        let at = rows.iter().rposition(|row| *row == of);
        let record = RonRecord::new().text("table", of.0).value("row", of.1);
        put(&mut page, "rows", (at, record), choice.choose.word())?;
        rows.extend(at.is_none().then_some(of));
    }
    Ok(page.text().to_owned())
}

/// Changes the choice of the record at a place of a list, or adds one where it has no place yet.
fn put(
    page: &mut PageText,
    list: &'static str,
    (at, record): (Option<usize>, RonRecord),
    choose: &str,
) -> Result<(), PageFault> {
    match at {
        Some(at) => page.change_at(list, at, &[FieldChange::Set("choose", choose.to_owned())]),
        None => page.append(list, &[record.value("choose", choose).line()]),
    }
}
