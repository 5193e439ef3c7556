//! `podbook gone`: plants that died, were culled, sold, given away or lost.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::gone::{FateKind, Gone as Event};
use clap::{ArgGroup, Args};

/// Record plants that died, were culled, sold, given away or lost
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook gone X22-02-7,12..14 --died --why \"damping off\" --dry-run --registry registry-demo\n\
    Many at once: X24-01-7,9,12..15. One piece of a plant: Ven1-b. The whole of a plant with several pieces: --all-pieces.",
    group = ArgGroup::new("fate").multiple(false))]
pub struct Gone {
    /// Plants, or pieces of them
    #[arg(
        value_name = "PLANT",
        required_unless_present = "place",
        conflicts_with = "place"
    )]
    plants: Vec<String>,
    /// All that stand here
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Found dead
    #[arg(long, group = "fate")]
    died: bool,
    /// Discarded by choice
    #[arg(long, group = "fate")]
    culled: bool,
    /// Sold
    #[arg(long, group = "fate")]
    sold: bool,
    /// Given or traded away
    #[arg(long, group = "fate")]
    given: bool,
    /// Lost sight of
    #[arg(long, group = "fate")]
    lost: bool,
    /// Why it died, was culled or lost
    #[arg(long, value_name = "WORDS")]
    why: Option<String>,
    /// Who has it now; private
    #[arg(long, value_name = "WHO")]
    to: Option<String>,
    /// What was asked for it; private
    #[arg(long, value_name = "WORDS")]
    price: Option<String>,
    /// The words on the tag it left with
    #[arg(long, value_name = "WORDS")]
    label: Option<String>,
    /// The whole plant went, with every piece of it
    #[arg(long)]
    all_pieces: bool,
    #[command(flatten)]
    recording: Recording,
}

impl Gone {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let fates = [
            (self.died, FateKind::Died),
            (self.culled, FateKind::Culled),
            (self.sold, FateKind::Sold),
            (self.given, FateKind::Given),
            (self.lost, FateKind::Lost),
        ];
        let fate = fates.into_iter().find(|(given, _)| *given);
        let event = Event {
            plants: self.plants,
            place: self.place,
            fate: fate.map(|(_, fate)| fate),
            why: self.why,
            to: self.to,
            price: self.price,
            label: self.label,
            all_pieces: self.all_pieces,
            on: self.recording.on,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
