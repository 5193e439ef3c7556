//! What a new registry holds and what to do next.

use super::sheet::{Report, Sheet};
use crate::registry::StarterFile;
use serde::Serialize;

/// A registry just begun.
#[derive(Serialize)]
pub struct BegunReport {
    /// The folder as it was given.
    pub folder: String,
    /// Its files.
    pub files: Vec<BegunFile>,
    /// What to do next, in order.
    pub next: Vec<String>,
}

/// One file of it.
#[derive(Serialize)]
pub struct BegunFile {
    /// Path relative to the folder.
    pub path: &'static str,
    /// What it is for.
    pub purpose: &'static str,
}

/// Tells of a registry just begun in a folder.
pub fn begun(folder: &str, files: &[StarterFile]) -> BegunReport {
    BegunReport {
        folder: folder.to_owned(),
        files: files
            .iter()
            .map(|file| BegunFile {
                path: file.path,
                purpose: file.purpose,
            })
            .collect(),
        next: vec![
            "Look at registry.ron: is the hemisphere right? Delete the traits you do not measure or score."
                .into(),
            format!(
                "Record your first plant: {}",
                line(folder, "add Ven1 \"N. ventricosa\"")
            ),
            "Everything else at the bench is one line too: podbook --help".into(),
            format!(
                "Or write the pages by hand; after every edit: {}",
                line(folder, "check")
            ),
        ],
    }
}

/// A command on the new folder, to be pasted into a shell.
fn line(folder: &str, asked: &str) -> String {
    if folder == "." || folder == "./" {
        return format!("podbook {asked}");
    }
    let plain = |c: char| c.is_alphanumeric() || "-_./~".contains(c);
    if !folder.is_empty() && folder.chars().all(plain) && !folder.starts_with('-') {
        format!("podbook {asked} --registry {folder}")
    } else {
        let folder = folder.replace('\'', "'\\''");
        format!("podbook {asked} --registry='{folder}'")
    }
}

impl Report for BegunReport {
    fn sheet(&self) -> Sheet {
        let place = match self.folder.as_str() {
            "." | "./" => "this folder",
            named => named,
        };
        let mut sheet = Sheet::new(format!("Created a registry in {place}"));
        let files = self.files.iter();
        sheet.facts(
            None,
            files.map(|file| (file.path, Some(file.purpose.to_owned()))),
        );
        let numbered = self.next.iter().enumerate();
        sheet.lines(
            Some("Next"),
            numbered.map(|(at, step)| format!("{}. {step}", at + 1)),
        );
        sheet
    }
}
