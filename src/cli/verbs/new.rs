//! `podbook new`: a new registry.

use super::no_folder::no_folder;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::registry::STARTER;
use crate::report::begun;
use crate::text::new_folder;
use clap::Args;
use std::path::PathBuf;

/// Start a new registry in a folder of its own
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook new my-plants\n\
    The folder must be new or empty; nothing that is there is ever written over.")]
pub struct New {
    /// Folder to make, or an empty one to fill
    #[arg(value_name = "DIR")]
    pub folder: PathBuf,
}

impl New {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        // registry.ron makes a folder a registry, so it comes last.
        let texts = STARTER.iter().rev().map(|f| (f.path, f.text.as_bytes()));
        let texts: Vec<(&str, &[u8])> = texts.collect();
        new_folder(&self.folder, &texts).map_err(|why| no_folder(&self.folder, why, ""))?;
        let folder = self.folder.to_string_lossy().into_owned();
        let written = vec![folder];
        let report = begun(&written[0], &STARTER);
        request.answer_after(&report, String::new(), written)
    }
}
