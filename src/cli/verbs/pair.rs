//! `podbook pair`: one intended pollination on one page.

use super::kinship::plant;
use crate::analysis::pair::{PairOptions, pair};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use clap::Args;

/// Look at one intended pollination before you make it
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook pair X18-01-4 Spa1 --seedlings 30 --registry registry-demo\n\
    Exit code 1 when the two cannot be crossed: one plant, a sex seen that does not fit, a seed parent that is gone, \
    a pollen parent that is gone without pollen in hand."
)]
pub struct Pair {
    /// Code of the seed parent
    #[arg(value_name = "SEED")]
    seed: String,
    /// Code of the pollen parent
    #[arg(value_name = "POLLEN")]
    pollen: String,
    /// Seedlings you have room for
    #[arg(long, value_name = "N", default_value_t = 20)]
    seedlings: u32,
    /// Heritability inside a species, 0 to 1: an assumption
    #[arg(long, value_name = "H2", default_value_t = 0.4)]
    heritability: f64,
}

impl Pair {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        if !(0.0..=1.0).contains(&self.heritability) {
            return Err(Refusal::arguments(format!(
                "--heritability lies between 0 and 1; found {}",
                self.heritability
            )));
        }
        if self.seedlings == 0 {
            return Err(Refusal::arguments(
                "--seedlings must be at least 1: without a seedling there is nothing to expect",
            ));
        }
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let plants = [
            plant(&registry, &self.seed)?,
            plant(&registry, &self.pollen)?,
        ];
        let context = Context::of(&registry, request.today()?);
        let options = PairOptions {
            seedlings: self.seedlings,
            heritability: self.heritability,
        };
        let report = pair(&context, plants, options).map_err(Refusal::arguments)?;
        request.answer(&report, remarks)
    }
}
