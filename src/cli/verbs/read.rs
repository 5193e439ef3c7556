//! `podbook read`: what a label says.

use crate::cli::request::{Outcome, Refusal, Request};
use crate::naming::{self, Chains, ReadOptions, recorded, starter};
use crate::registry::build;
use crate::report;
use clap::Args;

/// Read a label the way growers write it
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook read \"(ventricosa x lowii) x maxima\"\n\
    Inside a registry its own species list and codes are used, elsewhere the starter list."
)]
pub struct Read {
    /// The label, in quotes
    #[arg(value_name = "LABEL", allow_hyphen_values = true)]
    label: String,
    /// Read a chain without brackets from left to right instead of asking
    #[arg(long)]
    left_to_right: bool,
}

impl Read {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let chains = if self.left_to_right {
            Chains::LeftToRight
        } else {
            Chains::Ask
        };
        let options = ReadOptions { chains };
        let vocabulary = match request.folder() {
            Some(_) => {
                let sources = request.sources()?;
                recorded::vocabulary(&build(&sources).0).0
            }
            None => starter(),
        };
        let reading = naming::read(&self.label, &vocabulary, options);
        request.answer(
            &report::read::label(reading, &vocabulary.genus_short()),
            String::new(),
        )
    }
}
