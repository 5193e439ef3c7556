//! How commands change a registry: through the book, with what it refuses as the refusal of a command.

use super::outcome::shown;
use super::request::{Outcome, Refusal, Request};
use crate::recording::book::{self, AskedFor};
use crate::recording::difference::difference;
use crate::recording::draft::Draft;
use crate::recording::recorded::Recorded;
use crate::recording::slip::Slip;
use crate::recording::voice::Voice;
use crate::registry::{Registry, build};
use crate::report::recorded::{RecordedReport, recorded};
use crate::report::unrecorded::{faulty, not_opened, settled, uncommitted, warnings};
use crate::text::commit::Uncommitted;
use clap::Args;
use std::ops::Deref;
use std::path::{Path, PathBuf};

pub use crate::recording::book::Change;
pub use crate::recording::journal::Journal;

/// Options of every command that records.
#[derive(Args, Clone, Debug, Default)]
pub struct Recording {
    /// When it happened, such as 2024-03-30 or "spring 2024" [default: today]
    #[arg(long, value_name = "DATE")]
    pub on: Option<String>,
    /// Show the change and write nothing
    #[arg(long)]
    pub dry_run: bool,
}

/// A registry that no other program changes while this value lives.
pub struct Book {
    book: book::Book,
    /// What was put right when it was opened.
    pub remarks: String,
}

impl Deref for Book {
    type Target = book::Book;

    fn deref(&self) -> &book::Book {
        &self.book
    }
}

impl Book {
    /// Holds the registry and reads it; only reads it when the change is merely to be shown.
    ///
    /// # Errors
    /// If there is none, another program holds it, a change that was cut short cannot be put right, or a newer podbook made it.
    pub fn open(request: &Request, dry_run: bool) -> Result<Book, Refusal> {
        let folder = request.registry_folder()?;
        let today = request.today()?;
        let book = match dry_run {
            true => book::Book::to_show(&folder, request.sources()?, today),
            false => book::Book::open(&folder, today),
        };
        let book =
            book.map_err(|why| Refusal::files(not_opened(&shown(&folder), &why, Voice::Keyboard)))?;
        let remarks = settled(&book.put_right);
        Ok(Book { book, remarks })
    }

    /// Checks a change and writes it with its entry in the journal, or only shows it.
    ///
    /// # Errors
    /// If it would bring a fault into the registry, or a file cannot be written; the refusal says what was written.
    pub fn record(
        &self,
        request: &Request,
        registry: &Registry,
        change: Change,
    ) -> Result<RecordedReport, Refusal> {
        self.record_after(request, registry, change, |_| Ok(()))
    }

    /// As [`Book::record`]; once the change is found free of faults, and before it is written, files it names are put
    /// into the registry's folder.
    ///
    /// # Errors
    /// As [`Book::record`], or if the files cannot be written.
    pub fn record_after(
        &self,
        request: &Request,
        registry: &Registry,
        change: Change,
        put_files: impl FnOnce(&Path) -> Result<(), Refusal>,
    ) -> Result<RecordedReport, Refusal> {
        let brought = self
            .checked(registry, &change)
            .map_err(|brought| Refusal::arguments(faulty(request.width(), &brought)))?;
        let mut report = recorded(&change.recorded, Voice::Keyboard);
        report.warnings = warnings(&brought, Voice::Keyboard);
        report.pages = change.pages.iter().map(|page| page.path.clone()).collect();
        if !self.writes() {
            report.difference = Some(difference(&change.pages));
            return Ok(report);
        }
        put_files(self.folder())?;
        let asked = request.asked();
        let asked = AskedFor {
            words: &asked,
            event: None,
        };
        report.change = self
            .write(asked, &change)
            .map_err(|why| not_written(&why))?;
        Ok(report)
    }

    /// A line for each page that is a link to a file outside the registry.
    fn links_out(&self, pages: &[String]) -> String {
        let line = |(page, file): (&str, PathBuf)| {
            let (page, file) = (shown(Path::new(page)), shown(&file));
            format!(
                "{page} is a link to {file}, outside the registry: that file holds the records\n"
            )
        };
        self.linked_out(pages).into_iter().map(line).collect()
    }
}

impl Request {
    /// Records what an event makes of a draft, and answers with it.
    ///
    /// # Errors
    /// If the event is refused, would bring a fault, or cannot be written.
    pub fn record(
        &self,
        dry_run: bool,
        event: impl FnOnce(&mut Draft) -> Result<Recorded, Slip>,
    ) -> Result<Outcome, Refusal> {
        let book = Book::open(self, dry_run)?;
        let report = self.recorded(&book, event)?;
        self.told(&book, report)
    }

    /// As [`Request::record`], in a book that is open, with the report alone.
    ///
    /// # Errors
    /// As [`Request::record`].
    pub(super) fn recorded(
        &self,
        book: &Book,
        event: impl FnOnce(&mut Draft) -> Result<Recorded, Slip>,
    ) -> Result<RecordedReport, Refusal> {
        let (registry, _) = build(&book.sources);
        let change =
            Change::of(&registry, book.today, event).map_err(|slip| Refusal::slip(&slip))?;
        book.record(self, &registry, change)
    }

    /// The answer to a change that was made, or would be.
    pub(super) fn told(&self, book: &Book, report: RecordedReport) -> Result<Outcome, Refusal> {
        let written = match report.change {
            Some(_) => report.pages.clone(),
            None => Vec::new(),
        };
        let remarks = format!("{}{}", book.remarks, book.links_out(&report.pages));
        self.answer_after(&report, remarks, written)
    }
}

/// The refusal of a change whose files could not be written.
fn not_written(why: &Uncommitted) -> Refusal {
    let refusal = Refusal::files(uncommitted(why, Voice::Keyboard));
    match why {
        Uncommitted::Nothing(_) => refusal,
        Uncommitted::HalfWay { left, .. } => refusal.after(left),
        Uncommitted::Unsettled(unwritten) => refusal.after(std::slice::from_ref(&unwritten.path)),
    }
}
