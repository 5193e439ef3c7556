//! The one way in which commands change a registry: hold it, read it, make the change, check it, write it with its entry
//! in the journal.

use super::held::{not_held, settled};
use super::outcome::shown;
use super::request::{Outcome, Refusal, Request};
use crate::diagnostic::{Drawing, Paint, Severity};
use crate::record::{Day, JournalEntry, JournalMerge, read_journal_entry};
use crate::recording::checked::{Consequences, consequences};
use crate::recording::difference::difference;
use crate::recording::draft::{Draft, PageChange};
use crate::recording::journal::{Asked, FOLDER, entry, number_of};
use crate::recording::recorded::Recorded;
use crate::recording::slip::Slip;
use crate::registry::{Registry, build};
use crate::report::recorded::{RecordedReport, recorded};
use crate::text::commit::{FileChange, Hold, Uncommitted, commit};
use crate::text::{NoFailures, Sources, leads_out, names_in, read_plain};
use crate::wording::counted;
use clap::Args;
use std::path::{Path, PathBuf};

/// Lines that the faults a change would bring may fill.
const FAULT_LINES: usize = 14;

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
    folder: PathBuf,
    /// None where the change is only to be shown.
    hold: Option<Hold>,
    /// The pages as they are.
    pub sources: Sources,
    /// The day that counts as today.
    pub today: Day,
    /// What was put right when it was opened.
    pub remarks: String,
}

/// What is written down about a change.
pub struct Change {
    /// The pages.
    pub pages: Vec<PageChange>,
    /// What was recorded.
    pub recorded: Recorded,
    /// The number of the change that is taken back.
    pub undoes: Option<u32>,
    /// What was taken in from another registry.
    pub merged: Option<JournalMerge>,
}

impl Book {
    /// Holds the registry and reads it; only reads it when the change is merely to be shown.
    ///
    /// # Errors
    /// If there is none, another program holds it, or a change that was cut short cannot be put right.
    pub fn open(request: &Request, dry_run: bool) -> Result<Book, Refusal> {
        let folder = request.registry_folder()?;
        let today = request.today()?;
        if dry_run {
            let sources = request.sources()?;
            return Ok(Book {
                folder,
                hold: None,
                sources,
                today,
                remarks: String::new(),
            });
        }
        let hold = Hold::to_write(&folder).map_err(|why| not_held(&folder, &why))?;
        let remarks = settled(&hold)?;
        Ok(Book {
            sources: Sources::read(&folder),
            folder,
            hold: Some(hold),
            today,
            remarks,
        })
    }

    /// The entries of the journal, in the order of their numbers; those that cannot be read are left out.
    pub fn entries(&self) -> Vec<JournalEntry> {
        entries(&self.folder)
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
        let about = &change.recorded.about;
        let brought = consequences(registry, &change.pages, about, self.today);
        if brought.are_faulty() && change.undoes.is_none() {
            return Err(faulty(request, &brought));
        }
        let mut report = recorded(&change.recorded);
        report.warnings = warnings(&brought);
        report.pages = change.pages.iter().map(|page| page.path.clone()).collect();
        match &self.hold {
            None => report.difference = Some(difference(&change.pages)),
            Some(hold) => {
                put_files(&self.folder)?;
                report.change = Some(self.write(request, hold, &change)?);
            }
        }
        Ok(report)
    }

    /// Writes the pages and the entry, and gives the number of the change.
    fn write(&self, request: &Request, hold: &Hold, change: &Change) -> Result<u32, Refusal> {
        let names = names_in(&self.folder.join(FOLDER));
        let last = names.iter().filter_map(|name| number_of(name)).max();
        let asked = request.asked();
        let number = last.unwrap_or(0) + 1;
        let asked = Asked {
            change: number,
            on: self.today,
            asked: &asked,
            about: &change.recorded.about,
            undoes: change.undoes,
            merged: change.merged.as_ref(),
        };
        let (path, text) = entry(&asked, &change.pages);
        let mut files: Vec<FileChange> = change.pages.iter().map(|page| self.file(page)).collect();
        files.push(FileChange {
            path,
            was: None,
            now: Some(text.into_bytes()),
        });
        commit(hold, &files, &NoFailures).map_err(|why| uncommitted(&why))?;
        Ok(number)
    }

