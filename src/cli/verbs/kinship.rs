//! `podbook kinship`: who is related to whom.

use super::charted::Charted;
use crate::analysis::kinship::Kindred;
use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::context::Context;
use crate::kinship::{NamedPedigree, TableRow, pedigree_of_table};
use crate::lineage::PlantRow;
use crate::registry::{CrossRow, LotRow, PodRow, PotRow, Registry, SowingRow, Target, ZoneRow};
use crate::render;
use crate::report::kinship::kinship_chart;
use crate::text::visible;
use crate::wording::counted;
use clap::Args;
use std::path::{Path, PathBuf};

/// Show how closely plants are related, and through which ancestors
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook kinship X18-01-4 Spa1 --registry registry-demo\n         \
    podbook kinship X22-02-5 X18-01-4 Spa1 -o kinship.svg --registry registry-demo\n         \
    podbook kinship --inbreeding --registry registry-demo\n         \
    podbook kinship --inbreeding X22-02-5 --registry registry-demo\n         \
    podbook kinship --inbreeding --table your-table.csv, a file of your own\n\
    A table is CSV with a header and three columns: plant, seed parent, pollen parent; empty or ? is unknown."
)]
pub struct Kinship {
    /// Codes of two or more plants; with --inbreeding any number, and none for all plants
    #[arg(value_name = "ID")]
    ids: Vec<String>,
    /// Show how far plants are inbred themselves instead: those named, or all
    #[arg(long)]
    inbreeding: bool,
    /// Read the pedigree from a plain table instead of the registry
    #[arg(long, value_name = "FILE")]
    table: Option<PathBuf>,
    #[command(flatten)]
    picture: Charted,
}

impl Kinship {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        if let Some(file) = &self.table {
            let table = read_table(file)?;
            let find = |id: &str| {
                table
                    .row(id)
                    .ok_or_else(|| Refusal::arguments(format!("`{id}` is not in {}", shown(file))))
            };
            return self.answer(request, &Kindred::of_table(&table), find, String::new());
        }
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let context = Context::of(&registry, request.today()?);
        let kindred = Kindred::of_registry(&context);
        self.answer(request, &kindred, |id| plant(&registry, id), remarks)
    }

    fn answer(
        &self,
        request: &Request,
        kindred: &Kindred,
        find: impl Fn(&str) -> Result<PlantRow, Refusal>,
        remarks: String,
    ) -> Result<Outcome, Refusal> {
        let plants = self
            .ids
            .iter()
            .map(|id| find(id))
            .collect::<Result<Vec<_>, _>>()?;
        if self.inbreeding {
            let report = kindred.inbreeding(&plants).map_err(Refusal::arguments)?;
            return self.picture.tables(request, &report, remarks);
        }
        if plants.len() < 2 {
            return Err(Refusal::arguments(
                "kinship needs two plants or more; for the inbreeding of one: `podbook kinship --inbreeding CODE`",
            ));
        }
        let report = kindred.pairs(&plants).map_err(Refusal::arguments)?;
        let draw = |look| render::chart::kinship(&kinship_chart(&report), look);
        let reports = std::slice::from_ref(&report);
        self.picture.answer(request, reports, draw, remarks)
    }
}

/// The plant a code names; a ramet is its plant.
pub(super) fn plant(registry: &Registry, id: &str) -> Result<PlantRow, Refusal> {
    let (is, of): (&str, Vec<PlantRow>) = match super::known(registry, id)? {
        Target::Plant(plant) | Target::Ramet(plant, _) => return Ok(plant),
        Target::Species(epithet) => ("species", of_species(registry, epithet)),
        Target::Pollen(_) => ("pollen lot", Vec::new()),
        Target::Cross(cross) => ("cross", of_cross(registry, cross)),
        Target::Pod(PodRow { cross, .. }) => ("pod", of_cross(registry, cross)),
        Target::Zone(ZoneRow { cross, .. }) => ("pollination", of_cross(registry, cross)),
        Target::SeedLot(LotRow { cross, .. }) => ("seed lot", of_cross(registry, cross)),
        Target::Sowing(SowingRow { cross, .. }) => ("sowing", of_cross(registry, cross)),
        Target::CommunityPot(PotRow { cross, .. }) => (
            "community pot of seedlings without numbers",
            of_cross(registry, cross),
        ),
    };
    let codes: Vec<String> = of
        .iter()
        .take(3)
        .map(|plant| registry.code(*plant))
        .collect();
    let hint = match codes.is_empty() {
        true => "; name a plant (`podbook list plants`)".to_owned(),
        false => format!("; name a plant of it, such as {}", codes.join(", ")),
    };
    Err(Refusal::arguments(format!(
        "`{id}` is a {is}, not a plant{hint}"
    )))
}

/// Seedlings of a cross that have a number.
fn of_cross(registry: &Registry, cross: CrossRow) -> Vec<PlantRow> {
    let of = |plant: &PlantRow| registry.cross_of(*plant) == Some(cross);
    registry.plants().filter(of).collect()
}

/// Founders recorded under a species' name.
fn of_species(registry: &Registry, epithet: &str) -> Vec<PlantRow> {
    let named = |plant: &PlantRow| {
        let received = registry
            .founder(*plant)
            .map(|founder| founder.received.to_string());
        received.is_some_and(|received| received.split_whitespace().any(|word| word == epithet))
    };
    registry.plants().filter(named).collect()
}

fn read_table(file: &Path) -> Result<NamedPedigree, Refusal> {
    let place = shown(file);
    let text = crate::text::read_plain(file)
        .map_err(|why| Refusal::files(format!("{place} could not be read: {why}")))?;
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        // Short rows are told below, in our words.
        .flexible(true)
        .from_reader(text.as_bytes());
    let records = reader.records().collect::<Result<Vec<_>, _>>();
    let records =
        records.map_err(|error| Refusal::files(format!("{place} is not a table: {error}")))?;
    if let Some(short) = records.iter().find(|record| record.len() < 3) {
        let line = short.position().map_or(0, csv::Position::line);
        return Err(Refusal::files(format!(
            "{place}: line {line}: found {}, needed three: plant, seed parent, pollen parent; put a comma for each, also where a parent is unknown",
            counted(short.len(), "column", "columns")
        )));
    }
    if records.is_empty() {
        return Err(Refusal::files(format!(
            "{place}: found no plant, needed a header and then a row for each plant: plant, seed parent, pollen parent"
        )));
    }
    let rows = records.iter().map(|record| TableRow {
        line: record.position().map_or(0, csv::Position::line),
        id: &record[0],
        seed: &record[1],
        pollen: &record[2],
    });
    pedigree_of_table(rows).map_err(|faults| {
        let told: Vec<String> = faults
            .iter()
            .take(20)
            .map(|fault| format!("{place}: {}", visible(&fault.to_string())))
            .collect();
        let more = faults.len().saturating_sub(20);
        let more = if more > 0 {
            format!("\nand {more} more")
        } else {
            String::new()
        };
        Refusal::files(format!("{}{more}", told.join("\n")))
    })
}
