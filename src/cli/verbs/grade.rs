//! `podbook grade`: fast, medium and slow siblings.

use super::output::Output;
use crate::analysis::grade::{SortWish, sort};
use crate::cli::request::{Outcome, Refusal, Request};
use clap::Args;

/// Grade the siblings of one sowing into fast, medium and slow
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook grade X22-02.S1 --at 20 --registry registry-demo")]
pub struct Grade {
    /// Code of a sowing (X22-07.S1), or of a cross sown once
    #[arg(value_name = "ID")]
    id: String,
    /// Age from sowing in months, such as 20 [default: the latest most siblings share]
    #[arg(long, value_name = "MONTHS")]
    at: Option<f64>,
    /// The measure, by code or name
    #[arg(long = "trait", value_name = "TRAIT", default_value = "span")]
    of: String,
    /// Plants no farther apart than this are tied, in the unit shown [default: the trait's own]
    #[arg(long, value_name = "DISTANCE")]
    tied_within: Option<f64>,
    #[command(flatten)]
    output: Output,
}

impl Grade {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sound = |number: f64| number.is_finite() && number >= 0.0;
        for (name, number) in [("--at", self.at), ("--tied-within", self.tied_within)] {
            if number.is_some_and(|number| !sound(number)) {
                return Err(Refusal::arguments(format!(
                    "{name} needs a number that is not below zero"
                )));
            }
        }
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        super::known(&registry, &self.id)?;
        let wish = SortWish {
            of: self.of,
            at: self.at,
            tied_within: self.tied_within,
        };
        let report =
            sort(&registry, &self.id, &wish, request.today()?).map_err(Refusal::arguments)?;
        self.output.answer(request, &report, remarks)
    }
}
