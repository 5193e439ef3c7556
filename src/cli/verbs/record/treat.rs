//! `podbook treat`: something put on plants against a pest or a disease.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::treat::Treat as Event;
use clap::Args;

/// Record a treatment of plants or of a place
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook treat --place \"shelf 1\" \"predatory mites\" --against thrips --dry-run --registry registry-demo\n\
    Name the product and its registration number; no amounts are kept. Follow the product's label and your local rules,\n\
    and leave what needs a licence to those who hold one."
)]
pub struct Treat {
    /// Plants, unless --place is given; then the product in quotes
    #[arg(value_name = "PLANT... PRODUCT", required = true)]
    plants_and_product: Vec<String>,
    /// All plants at this place
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Against what
    #[arg(long, value_name = "WORDS")]
    against: Option<String>,
    /// Who did it: me or a role
    #[arg(long, value_name = "WHO")]
    by: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
    #[command(flatten)]
    recording: Recording,
}

impl Treat {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let mut plants = self.plants_and_product;
        let product = plants.pop().unwrap_or_default();
        let event = Event {
            plants,
            place: self.place,
            product,
            against: self.against,
            by: self.by,
            on: self.recording.on,
            note: self.note,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
