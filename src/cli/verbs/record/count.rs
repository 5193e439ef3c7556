//! `podbook count`: how many came up, how many are alive.

use super::command::command;
use crate::recording::events::count::Count as Event;

command! {
    #[command(
        after_help = "Example: podbook count X22-02.S2 --up 30 --dry-run --registry registry-demo\n\
        --up counts all that ever came up in a sowing. --standing counts those alive now and not numbered, in a sowing or \
        a community pot. If seedlings get numbers on the same day, what is left is a range."
    )]
    Count => Event;

    /// The sowing or community pot, or the cross when it has only one
    #[arg(value_name = "POT")]
    of: String,
    /// All that came up so far
    #[arg(long, value_name = "N")]
    up: Option<u32>,
    /// Those alive now
    #[arg(long, value_name = "N")]
    standing: Option<u32>,
}
