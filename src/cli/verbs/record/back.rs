//! `podbook back`: plants that left and are here again.

use super::command::command;
use crate::recording::events::back::Back as Event;

command! {
    #[command(
        after_help = "Example: podbook back X15-02-5 --on 2025-05-20 --dry-run --registry registry-demo\n\
        How it left, to whom and with which words stays on its record. One that was lost is found with `podbook seen`."
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
