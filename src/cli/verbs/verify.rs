//! `podbook verify`: whether a lineage and its fingerprint belong together.

use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::recording::handover::{Lineage, SHEET, differences, digits, fingerprint, lines, read};
use crate::registry::{Registry, Target, build};
use crate::report::handover::VerifiedReport;
use crate::text::{Sources, read_plain};
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
        let path = self.folder.join(SHEET);
        let text = read_plain(&path).map_err(|why| {
            Refusal::files(format!(
                "{} could not be read: {why}\nname the folder that was handed over",
                shown(&path)
            ))
        })?;
        let sheet = read(&text).ok_or_else(|| {
            Refusal::files(format!(
                "{} is not the page of a lineage that podbook handed over",
                shown(&path)
            ))
        })?;
        let sources = Sources::read(&self.folder);
        let (registry, _) = build(&sources);
        let plant = plant(&registry, &sheet.plant);
        let found = plant.map(|plant| lines(&registry, &Lineage::of(&registry, plant)));
        let report = VerifiedReport {
            sheet_is_whole: fingerprint(&sheet.lines) == sheet.printed,
            differ: found
                .as_ref()
                .map(|found| differences(&sheet.lines, found))
                .unwrap_or_default(),
            found: found.as_ref().map(fingerprint),
            asked: self.fingerprint.as_deref().map(digits),
            plant: sheet.plant,
            printed: sheet.printed,
        };
        request.answer(&report, String::new())
    }
}

fn plant(registry: &Registry, code: &str) -> Option<crate::registry::PlantRow> {
    match registry.target(code) {
        Some(Target::Plant(plant) | Target::Ramet(plant, _)) => Some(plant),
        _ => None,
    }
}
