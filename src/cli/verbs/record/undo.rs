//! `podbook undo`: takes back what podbook changed.

use crate::cli::recording::{Book, Change};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::registry::build;
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
}

impl Undo {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let book = Book::open(request, self.dry_run)?;
        let change = Change::undoing(&book.sources, &book.journal(), self.change)
            .map_err(Refusal::arguments)?;
        let (registry, _) = build(&book.sources);
        let report = book.record(request, &registry, change)?;
        request.told(&book, report)
    }
}
