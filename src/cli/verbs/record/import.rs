//! `podbook import`: a grower's tables, reported on first and brought in when told to.

use super::import_faults::Refused;
use super::shell_words::{quoted, registry_words};
use crate::analysis::import::{Import as Sorted, InputTable, import};
use crate::cli::recording::{Book, Change};
use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::cli::working::Working;
use crate::record::{Choose, ClassChoice, ImportChoices, RowChoice, RowClass};
use crate::recording::checked::consequences;
use crate::recording::draft::Draft;
use crate::recording::import::{bring_in, contents, with_choices};
use crate::registry::build;
use crate::report::import::{ImportReport, import_report};
use crate::text::{CHOICES, outlet_for_choices, read_choices, sheets_of_file, visible};
use crate::wording::counted;
use clap::Args;
use std::path::{Path, PathBuf};

/// Bring in tables of plants, crosses and readings you have
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook import plants.xlsx crosses.csv\n\
    First it only reports: what each column is taken for, and what each row is.\n\
    What is in doubt comes in as doubtful, or as you choose:\n  \
    --choose date_two_ways=day_first     for all rows of a class\n  \
    --choose plants.csv:12=leave_out     for one row\n\
    Choices are kept in import.ron beside the file.\n\
    With --apply the rows come in as one change; `podbook undo` takes it back.")]
pub struct Import {
    /// Tables: .xlsx, .ods, .csv or .tsv
    #[arg(value_name = "FILE", required = true)]
    files: Vec<PathBuf>,
    /// Choose for a class of rows or for one row, and keep the choice
    #[arg(long, value_name = "CLASS=CHOICE")]
    choose: Vec<String>,
    /// Bring the rows in
    #[arg(long)]
    apply: bool,
}

impl Import {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let working = Working::begin();
        let tables = tables(&self.files, &working)?;
        let (choices, kept) = self.choices(request, &tables)?;
        working.at("reading the registry");
        let book = Book::open(request, !self.apply)?;
        let (registry, _) = build(&book.sources);
        let rows: usize = tables.iter().map(|of| of.rows.len()).sum();
        working.at(format!("sorting {}", counted(rows, "row", "rows")));
        let sorted = import(&registry, &tables, &choices, book.today);
        self.is_letter(&sorted)?;
        let mut report = import_report(&sorted, &registry.settings.traits);
        let mut written = Vec::new();
        if report.coming > 0 {
            report.brings = contents(&sorted, &registry);
        }
        if self.apply && report.coming > 0 {
            let coming = counted(report.coming, "row", "rows");
            working.at(format!("writing and checking {coming}"));
            let refused = Refused {
                registry: &registry,
                tables: &tables,
                choices: &choices,
                today: book.today,
            };
            written = applied(request, &book, &refused, &sorted, &mut report)?;
        } else if report.coming > 0 {
            report.next = Some(self.to_apply(request));
        }
        drop(working);
        let outcome = request.answer(&report, format!("{kept}{}", book.remarks));
        match outcome {
            Ok(outcome) => Ok(Outcome { written, ..outcome }),
            Err(refusal) => Err(refusal.after(&written)),
        }
    }

    /// A file of text with sentences in it and nothing that is known: to call its lines rows would mislead.
    fn is_letter(&self, sorted: &Sorted) -> Result<(), Refusal> {
        let is_letter = |name: &str| {
            let mut of_file = sorted.tables.iter().filter(|of| of.name == name).peekable();
            of_file.peek().is_some() && of_file.all(|of| of.is_prose)
        };
        let name = |file: &PathBuf| {
            file.file_name()
                .map(|name| name.to_string_lossy().into_owned())
        };
        let named = self
            .files
            .iter()
            .filter_map(|file| Some((file, name(file)?)));
        let letter = named.into_iter().find(|(_, name)| is_letter(name));
        letter.map_or(Ok(()), |(file, _)| {
            Err(Refusal::files(format!(
                "{} holds sentences, not a table\nwrite the plants into a table: one plant or cross on each row, below headings such as code, name, from",
                shown(file)
            )))
        })
    }

    fn to_apply(&self, request: &Request) -> String {
        let files: Vec<String> = self.files.iter().map(|file| quoted(&shown(file))).collect();
        format!(
            "podbook import {}{} --apply",
            files.join(" "),
            registry_words(request)
        )
    }

    /// The choices kept beside the first file, with those given now, which are kept there too and said to be.
    fn choices(
        &self,
        request: &Request,
        tables: &[InputTable],
    ) -> Result<(ImportChoices, String), Refusal> {
        let beside = self.files[0].parent().unwrap_or(Path::new(""));
        let path = beside.join(CHOICES);
        let text = read_choices(&path)
            .map_err(|why| Refusal::files(format!("{} could not be read: {why}", shown(&path))))?;
        let read = |text: &str| {
            ImportChoices::read(text).map_err(|why| {
                Refusal::files(format!(
                    "{}:{why}\nmend it or move it away; docs/files.md lists what it may hold",
                    shown(&path)
                ))
            })
        };
        let kept = read(text.as_deref().unwrap_or("()"))?;
        impossible(&kept).map_or(Ok(()), |why| {
            Err(Refusal::files(format!("{}: {why}", shown(&path))))
        })?;
        if self.choose.is_empty() {
            return Ok((kept, String::new()));
        }
        let mut given = ImportChoices::default();
        for words in &self.choose {
            self.choice(words, tables, &mut given)?;
        }
        let now = with_choices(text.as_deref(), &kept, &given).map_err(|why| {
            Refusal::files(format!("{} could not be changed: {why}", shown(&path)))
        })?;
        let choices = read(&now)?;
        let file = outlet_for_choices(&path, request.folder().as_deref())
            .map_err(|why| crate::cli::request::no_outlet(&path, &why))?;
        file.save(now.as_bytes()).map_err(|why| {
            Refusal::files(format!(
                "{} could not be written: {}",
                shown(&path),
                why.why
            ))
        })?;
        Ok((choices, format!("wrote {}\n", shown(&path))))
    }

    /// `date_two_ways=day_first` or `plants.csv:12=leave_out`.
    fn choice(
        &self,
        words: &str,
        tables: &[InputTable],
        given: &mut ImportChoices,
    ) -> Result<(), Refusal> {
        let (of, choose) = words.rsplit_once('=').ok_or_else(|| unknown(words))?;
        let choose = Choose::named(choose.trim()).ok_or_else(|| unknown(words))?;
        if let Some(class) = RowClass::named(of.trim()) {
            let choice = ClassChoice { class, choose };
            let one = ImportChoices {
                choices: vec![choice],
                ..ImportChoices::default()
            };
            impossible(&one).map_or(Ok(()), |why| Err(Refusal::arguments(why)))?;
            given.choices.push(choice);
            return Ok(());
        }
        let (table, row) = of.rsplit_once(':').ok_or_else(|| unknown(words))?;
        let row = row.trim().parse().map_err(|_| unknown(words))?;
        let named = tables.iter().filter(|of| of.name == table);
        let lines = named.clone().flat_map(|of| &of.rows).map(|of| of.line);
        if named.clone().next().is_some() && !lines.clone().any(|line| line == row) {
            return Err(Refusal::arguments(format!(
                "{} has no row {row} with something in it\nits last row is {}",
                visible(table),
                lines.max().unwrap_or(0)
            )));
        }
        if named.count() == 0 {
            let names: Vec<String> = tables
                .iter()
                .map(|of| visible(&of.name).into_owned())
                .collect();
            return Err(Refusal::arguments(format!(
                "there is no table `{}`\nthe tables are {}",
                visible(table),
                names.join(", ")
            )));
        }
        given.rows.push(RowChoice {
            table: table.to_owned(),
            row,
            choose,
        });
        Ok(())
    }
}

