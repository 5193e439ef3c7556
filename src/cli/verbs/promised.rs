//! `podbook promised`: what was said of plants that left, and what would be said now.

use super::output::{Output, TABLES};
use crate::analysis::promised;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::evidence::Evidence;
use crate::lineage::Lineage;
use crate::naming::recorded::Names;
use crate::report::promised as report;
use clap::Args;

/// List plants sold or given away whose text would now read differently
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook promised --registry registry-demo\n\
    `podbook gone --sold` and `--given` keep the name and the evidence as they were. When a name, a parent or a doubt changes\n\
    later, this lists old against new: a slip for whoever has the plant. Exit code 1 when there is one.")]
pub struct Promised {
    #[command(flatten)]
    output: Output,
}

impl Promised {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        self.output.form(request, TABLES)?;
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let lineage = Lineage::of(&registry);
        let names = Names::of(&registry, &lineage);
        let evidence = Evidence::of(&registry, &names);
        let found = promised::promised(&evidence);
        self.output
            .answer(request, &report::promised(&registry, &found), remarks)
    }
}
