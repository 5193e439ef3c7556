//! `podbook handover`: a lineage for the buyer of a plant.

use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::recording::handover::{Lineage, SHEET, fingerprint, lines, pages, written};
use crate::recording::plants::{code, single};
use crate::registry::PlantKind;
use crate::report::handover::HandoverReport;
use crate::text::{NoFolder, new_folder, visible};
use clap::Args;
use std::path::PathBuf;

/// Write a plant's lineage as a small registry to hand over
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook handover X22-02-5 -o X22-02-5-lineage\n\
    The folder holds the plant and its ancestors, without suppliers, buyers, prices, places, photos and notes, and passes\n\
    `podbook check`. Its fingerprint goes on the card; `podbook verify` compares the two."
)]
pub struct Handover {
    /// The plant
    #[arg(value_name = "PLANT")]
    plant: String,
    /// Folder to make, or an empty one to fill [default: PLANT-lineage]
    #[arg(short = 'o', long = "output", value_name = "DIR")]
    folder: Option<PathBuf>,
}

impl Handover {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let named = single(&registry, &self.plant).map_err(Refusal::arguments)?;
        let plant = registry.code(named.plant);
        let lineage = Lineage::of(&registry, named.plant);
        let lines = lines(&registry, &lineage);
        let folder = self
            .folder
            .unwrap_or_else(|| PathBuf::from(format!("{plant}-lineage")));
        let handed = pages(&registry, &lineage);
        let sheet = written(&code(&registry, named), &lines);
        let mut texts: Vec<(&str, &str)> = vec![(SHEET, sheet.as_str())];
        texts.extend(
            handed
                .iter()
                .map(|page| (page.path.as_str(), page.text.as_str())),
        );
        new_folder(&folder, &texts).map_err(|why| refused(&folder, why))?;
        let kinds = |kind| {
            lineage
                .plants
                .iter()
                .filter(|plant| registry.kind(**plant) == kind)
                .count()
        };
        let report = HandoverReport {
            plant,
            folder: shown(&folder),
            fingerprint: fingerprint(&lines),
            founders: kinds(PlantKind::Founder),
            seedlings: kinds(PlantKind::Seedling),
            crosses: lineage.crosses.len(),
            files: texts.iter().map(|(path, _)| (*path).to_owned()).collect(),
        };
        let written = vec![shown(&folder)];
        match request.answer(&report, remarks) {
            Ok(outcome) => Ok(Outcome { written, ..outcome }),
            Err(refusal) => Err(refusal.after(&written)),
        }
    }
}

fn refused(folder: &std::path::Path, why: NoFolder) -> Refusal {
    let folder = shown(folder);
    let elsewhere = "name a folder that is not there yet, or an empty one, with -o DIR";
    match why {
        NoFolder::NotEmpty(entry) => Refusal::arguments(format!(
            "{folder} is not empty: it holds {}\n{elsewhere}; nothing was written",
            visible(&entry)
        )),
        NoFolder::AFile => Refusal::arguments(format!("{folder} is a file\n{elsewhere}")),
        NoFolder::LinkBroken => {
            Refusal::arguments(format!("{folder} is a link to nothing\n{elsewhere}"))
        }
        NoFolder::System(words) => Refusal::files(format!(
            "{folder} could not be written: {words}\n{elsewhere}"
        )),
    }
}
