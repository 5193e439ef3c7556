//! `podbook diversity`: how much variety the plants hold.

use super::list::PlantArgs;
use super::output::Output;
use crate::analysis::list::{PlantFilter, chosen};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::recording::at_place::plants_at;
use crate::report::diversity::diversity;
use crate::report::list::{filter_words, unknown_species};
use crate::wording::{FIRST_PLANT, counted};
use clap::Args;

/// Show which plants to back up first, and how much variety you hold
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook diversity --alive --registry registry-demo\n\
    Without a filter all plants that are here count."
)]
pub struct Diversity {
    #[command(flatten)]
    filter: PlantArgs,
    #[command(flatten)]
    output: Output,
}

impl Diversity {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let context = Context::of(&registry, request.today()?);
        let mut filter = self.filter.filter(&registry, request.today()?)?;
        filter.alive |= !filter.gone;
        let set = chosen(&context, &filter).map_err(unknown_species);
        let set = set.map_err(Refusal::arguments)?;
        if set.is_empty() {
            let none = none_chosen(&context, &filter);
            return Err(Refusal::arguments(none));
        }
        let words = filter_words(&registry, &filter);
        let report = diversity(&context, &set, words).map_err(Refusal::arguments)?;
        self.output.answer(request, &report, remarks)
    }
}

/// Why no plant was chosen: none is on record, none stands at that place, or none is like what was asked for.
fn none_chosen(context: &Context, filter: &PlantFilter) -> String {
    let registry = context.registry;
    let plants = registry.plants().count();
    if plants == 0 {
        return format!("no plant is on record yet\nadd the first: {FIRST_PLANT}");
    }
    let place = filter.place.as_deref();
    if let Some(Err(slip)) = place.map(|place| plants_at(registry, place, context.today)) {
        return slip.to_string();
    }
    format!(
        "none of the {} on record is {}",
        counted(plants, "plant", "plants"),
        filter_words(registry, filter)
    )
}
