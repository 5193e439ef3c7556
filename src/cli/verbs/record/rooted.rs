//! `podbook rooted`: cuttings that have rooted.

use super::command::command;
use crate::recording::events::rooted::Rooted as Event;

command! {
    #[command(
        after_help = "Example: podbook rooted Ven1-d --on 2025-05-20 --dry-run --registry registry-demo\n\
        `podbook due` lists the cuttings to check; one that failed is recorded with `podbook gone`."
    )]
    Rooted => Event;

    /// Cuttings, or plants of which one cutting is to root
    #[arg(value_name = "PIECE", required = true)]
    pieces: Vec<String>,
}
