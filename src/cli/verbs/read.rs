//! `podbook read`: what a label says.

use crate::cli::request::{Outcome, Refusal, Request};
use crate::evidence::Unit;
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
        let mut on_record = None;
        let vocabulary = match request.folder() {
            Some(_) => {
                let sources = request.sources()?;
                let registry = build(&sources).0;
                let unit = registry.target(self.label.trim()).and_then(Unit::of);
                on_record = unit.map(|_| self.label.trim().to_owned());
                recorded::vocabulary(&registry)
            }
            None => starter(),
        };
        let reading = naming::read(&self.label, &vocabulary, options);
        if let (Some(code), Some(_)) = (on_record, &reading.refused) {
            return Err(Refusal::arguments(format!(
                "`{code}` is a code on record, not a label; its name: `podbook name {code}`"
            )));
        }
        request.answer(
            &report::read::label(reading, &vocabulary.genus_short()),
            String::new(),
        )
    }
}
