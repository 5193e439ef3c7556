//! `podbook muddle`: plants or pots mixed up.

use super::command::command;
use crate::recording::events::muddle::Muddle as Event;

command! {
    #[command(
        after_help = "Example: podbook muddle X22-02-3 X22-02-14 --why \"tags fell out\" --dry-run --registry registry-demo\n\
        From then on each may be any of them, and every answer says so. When it is known again: --settled."
    )]
    Muddle => Event;

    /// Seedlings, or community pots
    #[arg(value_name = "CODE", required = true)]
    codes: Vec<String>,
    /// How it happened
    #[arg(long, value_name = "WORDS")]
    why: Option<String>,
    /// How many seedlings of the community pots are mixed up
    #[arg(long, value_name = "N")]
    rows: Option<u32>,
    /// It is known again which is which
    #[arg(long, conflicts_with_all = ["why", "rows"])]
    settled: bool,
    /// With --settled: each tag was on its own plant all the time
    #[arg(long, requires = "settled", conflicts_with = "tags_swapped")]
    tags_right: bool,
    /// With --settled: the tags were on each other's plants
    #[arg(long, requires = "settled")]
    tags_swapped: bool,
    /// With --tags-swapped: you have moved what was recorded in between to the right codes
    #[arg(long, requires = "tags_swapped")]
    moved: bool,
}
