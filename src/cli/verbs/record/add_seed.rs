//! `podbook add-seed`: seed arrives.

use super::command::command;
use crate::recording::events::add_seed::AddSeed as Event;

command! {
    #[command(
        after_help = "Example: podbook add-seed \"maxima x veitchii\" --seeds 30 --dry-run --registry registry-demo\n\
        A page is begun with the parents as the label claims them; its code is printed. Write \"?\" when there was no label."
    )]
    AddSeed => Event;

    /// The label in quotes, letter by letter
    #[arg(value_name = "LABEL")]
    label: String,
    /// Seeds
    #[arg(long, value_name = "N")]
    seeds: Option<u32>,
    /// The number of seeds is a guess
    #[arg(long, requires = "seeds")]
    estimated: bool,
    /// Code of its cross [default: the next free one of the year]
    #[arg(long, value_name = "CODE")]
    code: Option<String>,
    /// Whom it came from; private
    #[arg(long, value_name = "WHO")]
    from: Option<String>,
    /// How it is kept
    #[arg(long, value_name = "WORDS")]
    stored: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}
