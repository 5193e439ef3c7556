//! `podbook thaw` and `podbook finish`: what happens to an envelope of pollen.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::collect::{Envelope, EnvelopeEvent};
use clap::Args;

/// Record that an envelope of pollen was thawed
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook thaw Ram1-2105 --dry-run --registry registry-demo")]
pub struct Thaw {
    /// Code of the envelope
    #[arg(value_name = "ENVELOPE")]
    code: String,
    #[command(flatten)]
    recording: Recording,
}

/// Record that an envelope of pollen is used up or thrown out
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook finish Spe1-2105 --dry-run --registry registry-demo")]
pub struct Finish {
    /// Code of the envelope
    #[arg(value_name = "ENVELOPE")]
    code: String,
    #[command(flatten)]
    recording: Recording,
}

impl Thaw {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        recorded(request, self.code, EnvelopeEvent::Thawed, self.recording)
    }
}

impl Finish {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        recorded(request, self.code, EnvelopeEvent::Finished, self.recording)
    }
}

fn recorded(
    request: &Request,
    code: String,
    what: EnvelopeEvent,
    recording: Recording,
) -> Result<Outcome, Refusal> {
    let event = Envelope {
        code,
        what,
        on: recording.on,
    };
    request.record(recording.dry_run, |draft| event.record(draft))
}
