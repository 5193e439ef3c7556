//! `podbook note`: a remark on plants.

use super::command::{command, with_last};
use crate::recording::events::note::Note as Event;

command! {
    #[command(
        after_help = "Example: podbook note X22-02-5 \"rim split, twice\" --dry-run --registry registry-demo\n\
        A remark is no reading: the plant stays among those not read."
    )]
    Note => Event;

    (plants, words) = with_last(
        /// Plants; then the remark in quotes
        #[arg(value_name = "PLANT... WORDS", required = true)]
        plants_and_words
    );
}
