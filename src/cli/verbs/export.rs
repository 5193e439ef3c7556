//! `podbook export`: tables and records for other programs.

use super::kinship::plant;
use super::list::PlantArgs;
use super::output::{Form, Output};
use crate::analysis::list::chosen;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::presence::{Presence, presence};
use crate::registry::Registry;
use crate::render::Written;
use crate::report::export::{
    ExportTable, PassportOptions, passport_table, pedigree_table, plant_table, registry_records,
};
use crate::report::list::unknown_species;
use clap::{Args, Subcommand};

/// Write tables and records for other programs
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook export passport -o passport.csv --registry registry-demo\n         \
    podbook export plants --alive -o plants.xlsx --registry registry-demo\n         \
    podbook export pedigree -o pedigree.csv --registry registry-demo\n         \
    podbook export records -o records.json --registry registry-demo\n\
    Passport data and the pedigree are for others and leave out what is private; the other two are for you."
)]
pub struct Export {
    #[command(subcommand)]
    of: ExportOf,
}

#[derive(Subcommand, Debug)]
enum ExportOf {
    /// Passport data for gardens (FAO/Bioversity MCPD 2.1), as CSV or XLSX
    #[command(alias = "mcpd")]
    Passport(PassportAsked),
    /// Plants with their latest readings for your own spreadsheet, as CSV or XLSX
    #[command(alias = "spreadsheet")]
    Plants {
        #[command(flatten)]
        filter: PlantArgs,
        #[command(flatten)]
        output: Output,
    },
    /// The pedigree in three columns: plant, seed parent, pollen parent, as CSV or XLSX
    Pedigree {
        /// Codes of plants, written with their ancestors [default: all plants]
        #[arg(value_name = "PLANT")]
        ids: Vec<String>,
        #[command(flatten)]
        output: Output,
    },
    /// Every record with every field, private ones too, as JSON
    #[command(alias = "json")]
    Records {
        #[command(flatten)]
        output: Output,
    },
}

#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook export passport X22-02-5 --institute XYZ001 --registry registry-demo\n\
    Private things are left out unless you ask for them with --suppliers, --breeder or --localities."
)]
struct PassportAsked {
    /// Codes of plants [default: all plants that are here]
    #[arg(value_name = "PLANT")]
    ids: Vec<String>,
    /// Your code in the FAO list of institutes, for INSTCODE
    #[arg(long, value_name = "CODE")]
    institute: Option<String>,
    /// Also write who plants came from and their codes there
    #[arg(long)]
    suppliers: bool,
    /// Also write your name as the breeder of what you raised
    #[arg(long)]
    breeder: bool,
    /// Also write where lines are claimed to come from in the wild
    #[arg(long)]
    localities: bool,
    #[command(flatten)]
    output: Output,
}

impl Export {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        match self.of {
            ExportOf::Records { output } => records(request, &output),
            ExportOf::Passport(asked) => {
                asked.is_sound()?;
                table(request, &asked.output, |context| asked.table(context))
            }
            ExportOf::Plants { filter, output } => table(request, &output, |context| {
                let filter = filter.filter(context.registry, context.today)?;
                let plants = chosen(context, &filter).map_err(unknown_species);
                let plants = plants.map_err(Refusal::arguments)?;
                Ok(plant_table(context, plants))
            }),
            ExportOf::Pedigree { ids, output } => table(request, &output, |context| {
                let registry = context.registry;
                let plants = match ids.is_empty() {
                    true => registry.plants().collect(),
                    false => context
                        .lineage()
                        .pedigree
                        .with_ancestors(&named(registry, &ids)?),
                };
                Ok(pedigree_table(context, plants))
            }),
        }
    }
}

/// Writes a table as a workbook, or as CSV, which is also what goes to a screen.
fn table(
    request: &Request,
    output: &Output,
    fill: impl for<'c> FnOnce(&'c Context) -> Result<ExportTable<'c>, Refusal>,
) -> Result<Outcome, Refusal> {
    let form = output.form(request, &[Form::Csv, Form::Xlsx])?;
    let sources = request.sources()?;
    let (registry, remarks) = request.registry(&sources);
    let context = Context::of(&registry, request.today()?);
    let exported = fill(&context)?;
    let said = exported.remarks.iter().map(|line| format!("{line}\n"));
    let remarks = remarks + &said.collect::<String>();
    let written = match form {
        Form::Xlsx => Written::workbook(&exported).map_err(Refusal::arguments)?,
        _ => Written::csv_table(&exported),
    };
    output.deliver(request, written, remarks, false)
}

/// Writes every record as JSON.
fn records(request: &Request, output: &Output) -> Result<Outcome, Refusal> {
    output.form(request, &[Form::Json])?;
    let sources = request.sources()?;
    let (_, mut remarks) = request.registry(&sources);
    let (records, fault) = registry_records(&sources);
    if let Some(fault) = fault {
        let at = format!("goals.ron:{}:{}", fault.line, fault.column);
        remarks += &format!("{at}: {}; the goals are left out\n", fault.words);
    }
    remarks += "private: suppliers, buyers, prices, contacts, places and notes are in it\n";
    let written = Written::json_value(&records).map_err(Refusal::files)?;
    output.deliver(request, written, remarks, false)
}

impl PassportAsked {
    /// Refuses a code that no institute has.
    fn is_sound(&self) -> Result<(), Refusal> {
        match self.institute.as_deref().filter(|code| !is_institute(code)) {
            None => Ok(()),
            Some(code) => Err(Refusal::arguments(format!(
                "--institute needs three capital letters of a country and a number, such as XYZ001; found `{code}`"
            ))),
        }
    }

    fn table<'c>(&self, context: &'c Context) -> Result<ExportTable<'c>, Refusal> {
        let (registry, today) = (context.registry, context.today);
        let plants = match self.ids.is_empty() {
            true => {
                let here = |plant: &PlantRow| presence(registry, *plant, today) == Presence::Here;
                registry.plants().filter(here).collect()
            }
            false => named(registry, &self.ids)?,
        };
        let options = PassportOptions {
            institute: self.institute.clone(),
            suppliers: self.suppliers,
            breeder: self.breeder,
            localities: self.localities,
        };
        Ok(passport_table(context, plants, options))
    }
}

/// The plants that codes name, each once, in the order of the registry.
fn named(registry: &Registry, ids: &[String]) -> Result<Vec<PlantRow>, Refusal> {
    let plants = ids.iter().map(|id| plant(registry, id));
    let mut plants = plants.collect::<Result<Vec<_>, _>>()?;
    plants.sort_unstable();
    plants.dedup();
    Ok(plants)
}

/// Three letters of a country (ISO 3166-1) and a number.
fn is_institute(code: &str) -> bool {
    let (country, number) = code.split_at_checked(3).unwrap_or(("", ""));
    country.bytes().all(|byte| byte.is_ascii_uppercase())
        && !number.is_empty()
        && number.bytes().all(|byte| byte.is_ascii_digit())
}
