//! `podbook correct`: a reading put right.

use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::correct::Correct as Event;
use clap::Args;

/// Correct one reading of a plant
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook correct X22-02-5 span \"14.8 cm\" --on 2025-05-10 --dry-run --registry registry-demo\n\
    What stood there stays in the journal: podbook changes X22-02-5."
)]
pub struct Correct {
    /// The plant
    #[arg(value_name = "PLANT")]
    plant: String,
    /// The trait, or note, pest or pitcher
    #[arg(value_name = "TRAIT")]
    column: String,
    /// What should stand there; "" for not read
    #[arg(value_name = "READING")]
    value: String,
    /// Day of the sitting [default: the last one with that trait]
    #[arg(long, value_name = "DATE")]
    on: Option<String>,
    /// Show the change and write nothing
    #[arg(long)]
    dry_run: bool,
}

impl Correct {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            plant: self.plant,
            column: self.column,
            value: self.value,
            on: self.on,
        };
        request.record(self.dry_run, |draft| event.record(draft))
    }
}
