//! `podbook changes`: what podbook has changed.

use crate::cli::recording::Journal;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::report::changes::changes;
use clap::Args;

/// List what podbook has changed, the latest first
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook changes X24-01-5\n\
    What you changed in an editor is not listed.")]
pub struct Changes {
    /// Only changes of these plants, crosses or parts
    #[arg(value_name = "ID")]
    ids: Vec<String>,
}

impl Changes {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let folder = request.registry_folder()?;
        let report = changes(&Journal::read(&folder), &self.ids);
        request.answer(&report, String::new())
    }
}
