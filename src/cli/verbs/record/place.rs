//! `podbook move`: plants to another place.

use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::place;
use clap::Args;

/// Record plants moved to another place
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook move X22-02-1..4 \"shelf 2\" --dry-run --registry registry-demo"
)]
pub struct Move {
    /// Plants or pieces, then the place
    #[arg(value_name = "PLANT... PLACE", required = true, num_args = 2..)]
    plants_and_place: Vec<String>,
    /// Show the change and write nothing
    #[arg(long)]
    dry_run: bool,
}

impl Move {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let mut plants = self.plants_and_place;
        let to = plants.pop().unwrap_or_default();
        let event = place::Move { plants, to };
        request.record(self.dry_run, |draft| event.record(draft))
    }
}
