//! The built-in starter list, so that a label can be read before there is a registry.

use std::borrow::Cow;

use super::lookup::Vocabulary;
use super::rows::{NamedHybridRow, SpeciesRow, SynonymRow, VocabularyRows};

const SPECIES: &str = include_str!("../../registry/starter/species.csv");
const NAMED_HYBRIDS: &str = include_str!("../../registry/starter/nothospecies.csv");
const SYNONYMS: &str = include_str!("../../registry/starter/synonyms.csv");

/// The starter vocabulary: *Nepenthes* species and named hybrids of high or middling confidence, and synonyms; no codes,
/// no cultivars.
pub fn starter() -> Vocabulary {
    Vocabulary::from_rows(starter_rows())
}

/// The rows of the starter vocabulary, to be added to.
pub fn starter_rows() -> VocabularyRows {
    VocabularyRows {
        genus: "Nepenthes".to_owned(),
        species: rows(SPECIES, species),
        named_hybrids: rows(NAMED_HYBRIDS, named_hybrid),
        synonyms: starter_synonyms(),
        ..VocabularyRows::default()
    }
}

/// The synonyms of the starter vocabulary alone.
pub fn starter_synonyms() -> Vec<SynonymRow> {
    rows(SYNONYMS, synonym)
}

/// One row of a table: its cells under their column names.
struct Row<'c> {
    columns: &'c [Cow<'static, str>],
    cells: Vec<Cow<'static, str>>,
}

impl Row<'_> {
    fn cell(&self, column: &str) -> &str {
        let place = self.columns.iter().position(|name| name == column);
        place
            .and_then(|place| self.cells.get(place))
            .map_or("", |cell| cell)
    }

    fn filled(&self, column: &str) -> Option<String> {
        Some(self.cell(column))
            .filter(|cell| !cell.is_empty())
            .map(str::to_owned)
    }
}

/// What is made of each row of a table built into the program, one line a row. The synonyms are read for every answer
/// with a name in it, and a general reader takes longer to make ready than the table to read; a test holds both against
/// each other.
fn rows<T>(table: &'static str, made: impl Fn(&Row) -> T) -> Vec<T> {
    let mut lines = table.lines();
    let columns = cells(lines.next().unwrap_or_default());
    lines
        .map(|line| {
            let (columns, cells) = (&columns[..], cells(line));
            made(&Row { columns, cells })
        })
        .collect()
}

/// The cells of a line, without their quotes.
fn cells(line: &'static str) -> Vec<Cow<'static, str>> {
    let (mut cells, mut rest) = (Vec::new(), Some(line));
    while let Some(line) = rest {
        let (cell, after) = match line.strip_prefix('"') {
            Some(quoted) => in_quotes(quoted),
            None => match line.split_once(',') {
                Some((cell, after)) => (cell.into(), Some(after)),
                None => (line.into(), None),
            },
        };
        cells.push(cell);
        rest = after;
    }
    cells
}

/// A cell whose first quote is taken off, and what stands behind the comma after its last; two quotes are one of the text.
fn in_quotes(quoted: &'static str) -> (Cow<'static, str>, Option<&'static str>) {
    let mut end = 0;
    while let Some(quote) = quoted[end..].find('"') {
        end += quote;
        match quoted[end + 1..].starts_with('"') {
            true => end += 2,
            false => break,
        }
    }
    let (cell, after) = quoted.split_at(end);
    let after = after.strip_prefix("\",");
    (cell.replace("\"\"", "\"").into(), after)
}

fn species(row: &Row) -> SpeciesRow {
    SpeciesRow {
        epithet: row.cell("epithet").to_owned(),
        varieties: Vec::new(),
        authors: row.cell("authors").to_owned(),
        year: row.cell("year").parse().ok(),
        status: row.cell("status").to_owned(),
        doubt: row.filled("doubt"),
        appendix_one: row.cell("cites_appendix") == "I",
    }
}

fn synonym(row: &Row) -> SynonymRow {
    let source = row.filled("source");
    SynonymRow {
        synonym: row.cell("synonym").to_owned(),
        accepted: row.cell("accepted").to_owned(),
        evidence: source.unwrap_or_else(|| "from memory, not checked".to_owned()),
    }
}

fn named_hybrid(row: &Row) -> NamedHybridRow {
    NamedHybridRow {
        epithet: row.cell("epithet").to_owned(),
        parent_set: row
            .cell("parent_set")
            .split(';')
            .filter(|name| !name.is_empty())
            .map(str::to_owned)
            .collect(),
        formula: row.cell("formula").to_owned(),
        status: row.cell("nomenclatural_status").to_owned(),
        year: row.cell("year").parse().ok(),
        expand: row.cell("expand_automatically") == "yes",
        may_emit: row.cell("may_emit_as_name") == "yes",
        natural: row.cell("origin") == "natural",
        evidence: row.cell("evidence").to_owned(),
        appendix_one_ancestor: match row.cell("cites_appendix_I_ancestor") {
            "yes" => Some(true),
            "no" => Some(false),
            _ => None,
        },
    }
}
