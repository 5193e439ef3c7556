//! `podbook opinion`: what somebody takes a plant for.

use super::command::command;
use crate::recording::events::opinion::Opinion as Event;

command! {
    #[command(
        after_help = "Example: podbook opinion Ven1 \"N. graciliflora\" --by \"a visitor\" --basis visual --dry-run --registry registry-demo\n\
        The received name is never changed. --accept makes this the name that is shown."
    )]
    Opinion => Event { known_by: None };

    /// The plant
    #[arg(value_name = "PLANT")]
    plant: String,
    /// The name in quotes, as on a label
    #[arg(value_name = "NAME")]
    name: String,
    /// By whom: me or a role
    #[arg(long, value_name = "WHO")]
    by: Option<String>,
    /// What it is based on
    #[arg(long, value_name = "WORDS")]
    basis: Option<String>,
    /// Show this name from now on
    #[arg(long)]
    accept: bool,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}
