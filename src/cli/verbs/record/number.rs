//! `podbook number`: seedlings get numbers.

use super::command::command;
use crate::recording::events::number::Number as Event;

command! {
    #[command(after_help = "Example: podbook number X24-01.T1 1-40 --pot 5cm --place \"shelf 1\"")]
    Number => Event;

    /// The community pot or sowing they come from, or the cross when it has only one
    #[arg(value_name = "POT")]
    from: String,
    /// Their numbers, such as 1-40 or 7,9,12-15
    #[arg(value_name = "NUMBERS")]
    numbers: String,
    /// The pot each goes into, such as 5cm
    #[arg(long, value_name = "WIDTH")]
    pot: Option<String>,
    /// Where they stand
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
}
