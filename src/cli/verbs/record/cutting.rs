//! `podbook cutting`: a piece off a plant.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::cutting::Cutting as Event;
use clap::{Args, ValueEnum};

/// Record a piece taken off a plant
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook cutting X22-02-5 --dry-run --registry registry-demo\n\
    The code of the new piece is printed, to go on its tag."
)]
pub struct Cutting {
    /// The plant, or the piece it was taken from
    #[arg(value_name = "PLANT")]
    from: String,
    /// How it was made [default: cutting]
    #[arg(long, value_name = "HOW")]
    made: Option<Made>,
    /// Letter of the new piece [default: the next free one]
    #[arg(long, value_name = "LETTER")]
    code: Option<String>,
    /// When it had rooted
    #[arg(long, value_name = "DATE")]
    rooted: Option<String>,
    /// Where it stands
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
    #[command(flatten)]
    recording: Recording,
}

/// How a piece is made.
#[derive(ValueEnum, Clone, Copy, Debug)]
enum Made {
    /// A cutting.
    Cutting,
    /// A division.
    Division,
    /// A basal shoot.
    Basal,
    /// A laboratory copy of this plant.
    LabCopy,
}

impl Cutting {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            from: self.from,
            code: self.code,
            made: self.made.map(|made| match made {
                Made::Cutting => "cutting",
                Made::Division => "division",
                Made::Basal => "basal",
                Made::LabCopy => "lab_copy",
            }),
            rooted: self.rooted,
            place: self.place,
            on: self.recording.on,
            note: self.note,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
