//! `podbook add-pollen`: pollen arrives.

use super::collect::Stored;
use super::command::command;
use crate::recording::events::add_pollen::AddPollen as Event;

command! {
    #[command(
        after_help = "Example: podbook add-pollen \"N. maxima\" --from \"a friend\" --stored freezer --dry-run --registry registry-demo\n\
        The male plant gets a code too, as another grower's plant. More pollen of it: podbook add-pollen CODE."
    )]
    AddPollen => Event;

    (plant, name) = plant_and_name(
        /// Code of the male plant, then the name on the envelope in quotes; or either alone
        #[arg(value_name = "CODE NAME", required = true, num_args = 1..=2)]
        plant_and_name
    );
    /// Whom it came from; private
    #[arg(long, value_name = "WHO")]
    from: Option<String>,
    /// When it was collected, if that is known
    #[arg(long, value_name = "DATE")]
    collected: Option<String>,
    /// Where it is kept [default: not recorded]
    #[arg(long, value_name = "WHERE", value_parser = Stored::parser())]
    stored: Option<&'static str>,
    /// How it was dried
    #[arg(long, value_name = "WORDS")]
    dried: Option<String>,
    /// Code of the envelope [default: the plant's code and the month]
    #[arg(long, value_name = "CODE")]
    code: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}

fn plant_and_name(words: Vec<String>) -> (Option<String>, Option<String>) {
    let mut words = words.into_iter();
    (words.next(), words.next())
}
