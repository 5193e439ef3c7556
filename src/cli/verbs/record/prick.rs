//! `podbook prick`: seedlings out of the sowing pot.

use super::command::command;
use crate::recording::events::prick::Prick as Event;

command! {
    #[command(after_help = "Example: podbook prick X24-01.S1 40 --to T1\n\
        The community pot is begun if it is not on record; its code is printed.")]
    Prick => Event;

    /// The sowing, or its cross when it has only one
    #[arg(value_name = "SOWING")]
    sowing: String,
    /// How many were moved
    #[arg(value_name = "N")]
    moved: u32,
    /// How many were left behind
    #[arg(long, value_name = "N")]
    left: Option<u32>,
    /// Code of the community pot [default: the next free one]
    #[arg(long, value_name = "POT")]
    to: Option<String>,
    /// The kind of pot or tray
    #[arg(long, value_name = "WORDS")]
    pot: Option<String>,
    /// Where it stands
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
}
