//! `podbook new`: a new registry.

use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::registry::STARTER;
use crate::report::begun;
use crate::text::{NoFolder, new_folder, visible};
use clap::Args;
use std::path::{Path, PathBuf};

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
        new_folder(&self.folder, &texts).map_err(|why| refusal(&self.folder, why))?;
        let folder = self.folder.to_string_lossy().into_owned();
        let written = vec![folder];
        let report = begun(&written[0], &STARTER);
        match request.answer(&report, String::new()) {
            Ok(outcome) => Ok(Outcome { written, ..outcome }),
            Err(refusal) => Err(refusal.after(&written)),
        }
    }
}

fn refusal(folder: &Path, why: NoFolder) -> Refusal {
    let folder = shown(folder);
    let elsewhere = "name a folder that is not there yet, or an empty one";
    match why {
        NoFolder::NotEmpty(entry) => Refusal::arguments(format!(
            "{folder} is not empty: it holds {}\n{elsewhere}; nothing was written",
            visible(&entry)
        )),
        NoFolder::AFile => Refusal::arguments(format!("{folder} is a file\n{elsewhere}")),
        NoFolder::LinkBroken => {
            Refusal::arguments(format!("{folder} is a link to nothing\n{elsewhere}"))
        }
        NoFolder::System(words) => Refusal::files(format!(
            "{folder} could not be written: {words}\n{elsewhere}, where you may write"
        )),
    }
}
