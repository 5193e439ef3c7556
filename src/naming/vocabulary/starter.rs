//! The built-in starter list, so that a label can be read before there is a registry.

use super::lookup::Vocabulary;
use super::rows::{NamedHybridRow, SpeciesRow, SynonymRow, VocabularyRows};

const SPECIES: &str = include_str!("../../registry/starter/species.csv");
const NAMED_HYBRIDS: &str = include_str!("../../registry/starter/nothospecies.csv");
const SYNONYMS: &str = include_str!("../../registry/starter/synonyms.csv");

/// The starter vocabulary: *Nepenthes* species and named hybrids of high or middling confidence, and synonyms; no codes,
/// no cultivars.
pub fn starter() -> Vocabulary {
    Vocabulary::from_rows(starter_rows()).0
}

/// The rows of the starter vocabulary, to be added to.
pub fn starter_rows() -> VocabularyRows {
    VocabularyRows {
        genus: "Nepenthes".to_owned(),
        species: rows(SPECIES).iter().map(species).collect(),
        named_hybrids: rows(NAMED_HYBRIDS).iter().map(named_hybrid).collect(),
        synonyms: starter_synonyms(),
        ..VocabularyRows::default()
    }
}

/// The synonyms of the starter vocabulary alone.
pub fn starter_synonyms() -> Vec<SynonymRow> {
    rows(SYNONYMS).iter().map(synonym).collect()
}

/// One row of a table: its cells under their column names.
struct Row {
    columns: csv::StringRecord,
    cells: csv::StringRecord,
}

impl Row {
    fn cell(&self, column: &str) -> &str {
        let place = self.columns.iter().position(|name| name == column);
        place
            .and_then(|place| self.cells.get(place))
            .unwrap_or_default()
    }

    fn filled(&self, column: &str) -> Option<String> {
        Some(self.cell(column))
            .filter(|cell| !cell.is_empty())
            .map(str::to_owned)
    }
}

/// The rows of a table that lies in the program; a test reads every row, so a broken one cannot be shipped unseen.
fn rows(table: &str) -> Vec<Row> {
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let columns = reader.headers().cloned().unwrap_or_default();
    reader
        .records()
        .flatten()
        .map(|cells| Row {
            columns: columns.clone(),
            cells,
        })
        .collect()
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
