//! Sections of `docs/files.md`, by the record they describe: the heading ends in its type, as in "A pod (`Pod`)".

use crate::fences::{Fence, code, fences, table_rows};

pub const FILES: &str = include_str!("../../docs/files.md");

/// What the page says of one record.
pub struct Section {
    /// Name of the type.
    pub record: String,
    /// Fields or words in the first column of its table.
    pub names: Vec<String>,
    /// Those of them that are marked as needed.
    pub needed: Vec<String>,
    /// Its examples: the record they are of, and the text.
    pub examples: Vec<(String, String)>,
}

/// All sections about records.
pub fn sections() -> Vec<Section> {
    FILES.split("\n### ").skip(1).filter_map(section).collect()
}

fn section(text: &str) -> Option<Section> {
    let (heading, body) = text.split_once('\n')?;
    let record = heading.split_once("(`")?.1.strip_suffix("`)")?;
    // A `##` heading ends the section too.
    let body = body.split("\n## ").next()?;
    let rows = table_rows(body);
    let name = |row: &Vec<&str>| code(row[0]).to_owned();
    let examples = fences(body)
        .into_iter()
        .filter_map(|Fence { info, text, .. }| {
            info.strip_prefix("ron ")
                .map(|record| (record.to_owned(), text))
        });
    Some(Section {
        record: record.to_owned(),
        names: rows.iter().map(name).collect(),
        needed: rows
            .iter()
            .filter(|row| row[1].starts_with("**needed**"))
            .map(name)
            .collect(),
        examples: examples.collect(),
    })
}
