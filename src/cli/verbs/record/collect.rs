//! `podbook collect`: pollen into an envelope.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::collect::Collect as Event;
use clap::{Args, ValueEnum};

/// Record pollen put into an envelope
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook collect Spa1 --stored freezer --dry-run --registry registry-demo\n\
    The code to write on the envelope is printed."
)]
pub struct Collect {
    /// The plant, or the piece that flowers
    #[arg(value_name = "PLANT")]
    plant: String,
    /// Where it is kept [default: fresh]
    #[arg(long, value_name = "WHERE")]
    stored: Option<Stored>,
    /// How it was dried
    #[arg(long, value_name = "WORDS")]
    dried: Option<String>,
    /// Code of the envelope [default: the plant's code and the month]
    #[arg(long, value_name = "CODE")]
    code: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
    #[command(flatten)]
    recording: Recording,
}

/// Where pollen is kept.
#[derive(ValueEnum, Clone, Copy, Debug)]
enum Stored {
    /// Used from the flower.
    Fresh,
    /// Room temperature, dry.
    Room,
    /// Fridge.
    Fridge,
    /// Freezer.
    Freezer,
}

impl Collect {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            plant: self.plant,
            code: self.code,
            stored: self.stored.map(|stored| match stored {
                Stored::Fresh => "fresh",
                Stored::Room => "room",
                Stored::Fridge => "fridge",
                Stored::Freezer => "freezer",
            }),
            dried: self.dried,
            on: self.recording.on,
            note: self.note,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