/// Writes the rows that come; the files that were written.
fn applied(
    request: &Request,
    book: &Book,
    refused: &Refused,
    sorted: &Sorted,
    report: &mut ImportReport,
) -> Result<Vec<String>, Refusal> {
    let registry = refused.registry;
    let mut draft = Draft::new(registry, book.today);
    let recorded =
        bring_in(sorted, &mut draft).map_err(|slip| Refusal::slip(&draft.placed(slip)))?;
    draft.is_read_back().map_err(|slip| Refusal::slip(&slip))?;
    let pages = draft.changes();
    let about = recorded.about.clone();
    let change = Change {
        pages: pages.clone(),
        recorded,
        undoes: None,
        merged: None,
    };
    let written = book
        .record(request, registry, change)
        .map_err(|mut refusal| {
            let brought = consequences(registry, &pages, &about, book.today);
            refusal.words.push_str(&refused.behind_faults(&brought));
            refusal
        })?;
    report.recorded = Some(written.recorded);
    report.change = written.change;
    report.cautions.extend(written.remarks);
    report.cautions.extend(written.warnings);
    Ok(written.pages)
}

/// Every table of the files, each sheet one.
fn tables(files: &[PathBuf], working: &Working) -> Result<Vec<InputTable>, Refusal> {
    let mut tables: Vec<InputTable> = Vec::new();
    for file in files {
        working.at(format!("reading {}", shown(file)));
        let sheets =
            sheets_of_file(file).map_err(|why| Refusal::files(format!("{} {why}", shown(file))))?;
        let name = file
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        for sheet in sheets {
            let name = match &sheet.name {
                Some(sheet) => format!("{name}/{sheet}"),
                None => name.clone(),
            };
            if tables.iter().any(|of| of.name == name) {
                return Err(Refusal::arguments(format!(
                    "two files are called {}\ngive each a name of its own, so that a row can be found again",
                    visible(&name)
                )));
            }
            tables.push(InputTable {
                name,
                rows: sheet.rows,
                coloured: sheet.coloured,
                struck: sheet.struck,
            });
        }
    }
    Ok(tables)
}

fn impossible(choices: &ImportChoices) -> Option<String> {
    let wrong = choices
        .choices
        .iter()
        .find(|of| !of.class.choices().contains(&of.choose))?;
    let possible: Vec<&str> = wrong.class.choices().iter().map(|of| of.word()).collect();
    Some(format!(
        "`{}` cannot be chosen for {}\nits choices: {}",
        wrong.choose.word(),
        wrong.class.word(),
        possible.join(", ")
    ))
}

fn unknown(words: &str) -> Refusal {
    let classes: Vec<&str> = RowClass::ALL.iter().map(|class| class.word()).collect();
    Refusal::arguments(format!(
        "`{}` is not a choice\nwrite CLASS=CHOICE or TABLE:ROW=CHOICE, such as date_two_ways=day_first; the classes are {}",
        visible(words),
        classes.join(", ")
    ))
}
