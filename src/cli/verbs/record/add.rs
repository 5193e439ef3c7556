//! `podbook add`: a plant arrives.

use super::command::{command, file_words};
use crate::recording::events::add::Add as Event;

command! {
    #[command(
        after_help = "Example: podbook add Ven9 \"N. ventricosa red\" --from \"a friend\" --form cutting --dry-run --registry registry-demo\n\
        The name is kept letter by letter as it came. Without a code the next free one of its species is taken."
    )]
    Add => Event;

    (code, name) = code_and_name(
        /// Your code for it, then the name it came under in quotes; or the name alone
        #[arg(value_name = "CODE NAME", required = true, num_args = 1..=2)]
        code_and_name
    );
    /// Whom it came from; private
    #[arg(long, value_name = "WHO")]
    from: Option<String>,
    /// What it came as
    #[arg(long, value_name = "FORM", value_parser = Form::parser())]
    form: Option<&'static str>,
    /// How its name is known
    #[arg(long, value_name = "HOW", value_parser = KnownBy::parser())]
    known_by: Option<&'static str>,
    /// The supplier's code or clone number
    #[arg(long, value_name = "CODE")]
    supplier_code: Option<String>,
    /// Name of its seed batch: founders of one batch count as siblings
    #[arg(long, value_name = "WORDS")]
    batch: Option<String>,
    /// Where the line was collected, as claimed
    #[arg(long, value_name = "PLACE")]
    locality: Option<String>,
    /// Papers that came with it
    #[arg(long, value_name = "WORDS")]
    papers: Option<String>,
    /// Where it stands
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}

file_words! {
    /// What a plant came as.
    Form {
        /// Seed, raised here.
        Seed = "seed",
        /// A seedling.
        Seedling = "seedling",
        /// A cutting.
        Cutting = "cutting",
        /// A division.
        Division = "division",
        /// A plant from a laboratory.
        LabPlant = "lab_plant",
        /// A grown plant.
        Plant = "plant",
    }
}

file_words! {
    /// How a name is known.
    KnownBy {
        /// From its tag.
        Tag = "tag",
        /// Claimed, not verified.
        Claim = "claim",
        /// Seen by you.
        Witnessed = "witnessed",
    }
}

fn code_and_name(words: Vec<String>) -> (Option<String>, String) {
    let mut words = words.into_iter();
    let first = words.next().unwrap_or_default();
    match words.next() {
        Some(name) => (Some(first), name),
        None => (None, first),
    }
}
