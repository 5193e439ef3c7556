//! The report on tables: one line a class with its number of rows, so that all rows add up, then columns, then doubts.

use super::cautions::cautions;
use super::words::{by_words, choice_words, class_words, holds_words, own_words, why_words};
use crate::analysis::import::{ColumnTaken, Doubt, Import, ImportRow, ImportTable};
use crate::observation::asked_columns::unit_word;
use crate::record::{Choose, RowClass, Trait};
use crate::recording::import::Brings;
use crate::wording::joined;
use serde::{Serialize, Serializer};

/// What tables hold, and what would come in.
#[derive(Serialize)]
pub struct ImportReport {
    /// Rows of the files with something in them: headings and the rows of all classes together.
    pub rows: usize,
    /// Headings and titles.
    pub headings: usize,
    /// Rows that come in.
    pub coming: usize,
    /// Of those, rows with something in doubt.
    pub in_doubt: usize,
    /// Rows by class; classes without a row are left out.
    pub classes: Vec<ClassCount>,
    /// The tables.
    pub tables: Vec<TableRow>,
    /// Everything that is not clear.
    pub doubts: Vec<DoubtRow>,
    /// What to look at.
    pub cautions: Vec<String>,
    /// How many records of each kind the rows that come bring.
    #[serde(serialize_with = "by_kind")]
    pub brings: Brings,
    /// What was recorded; none when nothing was written.
    pub recorded: Option<String>,
    /// Number of the change in the journal; none when nothing was written.
    pub change: Option<u32>,
    /// The command to run next.
    #[serde(skip)]
    pub next: Option<String>,
}

/// The rows of a class.
#[derive(Serialize)]
pub struct ClassCount {
    /// The word of `import.ron`.
    pub class: &'static str,
    /// Rows counted in it.
    pub rows: usize,
    /// Rows of another class in which it occurs as well.
    pub also: usize,
    /// What is done with its rows, in words; how many rows where they differ.
    pub done: String,
    /// What else can be chosen, as words of `import.ron`.
    pub choices: Vec<&'static str>,
    /// In words.
    #[serde(skip)]
    pub class_words: &'static str,
}

/// A table.
#[derive(Serialize)]
pub struct TableRow {
    /// Its name.
    pub table: String,
    /// Its rows with something in them.
    pub rows: usize,
    /// Headings and titles among them.
    pub headings: usize,
    /// The row of the headings.
    pub headed: Option<usize>,
    /// Its columns.
    pub columns: Vec<ColumnRow>,
}

/// A column.
#[derive(Serialize)]
pub struct ColumnRow {
    /// The heading.
    pub heading: String,
    /// What it is taken for: the word of `import.ron`.
    pub holds: &'static str,
    /// In words, with trait and unit.
    pub taken_for: String,
    /// By what.
    pub by: &'static str,
    /// Cells with something in them.
    pub filled: usize,
    /// Cells from the top.
    pub examples: Vec<String>,
}

/// Something that is not clear.
#[derive(Serialize)]
pub struct DoubtRow {
    /// The table.
    pub table: String,
    /// The row.
    pub row: usize,
    /// The class: the word of `import.ron`.
    pub class: &'static str,
    /// The column's heading.
    pub column: String,
    /// The cell.
    pub found: String,
    /// What is not clear.
    pub why: String,
    /// What is done.
    pub done: &'static str,
}

/// The report on tables that were sorted out; `traits` are those the registry declares.
pub fn import_report(import: &Import, traits: &[Trait]) -> ImportReport {
    let coming: Vec<&ImportRow> = import.coming().map(|(_, row)| row).collect();
    let classes = RowClass::ALL
        .iter()
        .filter_map(|&class| class_count(import, class));
    let tables = import.tables.iter().map(|table| TableRow {
        table: table.name.clone(),
        rows: table.lines,
        headings: table.headings,
        headed: table.headed,
        columns: (table.columns.iter())
            .map(|of| column(table, of, traits))
            .collect(),
    });
    ImportReport {
        rows: import.lines(),
        headings: import.headings(),
        coming: coming.len(),
        in_doubt: coming.iter().filter(|row| !row.doubts.is_empty()).count(),
        classes: classes.collect(),
        tables: tables.collect(),
        doubts: import
            .rows
            .iter()
            .flat_map(|row| doubts(import, row))
            .collect(),
        cautions: cautions(import),
        brings: Brings::default(),
        recorded: None,
        change: None,
        next: None,
    }
}

