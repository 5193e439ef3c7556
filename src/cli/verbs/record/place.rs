//! `podbook move`: plants to another place.

use super::command::with_last;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::place;
use crate::recording::slip::Slip;
use clap::Args;

/// Record plants moved to another place
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook move X22-02-1..4 \"shelf 2\" --dry-run --registry registry-demo"
)]
pub struct Move {
    /// What to move (leave out with --place), followed by the new place
    #[arg(value_name = "PLANT... PLACE", required = true)]
    plants_and_place: Vec<String>,
    /// Everything at this place
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Show the change and write nothing
    #[arg(long)]
    dry_run: bool,
}

impl Move {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let (plants, to) = with_last(self.plants_and_place);
        if plants.is_empty() && self.place.is_none() {
            return Err(Refusal::slip(&Slip::missing(
                "the place they were moved to",
                "it behind the plants, in quotes where it has a blank, such as X24-01-2 \"shelf 1\"; to move all that stands at a place: podbook move --place \"shelf 1\" \"shelf 2\"",
            )));
        }
        if plants.is_empty() != self.place.is_some() {
            return Err(Refusal::arguments(
                "PLANT... PLACE is needed: which plants, or --place and where they stood, then the new place\nsuch as podbook move X24-01-2 \"shelf 1\", or podbook move --place \"shelf 1\" \"shelf 2\"",
            ));
        }
        let place = self.place;
        let event = place::Move { plants, place, to };
        request.record(self.dry_run, |draft| event.record(draft))
    }
}
