//! `podbook collect`: pollen into an envelope.

use super::command::{command, file_words};
use crate::recording::events::collect::Collect as Event;

command! {
    #[command(
        after_help = "Example: podbook collect Spa1 --stored freezer --dry-run --registry registry-demo\n\
        The code to write on the envelope is printed."
    )]
    Collect => Event;

    /// The plant, or the piece that flowers
    #[arg(value_name = "PLANT")]
    plant: String,
    /// Where it is kept [default: not recorded]
    #[arg(long, value_name = "WHERE", value_parser = Stored::parser())]
    stored: Option<&'static str>,
    /// How it was dried
    #[arg(long, value_name = "WORDS")]
    dried: Option<String>,
    /// Code of the envelope [default: the plant's code and the month]
    #[arg(long, value_name = "CODE")]
    code: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}

file_words! {
    /// Where pollen is kept.
    Stored {
        /// Used from the flower.
        Fresh = "fresh",
        /// Room temperature, dry.
        Room = "room",
        /// Fridge.
        Fridge = "fridge",
        /// Freezer.
        Freezer = "freezer",
    }
}
