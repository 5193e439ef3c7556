//! `podbook prick`: seedlings out of the sowing pot.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::prick::Prick as Event;
use clap::Args;

/// Record seedlings pricked out into a community pot
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook prick X24-01.S1 40 --to T1\n\
    The community pot is begun if it is not on record; its code is printed.")]
pub struct Prick {
    /// The sowing, or its cross when it has only one
    #[arg(value_name = "SOWING")]
    sowing: String,
    /// How many were moved
    #[arg(value_name = "N")]
    moved: u32,
    /// How many were left behind
    #[arg(long, value_name = "N")]
    left: Option<u32>,
    /// Code of the community pot [default: the next free one]
    #[arg(long, value_name = "POT")]
    to: Option<String>,
    /// The kind of pot or tray
    #[arg(long, value_name = "WORDS")]
    pot: Option<String>,
    /// Where it stands
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    #[command(flatten)]
    recording: Recording,
}

impl Prick {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            sowing: self.sowing,
            moved: self.moved,
            left: self.left,
            to: self.to,
            pot: self.pot,
            place: self.place,
            on: self.recording.on,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
