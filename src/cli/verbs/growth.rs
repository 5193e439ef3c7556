//! `podbook growth`: who grows, group against group at a common age.

use super::charted::Charted;
use crate::analysis::growth::{GrowthWishes, growth};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::render;
use crate::report::growth::{Survival, growth_chart, survival_chart};
use clap::Args;

/// Compare how plants, pods, crosses or species grow, at a common age
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook growth X22-02 --pods --registry registry-demo\n         \
    podbook growth X22-02-5 -o growth.svg --registry registry-demo\n         \
    podbook growth X22-02 X18-01 --survival --registry registry-demo\n\
    Several codes are compared with each other."
)]
pub struct Growth {
    /// Codes of crosses, pods, sowings, species or plants
    #[arg(value_name = "ID", required = true)]
    ids: Vec<String>,
    /// Compare at this age from sowing in months instead of the best common age
    #[arg(long, value_name = "MONTHS")]
    at: Option<f64>,
    /// Compare this trait: a length, a count or a number [default: the leaf span]
    #[arg(long = "trait", value_name = "TRAIT")]
    of_trait: Option<String>,
    /// Take each cross apart into its pods
    #[arg(long)]
    pods: bool,
    /// Answer who lives on instead of who grows
    #[arg(long)]
    survival: bool,
    #[command(flatten)]
    picture: Charted,
}

impl Growth {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        for id in &self.ids {
            super::known(&registry, id)?;
        }
        let wishes = GrowthWishes {
            at: self.at,
            of_trait: self.of_trait.clone(),
            by_pod: self.pods,
        };
        let context = Context::of(&registry, request.today()?);
        let report = growth(&context, &self.ids, &wishes).map_err(Refusal::arguments)?;
        if self.survival {
            let draw = |look| render::chart::survival(&survival_chart(&report), look);
            return self
                .picture
                .answer(request, &[Survival(&report)], draw, remarks);
        }
        let draw = |look| render::chart::growth(&growth_chart(&report), look);
        let reports = std::slice::from_ref(&report);
        self.picture.answer(request, reports, draw, remarks)
    }
}
