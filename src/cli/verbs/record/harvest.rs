//! `podbook harvest`: pods and their seed.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::harvest::Harvest as Event;
use clap::Args;

/// Record pods harvested from a zone, and their seed
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook harvest X24-01.red --capsules 7 --seeds 260\n\
    The code of the seed lot is printed, to go on the seed envelope."
)]
pub struct Harvest {
    /// The zone, or its cross when it has only one
    #[arg(value_name = "ZONE")]
    zone: String,
    /// Capsules
    #[arg(long, value_name = "N")]
    capsules: Option<u32>,
    /// Seeds
    #[arg(long, value_name = "N")]
    seeds: Option<u32>,
    /// The number of seeds is a guess
    #[arg(long, requires = "seeds")]
    estimated: bool,
    /// Seeds with a visible embryo, percent
    #[arg(long, value_name = "PERCENT")]
    embryo_percent: Option<u8>,
    /// How the seed is kept
    #[arg(long, value_name = "WORDS")]
    stored: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
    #[command(flatten)]
    recording: Recording,
}

impl Harvest {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            zone: self.zone,
            capsules: self.capsules,
            seeds: self.seeds,
            estimated: self.estimated,
            embryo_percent: self.embryo_percent,
            stored: self.stored,
            on: self.recording.on,
            note: self.note,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
