//! `podbook keep`: a mark to keep.

use super::command::command;
use crate::recording::events::keep::Keep as Event;

command! {
    #[command(
        after_help = "Example: podbook keep X22-02-3,5 --why \"even, red rims\" --dry-run --registry registry-demo\n\
        `podbook select` proposes which to keep."
    )]
    Keep => Event;

    /// Plants
    #[arg(
        value_name = "PLANT",
        required_unless_present = "place",
        conflicts_with = "place"
    )]
    plants: Vec<String>,
    /// Everything at this place
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Why
    #[arg(long, value_name = "WORDS")]
    why: Option<String>,
    /// Take the mark away
    #[arg(long, conflicts_with = "why")]
    no_longer: bool,
}
