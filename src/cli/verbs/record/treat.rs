//! `podbook treat`: something put on plants against a pest or a disease.

use super::command::{command, with_last};
use crate::recording::events::treat::Treat as Event;

command! {
    #[command(
        after_help = "Example: podbook treat --place \"shelf 1\" \"predatory mites\" --against thrips --dry-run --registry registry-demo\n\
        Name the product and its registration number; no amounts are kept. Follow the product's label and your local rules, \
        and leave what needs a licence to those who hold one."
    )]
    Treat => Event;

    (plants, product) = with_last(
        /// Plants (leave out with --place), followed by the product in quotes
        #[arg(value_name = "PLANT... PRODUCT", required = true)]
        plants_and_product
    );
    /// All plants at this place
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Against what
    #[arg(long, value_name = "WORDS")]
    against: Option<String>,
    /// Who did it: me or a role
    #[arg(long, value_name = "WHO")]
    by: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}
