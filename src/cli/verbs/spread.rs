//! `podbook spread`: whether one cross varies more than another.

use super::output::Picture;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::lineage::Lineage;
use crate::naming::recorded::Names;
use crate::render;
use crate::report::spread::spread;
use crate::report::spread_chart::spread_chart;
use clap::Args;

/// Tell whether one cross varies more than another, measured and expected
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook spread X15-02 X22-02 --registry registry-demo\n         \
    podbook spread X15-02 X22-02 -o spread.svg --registry registry-demo"
)]
pub struct Spread {
    /// Codes of two or more crosses, pods or sowings; the others are compared with the first
    #[arg(value_name = "ID", required = true, num_args = 2..)]
    ids: Vec<String>,
    /// The measure, by code or name
    #[arg(long = "trait", value_name = "TRAIT", default_value = "span")]
    of: String,
    #[command(flatten)]
    picture: Picture,
}

impl Spread {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        for id in &self.ids {
            super::known(&registry, id)?;
        }
        let lineage = Lineage::of(&registry);
        let names = Names::of(&registry, &lineage);
        let report =
            spread(&registry, &lineage, &names, &self.ids, &self.of).map_err(Refusal::arguments)?;
        let scene = || render::chart::spread(&spread_chart(&report));
        let reports = std::slice::from_ref(&report);
        self.picture.answer(request, reports, scene, remarks)
    }
}
