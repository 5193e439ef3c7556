//! `podbook ready`: what can be pollinated now or soon.

use super::output::Output;
use crate::analysis::ready::ready;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::recording::dates::asked;
use clap::Args;

/// Show what can be pollinated now or soon
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook ready --registry registry-demo\n         \
    podbook ready --on 2024-06-10 --ahead 60 --registry registry-demo"
)]
pub struct Ready {
    /// The day to look at [default: today]
    #[arg(long, value_name = "DATE")]
    on: Option<String>,
    /// How many days ahead "soon" reaches
    #[arg(long, value_name = "DAYS", default_value_t = 42)]
    ahead: u32,
    #[command(flatten)]
    output: Output,
}

impl Ready {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let on = match &self.on {
            None => request.today()?,
            Some(text) => match asked(text, registry.settings.hemisphere, request.today()?) {
                Some(when) if when.is_exact() => when.first,
                _ => {
                    return Err(Refusal::arguments(format!(
                        "--on needs one day such as 2024-06-10; found `{text}`"
                    )));
                }
            },
        };
        let context = Context::of(&registry, request.today()?);
        let report = ready(&context, (on, self.ahead.min(3_650))).map_err(Refusal::arguments)?;
        self.output.answer(request, &report, remarks)
    }
}
