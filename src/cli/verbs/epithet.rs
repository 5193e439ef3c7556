//! `podbook epithet`: whether a cultivar epithet can stand.

use crate::cli::request::{Outcome, Refusal, Request};
use crate::naming::{Context, Raised, judge, recorded, starter};
use crate::registry::{PlantKind, Registry, build};
use crate::report;
use clap::Args;

/// Check a cultivar epithet, rule by rule
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook epithet \"'Red Selection'\"\n         \
    podbook epithet \"'Ada Fernley'\" --for X22-02-5 --registry registry-demo")]
pub struct Epithet {
    /// The epithet, with or without genus and quotes
    #[arg(value_name = "NAME", allow_hyphen_values = true)]
    name: String,
    /// Check it for this plant
    #[arg(long = "for", value_name = "ID")]
    plant: Option<String>,
    /// It is a trade mark or sales name
    #[arg(long)]
    trademark: bool,
    /// Year it was coined, if not now
    #[arg(long, value_name = "YEAR")]
    year: Option<i32>,
}

impl Epithet {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let (vocabulary, raised) = match request.folder() {
            Some(_) => {
                let sources = request.sources()?;
                let (registry, _) = build(&sources);
                let raised = match &self.plant {
                    Some(id) => raised(&registry, id, &self.name)?,
                    None => Raised::NotSaid,
                };
                (recorded::vocabulary(&registry), raised)
            }
            None if self.plant.is_some() => {
                return Err(Refusal::arguments(
                    "--for needs a registry: name one with --registry DIR",
                ));
            }
            None => (starter(), Raised::NotSaid),
        };
        let context = Context {
            trademark: self.trademark,
            year: self.year,
            raised,
            ..Context::new(&vocabulary)
        };
        let report = report::epithet::epithet(judge(&self.name, &context));
        request.answer(&report, String::new())
    }
}

/// How the plant an epithet is meant for was raised, as far as that speaks against it: a seedling of a plant that already
/// bears the epithet must not take it over.
///
/// # Errors
/// If the code names no plant.
pub(super) fn raised(registry: &Registry, id: &str, epithet: &str) -> Result<Raised, Refusal> {
    let Some(plant) = super::known(registry, id)?.plant() else {
        return Err(Refusal::arguments(format!(
            "`{id}` is not a plant; an epithet belongs to one clone"
        )));
    };
    let wanted = epithet
        .trim_matches(['\'', '"', '‘', '’', ' '])
        .to_lowercase();
    let bears = |epithet: &str| epithet.to_lowercase() == wanted;
    if registry
        .cultivar(plant)
        .is_some_and(|cultivar| bears(&cultivar.epithet))
    {
        return Ok(Raised::FromTheClone);
    }
    let inherited = registry.plants().any(|other| {
        registry
            .cultivar(other)
            .is_some_and(|cultivar| bears(&cultivar.epithet))
    });
    let seedling = registry.kind(plant) == PlantKind::Seedling;
    Ok(if seedling && inherited {
        Raised::FromSeed
    } else {
        Raised::NotSaid
    })
}
