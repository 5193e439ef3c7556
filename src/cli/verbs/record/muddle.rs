//! `podbook muddle`: plants or pots mixed up.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::muddle::Muddle as Event;
use clap::Args;

/// Record a mix-up of plants or community pots
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook muddle X22-02-3 X22-02-14 --why \"tags fell out\" --dry-run --registry registry-demo\n\
    From then on each may be any of them, and every answer says so. When it is known again: --settled."
)]
pub struct Muddle {
    /// Seedlings, or community pots
    #[arg(value_name = "CODE", required = true)]
    codes: Vec<String>,
    /// How it happened
    #[arg(long, value_name = "WORDS")]
    why: Option<String>,
    /// Only so many seedlings of the community pots are mixed up
    #[arg(long, value_name = "N")]
    rows: Option<u32>,
    /// It is known again which is which
    #[arg(long, conflicts_with_all = ["why", "rows"])]
    settled: bool,
    #[command(flatten)]
    recording: Recording,
}

impl Muddle {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            codes: self.codes,
            why: self.why,
            rows: self.rows,
            settled: self.settled,
            on: self.recording.on,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
