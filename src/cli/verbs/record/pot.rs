//! `podbook pot`: potting on.

use super::command::{command, with_last};
use crate::recording::events::pot::Pot as Event;

command! {
    #[command(
        after_help = "Example: podbook pot X22-02-1..4 9cm --place \"shelf 2\" --dry-run --registry registry-demo"
    )]
    Pot => Event;

    (plants, width) = with_last(
        /// Plants, or pieces of them, then the inside width of the pot with its unit
        #[arg(value_name = "PLANT... WIDTH", required = true)]
        plants_and_width
    );
    /// Where they stand now
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
}
