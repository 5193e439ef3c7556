//! `podbook show`: one thing on one screen.

use crate::cli::request::{Outcome, Refusal, Request};
use crate::evidence::Evidence;
use crate::lineage::Lineage;
use crate::naming::recorded::Names;
use crate::report::show::show;
use clap::Args;

/// Show all about one plant, cross, pod, pollen lot or species
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook show X22-02-5 --registry registry-demo")]
pub struct Show {
    /// Codes of plants, crosses, pods, pollen lots or species
    #[arg(value_name = "ID", required = true)]
    ids: Vec<String>,
}

impl Show {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let lineage = Lineage::of(&registry);
        let names = Names::of(&registry, &lineage);
        let evidence = Evidence::of(&registry, &names);
        let today = request.today()?;
        let reports = self
            .ids
            .iter()
            .map(|id| {
                super::known(&registry, id)?;
                show(&evidence, &lineage, id, today)
                    .ok_or_else(|| Refusal::arguments(format!("no record has the code `{id}`")))
            })
            .collect::<Result<Vec<_>, _>>()?;
        request.answers(&reports, remarks)
    }
}
