//! `podbook flower`: a spike, and the sex of its flowers.

use super::command::file_words;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::record::Sex;
use crate::recording::events::flower::Flower as Event;
use clap::{Args, ValueEnum};

/// Record a spike and the sex of its flowers
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook flower X22-02-5 --sex female --opened 2025-05-20 --dry-run --registry registry-demo\n\
    The spike's code is printed, so that a pollination can name it. Only open flowers show the sex for certain: \
    say --seen-by buds when you guess from the buds. A sex without a day counts as seen on flowers open today; \
    one that a supplier named or a leaf test showed is recorded without a spike."
)]
pub struct Flower {
    /// The plant, or the piece that flowers
    #[arg(value_name = "PLANT")]
    plant: String,
    /// The sex its flowers show
    #[arg(long, value_name = "SEX")]
    sex: Option<SexWord>,
    /// When the spike was first seen [default: today, when no other date is given]
    #[arg(long, value_name = "DATE")]
    seen: Option<String>,
    /// When the first flower opened
    #[arg(long, value_name = "DATE")]
    opened: Option<String>,
    /// When the last flower was over
    #[arg(long, value_name = "DATE")]
    over: Option<String>,
    /// A day on which its flowers were open [default: today, with a sex they show]
    #[arg(long, value_name = "DATE", conflicts_with_all = ["opened", "seen", "over"])]
    on: Option<String>,
    /// Code of a spike on record, to add to it
    #[arg(long, value_name = "SPIKE")]
    spike: Option<String>,
    /// How the sex is known [default: open flowers]
    #[arg(long, value_name = "HOW", requires = "sex", value_parser = SeenBy::parser())]
    seen_by: Option<&'static str>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
    /// Show the change and write nothing
    #[arg(long)]
    dry_run: bool,
}

/// A sex.
#[derive(ValueEnum, Clone, Copy, Debug)]
enum SexWord {
    /// Bears pods.
    Female,
    /// Gives pollen.
    Male,
}

file_words! {
    /// How a sex is known.
    SeenBy {
        /// Open flowers: the only certain one.
        Flowers = "flowers",
        /// The shape of buds: a guess.
        Buds = "buds",
        /// A test on a leaf: a guess.
        LeafTest = "leaf_test",
        /// What the supplier said: a guess.
        Supplier = "supplier",
    }
}

impl Flower {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let event = Event {
            plant: self.plant,
            spike: self.spike,
            seen: self.seen,
            opened: self.opened,
            over: self.over,
            open_on: self.on,
            sex: self.sex.map(|sex| match sex {
                SexWord::Female => Sex::Female,
                SexWord::Male => Sex::Male,
            }),
            seen_by: self.seen_by,
            note: self.note,
        };
        request.record(self.dry_run, |draft| event.record(draft))
    }
}
