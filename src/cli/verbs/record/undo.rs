//! `podbook undo`: takes back what podbook changed.

use crate::cli::recording::{Book, Change};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::book::settle_anyway;
use crate::recording::recorded::{Recorded, What};
use crate::recording::voice::Voice;
use crate::registry::build;
use crate::report::recorded::recorded;
use crate::report::unrecorded::{not_opened, settled};
use crate::text::visible;
use clap::Args;

/// Take back the last change, or one by its number
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook undo\n\
    The pages become what they were before. If later changes are on the same page, only the lines of this change are put back and the later changes stay.\n\
    An undo is a change too: `podbook undo 7` takes back change 7, also when that was an undo.")]
pub struct Undo {
    /// Number of the change, as `podbook changes` shows it [default: the last one that stands]
    #[arg(value_name = "CHANGE")]
    change: Option<u32>,
    /// Show the change and write nothing
    #[arg(long)]
    dry_run: bool,
    /// Take back or finish a change that was cut short, once you are sure that no podbook is still writing it
    #[arg(long, conflicts_with_all = ["change", "dry_run"])]
    cut_short: bool,
}

impl Undo {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        if self.cut_short {
            return settle(request);
        }
        let book = Book::open(request, self.dry_run)?;
        let change = Change::undoing(&book.sources, &book.journal(), self.change)
            .map_err(Refusal::arguments)?;
        let (registry, _) = build(&book.sources);
        let report = book.record(request, &registry, change)?;
        request.told(&book, report)
    }
}

/// Puts a change right that was cut short, whatever podbook can see of its writer.
fn settle(request: &Request) -> Result<Outcome, Refusal> {
    let folder = request.registry_folder()?;
    let found = settle_anyway(&folder).map_err(|why| {
        let folder = visible(&folder.to_string_lossy()).into_owned();
        Refusal::files(not_opened(&folder, &why, Voice::Keyboard))
    })?;
    let words = settled(&found).trim_end().to_owned();
    if words.is_empty() {
        return Err(Refusal::arguments(
            "no change was cut short, so none was taken back",
        ));
    }
    let done = Recorded::of(What::InWords(words), Vec::new(), "");
    request.answer(&recorded(&done, Voice::Keyboard), String::new())
}
