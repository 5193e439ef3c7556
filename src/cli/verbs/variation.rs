//! `podbook variation`: whether one cross varies more than another.

use super::charted::Charted;
use crate::analysis::merit::Parts;
use crate::analysis::variation::{VariationOptions, spread};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::render;
use crate::report::variation::variation_chart;
use clap::Args;

/// Compare how much two crosses vary
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook variation X15-02 X22-02 --registry registry-demo\n         \
    podbook variation X15-02 X22-02 -o variation.svg --registry registry-demo"
)]
pub struct Variation {
    /// Codes of two or more crosses, pods or sowings; the others are compared with the first
    #[arg(value_name = "ID", required = true, num_args = 1..)]
    ids: Vec<String>,
    /// The measure, by code or name
    #[arg(long = "trait", value_name = "TRAIT", default_value = "span")]
    of: String,
    /// Heritability of the measure inside a species, above 0 and up to 1; the ratio expected depends on it
    #[arg(long, value_name = "H2", default_value_t = Parts::default().heritability)]
    heritability: f64,
    #[command(flatten)]
    picture: Charted,
}

impl Variation {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        if !(self.heritability > 0.0 && self.heritability <= 1.0) {
            return Err(Refusal::arguments(format!(
                "--heritability lies above 0 and up to 1; found {}",
                self.heritability
            )));
        }
        if let [one] = &self.ids[..] {
            return Err(Refusal::arguments(format!(
                "variation compares two crosses or more; name another beside {one}, such as `podbook variation {one} CODE`\n\
                 how much one cross varies by itself: `podbook siblings {one}`"
            )));
        }
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        for id in &self.ids {
            super::known(&registry, id)?;
        }
        let context = Context::of(&registry, request.today()?);
        let wish = VariationOptions {
            of: self.of,
            heritability: self.heritability,
        };
        let report = spread(&context, &self.ids, &wish).map_err(Refusal::arguments)?;
        let draw = |look| render::chart::variation(&variation_chart(&report), look);
        let reports = std::slice::from_ref(&report);
        self.picture.answer(request, reports, draw, remarks)
    }
}
