//! `podbook verify`: whether a lineage and its fingerprint belong together.

use super::handed_over::HandedOver;
use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::recording::handover::{Form, differences, digits, fingerprint};
use crate::report::handover::VerifiedReport;
use crate::wording::counted;
use clap::Args;
use std::path::PathBuf;

/// Compare a lineage that was handed over with its fingerprint
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook verify X22-02-5-lineage --fingerprint \"1f0c 9a2b 77d0 4e51\"\n\
    Exit code 1 when they do not belong together. It cannot say whether a lineage is true."
)]
pub struct Verify {
    /// The folder that was handed over
    #[arg(value_name = "DIR", default_value = ".")]
    folder: PathBuf,
    /// The fingerprint on the card
    #[arg(long, value_name = "DIGITS")]
    fingerprint: Option<String>,
}

impl Verify {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        if let Some(typed) = &self.fingerprint {
            let digits = digits(typed);
            if digits.len() != 16 || !digits.bytes().all(|of| of.is_ascii_hexdigit()) {
                return Err(Refusal::arguments(format!(
                    "a fingerprint has 16 digits, 0 to 9 and a to f; found `{}`\ncopy it from the card, such as --fingerprint \"1f0c 9a2b 77d0 4e51\"",
                    crate::text::one_line(typed)
                )));
            }
        }
        let handed = HandedOver::read(&self.folder)?;
        let registry = handed.registry();
        let sheet = &handed.sheet;
        let found = handed.lines(&registry);
        let of = handed.plant(&registry).map(|of| registry.code_of(of));
        let report = VerifiedReport {
            sheet_is_whole: handed.sheet_is_whole(),
            differ: found
                .as_ref()
                .map(|found| differences(&sheet.lines, found))
                .unwrap_or_default(),
            found: found.as_ref().map(fingerprint),
            asked: self.fingerprint.as_deref().map(digits),
            is_of_records_only: handed.form() == Form::First,
            plant: of.unwrap_or_else(|| sheet.plant.clone()),
            piece_not_covered: handed.piece_not_covered(&registry),
            printed: sheet.printed.clone(),
        };
        let faults = match handed.faults() {
            0 => String::new(),
            faults => format!(
                "{} in its pages: `podbook check --registry {}` shows them\n",
                counted(faults, "fault", "faults"),
                shown(&self.folder)
            ),
        };
        request.answer(&report, faults)
    }
}
