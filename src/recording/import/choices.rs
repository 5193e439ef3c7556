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
        let (class, choose) = (choice.class.word(), choice.choose.word());
        if let Some(at) = classes.iter().rposition(|of| *of == choice.class) {
            let set = FieldChange::Set("choose", choose.to_owned());
            page.change_at("choices", at, &[set])?;
            continue;
        }
        let record = RonRecord::new().value("class", class).value("choose", choose);
        page.append("choices", &[record.line()])?;
        classes.push(choice.class);
    }
    let mut rows: Vec<_> = kept.rows.iter().map(|of| (of.table.as_str(), of.row)).collect();
    for choice in &given.rows {
        let choose = choice.choose.word();
        if let Some(at) = rows.iter().rposition(|of| *of == (choice.table.as_str(), choice.row)) {
            let set = FieldChange::Set("choose", choose.to_owned());
            page.change_at("rows", at, &[set])?;
            continue;
        }
        let record = RonRecord::new().text("table", &choice.table).value("row", choice.row);
        page.append("rows", &[record.value("choose", choose).line()])?;
        rows.push((choice.table.as_str(), choice.row));
    }
    Ok(page.text().to_owned())
}
