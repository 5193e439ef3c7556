//! `podbook cutting`: a piece off a plant.

use super::command::{command, file_words};
use crate::recording::events::cutting::Cutting as Event;

command! {
    #[command(
        after_help = "Example: podbook cutting X22-02-5 --dry-run --registry registry-demo\n\
        The code of the new piece is printed, to go on its tag."
    )]
    Cutting => Event;

    /// The plant, or the piece it was taken from
    #[arg(value_name = "PLANT")]
    from: String,
    /// How it was made [default: cutting]
    #[arg(long, value_name = "HOW", value_parser = Made::parser())]
    made: Option<&'static str>,
    /// Letter of the new piece [default: the next free one]
    #[arg(long, value_name = "LETTER")]
    code: Option<String>,
    /// When it had rooted
    #[arg(long, value_name = "DATE")]
    rooted: Option<String>,
    /// Where it stands
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}

file_words! {
    /// How a piece is made.
    Made {
        /// A cutting.
        Cutting = "cutting",
        /// A division.
        Division = "division",
        /// A basal shoot.
        Basal = "basal",
        /// A laboratory copy of this plant.
        LabCopy = "lab_copy",
    }
}
