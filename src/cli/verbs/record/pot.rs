//! `podbook pot`: potting on.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::pot::Pot as Event;
use clap::Args;

/// Record plants potted on
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook pot X22-02-1..4 9cm --place \"shelf 2\" --dry-run --registry registry-demo"
)]
pub struct Pot {
    /// Plants, then the inside width of the pot with its unit
    #[arg(value_name = "PLANT... WIDTH", required = true, num_args = 2..)]
    plants_and_width: Vec<String>,
    /// Where they stand now
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    #[command(flatten)]
    recording: Recording,
}

impl Pot {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let mut plants = self.plants_and_width;
        let width = plants.pop().unwrap_or_default();
        let event = Event {
            plants,
            width,
            place: self.place,
            on: self.recording.on,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
