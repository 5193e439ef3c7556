//! `podbook sow`: seed into a pot.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::sow::Sow as Event;
use clap::Args;

/// Record seed sown in one container
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook sow X22-02.L1 --seeds 60 --container \"tray 12\" --dry-run --registry registry-demo\n\
    The code of the sowing is printed, to go on the pot."
)]
pub struct Sow {
    /// The seed lot, or its cross when it has only one
    #[arg(value_name = "LOT")]
    lot: String,
    /// Seeds sown
    #[arg(long, value_name = "N")]
    seeds: Option<u32>,
    /// What they were sown in
    #[arg(long, value_name = "WORDS")]
    container: Option<String>,
    /// Mix
    #[arg(long, value_name = "WORDS")]
    medium: Option<String>,
    /// Where it stands
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
    #[command(flatten)]
    recording: Recording,
}

impl Sow {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            lot: self.lot,
            seeds: self.seeds,
            container: self.container,
            medium: self.medium,
            place: self.place,
            on: self.recording.on,
            note: self.note,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
