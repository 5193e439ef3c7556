//! `podbook gone`: plants that died, were culled, sold, given away or lost.

use super::command::command;
use crate::recording::events::gone::{FateKind, Gone as Event};
use clap::Args;

command! {
    #[command(
        after_help = "Example: podbook gone X22-02-7,12..14 --died --why \"damping off\" --dry-run --registry registry-demo\n\
        Many at once: X24-01-7,9,12..15. One piece of a plant: Ven1-b. The whole of a plant with several pieces: --all-pieces.\n\
        A pot of seedlings without numbers: X24-01.T1, X24-01.S1, or some of them with --seedlings 5. Seed: X24-01.L1, or part of it with --seeds 30."
    )]
    Gone => Event;

    /// Plants, pieces of them, sowings, community pots or seed lots
    #[arg(
        value_name = "PLANT",
        required_unless_present = "place",
        conflicts_with = "place"
    )]
    plants: Vec<String>,
    /// Everything at this place
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    #[command(flatten)]
    fate: Fate,
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
    /// How many seeds of one lot, where the others stay [default: all that are left]
    #[arg(long, value_name = "N")]
    seeds: Option<u32>,
    /// How many seedlings of one pot without numbers; the others stay [default: all of them]
    #[arg(long, value_name = "N", conflicts_with_all = ["seeds", "all_pieces"])]
    seedlings: Option<u32>,
    /// The whole plant went, with every piece of it
    #[arg(long)]
    all_pieces: bool,
}

/// What became of the plants: one of them.
#[derive(Args, Debug)]
#[group(multiple = false)]
struct Fate {
    /// Found dead
    #[arg(long)]
    died: bool,
    /// Discarded by choice
    #[arg(long)]
    culled: bool,
    /// Sold
    #[arg(long)]
    sold: bool,
    /// Given or traded away
    #[arg(long)]
    given: bool,
    /// Lost sight of
    #[arg(long)]
    lost: bool,
}

impl From<Fate> for Option<FateKind> {
    fn from(of: Fate) -> Option<FateKind> {
        let fates = [
            (of.died, FateKind::Died),
            (of.culled, FateKind::Culled),
            (of.sold, FateKind::Sold),
            (of.given, FateKind::Given),
            (of.lost, FateKind::Lost),
        ];
        let fate = fates.into_iter().find(|(given, _)| *given);
        fate.map(|(_, fate)| fate)
    }
}
