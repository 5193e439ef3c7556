//! `podbook show`: one thing on one screen, or the history of a plant as a picture.

use super::charted::Charted;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::registry::Registry;
use crate::render;
use crate::report::history::history_chart;
use crate::report::show::show;
use clap::Args;

/// Show all about one plant, cross, pod, pollen lot or species
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook show X22-02-5 --registry registry-demo\n         \
    podbook show X22-02-5 -o history.svg, what happened to it, as a picture\n\
    The picture leaves out suppliers, buyers, prices, places and notes."
)]
pub struct Show {
    /// Codes of plants, crosses, pods, pollen lots or species
    #[arg(value_name = "ID", required = true)]
    ids: Vec<String>,
    #[command(flatten)]
    picture: Charted,
}

impl Show {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let is_drawn = self.picture.is_drawn(request)?;
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let context = Context::of(&registry, request.today()?);
        if is_drawn {
            let plant = self.plant(&registry)?;
            let draw = |look| render::chart::calendar(&history_chart(&context, plant), look);
            return self.picture.picture(request, draw, remarks);
        }
        let reports = super::each(&registry, &self.ids, |id| {
            show(&context, id)
                .ok_or_else(|| Refusal::arguments(format!("no record has the code `{id}`")))
        })?;
        self.picture.reports(request, &reports, remarks)
    }

    /// The one plant whose history is drawn.
    fn plant(&self, registry: &Registry) -> Result<crate::lineage::PlantRow, Refusal> {
        let [id] = &self.ids[..] else {
            return Err(Refusal::arguments(format!(
                "the picture shows the history of one plant; found {} codes, so write a picture for each",
                self.ids.len()
            )));
        };
        super::known(registry, id)?.plant().ok_or_else(|| {
            Refusal::arguments(format!(
                "the picture shows the history of a plant, and `{id}` is none\nname a plant, or leave -o out to read of `{id}`"
            ))
        })
    }
}
