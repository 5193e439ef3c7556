//! `podbook took`: what a pollination set.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::took::Took as Event;
use clap::Args;

/// Record how many pods of a zone set
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook took X22-02.A 8 --again --dry-run --registry registry-demo\n\
    None is a result too: podbook took X24-01.red 0. Controls are pods and flowers: --controls 0/5."
)]
pub struct Took {
    /// The zone, or its cross when it has only one
    #[arg(value_name = "ZONE")]
    zone: String,
    /// Pods that set
    #[arg(value_name = "PODS")]
    set: u32,
    /// Pods on the controls, and flowers left as controls, such as 0/5
    #[arg(long, value_name = "PODS/FLOWERS")]
    controls: Option<String>,
    /// Replace an earlier count
    #[arg(long)]
    again: bool,
    #[command(flatten)]
    recording: Recording,
}

impl Took {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            zone: self.zone,
            set: self.set,
            controls: self.controls,
            again: self.again,
            on: self.recording.on,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