    /// A line for each page that is a link to a file outside the registry.
    fn linked_out(&self, pages: &[String]) -> String {
        let line = |page: &String| {
            let file = leads_out(&self.folder, page)?;
            let (page, file) = (shown(Path::new(page)), shown(&file));
            Some(format!(
                "{page} is a link to {file}, outside the registry: that file holds the records\n"
            ))
        };
        pages.iter().filter_map(line).collect()
    }

    /// The bytes of a page before and after, with its byte-order mark.
    fn file(&self, page: &PageChange) -> FileChange {
        let source = self
            .sources
            .find(&page.path)
            .map(|file| self.sources.get(file));
        let bytes = |text: &String| match source {
            Some(source) => source.as_marked(text),
            None => text.clone().into_bytes(),
        };
        FileChange {
            path: page.path.clone(),
            was: page.was.as_ref().map(bytes),
            now: page.now.as_ref().map(bytes),
        }
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
        let mut draft = Draft::new(&registry, book.today);
        let recorded = event(&mut draft).map_err(|slip| Refusal::slip(&slip))?;
        let pages = draft.changes();
        if pages.is_empty() {
            return Err(Refusal::arguments(
                "all of this is on record already, so nothing was written",
            ));
        }
        let change = Change {
            pages,
            recorded,
            undoes: None,
            merged: None,
        };
        book.record(self, &registry, change)
    }

    /// The answer to a change that was made, or would be.
    pub(super) fn told(&self, book: &Book, report: RecordedReport) -> Result<Outcome, Refusal> {
        let written = match report.change {
            Some(_) => report.pages.clone(),
            None => Vec::new(),
        };
        let remarks = format!("{}{}", book.remarks, book.linked_out(&report.pages));
        match self.answer(&report, remarks) {
            Ok(outcome) => Ok(Outcome { written, ..outcome }),
            Err(refusal) => Err(refusal.after(&written)),
        }
    }
}

/// The entries of a registry's journal, in the order of their numbers; those that cannot be read are left out.
pub fn entries(folder: &Path) -> Vec<JournalEntry> {
    let folder = folder.join(FOLDER);
    let names = names_in(&folder);
    let ours = names.iter().filter(|name| number_of(name).is_some());
    let read = |name: &String| read_journal_entry(&read_plain(&folder.join(name)).ok()?).ok();
    let mut entries: Vec<JournalEntry> = ours.filter_map(read).collect();
    entries.sort_by_key(|entry| entry.change);
    entries
}

/// The refusal of a change that would bring faults, with the faults drawn in the pages as they would be.
fn faulty(request: &Request, brought: &Consequences) -> Refusal {
    let drawing = Drawing {
        width: request.width(),
        paint: Paint::Plain,
    };
    let (drawn, left) = drawing.first_findings(
        (Severity::Fault, FAULT_LINES),
        &brought.findings,
        &brought.sources,
    );
    let more = match left {
        0 => String::new(),
        more => format!("\n\nand {}", counted(more, "fault more", "faults more")),
    };
    let count = brought.findings.count(Severity::Fault);
    Refusal::arguments(format!(
        "this would bring {} into the registry, so nothing was written\n\n{}{more}",
        counted(count, "fault", "faults"),
        drawn.trim_end()
    ))
}

/// One line a warning, with its place and the first thing to do about it.
fn warnings(brought: &Consequences) -> Vec<String> {
    let warnings = brought.findings.iter();
    let line = |finding: &crate::diagnostic::Finding| {
        let place = finding.place.map(|span| {
            let place = brought.sources.locate(span);
            format!("{}:{}: ", place.path, place.line)
        });
        let help = finding.help.first().map(|help| format!("; {help}"));
        format!(
            "{}{}; found {}{}",
            place.unwrap_or_default(),
            finding.title,
            finding.found,
            help.unwrap_or_default()
        )
    };
    warnings.map(line).collect()
}

fn uncommitted(why: &Uncommitted) -> Refusal {
    match why {
        Uncommitted::Nothing(unwritten) => Refusal::files(format!(
            "{} could not be written: {}",
            unwritten.path, unwritten.why
        )),
        Uncommitted::HalfWay { refused, left } => Refusal::files(format!(
            "{} could not be written: {}; the next command puts the others back",
            refused.path, refused.why
        ))
        .after(left),
        Uncommitted::Unsettled(unwritten) => Refusal::files(format!(
            "the change is written, but {} could not be settled: {}\nrun `podbook check`, and copy the registry to another disk if this comes again",
            unwritten.path, unwritten.why
        ))
        .after(std::slice::from_ref(&unwritten.path)),
    }
}
