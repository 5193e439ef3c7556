//! `podbook seen`: a stock-take.

use super::command::command;
use crate::recording::events::seen::Seen as Event;

command! {
    #[command(
        after_help = "Example: podbook seen --place \"shelf 1\" --except X22-02-5 --dry-run --registry registry-demo\n\
        Those not found keep their record, with a note. If one is lost for good: podbook gone PLANT --lost."
    )]
    Seen => Event;

    /// Plants, unless --place is given
    #[arg(value_name = "PLANT")]
    plants: Vec<String>,
    /// All plants on record at this place
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Those that were not found, a piece such as Ven1-b where a plant has several
    #[arg(long, value_name = "PLANT", num_args = 1..)]
    except: Vec<String>,
}
