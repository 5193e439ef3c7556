//! `podbook number`: seedlings get numbers.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::number::Number as Event;
use clap::Args;

/// Record seedlings that got numbers of their own
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook number X24-01.T1 1-40 --pot 5cm --place \"shelf 1\"")]
pub struct Number {
    /// The community pot or sowing they come from, or the cross when it has only one
    #[arg(value_name = "POT")]
    from: String,
    /// Their numbers, such as 1-40 or 7,9,12-15
    #[arg(value_name = "NUMBERS")]
    numbers: String,
    /// The pot each goes into, such as 5cm
    #[arg(long, value_name = "WIDTH")]
    pot: Option<String>,
    /// Where they stand
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    #[command(flatten)]
    recording: Recording,
}

impl Number {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            from: self.from,
            numbers: self.numbers,
            pot: self.pot,
            place: self.place,
            on: self.recording.on,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
