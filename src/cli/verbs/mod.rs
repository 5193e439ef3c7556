//! One verb, one file.

mod check;

use super::request::{Outcome, Refusal, Request};
use clap::Subcommand;

/// What to do.
#[derive(Subcommand, Debug)]
pub enum Verb {
    /// Find every fault in the registry
    Check(check::Check),
}

impl Verb {
    /// Runs the verb.
    ///
    /// # Errors
    /// As the verb says.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        match self {
            Verb::Check(verb) => verb.run(request),
        }
    }
}
