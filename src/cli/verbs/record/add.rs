//! `podbook add`: a plant arrives.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::recording::events::add;
use clap::{Args, ValueEnum};

/// Record a plant that arrived
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook add Ven9 \"N. ventricosa red\" --from \"a friend\" --form cutting --dry-run --registry registry-demo\n\
    The name is kept letter by letter as it came. Without a code the next free one of its species is taken."
)]
pub struct Add {
    /// Your code for it, then the name it came under in quotes; or the name alone
    #[arg(value_name = "CODE NAME", required = true, num_args = 1..=2)]
    code_and_name: Vec<String>,
    /// Whom it came from; private
    #[arg(long, value_name = "WHO")]
    from: Option<String>,
    /// What it came as
    #[arg(long, value_name = "FORM")]
    form: Option<Form>,
    /// How its name is known
    #[arg(long, value_name = "HOW")]
    known_by: Option<KnownBy>,
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
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
    #[command(flatten)]
    recording: Recording,
}

/// What a plant came as.
#[derive(ValueEnum, Clone, Copy, Debug)]
enum Form {
    /// Seed, raised here.
    Seed,
    /// A seedling.
    Seedling,
    /// A cutting.
    Cutting,
    /// A division.
    Division,
    /// A plant from a laboratory.
    LabPlant,
    /// A grown plant.
    Plant,
}

/// How a name is known.
#[derive(ValueEnum, Clone, Copy, Debug)]
enum KnownBy {
    /// From its tag.
    Tag,
    /// Claimed, not verified.
    Claim,
    /// Seen by you.
    Witnessed,
}

impl Add {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let mut words = self.code_and_name.into_iter();
        let first = words.next().unwrap_or_default();
        let (code, name) = match words.next() {
            Some(name) => (Some(first), name),
            None => (None, first),
        };
        let form = self.form.map(|form| match form {
            Form::Seed => "seed",
            Form::Seedling => "seedling",
            Form::Cutting => "cutting",
            Form::Division => "division",
            Form::LabPlant => "lab_plant",
            Form::Plant => "plant",
        });
        let known_by = self.known_by.map(|known| match known {
            KnownBy::Tag => "tag",
            KnownBy::Claim => "claim",
            KnownBy::Witnessed => "witnessed",
        });
        let event = add::Add {
            code,
            name,
            from: self.from,
            form,
            known_by,
            supplier_code: self.supplier_code,
            batch: self.batch,
            locality: self.locality,
            papers: self.papers,
            on: self.recording.on,
            note: self.note,
        };
        request.record(self.recording.dry_run, |draft| event.record(draft))
    }
}