fn class_count(import: &Import, class: RowClass) -> Option<ClassCount> {
    let has = |row: &&ImportRow| of_class(row, class).next().is_some();
    let of_other = import.rows.iter().filter(|row| row.class != class);
    let (rows, also) = (import.count(class), of_other.filter(has).count());
    let doubts = || {
        let of_row = |row| of_class(row, class).map(move |doubt| (row, doubt));
        import.rows.iter().flat_map(of_row)
    };
    let chosen = alike(class, doubts().map(|(_, doubt)| doubt.chosen));
    let most = chosen.iter().max_by_key(|of| of.1);
    let most = most.map_or(class.choices()[0], |of| of.0);
    let others = class.choices().iter().filter(|choose| **choose != most);
    let done = alike(class, doubts().map(|(row, doubt)| done(row, doubt)));
    let done = match done[..] {
        [] => choice_words(class, most).to_owned(),
        [(choose, _)] => choice_words(class, choose).to_owned(),
        _ => {
            let words = |of: &(Choose, usize)| format!("{} {}", of.1, choice_words(class, of.0));
            joined(done.iter().map(words), ", ")
        }
    };
    (rows + also > 0).then(|| ClassCount {
        class: class.word(),
        rows,
        also,
        done,
        choices: others.map(|choose| choose.word()).collect(),
        class_words: class_words(class),
    })
}

/// How often each choice is made, those with the same words together.
fn alike(class: RowClass, choices: impl Iterator<Item = Choose>) -> Vec<(Choose, usize)> {
    let mut all: Vec<Choose> = choices.collect();
    all.sort_unstable();
    let same =
        |one: &Choose, other: &Choose| choice_words(class, *one) == choice_words(class, *other);
    all.chunk_by(same).map(|of| (of[0], of.len())).collect()
}

fn of_class(row: &ImportRow, class: RowClass) -> impl Iterator<Item = &Doubt> {
    row.doubts.iter().filter(move |doubt| doubt.class == class)
}

/// What is done about a doubt: nothing of a row that is left out comes in.
fn done(row: &ImportRow, doubt: &Doubt) -> Choose {
    match row.comes {
        true => doubt.chosen,
        false => Choose::LeaveOut,
    }
}

fn column(table: &ImportTable, of: &ColumnTaken, traits: &[Trait]) -> ColumnRow {
    let read = of.of_trait.and_then(|at| traits.get(at.index()));
    let unit = of.unit.map(|unit| format!(", {}", unit_word(unit)));
    let own = own_words(&of.heading).filter(|_| table.is_own_sheet);
    let words = || own.unwrap_or(holds_words(of.holds)).to_owned();
    let taken_for = read.map_or_else(words, |read| read.name.to_string());
    ColumnRow {
        heading: of.heading.clone(),
        holds: of.holds.word(),
        taken_for: format!("{taken_for}{}", unit.unwrap_or_default()),
        by: by_words(of.by),
        filled: of.filled,
        examples: of.examples.clone(),
    }
}

fn doubts<'i>(import: &'i Import, row: &'i ImportRow) -> impl Iterator<Item = DoubtRow> + 'i {
    let line = |doubt: &Doubt| DoubtRow {
        table: import.tables[row.table].name.clone(),
        row: row.line,
        class: doubt.class.word(),
        column: doubt.column.clone(),
        found: doubt.found.clone(),
        why: why_words(&doubt.why),
        done: choice_words(doubt.class, done(row, doubt)),
    };
    row.doubts.iter().map(line)
}

/// Records by their kind.
fn by_kind<S: Serializer>(of: &Brings, out: S) -> Result<S::Ok, S::Error> {
    out.collect_map([
        ("founders", of.founders),
        ("crosses", of.crosses),
        ("sowings", of.sowings),
        ("seedlings", of.seedlings),
        ("readings", of.readings),
        ("plants_on_record", of.plants_on_record),
        ("crosses_on_record", of.crosses_on_record),
    ])
}
