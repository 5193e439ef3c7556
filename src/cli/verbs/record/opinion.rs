//! `podbook opinion`: what somebody takes a plant for.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::opinion::Opinion as Event;
use clap::Args;

/// Record an opinion on what a plant is
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook opinion Ven1 \"N. graciliflora\" --by \"a visitor\" --basis visual --dry-run --registry registry-demo\n\
    The received name is never changed. --accept makes this the name that is shown."
)]
pub struct Opinion {
    /// The plant
    #[arg(value_name = "PLANT")]
    plant: String,
    /// The name in quotes, as on a label
    #[arg(value_name = "NAME")]
    name: String,
    /// By whom: me or a role
    #[arg(long, value_name = "WHO")]
    by: Option<String>,
    /// What it is based on
    #[arg(long, value_name = "WORDS")]
    basis: Option<String>,
    /// Show this name from now on
    #[arg(long)]
    accept: bool,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
    #[command(flatten)]
    recording: Recording,
}

impl Opinion {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            plant: self.plant,
            name: self.name,
            by: self.by,
            basis: self.basis,
            known_by: None,
            accept: self.accept,
            on: self.recording.on,
            note: self.note,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
