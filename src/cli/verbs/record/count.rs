//! `podbook count`: how many came up, how many are alive.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::count::Count as Event;
use clap::Args;

/// Record how many seedlings came up or are alive
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook count X22-02.S2 --up 30 --dry-run --registry registry-demo\n\
    --up counts all that ever came up in a sowing. --standing counts those alive now and not numbered, in a sowing or\n\
    a community pot."
)]
pub struct Count {
    /// The sowing or community pot, or the cross when it has only one
    #[arg(value_name = "POT")]
    of: String,
    /// All that came up so far
    #[arg(long, value_name = "N")]
    up: Option<u32>,
    /// Those alive now
    #[arg(long, value_name = "N")]
    standing: Option<u32>,
    #[command(flatten)]
    recording: Recording,
}

impl Count {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            of: self.of,
            up: self.up,
            standing: self.standing,
            on: self.recording.on,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
