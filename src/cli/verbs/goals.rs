//! The file of goals: the registry's own, or one that is named.

use crate::cli::request::{Refusal, Request, shown};
use crate::record::{GoalsPage, read_goals, spelt_out};
use std::path::{Path, PathBuf};

/// A file's name and its text.
pub(super) type GoalsText = Option<(PathBuf, String)>;

/// The text of a named file of goals, or of the registry's `goals.ron` if there is one.
///
/// # Errors
/// If the file is there and cannot be read.
pub(super) fn goals_text(request: &Request, named: Option<&Path>) -> Result<GoalsText, Refusal> {
    let read = |file: &Path| {
        let text = crate::text::read_plain(file)
            .map_err(|why| Refusal::files(format!("{} could not be read: {why}", shown(file))))?;
        Ok(spelt_out(&text).unwrap_or(text))
    };
    if let Some(file) = named {
        return Ok(Some((file.to_owned(), read(file)?)));
    }
    let own = request.folder().map(|folder| folder.join("goals.ron"));
    // One that is there and cannot be read is refused, not passed over.
    let there = |file: &PathBuf| file.is_symlink() || !matches!(file.try_exists(), Ok(false));
    match own.filter(there) {
        Some(file) => Ok(Some((PathBuf::from("goals.ron"), read(&file)?))),
        None => Ok(None),
    }
}

/// The goals a text holds; none without a text.
///
/// # Errors
/// With the place of what could not be read.
pub(super) fn goals_page(text: &GoalsText) -> Result<GoalsPage<'_>, Refusal> {
    let Some((file, text)) = text else {
        return Ok(GoalsPage::default());
    };
    read_goals(text).map_err(|fault| {
        Refusal::files(format!(
            "{}:{}:{}: {}\ndocs/files.md lists what a file of goals may hold",
            shown(file),
            fault.line,
            fault.column,
            fault.words
        ))
    })
}
