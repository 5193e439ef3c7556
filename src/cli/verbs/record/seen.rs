//! `podbook seen`: a stock-take.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::seen::Seen as Event;
use clap::Args;

/// Record which plants a stock-take found
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook seen --place \"shelf 1\" --except X22-02-5 --dry-run --registry registry-demo\n\
    Those not found keep their record, with a note. If one is lost for good: podbook gone PLANT --lost."
)]
pub struct Seen {
    /// Plants, unless --place is given
    #[arg(value_name = "PLANT")]
    plants: Vec<String>,
    /// All plants on record at this place
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Those that were not found, a piece such as Ven1-b where a plant has several
    #[arg(long, value_name = "PLANT", num_args = 1..)]
    except: Vec<String>,
    #[command(flatten)]
    recording: Recording,
}

impl Seen {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            plants: self.plants,
            place: self.place,
            except: self.except,
            on: self.recording.on,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
