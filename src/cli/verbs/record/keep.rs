//! `podbook keep`: a mark to keep.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::keep::Keep as Event;
use clap::Args;

/// Mark plants to keep, with the reason
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook keep X22-02-3,5 --why \"even, red rims\" --dry-run --registry registry-demo\n\
    `podbook select` proposes which to keep."
)]
pub struct Keep {
    /// Plants
    #[arg(
        value_name = "PLANT",
        required_unless_present = "place",
        conflicts_with = "place"
    )]
    plants: Vec<String>,
    /// All that stand here
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Why
    #[arg(long, value_name = "WORDS")]
    why: Option<String>,
    /// Take the mark away
    #[arg(long, conflicts_with = "why")]
    no_longer: bool,
    #[command(flatten)]
    recording: Recording,
}

impl Keep {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            plants: self.plants,
            place: self.place,
            why: self.why,
            no_longer: self.no_longer,
            on: self.recording.on,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
