//! `podbook back`: plants that left and are here again.

use super::command::command;
use crate::recording::events::back::Back as Event;

command! {
    #[command(
        after_help = "Example: podbook back X15-02-5 --on 2025-05-20 --dry-run --registry registry-demo\n\
        Its record keeps how it left, to whom, and what its tag said. For a lost plant that turned up: podbook seen."
    )]
    Back => Event;

    /// Plants, or pieces of them, that were sold or given away
    #[arg(value_name = "PLANT", required = true)]
    plants: Vec<String>,
    /// Where they stand now
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}
