//! `podbook sow`: seed into a pot.

use super::command::command;
use crate::recording::events::sow::Sow as Event;

command! {
    #[command(
        after_help = "Example: podbook sow X22-02.L1 --seeds 60 --container \"tray 12\" --dry-run --registry registry-demo\n\
        The code of the sowing is printed, to go on the pot."
    )]
    Sow => Event;

    /// The seed lot, or its cross when it has only one
    #[arg(value_name = "LOT")]
    lot: String,
    /// Seeds sown
    #[arg(long, value_name = "N")]
    seeds: Option<u32>,
    /// What they were sown in
    #[arg(long, value_name = "WORDS")]
    container: Option<String>,
    /// Mix
    #[arg(long, value_name = "WORDS")]
    medium: Option<String>,
    /// Where it stands
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// One more pot of the same day, place and number of seeds
    #[arg(long)]
    again: bool,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}
