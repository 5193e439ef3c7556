//! `podbook parentage`: expected descent.

use super::charted::Charted;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::render;
use crate::report::parentage::{parentage_chart, shares};
use clap::Args;

/// Show the expected parentage, species by species, as exact fractions
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook parentage X22-02 --registry registry-demo\n         \
    podbook parentage X22-02 X20-01 -o parentage.svg --registry registry-demo"
)]
pub struct Parentage {
    /// Codes of plants or crosses
    #[arg(value_name = "ID", required = true)]
    ids: Vec<String>,
    #[command(flatten)]
    picture: Charted,
}

impl Parentage {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let context = Context::of(&registry, request.today()?);
        let reports = super::each(&registry, &self.ids, |id| {
            shares(&context, id).map_err(Refusal::arguments)
        })?;
        let draw = |look| {
            let species = &context.descent().species;
            render::chart::parentage(&parentage_chart(&reports, species), look)
        };
        self.picture.answer(request, &reports, draw, remarks)
    }
}
