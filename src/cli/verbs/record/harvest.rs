//! `podbook harvest`: pods and their seed.

use super::command::command;
use crate::recording::events::harvest::Harvest as Event;

command! {
    #[command(
        after_help = "Example: podbook harvest X24-01.red --capsules 7 --seeds 260\n\
        The code of the seed lot is printed, to go on the seed envelope."
    )]
    Harvest => Event;

    /// The zone, or its cross when it has only one
    #[arg(value_name = "ZONE")]
    zone: String,
    /// Capsules
    #[arg(long, value_name = "N")]
    capsules: Option<u32>,
    /// Seeds
    #[arg(long, value_name = "N")]
    seeds: Option<u32>,
    /// The number of seeds is a guess
    #[arg(long, requires = "seeds")]
    estimated: bool,
    /// Seeds with a visible embryo, percent
    #[arg(long, value_name = "PERCENT")]
    embryo_percent: Option<u8>,
    /// How the seed is kept
    #[arg(long, value_name = "WORDS")]
    stored: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}
